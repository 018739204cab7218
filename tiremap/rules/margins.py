"""A margin as one function of raw readings, and the least and greatest it takes over their ranges.

A margin of place is the least of a few functions, each straight in every single reading and less a convex reach: it
is least at a corner of the readings' box, and greatest at a corner, at a zero, or where two of its parts balance
(the channel straddles the center plane). A *balance* is a function that is zero there, straight in each reading by
itself, so the place is found by one division.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product, starmap
from math import inf
from typing import NamedTuple

from tiremap.rules.reading import ENDLESS, Reading

ON_THE_LIMIT = 1e-6
"""Within this (mm) of zero a margin is on the limit; absorbs arithmetic, not measurement."""

Function = Callable[..., float]

Range = tuple[float, float]
"""The least and greatest value of one reading."""


class Margin(NamedTuple):
    """A margin in mm, positive inside the limit. ``stated`` is ``None`` where a reading it needs was never entered."""

    stated: float | None
    low: float
    high: float

    def passes(self, inclusive: bool) -> bool:
        """True where the limit holds with every measurement at its worst."""
        return self.low >= -ON_THE_LIMIT if inclusive else self.low > ON_THE_LIMIT

    def refuses(self, inclusive: bool) -> bool:
        """True where the limit is broken with every measurement at its best."""
        return self.high < -ON_THE_LIMIT if inclusive else self.high <= ON_THE_LIMIT


@dataclass(frozen=True, slots=True)
class Question:
    """A margin still to be worked out: ``margin(*values)`` in mm over ``readings``, in that order.

    ``falls_with`` are the indices of readings that only ever lessen it (a size, a head), ``rises_with`` of those that
    never do: their worst and best ends are known. ``moved_by`` is how many of the first readings move the balances;
    the others need not be tried there.
    ``jumps`` are values of a reading, by its index, at which the margin steps up or down: between its ends they are
    tried as these are. ``inclusive`` is false where a margin of nothing does not hold.
    """

    readings: tuple[Reading, ...]
    margin: Function
    balances: tuple[Function, ...] = ()
    falls_with: frozenset[int] = frozenset()
    rises_with: frozenset[int] = frozenset()
    moved_by: int = 0
    inclusive: bool = True
    jumps: tuple[tuple[int, tuple[float, ...]], ...] = ()

    @property
    def ranges(self) -> list[Range]:
        """The range of each reading, in order."""
        return [(reading.low, reading.high) for reading in self.readings]

    def ranges_with(self, index: int, value: float) -> list[Range]:
        """The same, if reading ``index`` were known to be exactly ``value``."""
        ranges = self.ranges
        ranges[index] = value, value
        return ranges

    def with_range(self, index: int, low: float, high: float) -> "Question":
        """The same question if reading ``index`` could be anything from ``low`` to ``high``."""
        reading = self.readings[index]
        wider = reading.ranging(low, reading.stated, high)
        return replace(self, readings=(*self.readings[:index], wider, *self.readings[index + 1 :]))

    def passes(self, least_margin: float) -> bool:
        """True where the limit holds with this least margin."""
        return least_margin >= -ON_THE_LIMIT if self.inclusive else least_margin > ON_THE_LIMIT

    def refuses(self, greatest_margin: float) -> bool:
        """True where the limit is broken with this greatest margin."""
        return greatest_margin < -ON_THE_LIMIT if self.inclusive else greatest_margin <= ON_THE_LIMIT


def margin_of(question: Question) -> Margin:
    """The stated, least and greatest margin of a question. Unbounded ends are infinite."""
    return Margin(_stated(question), least(question), greatest(question))


def _stated(question: Question) -> float | None:
    """The margin at the stated readings; ``None`` where one never entered moves it, or where it is unbounded."""
    stated = [reading.stated for reading in question.readings]
    if None not in stated:
        value = question.margin(*stated)
        return value if abs(value) <= ENDLESS else None
    bare = [
        reach if value is None else (value, value) for value, reach in zip(stated, question.ranges, strict=True)
    ]
    low, high = least(question, bare), greatest(question, bare)
    return low if abs(high - low) <= ON_THE_LIMIT else None


def least(question: Question, ranges: Sequence[Range] | None = None) -> float:
    """The least margin over all readings' ranges, or over those given; ``-inf`` where unbounded."""
    axes = [
        (high,) if index in question.falls_with else (low,) if index in question.rises_with else _ends(low, high)
        for index, (low, high) in enumerate(question.ranges if ranges is None else ranges)
    ]
    _add_jumps(question, axes)
    value = min(starmap(question.margin, product(*axes)))
    return -inf if value < -ENDLESS else value


def greatest(question: Question, ranges: Sequence[Range] | None = None) -> float:
    """The greatest margin over all readings' ranges, or over those given; ``inf`` where unbounded."""
    value = max(starmap(question.margin, _promising(question, question.ranges if ranges is None else ranges)))
    return inf if value > ENDLESS else value


def greatest_at(question: Question) -> tuple[float, tuple[float, ...]]:
    """The greatest margin and the values of the readings where it is taken."""
    point = max(_promising(question, question.ranges), key=lambda point: question.margin(*point))
    return question.margin(*point), point


def _ends(low: float, high: float) -> tuple[float, ...]:
    return (low,) if low == high else (low, high)


def _ends_and_zero(low: float, high: float) -> tuple[float, ...]:
    return (low, 0.0, high) if low < 0 < high else _ends(low, high)


def _add_jumps(question: Question, axes: list[tuple[float, ...]]) -> None:
    for index, values in question.jumps:
        low, *_, high = *axes[index], axes[index][-1]
        axes[index] += tuple(value for value in values if low < value < high)


def _promising(question: Question, ranges: Sequence[Range]) -> list[tuple[float, ...]]:
    """Every point where the greatest margin can lie: corners, zeros, and balances along each reading."""
    axes = [
        (low,) if index in question.falls_with else (high,) if index in question.rises_with
        else _ends_and_zero(low, high)
        for index, (low, high) in enumerate(ranges)
    ]
    _add_jumps(question, axes)
    corners = list(product(*axes))
    if len(corners) == 1 or not question.balances:
        return corners
    return [*corners, *_balanced(question, ranges, corners, [len(axis) for axis in axes])]


def _balanced(
    question: Question, ranges: Sequence[Range], corners: list[tuple[float, ...]], lengths: list[int]
) -> Iterator[tuple[float, ...]]:
    """The points between two corners where a balance is zero. ``lengths`` are those of the corners' axes."""
    # Each balance once at each corner: along one reading the far end lies a fixed number of corners further on.
    balances = [list(starmap(balance, corners)) for balance in question.balances]
    balances = [balance for balance in balances if min(balance) < 0 < max(balance)]
    step = len(corners)
    for index in range(question.moved_by):
        around, step = step, step // lengths[index]
        if around == step:
            continue
        low, high = ranges[index]
        for near in [start + one for start in range(0, len(corners), around) for one in range(step)]:
            for balance in balances:
                here, there = balance[near], balance[near + around - step]
                if here * there < 0:
                    level = low - here * (high - low) / (there - here)
                    yield (*corners[near][:index], level, *corners[near][index + 1 :])
