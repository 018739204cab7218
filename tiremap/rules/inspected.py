"""Was the tire looked at inside and out, off the rim?

Not looked at is Measure first in every rule set; found damage refuses until single checks can say which.
"""

from tiremap.rules.case import Case
from tiremap.rules.reasons import Reason, Settles, Turns

SOURCE = "practically every source read: the demounted tire is inspected inside and out before any repair"
FIELD = "checks.inspected"


def inspected(case: Case) -> list[Reason]:
    """Fine, found damage, or not looked at yet."""
    finding = case.job.checks.inspected
    if finding is None:
        says = "Not yet looked at inside and out, off the rim: tread, sidewalls, beads, liner."
        settles = Settles(FIELD, "the tire inside and out, off the rim", "")
        return [Reason("inspected", "measure", says, SOURCE, settles=settles, asks=((settles.field, settles.words),))]
    if finding.state == "found":
        says = "Damage was found when the tire was looked at inside and out."
        return [Reason("inspected", "refuse", says, SOURCE, turns=Turns(FIELD, "what was found"))]
    together = ", answered together with the other checks" if finding.together else ""
    return [Reason("inspected", "note", f"Looked at inside and out, off the rim: nothing found{together}.", SOURCE)]
