"""Is there tread enough left to repair for, at the place where the rule set asks?

Every depth entered is the shallowest at its place, so the whole tread is judged by all of them and the least counts.
The shallowest found anywhere is never deeper than the shallowest of the central three-quarters: it can pass the
center, and cannot refuse it. A depth in the outer eighths says nothing of the center.
"""

from tiremap.model.rule_set import TreadDepthLimit
from tiremap.model.rule_set_words import DEPTH_PLACE_WORDS
from tiremap.rules.case import Case
from tiremap.rules.depths import TreadDepths
from tiremap.rules.margins import Question, margin_of
from tiremap.rules.reading import Reading
from tiremap.rules.reasons import Reason
from tiremap.rules.weighing import LimitSays, Words, weigh


def tread_depth(case: Case) -> list[Reason]:
    """The least tread depth against the rule set's. Margin: mm of tread above the limit."""
    limit = case.limit(case.rule_set.tread_depths)
    assert limit is not None  # every class a set speaks of has one
    inclusive = limit.operator == ">="
    least = f"at least {limit.value:g} mm" if inclusive else f"more than {limit.value:g} mm"
    asked = f"{least} {DEPTH_PLACE_WORDS[limit.place]}"
    words = Words(
        f"Tread is left to repair for: {asked}.",
        f"The tread is worn out: {asked} is asked.",
        f"The tread may be worn out: {asked} is asked.",
    )
    says = LimitSays(limit.value, "mm", limit.source, inclusive, grows=True)
    ask = _over_the_center if limit.place == "central_three_quarters" else _anywhere
    return [weigh("tread_depth", ask(case.facts.depths, limit), words, says)]


def _anywhere(depths: TreadDepths, limit: TreadDepthLimit) -> Question:
    """The least of all entered, and of what is still missing while those entered do not cover the tread.

    Where more than one place is missing, the shallowest found anywhere stands for all of them: one reading settles it.
    """
    missing = () if depths.shallowest.stated is not None else tuple(d for d in depths.places if d.stated is None)
    if len(missing) > 1:
        missing = (depths.shallowest,)
    return _least_of((*depths.entered, *missing), limit)


def _over_the_center(depths: TreadDepths, limit: TreadDepthLimit) -> Question:
    """The depth over the center; without it the shallowest anywhere, which the center may only exceed."""
    if depths.central.stated is not None:
        return _least_of((depths.central,), limit)
    if not depths.entered:
        return _least_of((depths.shallowest,), limit)
    if depths.shallowest.stated is None:
        return _least_of((depths.central,), limit)
    anywhere = _least_of((depths.shallowest,), limit)
    if margin_of(anywhere).passes(limit.operator == ">="):
        return anywhere
    return Question((depths.shallowest, depths.central), lambda found, center: max(found, center) - limit.value)


def _least_of(depths: tuple[Reading, ...], limit: TreadDepthLimit) -> Question:
    return Question(depths, lambda *values: min(values) - limit.value)
