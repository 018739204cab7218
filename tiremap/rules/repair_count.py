"""Would the tire have more repairs than the rule set allows?"""

from tiremap.rules.case import Case
from tiremap.rules.reasons import Level, Reason, Settles


def repair_count(case: Case) -> list[Reason]:
    """Earlier repairs and injuries together against the rule set's count. Margin: repairs still allowed beyond them."""
    limits = case.limits_as_built(case.rule_set.repair_counts)
    count = len(case.injuries) + len(case.repairs)
    if not limits or not count:
        return []
    strictest, loosest = (pick(limits, key=lambda limit: limit.value) for pick in (min, max))
    ends = (float(strictest.value - count), float(loosest.value - count))
    level: Level
    if ends[0] >= 0:
        level, says = "note", f"The tire would have {count} repairs; at most {strictest.value} are allowed."
    elif ends[1] < 0:
        level, says = "refuse", f"The tire would have {count} repairs; at most {loosest.value} are allowed."
    else:
        level = "measure"
        says = f"The tire would have {count} repairs: allowed or not as it is built. Say whether it is self-supporting."
    field, words = "tire.built", "whether the tire is self-supporting"
    asked = level == "measure"
    return [
        Reason(
            "repair_count", level, says, strictest.source, value=float(count), limit=float(strictest.value),
            unit="repairs", margin=ends[0], margin_low=ends[0], margin_high=ends[1],
            settles=Settles(field, words, "") if asked else None, asks=((field, words),) if asked else (),
        )
    ]
