"""Is the tire sound: run-flat ring, beads, bulges, cords, cracks, liner, chemicals, inner tube?

Each is a check of its own with its own reason; what each looks at stands in ``resources/condition_checks.toml``. One
found refuses the tire. Those nobody looked at are asked for together, in one line. Weather cracks that were measured
are judged by ``rules/cracks.py`` instead.
"""

from dataclasses import dataclass
from functools import cache

from tiremap.resources import read_toml
from tiremap.rules.case import Case
from tiremap.rules.cracks import CHECK, cracks
from tiremap.rules.reasons import Reason, Settles, Turns


@dataclass(frozen=True)
class ConditionCheck:
    """One thing looked at on every tire; ``name`` is its field in the job's checks."""

    name: str
    title: str
    look_at: str
    found: str
    source: str
    grade: str


@cache
def condition_checks() -> tuple[ConditionCheck, ...]:
    """Every condition check, in the order a technician goes over a tire."""
    return tuple(ConditionCheck(**entry) for entry in read_toml("condition_checks.toml")["check"])


def condition(case: Case) -> list[Reason]:
    """A refusal for each check found, one reason for all that were not looked at, a note where all are fine."""
    findings = [(check, getattr(case.job.checks, check.name)) for check in condition_checks()]
    cracks_judged = bool(cracks(case))
    reasons = [
        Reason(f"condition_{check.name}", "refuse", check.found, check.source, turns=_found(check))
        for check, finding in findings
        if finding is not None and finding.state == "found" and not (check.name == CHECK and cracks_judged)
    ]
    open_ones = [check for check, finding in findings if finding is None]
    if open_ones:
        reasons.append(_not_looked_at(open_ones))
    elif not reasons:
        splayed = any(injury.cords_splayed for injury in case.job.injuries)
        judged_elsewhere = {CHECK: cracks_judged, "cords": splayed}
        sound = (check for check, _ in findings if not judged_elsewhere.get(check.name))
        titles = ", ".join(check.title.lower() for check in sound)
        reasons.append(Reason("condition", "note", f"Sound: {titles}.", findings[0][0].source))
    return reasons


def _found(check: ConditionCheck) -> Turns:
    return Turns(f"checks.{check.name}", check.title.lower())


def _not_looked_at(checks: list[ConditionCheck]) -> Reason:
    first = checks[0]
    field = f"checks.{first.name}"
    words = first.title.lower() if len(checks) == 1 else f"the tire's condition ({len(checks)} checks)"
    says = f"Not yet looked at: {', '.join(check.title.lower() for check in checks)}."
    return Reason(
        "condition", "measure", says, first.source, settles=Settles(field, words, ""), asks=((field, words),)
    )
