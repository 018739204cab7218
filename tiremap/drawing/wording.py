"""Figures as they are written on a drawing."""

from math import floor, isinf
from typing import Literal

from tiremap.model.job import Answer
from tiremap.model.units import MM_PER_INCH

Unit = Literal["mm", "in"]
ANSWER_WORDS: dict[Answer, str] = {
    "repairable": "Repairable", "measure_first": "Measure first", "not_repairable": "Not repairable",
}
OWN_WORDS: dict[Answer, str] = {
    "repairable": "its own checks pass", "measure_first": "its own checks: measure first",
}
"""What an injury has by itself, beside the worse answer it is shown with."""


def length(mm: float, unit: Unit) -> str:
    """A length with its unit: tenths of a millimeter, hundredths of an inch."""
    return f"{figure(mm, unit)} {unit}"


def figure(mm: float, unit: Unit) -> str:
    """A length without its unit."""
    written = f"{_half_up(mm / MM_PER_INCH, 2):.2f}" if unit == "in" else f"{_half_up(mm, 1):.1f}".removesuffix(".0")
    return written.replace("-", "−")


def area(mm2: float, unit: Unit) -> str:
    """An area with its unit; small ones are not written as nothing."""
    if unit == "in":
        return f"{mm2 / MM_PER_INCH**2:.2f} in²"
    return f"{mm2:.0f} mm²" if mm2 >= 1 else f"{mm2:.1f} mm²"


def angle(deg: float) -> str:
    """An angle in whole degrees."""
    return f"{floor(deg + 0.5)}°"


def span(low: float | None, high: float | None, unit: Unit) -> str:
    """A range; an end that is ``None`` or infinite is open."""
    if low is None or isinf(low):
        return "not measured" if high is None or isinf(high) else f"up to {length(high, unit)}"
    if high is None or isinf(high):
        return f"from {length(low, unit)}"
    return f"{figure(low, unit)} to {length(high, unit)}"


def rounded_down(mm: float, unit: Unit) -> float:
    """A margin, mm, cut to the last digit that is written: it never looks larger than it is."""
    step = 100 / MM_PER_INCH if unit == "in" else 10
    return floor(mm * step + 1e-6) / step


def _half_up(value: float, digits: int) -> float:
    step: int = 10**digits
    return floor(value * step + 0.5) / step + 0.0
