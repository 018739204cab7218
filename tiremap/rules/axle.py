"""May a repaired tire run on its axle? A caution where a rule set says so; nobody is asked."""

from tiremap.rules.case import Case
from tiremap.rules.reasons import Reason


def axle(case: Case) -> list[Reason]:
    """A caution for an axle the rule set would keep repaired tires from, and where the axle is unknown."""
    limit = case.limit(case.rule_set.axle_cautions)
    on = case.job.tire.axle
    if limit is None or on not in (limit.axle, None):
        return []
    return [Reason("axle", "caution", f"A repaired tire should not run on the {limit.axle} axle.", limit.source)]
