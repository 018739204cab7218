"""Was liquid sealant put into the tire? Asked only where the rule set refuses such a tire."""

from tiremap.rules.case import Case
from tiremap.rules.reasons import Reason, Settles, Turns

FIELD = "tire.sealant_used"


def sealant(case: Case) -> list[Reason]:
    """Refused where sealant was used, to be asked where nobody said."""
    limit = case.limit(case.rule_set.sealant_refused)
    used = case.job.tire.sealant_used
    if limit is None:
        return []
    if used is None:
        words = "whether liquid sealant was used"
        asks = ((FIELD, words),)
        says = "Liquid sealant refuses a tire in this set: say whether it was used."
        return [Reason("sealant", "measure", says, limit.source, settles=Settles(FIELD, words, ""), asks=asks)]
    if used:
        says, turns = "Liquid sealant was used in this tire.", Turns(FIELD, "whether liquid sealant was used")
        return [Reason("sealant", "refuse", says, limit.source, turns=turns)]
    return [Reason("sealant", "note", "No liquid sealant was used.", limit.source)]
