"""Is there tread enough left to repair for?"""

from tiremap.rules.case import Case
from tiremap.rules.margins import Question
from tiremap.rules.reasons import Reason
from tiremap.rules.weighing import LimitSays, Words, weigh


def tread_depth(case: Case) -> list[Reason]:
    """The least tread depth against the rule set's. Margin: mm of tread above the limit."""
    limit = case.limit(case.rule_set.tread_depths)
    assert limit is not None  # every class a set speaks of has one
    inclusive = limit.operator == ">="
    least = f"at least {limit.value:g} mm" if inclusive else f"more than {limit.value:g} mm"
    words = Words(
        f"Tread is left to repair for: {least} {limit.place}.",
        f"The tread is worn out: {least} {limit.place} is asked.",
        f"The tread may be worn out: {least} {limit.place} is asked.",
    )
    says = LimitSays(limit.value, "mm", limit.source, inclusive, grows=True)
    return [weigh("tread_depth", Question((case.facts.tread_depth,), lambda d: d - limit.value), words, says)]
