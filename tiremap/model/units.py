"""The only place where units are converted: millimeters, inches, degrees, radians."""

import math
from collections.abc import Callable
from math import degrees as degrees
from math import radians as radians

MM_PER_INCH = 25.4
"""Exact by definition (international inch, 1959)."""


def mm_from_inches(inches: float) -> float:
    """Millimeters in a length given in inches."""
    return inches * MM_PER_INCH


def inches_from_mm(mm: float) -> float:
    """Inches in a length given in millimeters."""
    return mm / MM_PER_INCH


def half_up(value: float) -> int:
    """The nearest whole number, halves rounded up as the tire tables do (Python's ``round`` is half-to-even)."""
    return math.floor(value + 0.5)


def hundredths(value: float, rounding: Callable[[float], int] = half_up) -> float:
    """A figure in hundredths, as it is told in words: the nearest; a bound by ``math.floor`` or ``math.ceil``."""
    return rounding(round(value * 100, 6)) / 100
