"""Sentences with their millimeters told in the unit that is shown. Records and the command line keep millimeters."""

import re
from collections.abc import Callable
from math import ceil, floor

from tiremap.drawing.wording import Unit
from tiremap.model.units import MM_PER_INCH

_DIGITS = 3
"""Thousandths of an inch, 0.025 mm: finer than any tape or gauge on the bench."""
_FINEST = 4
"""A figure that ends here is written whole: 2/32 in is 0.0625 in."""
_HAIR = 1e-6

_NUMBER = r"[-−]?\d+(?:\.\d+)?"
_MILLIMETERS = re.compile(rf"({_NUMBER})(?:( (?:to|or)(?: the)? )({_NUMBER}))? mm\b")
_AT_LEAST = re.compile(r"(?:at least|more than) $")
_AT_MOST = re.compile(r"(?:at most|less than|within) $")


def said_in(sentence: str, unit: Unit) -> str:
    """A sentence with every length in ``unit``; what passes in millimeters passes in inches too.

    A least length is rounded up and a greatest down, any other to the nearest.
    """
    if unit == "mm":
        return sentence
    return _MILLIMETERS.sub(_inches, sentence)


def _inches(found: re.Match[str]) -> str:
    before, after = found.string[: found.start()], found.string[found.end() :]
    first, between, last = found.groups()
    if last is not None:
        window = between == " to " and after.startswith(" passes")
        ends = (ceil, floor) if window else (round, round)
        return f"{_figure(first, ends[0])}{between}{_figure(last, ends[1])} in"
    rounding: Callable[[float], int] = round
    if after.startswith(" or more") or _AT_LEAST.search(before):
        rounding = ceil
    elif after.startswith(" or less") or _AT_MOST.search(before):
        rounding = floor
    return f"{_figure(first, rounding)} in"


def _figure(written: str, rounding: Callable[[float], int]) -> str:
    inches = float(written.replace("−", "-")) / MM_PER_INCH
    finest = inches * 10**_FINEST
    if abs(finest - round(finest)) < _HAIR:
        return f"{round(finest) / 10**_FINEST:g}"
    return f"{rounding(inches * 10**_DIGITS) / 10**_DIGITS:.{_DIGITS}f}".rstrip("0").rstrip(".")
