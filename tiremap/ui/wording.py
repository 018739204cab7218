"""Measurements and answers as text on the screen. What is shown converts; what is stored stays as taken."""

from math import floor

from tiremap.model.job import Answer
from tiremap.model.measures import Across, Around, BeadToes, How, LengthUnit, Origin, in_mm
from tiremap.model.tolerances import usual_tolerance
from tiremap.model.units import inches_from_mm
from tiremap.ui.language import marked, told

ANSWER_WORDS: dict[Answer, str] = {
    "repairable": marked("Repairable"),
    "measure_first": marked("Measure first"),
    "not_repairable": marked("Not repairable"),
}
OWN_WORDS: dict[Answer, str] = {
    "repairable": marked("its own checks pass"),
    "measure_first": marked("its own checks: measure first"),
}
"""What an injury has by itself, beside the worse answer of its tire."""
ORIGIN_WORDS: dict[Origin, str] = {
    "outboard_edge": marked("outboard edge"),
    "inboard_edge": marked("inboard edge"),
    "center": marked("center"),
}
HOW_WORDS: dict[How, str] = {
    "tape": marked("tape"),
    "gauge": marked("gauge"),
    "rule": marked("rule"),
    "object": marked("object's shank"),
    "probe": marked("probe"),
    "protractor": marked("protractor"),
    "clock": marked("clock hour"),
    "eye": marked("by eye"),
    "exact": marked("exact"),
}

_DECIMALS = {"mm": 2, "in": 3}


def number(value: float, decimals: int = 2) -> str:
    """A number without trailing zeros, with a true minus sign, never minus 0."""
    text = f"{value:.{decimals}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text.replace("-", "−")


def length(value: float, taken_in: LengthUnit, shown_in: LengthUnit) -> str:
    """A length with its unit, converted for the eye only; one in its own unit is shown as finely as it was typed."""
    if taken_in == shown_in:
        return f"{number(value, 4)} {shown_in}"
    return mm_as(in_mm(value, taken_in), shown_in)


def mm_as(mm: float, shown_in: LengthUnit, decimals: int | None = None) -> str:
    """A length given in mm, with its unit."""
    value = inches_from_mm(mm) if shown_in == "in" else mm
    return f"{number(value, _DECIMALS[shown_in] if decimals is None else decimals)} {shown_in}"


def margin(mm: float, shown_in: LengthUnit) -> str:
    """A margin given in mm, rounded down to a tenth of a millimeter or a hundredth of an inch."""
    value, decimals = (inches_from_mm(mm), 2) if shown_in == "in" else (mm, 1)
    steps = 10**decimals
    return f"{number(floor(value * steps + 1e-6) / steps, decimals)} {shown_in}"


def place_across(place: Across | BeadToes, unit: LengthUnit) -> str:
    """A place across as it can be typed again: ``75 mm from outboard edge``."""
    if isinstance(place, BeadToes):
        first = length(place.from_outboard, place.unit, unit)
        return f"{first} and {length(place.from_inboard, place.unit, unit)} from bead toes"
    return f"{length(place.value, place.unit, unit)} from {ORIGIN_WORDS[place.origin]}"


def place_around(place: Around, unit: LengthUnit) -> str:
    """A place around from the datum as it can be typed again: degrees, tape, or ``3:30`` for a clock hour."""
    if place.unit == "deg":
        return f"{number(place.value, 1)}°"
    if place.unit == "h":
        minutes = round(place.value * 60)
        return f"{minutes // 60}:{minutes % 60:02d}"
    return length(place.value, place.unit, unit)


def tolerance(table: str, how: How, minus: float | None, plus: float | None, taken_in: str, unit: LengthUnit) -> str:
    """How a reading was taken and how far it may be off, lengths in the unit shown: ``tape ±2``, ``probe ±5°``.

    ``minus`` and ``plus`` are its own tolerance, in the unit ``taken_in``; ``None`` means the bench's usual one.
    """
    usual_minus, usual_plus = usual_tolerance(table, how)
    is_angle = table in ("around_deg", "lean")
    below = usual_minus if minus is None else minus if is_angle else in_mm(minus, taken_in)
    above = usual_plus if plus is None else plus if is_angle else in_mm(plus, taken_in)
    if how == "exact" and not below and not above:
        return told(HOW_WORDS[how])
    return f"{told(HOW_WORDS[how])} {_ends(below, above, is_angle, unit)}"


def _ends(below: float, above: float, is_angle: bool, unit: LengthUnit) -> str:
    def shown(value: float) -> str:
        text = number(value, 1) if is_angle else mm_as(value, unit).rpartition(" ")[0]
        return text.removeprefix("0") if text.startswith("0.") and unit == "in" else text

    sign = "°" if is_angle else ""
    if below == above:
        return f"±{shown(below)}{sign}"
    return f"−{shown(below)} +{shown(above)}{sign}"
