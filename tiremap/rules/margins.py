"""A margin as one function of raw readings, and the least and greatest it takes over their ranges.

A margin of place is the least of a few functions, each straight in every single reading and less a convex reach: it
is least at a corner of the readings' box, and greatest at a corner, at a zero, or where two of its parts balance
(the channel straddles the center plane). A *balance* is a function that is zero there, straight in each reading by
itself, so the place is found by one division.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import product
from math import inf

from tiremap.rules.reading import ENDLESS, Reading

ON_THE_LIMIT = 1e-6
"""Within this (mm) of zero a margin is on the limit; absorbs arithmetic, not measurement."""

Function = Callable[..., float]


@dataclass(frozen=True, slots=True)
class Margin:
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

    ``falls_with`` are the indices of readings that only ever lessen it (a size, a head): their worst and best ends
    are known. ``moved_by`` is how many of the first readings move the balances; the others need not be tried there.
    ``inclusive`` is false where a margin of nothing does not hold.
    """

    readings: tuple[Reading, ...]
    margin: Function
    balances: tuple[Function, ...] = ()
    falls_with: frozenset[int] = frozenset()
    moved_by: int = 0
    inclusive: bool = True

    def with_fixed(self, index: int, value: float) -> "Question":
        """The same question if reading ``index`` were known to be exactly ``value``."""
        readings = (*self.readings[:index], self.readings[index].fixed(value), *self.readings[index + 1 :])
        return replace(self, readings=readings)

    def with_range(self, index: int, low: float, high: float) -> "Question":
        """The same question if reading ``index`` could be anything from ``low`` to ``high``."""
        wider = replace(self.readings[index], low=low, high=high)
        return replace(self, readings=(*self.readings[:index], wider, *self.readings[index + 1 :]))

    def passes(self, least_margin: float) -> bool:
        """True where the limit holds with this least margin."""
        return least_margin >= -ON_THE_LIMIT if self.inclusive else least_margin > ON_THE_LIMIT

    def refuses(self, greatest_margin: float) -> bool:
        """True where the limit is broken with this greatest margin."""
        return greatest_margin < -ON_THE_LIMIT if self.inclusive else greatest_margin <= ON_THE_LIMIT


def margin_of(question: Question) -> Margin:
    """The stated, least and greatest margin of a question. Unbounded ends are infinite."""
    low, high = least(question), greatest(question)
    bare = replace(question, readings=tuple(reading.as_stated() for reading in question.readings))
    bare_low, bare_high = least(bare), greatest(bare)
    stated = bare_low if abs(bare_high - bare_low) <= ON_THE_LIMIT else None
    return Margin(stated, low, high)


def least(question: Question) -> float:
    """The least margin over all readings' ranges; ``-inf`` where unbounded."""
    axes = [
        (reading.high,) if index in question.falls_with else _ends(reading)
        for index, reading in enumerate(question.readings)
    ]
    value = min(question.margin(*corner) for corner in product(*axes))
    return -inf if value < -ENDLESS else value


def greatest(question: Question) -> float:
    """The greatest margin over all readings' ranges; ``inf`` where unbounded."""
    value = max(question.margin(*point) for point in _promising(question))
    return inf if value > ENDLESS else value


def greatest_at(question: Question) -> tuple[float, tuple[float, ...]]:
    """The greatest margin and the values of the readings where it is taken."""
    point = max(_promising(question), key=lambda point: question.margin(*point))
    return question.margin(*point), point


def _ends(reading: Reading) -> tuple[float, ...]:
    return (reading.low,) if reading.settled else (reading.low, reading.high)


def _ends_and_zero(reading: Reading) -> tuple[float, ...]:
    return (reading.low, 0.0, reading.high) if reading.low < 0 < reading.high else _ends(reading)


def _promising(question: Question) -> Iterator[tuple[float, ...]]:
    """Every point where the greatest margin can lie: corners, zeros, and balances along each reading."""
    axes = [
        (reading.low,) if index in question.falls_with else _ends_and_zero(reading)
        for index, reading in enumerate(question.readings)
    ]
    yield from product(*axes)
    for index, reading in enumerate(question.readings[: question.moved_by]):
        if reading.settled:
            continue
        around = [*axes[:index], (reading.low,), *axes[index + 1 :]]
        for point in product(*around):
            far = (*point[:index], reading.high, *point[index + 1 :])
            for balance in question.balances:
                here, there = balance(*point), balance(*far)
                if here * there < 0:
                    level = reading.low - here * (reading.high - reading.low) / (there - here)
                    yield (*point[:index], level, *point[index + 1 :])
