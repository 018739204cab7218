"""Sentences with their millimeters told in the unit that is shown. Records and the command line keep millimeters."""

import re
from collections.abc import Callable
from math import ceil, floor

from tiremap.drawing.wording import Unit
from tiremap.model.units import MM_PER_INCH, half_up, hundredths

_DIGITS = 3
"""Thousandths of an inch, 0.025 mm: finer than any tape or gauge on the bench. A figure that ends one digit later is
written whole: 2/32 in is 0.0625 in."""
_OF_A_MARGIN = 2
"""As margins are shown beside the sentence."""
_HAIR = 1e-6

_NUMBER = r"[-−]?\d+(?:\.\d+)?"
_MILLIMETERS = re.compile(rf"({_NUMBER})(?:( (?:to|or)(?: the)? )({_NUMBER}))? mm\b")
_TOO_FINE = re.compile(r"\d+\.\d{3,}(?=(?:(?: to| or)(?: the)? [\d.]+)? mm\b)")
_AT_LEAST = re.compile(r"(?:at least|more than) $")
_AT_BEST = re.compile(r"[Aa]t best $")
_PAST = (" outside", " past the limit")
_AT_MOST = re.compile(r"(?:at most|less than|within) $")


def said_in(sentence: str, unit: Unit) -> str:
    """A sentence with every length in ``unit``; what passes in millimeters passes in inches too.

    Millimeters are told in hundredths at most: the limit itself stays as its source has it.
    A least length is rounded up and a greatest down; how far past a limit it is never looks smaller; any other is
    rounded to the nearest.
    """
    if unit == "mm":
        return _TOO_FINE.sub(_hundredths, sentence)
    return _MILLIMETERS.sub(_inches, sentence)


def _hundredths(found: re.Match[str]) -> str:
    before, after = found.string[: found.start()], found.string[found.end() :].removeprefix(" mm")
    past = after.startswith(_PAST) or _AT_BEST.search(before)
    return f"{hundredths(float(found[0]), ceil if past else _as_a_bound(before, after) or half_up):g}"


def _as_a_bound(before: str, after: str) -> Callable[[float], int] | None:
    """How a bound is rounded, by the words around it: a least one up, a greatest down; ``None`` where it is none."""
    if after.startswith(" or more") or _AT_LEAST.search(before):
        return ceil
    return floor if after.startswith(" or less") or _AT_MOST.search(before) else None


def _inches(found: re.Match[str]) -> str:
    before, after = found.string[: found.start()], found.string[found.end() :]
    first, between, last = found.groups()
    if last is not None:
        window = between == " to " and after.startswith(" passes")
        ends = (ceil, floor) if window else (round, round)
        return f"{_figure(first, ends[0])}{between}{_figure(last, ends[1])} in"
    if after.startswith(_PAST) or _AT_BEST.search(before):
        return f"{_figure(first, ceil, _OF_A_MARGIN)} in"
    return f"{_figure(first, _as_a_bound(before, after) or round)} in"


def _figure(written: str, rounding: Callable[[float], int], digits: int = _DIGITS) -> str:
    inches = float(written.replace("−", "-")) / MM_PER_INCH
    finest = inches * 10 ** (digits + 1)
    if abs(finest - round(finest)) < _HAIR:
        return f"{round(finest) / 10 ** (digits + 1):g}"
    return f"{rounding(inches * 10**digits) / 10**digits:.{digits}f}".rstrip("0").rstrip(".")
