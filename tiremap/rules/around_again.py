"""Of a pair: which place around would settle it, or would have to be wrong for a refusal to fall.

The two lie furthest apart on opposite sides of the tire. From there towards the other one the margin only falls, so
the value at which the answer turns is closed in on by halving. Places around are radians within, shown as taken.
"""

from collections.abc import Callable
from dataclasses import replace
from math import ceil, floor, inf, pi

from tiremap.rules.facts import TireFacts
from tiremap.rules.margins import ON_THE_LIMIT
from tiremap.rules.marks import MarkFacts
from tiremap.rules.pairs import Apart, apart, reach_of, turning
from tiremap.rules.reading import Reading
from tiremap.rules.reasons import Settles, Turns
from tiremap.rules.settling import FINEST
from tiremap.rules.turning import likeliest, turn_of

MarginOf = Callable[[Apart], float]
"""The least or greatest margin of a pair, inclusive of nothing."""


def around_turns(facts: TireFacts, pair: Apart, greatest: MarginOf) -> Turns | None:
    """The place around of one of two marks that would have to be wrong, as soon as the pair is no longer refused."""
    found = []
    for mark, other in _both_ways(pair):
        stated, others = mark.around.stated, other.around.stated
        if stated is None or others is None:
            continue
        refuses = _broken(facts, mark, other, greatest)
        for opposite in _opposites(stated, others):
            if not refuses(opposite):
                found.append(turn_of(mark.around, opposite, refuses))
    turns = likeliest(found)
    return None if turns is None else _once_around(turns, pair)


def around_settles(facts: TireFacts, pair: Apart, least: MarginOf) -> Settles | None:
    """The place around that would settle a pair by itself: how far from the other, or how well it must be known."""
    for mark, other in sorted(_both_ways(pair), key=lambda both: not both[0].around.estimated):
        reading = mark.around
        others = other.around.stated
        if reading.settled or others is None:
            continue
        breaks = _broken(facts, mark, other, least)
        if reading.stated is None:
            return _away(reading, others, other.title, breaks)
        if breaks(reading.stated):
            continue
        room = min(_room(reading, reading.stated, end, breaks) for end in (reading.low, reading.high))
        tolerance = round(floor(room / FINEST + ON_THE_LIMIT) * FINEST, 6)
        if tolerance:
            return Settles(reading.field, reading.words, reading.unit, tolerance=tolerance)
    return None


def _both_ways(pair: Apart) -> list[tuple[MarkFacts, MarkFacts]]:
    return [(pair.first, pair.second), (pair.second, pair.first)]


def _broken(facts: TireFacts, mark: MarkFacts, other: MarkFacts, margin: MarginOf) -> Callable[[float], bool]:
    """Whether a margin is negative with the place around of ``mark`` at exactly some value."""
    moved, rest = turning(facts, mark), reach_of(facts, other)

    def broken(value: float) -> bool:
        return margin(apart(facts, moved(value), rest)) < -ON_THE_LIMIT

    return broken


def _opposites(stated: float, others: float) -> tuple[float, float]:
    """The far side of the tire from the other mark, the next one going up from ``stated`` and going down."""
    up = stated + (others + pi - stated) % (2 * pi)
    return up, up - 2 * pi


def _away(reading: Reading, others: float, title: str, breaks: Callable[[float], bool]) -> Settles | None:
    """How far from the other mark, either way, a place around nobody took passes; ``None`` where it nowhere does."""
    far = max(_nearest_passing(others, side * pi, breaks) for side in (1, -1))
    if far > pi:
        return None
    away = float(ceil(reading.shown(far) - ON_THE_LIMIT))
    return Settles(reading.field, reading.words, reading.unit, away=away, away_from=title)


def _nearest_passing(start: float, span: float, breaks: Callable[[float], bool]) -> float:
    """How far from ``start`` towards ``start + span`` it first passes, radians; infinite where not even there."""
    if breaks(start + span):
        return inf
    near, far = 0.0, 1.0
    while (far - near) * pi > ON_THE_LIMIT:
        middle = (near + far) / 2
        near, far = (middle, far) if breaks(start + middle * span) else (near, middle)
    return far * abs(span)


def _room(reading: Reading, stated: float, end: float, breaks: Callable[[float], bool]) -> float:
    """How far the stated place may be off towards ``end``, as shown."""
    inside, outside = stated, end
    if breaks(outside):
        while abs(inside - outside) > ON_THE_LIMIT:
            middle = (inside + outside) / 2
            inside, outside = (inside, middle) if breaks(middle) else (middle, outside)
    else:
        inside = outside
    return abs(reading.shown(inside) - reading.shown(stated))


def _once_around(turns: Turns, pair: Apart) -> Turns:
    """A turn as a place from 0 to once around, however far from it the readings ran."""
    reading = next(mark.around for mark in (pair.first, pair.second) if mark.around.field == turns.field)
    whole = reading.shown(2 * pi)
    ends = (None if end is None else round(end % whole, 6) for end in (turns.at_least, turns.at_most))
    at_least, at_most = ends
    return replace(turns, at_least=at_least, at_most=at_most)
