"""Which pairs of marks lie near enough for a check to say more than that they keep clear of each other.

Every check of a pair passes from some distance around on, whatever lies between. So each mark gets an arc of the tire:
everywhere its inside end may lie, and half of what the checks ask to be clear beside it. Two marks whose arcs do not
meet pass every check of `rules.book.OF_A_PAIR` with all readings at their worst; only the others need be asked. Of
many marks that are few: arcs are found by sorting, not by trying each against each.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import combinations
from math import isfinite, pi, tau

from tiremap.geometry.crown import liner_across
from tiremap.model.units import radians
from tiremap.rules.case import Case
from tiremap.rules.pairs import Reach

_GREATEST = 2
"""Which half axis is that of the greatest head."""

_HAIR = 1e-6
"""By how much (radians, mm) an arc is longer than it need be; absorbs arithmetic, on the side of asking."""

Arc = tuple[float, float]
"""Where an arc begins, radians from the datum in [0, 2 pi), and how long it is, at most once around."""


def near_pairs(case: Case, reaches: Sequence[Reach]) -> list[tuple[int, int]]:
    """The pairs that must be asked, each as the numbers of its marks, in the order of the marks."""
    least_radius = min((reach.radii[0] for reach in reaches), default=0.0)
    if not least_radius > 0:  # no tire, and no bound: ask every pair
        return list(combinations(range(len(reaches)), 2))
    meeting = _meeting([_arc(case, reach, least_radius) for reach in reaches])
    if case.around_apart or case.angles_apart:  # these ask nothing of the distance across
        return meeting
    return [(one, other) for one, other in meeting if not _clear_across(case, reaches[one], reaches[other])]


def _arc(case: Case, reach: Reach, least_radius: float) -> Arc:
    """The arc of one mark: twice half of what is asked is asked of a pair, so halves of it may be laid beside each."""
    low, high = reach.around
    head = reach.mark.head
    asked = head.half_around[_GREATEST] + head.radius.high + _between_heads(case) / 2
    half = (high - low) / 2 + max(asked / least_radius, _around_asked(case) / 2) + _HAIR
    if not isfinite(half) or half >= pi:
        return 0.0, tau
    return ((low + high) / 2 - half) % tau, 2 * half


def _between_heads(case: Case) -> float:
    """Gap between two heads (mm) from which no check of gaps says anything: the rule set's, or two buffed borders."""
    return max(case.heads_apart.value, 2 * case.stock.beyond_the_head.border)


def _around_asked(case: Case) -> float:
    """The angle (radians) from which no check of the way around says anything but that it passes."""
    tread_radius = case.facts.overall_diameter / 2
    on_the_tread = max((limit.value / tread_radius for limit in case.around_apart), default=0.0)
    return max(on_the_tread, *(radians(limit.value) for limit in case.angles_apart), 0.0)


def _meeting(arcs: Sequence[Arc]) -> list[tuple[int, int]]:
    """The pairs of arcs that meet: of any two, one begins within the other."""
    begins = sorted((begin, number) for number, (begin, _) in enumerate(arcs))
    twice = [*begins, *((begin + tau, number) for begin, number in begins)]  # an arc may run on past the datum
    places = [begin for begin, _ in twice]
    found = set()
    for begin, number in begins:
        within = twice[bisect_left(places, begin) : bisect_right(places, begin + arcs[number][1])]
        found |= {(min(number, other), max(number, other)) for _, other in within if other != number}
    return sorted(found)


def _clear_across(case: Case, one: Reach, other: Reach) -> bool:
    """Whether two heads keep clear of each other by their distance across alone."""
    facts, (low, high), (other_low, other_high) = case.facts, one.whole_across, other.whole_across
    apart = liner_across(max(0.0, low - other_high, other_low - high), facts.thickness.high, facts.crown_radius)
    heads = sum(each.mark.head.half_across[_GREATEST] + each.mark.head.radius.high for each in (one, other))
    return apart >= heads + _between_heads(case) + _HAIR
