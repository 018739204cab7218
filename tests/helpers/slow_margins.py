"""Margins the slow way: every corner, zero and balance worked out by itself, as `tiremap.rules.margins` explains them.

Laws hold the quick way against it.
"""

from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from math import inf

from tiremap.rules.margins import ON_THE_LIMIT, Margin, Question
from tiremap.rules.reading import ENDLESS, Reading


def slow_margin(question: Question) -> Margin:
    """The stated, least and greatest margin."""
    bare = replace(question, readings=tuple(reading.as_stated() for reading in question.readings))
    low, high = _least(bare), _greatest(bare)
    stated = low if abs(high - low) <= ON_THE_LIMIT else None
    return Margin(stated, _least(question), _greatest(question))


def _least(question: Question) -> float:
    value = min(question.margin(*corner) for corner in product(*map(_ends, question.readings)))
    return -inf if value < -ENDLESS else value


def _greatest(question: Question) -> float:
    value = max(question.margin(*point) for point in _points(question))
    return inf if value > ENDLESS else value


def _points(question: Question) -> Iterator[tuple[float, ...]]:
    axes = [_ends_and_zero(reading) for reading in question.readings]
    yield from product(*axes)
    for index, reading in enumerate(question.readings):
        for point in product(*axes[:index], (reading.low,), *axes[index + 1 :]):
            far = (*point[:index], reading.high, *point[index + 1 :])
            for balance in question.balances:
                here, there = balance(*point), balance(*far)
                if here * there < 0:
                    level = reading.low - here * (reading.high - reading.low) / (there - here)
                    yield (*point[:index], level, *point[index + 1 :])


def _ends(reading: Reading) -> tuple[float, ...]:
    return reading.low, reading.high


def _ends_and_zero(reading: Reading) -> tuple[float, ...]:
    return (reading.low, 0.0, reading.high) if reading.low < 0 < reading.high else _ends(reading)
