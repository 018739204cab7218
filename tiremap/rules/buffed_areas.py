"""Does buffing for one repair run into another: into its buffed area, or into an earlier repair's head?"""

from math import isinf

from tiremap.rules.case import Case
from tiremap.rules.heads_apart import less
from tiremap.rules.margins import ON_THE_LIMIT, Margin
from tiremap.rules.pairs import Apart
from tiremap.rules.reasons import Reason
from tiremap.rules.weighing import LimitSays, reason_for

OVERLAP_SOURCE = "common practice, no source: liner buffed for one head is not buffed again for another"
HEAD_SOURCE = "common practice, no source: a head that stays in the tire is not ground into"


def buffed_areas(case: Case, pair: Apart) -> list[Reason]:
    """A caution where buffing would or may grind an earlier repair's head, else where two buffed areas overlap.

    Margin: mm of gap from the buffed area of the one to the head, or to the buffed area, of the other.
    """
    return _head_ground(case, pair) or _overlap(case, pair)


def _head_ground(case: Case, pair: Apart) -> list[Reason]:
    """An earlier head within one border of the new unit's. A head of unknown size is left to the overlap."""
    if pair.first.is_injury == pair.second.is_injury:
        return []
    margin = less(pair.gap(), case.stock.beyond_the_head.border)
    if margin.low >= -ON_THE_LIMIT or isinf(margin.low):
        return []
    injury, repair = sorted((pair.first, pair.second), key=lambda mark: not mark.is_injury)
    would = "would" if margin.high < 0 else "may"
    says = f"The head of {repair.title} {would} be ground when buffing for {injury.title}."
    return [_caution("earlier_head_buffed", says, margin, HEAD_SOURCE, pair)]


def _overlap(case: Case, pair: Apart) -> list[Reason]:
    margin = pair.gap(case.stock.beyond_the_head.border)
    if margin.low >= -ON_THE_LIMIT:
        return []
    overlap = "overlap" if margin.high < 0 else "may overlap"
    says = f"The buffed areas of {pair.first.title} and {pair.second.title} {overlap}."
    return [_caution("buffed_overlap", says, margin, OVERLAP_SOURCE, pair)]


def _caution(code: str, says: str, margin: Margin, source: str, pair: Apart) -> Reason:
    ids = (pair.first.id, pair.second.id)
    return reason_for(code, "caution", says, margin, LimitSays(0.0, "mm", source, grows=True), ids)
