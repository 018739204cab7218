"""What could change a refusal: no closer measurement within its tolerance, only an entry that was wrong.

A refusal holds with every reading at its best. So for each reading that was entered, it is asked what that one would
have to be for the check no longer to refuse, with all others still at their best: settling, mirrored. Of several, the
one the fewest of its own tolerances off is named; it is the likeliest slip.
"""

from collections.abc import Callable
from dataclasses import replace
from math import ceil, floor, inf

from tiremap.rules.margins import ON_THE_LIMIT, Question, greatest, greatest_at, margin_of
from tiremap.rules.reading import UNBOUNDED, Reading
from tiremap.rules.reasons import Reason, Turns

_FINE = 1e-7
"""A bracket this narrow (mm, tangent or radians) is far below any tape."""


def turning(question: Question) -> Turns | None:
    """The likeliest single entry that would have to be wrong, and its value from which on the check does not refuse."""
    found = []
    for index, reading in enumerate(question.readings):
        if reading.stated is None or not (reading.field and reading.step and reading.entered):
            continue
        widest = (0.0 if index in question.falls_with else -UNBOUNDED, UNBOUNDED)
        best, point = greatest_at(question.with_range(index, *widest))
        if question.refuses(best):
            continue

        def refuses(value: float, index: int = index) -> bool:
            return question.refuses(greatest(question, question.ranges_with(index, value)))

        found.append(turn_of(reading, point[index], refuses))
    return likeliest(found)


def turn_of(reading: Reading, inside: float, refuses: Callable[[float], bool]) -> tuple[float, Turns] | None:
    """How many tolerances off the turning value lies, and the turn; ``inside`` is a value that is not refused."""
    larger = inside > reading.high
    outside = reading.high if larger else reading.low
    rounded = _rounded(reading, inside, larger)
    while abs(inside - outside) > _FINE and rounded != _rounded(reading, outside, larger):
        middle = (inside + outside) / 2
        if refuses(middle):
            outside = middle
        else:
            inside = middle
            rounded = _rounded(reading, inside, larger)
    if refuses(reading.raw(rounded)):
        return None  # it turns back within one step
    assert reading.stated is not None  # an entry that may be wrong was entered
    stated = reading.shown(reading.stated)
    tolerance = (reading.shown(reading.high) - reading.shown(reading.low)) / 2
    off = abs(rounded - stated) / tolerance if tolerance > 0 else inf
    ends = {"at_least": rounded} if larger else {"at_most": rounded}
    return off, Turns(reading.field, reading.words, reading.unit, stated=round(stated, 2), **ends)


def _rounded(reading: Reading, value: float, larger: bool) -> float:
    """A value as shown, in whole steps, rounded to the side that is not refused."""
    steps = reading.shown(value) / reading.step
    whole = ceil(steps - ON_THE_LIMIT) if larger else floor(steps + ON_THE_LIMIT)
    return round(whole * reading.step, 6)


def likeliest(found: list[tuple[float, Turns] | None]) -> Turns | None:
    """The turn the fewest of its own tolerances off, or ``None`` where there is none."""
    possible = [each for each in found if each is not None]
    return min(possible, key=lambda each: each[0])[1] if possible else None


def turned(reason: Reason, unknown: bool) -> Reason:
    """A refusal with how far outside it is and what could change it. ``unknown``: something is still unmeasured."""
    question, turns = reason.question, reason.turns
    if turns is None and reason.turns_later is not None:
        turns = reason.turns_later()
    elif turns is None and question is not None:
        turns = turning(question)
    measured = question is not None or reason.turns_later is not None
    what = _what_changes_it(turns, unknown, measured)
    past = past_words(reason)
    advice = f"{past}: {what}" if past else f"{what[0].upper()}{what[1:]}"
    says = f"{reason.says} {advice}"
    return replace(reason, says=says, advice=advice, past=past, turns=turns, question=None, turns_later=None)


def past_words(reason: Reason) -> str:
    """How far a refusal is past the limit, as taken and at best; empty where nothing was measured."""
    if reason.past:
        return reason.past
    stated, best = reason.margin, reason.margin_high
    if reason.question is not None:  # of two edges of a zone, the one it refuses by
        margin = margin_of(reason.question)
        stated, best = margin.stated, margin.high
    if best is None:
        return ""
    at_best, unit = _past(best), "degrees" if reason.unit == "deg" else reason.unit
    if unit == "repairs":
        return f"{at_best:g} more than allowed"
    if not at_best:
        return "On the limit, which is not inside it"
    past = "outside" if reason.code == "place" else "past the limit"
    if stated is None:
        return f"At best {at_best:g} {unit} {past}"
    if _past(stated) == at_best:
        return f"{at_best:g} {unit} {past}"
    return f"{_past(stated):g} {unit} {past}, at best {at_best:g} {unit}"


def _past(margin: float) -> float:
    """A negative margin as how far past the limit, in tenths and never looking smaller than it is."""
    return max(0.0, ceil(-margin * 10 - ON_THE_LIMIT) / 10)


def _what_changes_it(turns: Turns | None, unknown: bool, measured: bool) -> str:
    nothing = "nothing still to be measured" if unknown else "no closer measurement" if measured else "no measurement"
    if turns is None:
        return f"{nothing} changes this{', nor does any one wrong entry' if measured else ''}."
    if turns.at_least is not None:
        value = f"{figure(turns.at_least, turns.unit)} or more"
    elif turns.at_most is not None:
        value = f"{figure(turns.at_most, turns.unit)} or less"
    else:
        return f"{nothing} changes this."
    taken = "" if turns.stated is None else f", not {figure(turns.stated, turns.unit)}"
    return f"{nothing} changes this, unless {turns.words} was {value}{taken}."


def figure(value: float, unit: str) -> str:
    """A value in words: ``27.2 mm``, ``12 degrees``, or ``3:15`` where the place around was read from a clock."""
    if unit == "h":
        minutes = round(value * 60)
        if minutes < 0:  # before twelve, as a file may hold it
            minutes %= 12 * 60
        return f"{minutes // 60}:{minutes % 60:02d}"
    return f"{value:g} {'degrees' if unit == 'deg' else unit}"
