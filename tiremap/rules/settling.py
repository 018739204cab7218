"""Which measurement would settle a Measure first, and the value at which the answer turns.

It is the one that would let the check pass alone, with all others at their worst; an estimated one is preferred over
a taped one. Where none would alone, it is the one that moves the least margin most, and the next is named after it.
"""

from collections.abc import Callable
from dataclasses import replace
from functools import cache, partial
from math import ceil, floor, inf, isfinite

from tiremap.rules.margins import ON_THE_LIMIT, Question, Range, least
from tiremap.rules.reading import UNBOUNDED, Reading
from tiremap.rules.reasons import Reason, Settles
from tiremap.rules.turning import turned

FINEST = 0.1
"""A tolerance to aim for is given to a tenth of a millimeter or degree; words only."""

_FINE = 1e-7
"""A bracket this narrow (mm or tangent) is far below any tape, and far above what a float can tell apart there."""


def advised(reason: Reason) -> Reason:
    """A reason to be measured first with the measurement that would settle it, in fields and in words.

    A refusal with how far outside it is, and what could change it.
    """
    if reason.level == "refuse":
        return turned(reason, unknown=reason.question is not None and bool(asked(reason.question)))
    if reason.settles_later is not None:
        settles = reason.settles_later() or reason.settles
        asks = reason.asks
    elif reason.question is not None:
        settles = reason.settles or settling(reason.question)
        asks = asked(reason.question)
    else:
        return reason
    advice = settling_words(settles)
    says = f"{reason.says} {advice}".strip()
    return replace(reason, says=says, advice=advice, settles=settles, asks=asks, question=None, settles_later=None)


def settling(question: Question) -> Settles | None:
    """What to measure so that the question passes; ``None`` where no measurement could make it pass."""
    open_ones = [i for i, reading in enumerate(question.readings) if not reading.settled and reading.field]
    in_order = sorted(open_ones, key=lambda i: not question.readings[i].estimated)
    best = cache(partial(_best, question))
    boundless = sum(_is_boundless(question.readings[i]) for i in in_order)
    for index in in_order if boundless < 2 else []:  # two without bound: neither can settle it alone
        if boundless and not _is_boundless(question.readings[index]):
            continue
        window = _passing_window(question, index, best)
        if window is not None:
            return _settles(question.readings[index], window)
    if not in_order:
        return None
    first = in_order[0]  # where nothing helps by itself, in bench order
    if boundless < 2:
        first = max(in_order, key=lambda i: best(i)[1])
    rest = [i for i in in_order if question.readings[i].field != question.readings[first].field]
    reading = question.readings[first]
    return not_alone(reading, reading.unit, question.readings[rest[0]] if rest else None)


def not_alone(reading: Reading, unit: str, then: Reading | None) -> Settles:
    """To be measured, with what must follow it."""
    words, field = (None, None) if then is None else (then.words, then.field)
    return Settles(reading.field, reading.words, unit, alone=False, then=words, then_field=field)


def asked(question: Question) -> tuple[tuple[str, str], ...]:
    """Field and words of every reading never entered that can move the margin, in bench order."""
    bounded = [_within_bounds(reading) for reading in question.readings]

    def least_at(index: int, value: float) -> float:
        return least(question, [*bounded[:index], (value, value), *bounded[index + 1 :]])

    moving = []
    for index, (reading, (low, high)) in enumerate(zip(question.readings, bounded, strict=True)):
        if reading.stated is not None or not reading.field:
            continue
        if low == high or least_at(index, low) != least_at(index, high):
            moving.append((reading.field, reading.words))
    return tuple(dict.fromkeys(moving))


def _within_bounds(reading: Reading) -> Range:
    """The range of a reading; one without bound is taken at zero, so that it does not drown the others."""
    if _is_boundless(reading):
        return (max(reading.low, 0.0),) * 2
    return reading.low, reading.high


def _is_boundless(reading: Reading) -> bool:
    return max(abs(reading.low), abs(reading.high)) >= UNBOUNDED


def _best(question: Question, index: int) -> tuple[float, float]:
    """The value of one reading that gives the largest least margin, and that margin."""
    reading = question.readings[index]
    tries = {reading.low, reading.high, *([reading.stated] if reading.stated is not None else [])}
    if reading.low < 0 < reading.high:
        tries.add(0.0)
    margins = {value: least(question, question.ranges_with(index, value)) for value in sorted(tries)}
    best = max(margins, key=lambda value: margins[value])
    margin = margins[best]
    one_way = index in question.falls_with or index in question.rises_with  # then its best is at an end
    if question.passes(margin) or not isfinite(margin) or one_way:
        return best, margin
    low, high = reading.low, reading.high
    while high - low >= _FINE:  # the least margin is concave in each reading: close in on its top by thirds
        third = (high - low) / 3
        nearer, further = (question.ranges_with(index, value) for value in (low + third, high - third))
        if least(question, nearer) < least(question, further):
            low += third
        else:
            high -= third
    middle = (low + high) / 2
    top = least(question, question.ranges_with(index, middle))
    return (middle, top) if top > margin else (best, margin)


def _passing_window(
    question: Question, index: int, best_of: Callable[[int], tuple[float, float]]
) -> tuple[float, float] | None:
    """The values of one reading for which the check passes whatever the others are; infinite ends where unlimited."""
    reading = question.readings[index]
    best, margin = best_of(index)
    if not question.passes(margin):
        return None

    def turning(outside: float) -> float:
        inside = best
        if question.passes(least(question, question.ranges_with(index, outside))):
            return inf if outside > best else -inf
        while abs(inside - outside) >= _FINE and not _told_alike(reading, inside, outside):
            middle = (inside + outside) / 2
            if question.passes(least(question, question.ranges_with(index, middle))):
                inside = middle
            else:
                outside = middle
        return inside

    lowest = -inf if reading.low == best else turning(reading.low)
    highest = inf if reading.high == best else turning(reading.high)
    return lowest, highest


def _told_alike(reading: Reading, inside: float, outside: float) -> bool:
    """Whether a window that ends anywhere between the two is told in the same words: `_settles` looks no closer."""
    if not reading.step:
        return True
    low, high = min(inside, outside), max(inside, outside)
    if reading.steps or (reading.stated is not None and low <= reading.stated <= high):
        return False
    told = _at_most if inside < outside else _at_least
    return told(reading, low) == told(reading, high)


def _at_least(reading: Reading, low: float) -> float:
    return _round_up(reading.shown(low), reading.step)


def _at_most(reading: Reading, high: float) -> float:
    return -_round_up(-reading.shown(high), reading.step)


def _settles(reading: Reading, window: tuple[float, float]) -> Settles:
    low, high = window
    if not reading.step:
        return Settles(reading.field, reading.words, reading.unit)
    at_least = _at_least(reading, low) if isfinite(low) else None
    at_most = _at_most(reading, high) if isfinite(high) else None
    if reading.steps and isfinite(high):
        at_most = max((step for step in reading.steps if step <= high + ON_THE_LIMIT), default=None)
        if at_most is None:
            return Settles(reading.field, reading.words, reading.unit, alone=False)
    tolerance: float | None = None
    if reading.stated is not None and low <= reading.stated <= high:
        shown = reading.shown(reading.stated)
        above = [] if at_least is None else [shown - at_least]
        rooms = [*above, *([] if at_most is None else [at_most - shown])]
        if rooms:
            room = max(min(rooms), 0.0)  # none past an end that was rounded inward
            tolerance = round(floor(room / FINEST + ON_THE_LIMIT) * FINEST, 6)
    return Settles(reading.field, reading.words, reading.unit, at_least, at_most, tolerance)


def _round_up(value: float, step: float) -> float:
    return round(ceil(value / step - ON_THE_LIMIT) * step, 6)


def settling_words(settles: Settles | None) -> str:
    """The sentence that tells what to measure; empty where nothing would help."""
    if settles is None:
        return ""
    if not settles.alone:
        return f"Measure {settles.words}" + (f", then {settles.then}." if settles.then else ".")
    window = window_words(settles)
    return f"Measure {settles.words}{window and ': '}{window}{within_words(settles)}."


def window_words(settles: Settles) -> str:
    """From where on a measurement passes, such as ``35 mm or more passes``; empty where it has no ends."""
    unit = _unit_words(settles)
    if settles.away is not None:
        return f"{settles.away:g} {unit} or more from {settles.away_from} passes"
    if settles.at_least is not None and settles.at_most is not None:
        return f"{settles.at_least:g} to {settles.at_most:g} {unit} passes"
    if settles.at_least is not None:
        return f"{settles.at_least:g} {unit} or more passes"
    if settles.at_most is not None:
        return f"{settles.at_most:g} {unit} or less passes"
    return ""


def within_words(settles: Settles) -> str:
    """How well it must be known, such as ``, known to within 2 mm``; empty where nothing is asked."""
    return f", known to within {settles.tolerance:.2g} {_unit_words(settles)}" if settles.tolerance else ""


def _unit_words(settles: Settles) -> str:
    return {"deg": "degrees", "h": "hours"}.get(settles.unit, settles.unit)
