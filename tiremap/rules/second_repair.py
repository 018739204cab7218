"""Is this a second repair in a tire marked for high speed? A caution, where a rule set says so."""

from tiremap.rules.case import Case
from tiremap.rules.reasons import Reason


def second_repair(case: Case) -> list[Reason]:
    """A caution from the rule set's speed up when the tire would have more than one repair."""
    limit = case.limit(case.rule_set.second_repairs)
    speed, count = case.facts.speed_kmh, len(case.injuries) + len(case.repairs)
    if limit is None or speed is None or speed < limit.value or count < 2:
        return []
    says = f"The tire is marked for {speed} km/h and would have {count} repairs; this guidance speaks of one."
    return [Reason("second_repair", "caution", says, limit.source, value=float(speed), limit=limit.value, unit="km/h",
                   margin=limit.value - speed, margin_low=limit.value - speed, margin_high=limit.value - speed)]
