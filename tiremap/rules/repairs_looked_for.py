"""Was the tire searched for earlier repairs? One nobody looked for must not pass."""

from tiremap.rules.case import Case
from tiremap.rules.reasons import Reason, Settles

SOURCE = "association guidelines (trade press, 2011): repairs must not overlap, so earlier ones must be known"
FIELD = "checks.earlier_repairs"


def repairs_looked_for(case: Case) -> list[Reason]:
    """None, all marked, or not looked for yet; an answer of none beside marked repairs must be given anew."""
    answer = case.job.checks.earlier_repairs
    count = len(case.repairs)
    settles = Settles(FIELD, "the liner for earlier repairs", "")
    asks = ((settles.field, settles.words),)
    if answer is None:
        says = "Not yet searched for earlier repairs: look at the liner all the way around."
        return [Reason("earlier_repairs", "measure", says, SOURCE, settles=settles, asks=asks)]
    if answer.state == "all_marked" and not count:
        says = "All earlier repairs are said to be marked, yet none is: answer anew."
        return [Reason("earlier_repairs", "measure", says, SOURCE, settles=settles, asks=asks)]
    if answer.state == "none" and count:
        says = f"Earlier repairs are said to be none, yet {count} {'is' if count == 1 else 'are'} marked: answer anew."
        return [Reason("earlier_repairs", "measure", says, SOURCE, settles=settles, asks=asks)]
    found = "none found" if answer.state == "none" else f"all marked ({count})"
    return [Reason("earlier_repairs", "note", f"Searched for earlier repairs: {found}.", SOURCE)]
