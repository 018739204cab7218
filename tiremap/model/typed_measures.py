"""Measures as people write them: ``35``, ``35 mm``, ``1 3/8 in``, ``1-3/8"``, ``90 deg``, ``3:30``.

The value stays as typed: nothing is converted but fractions to decimals, centimeters to millimeters, and the
minutes of a clock to parts of an hour. Every error is a ``TiremapError`` that says what a right one looks like.
"""

import re
import unicodedata
from typing import Literal, NamedTuple

from tiremap.errors import TiremapError

LengthUnit = Literal["mm", "in"]
AroundUnit = Literal["deg", "mm", "in", "h"]

_LENGTH_RIGHT = 'Right ones: 35, 35 mm, 3.5 cm, 1 3/8 in, 1-3/8".'
_AROUND_RIGHT = "Right ones: 90 deg, 400 mm, 16 in, 3 h, 3:30."
_ANGLE_RIGHT = "Right ones: 25, 25 deg, upright."

_MILLIMETERS = ("mm", "millimeter", "millimeters")
_CENTIMETERS = ("cm", "centimeter", "centimeters")
_INCHES = ("in", "in.", "inch", "inches", '"', "\N{DOUBLE PRIME}", "''", "\N{RIGHT DOUBLE QUOTATION MARK}")
_DEGREES = ("deg", "deg.", "degree", "degrees", "\N{DEGREE SIGN}")
_HOURS = ("h", "hour", "hours", "o'clock", "o\N{RIGHT SINGLE QUOTATION MARK}clock", "oclock")

# At most five digits before the point: more is a slip of the finger on any bench.
_WHOLE = r"\d{1,5}"
_DECIMAL = r"(?:\d{1,5}(?:[.,]\d{0,6})?|[.,]\d{1,6})"
_NUMBER = re.compile(
    rf"(?P<sign>[+-]?)\s*(?:(?:(?P<whole>{_WHOLE})(?:\s+|\s*-\s*))?(?P<top>{_WHOLE})\s*/\s*(?P<bottom>{_WHOLE})"
    rf"|(?P<decimal>{_DECIMAL}))\s*(?P<unit>[^\d\s.,/+-].*)?",
    re.ASCII,
)


class TypedLength(NamedTuple):
    """A length as typed, in ``mm`` or ``in``."""

    value: float
    unit: LengthUnit


class TypedAround(NamedTuple):
    """A place around the tire as typed: ``deg``, tape ``mm`` or ``in``, or clock hour ``h`` (12 is the datum)."""

    value: float
    unit: AroundUnit


class _Typed(NamedTuple):
    value: float
    is_fraction: bool
    unit: str


def read_length(text: str, default_unit: LengthUnit = "mm", *, signed: bool = False) -> TypedLength:
    """A length; without a unit a whole or decimal number has the default unit and a fraction is inches.

    (Nobody writes a fraction of a millimeter: a bare ``1/4`` taken for 0.25 mm would pass a hole it should not.)
    A minus sign is refused unless ``signed``.
    """
    typed = _read_number(text, _LENGTH_RIGHT)
    length = _as_length(typed, default_unit)
    if length is None:
        raise TiremapError(f'"{text}": "{typed.unit}" is not a unit of length here.', _LENGTH_RIGHT)
    if not signed:
        _refuse_minus(typed, text, "a length here has no minus sign.", _LENGTH_RIGHT)
    return length


def read_around(text: str) -> TypedAround:
    """A place around the tire, clockwise from the datum seen from outboard; a bare number is degrees."""
    clock = re.fullmatch(r"\s*(\d{1,2})\s*:\s*([0-5]\d)\s*(?P<unit>\D*)", text, re.ASCII)
    if clock and _unit(clock["unit"]) in ("", *_HOURS):
        return TypedAround(_clock_hour(int(clock[1]) + int(clock[2]) / 60, text), "h")
    typed = _read_number(text, _AROUND_RIGHT)
    _refuse_minus(typed, text, "around is counted clockwise from the datum, without a sign.", _AROUND_RIGHT)
    if typed.unit in _HOURS:
        return TypedAround(_clock_hour(typed.value, text), "h")
    if typed.unit in _DEGREES or (typed.unit == "" and not typed.is_fraction):
        if typed.value > 360:
            raise TiremapError(f'"{text}": once around is 360 degrees.', _AROUND_RIGHT)
        return TypedAround(typed.value, "deg")
    length = _as_length(typed, "mm")
    if length is None:
        raise TiremapError(f'"{text}": "{typed.unit}" is not a unit for a place around the tire.', _AROUND_RIGHT)
    return TypedAround(*length)


def read_angle(text: str) -> float:
    """A lean in degrees, signed, less than 90 either way; ``upright`` is 0."""
    if text.strip().lower() == "upright":
        return 0.0
    typed = _read_number(text, _ANGLE_RIGHT)
    if typed.unit not in ("", *_DEGREES):
        raise TiremapError(f'"{text}": "{typed.unit}" is not a unit of angle here.', _ANGLE_RIGHT)
    if abs(typed.value) >= 90:
        raise TiremapError(f'"{text}": a lean is less than 90 degrees.', _ANGLE_RIGHT)
    return typed.value


def _read_number(text: str, right: str) -> _Typed:
    spelled = _spell_out(text)
    if not spelled:
        raise TiremapError("Nothing is typed.", right)
    match = _NUMBER.fullmatch(spelled)
    if match is None:
        raise TiremapError(f'"{text}" is not a measure.', right)
    sign = -1 if match["sign"] == "-" else 1
    value = _decimal(match["decimal"], text, right) if match["decimal"] else _fraction(match, text, right)
    return _Typed(sign * value + 0.0, match["decimal"] is None, _unit(match["unit"] or ""))


def _decimal(digits: str, text: str, right: str) -> float:
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", digits):
        raise TiremapError(
            f'"{text}" can be read as a decimal or as a thousand: write {digits.replace(",", ".")} '
            f"or {digits.replace(',', '')}.",
            right,
        )
    return float(digits.replace(",", "."))


def _fraction(match: re.Match[str], text: str, right: str) -> float:
    top, bottom = int(match["top"]), int(match["bottom"])
    if bottom == 0:
        raise TiremapError(f'"{text}": a fraction over 0 is no number.', right)
    if match["whole"] is not None and top >= bottom:
        raise TiremapError(f'"{text}": the fraction behind a whole number is less than 1.', right)
    return int(match["whole"] or 0) + top / bottom


def _as_length(typed: _Typed, default_unit: LengthUnit) -> TypedLength | None:
    if typed.unit in _INCHES or (typed.unit == "" and typed.is_fraction):
        return TypedLength(typed.value, "in")
    if typed.unit in _MILLIMETERS:
        return TypedLength(typed.value, "mm")
    if typed.unit in _CENTIMETERS:
        return TypedLength(round(typed.value * 10, 9), "mm")  # 3.3 cm is 33 mm, not 33 and a hair
    return TypedLength(typed.value, default_unit) if typed.unit == "" else None


def _clock_hour(hour: float, text: str) -> float:
    if not 0 <= hour < 13:
        raise TiremapError(f'"{text}": a clock hour is 1 to 12; 12 is the datum.', _AROUND_RIGHT)
    return hour


def _refuse_minus(typed: _Typed, text: str, words: str, right: str) -> None:
    if typed.value < 0:
        raise TiremapError(f'"{text}": {words}', right)


def _unit(text: str) -> str:
    return " ".join(text.lower().split())


def _spell_out(text: str) -> str:
    """One-character fractions as ``n/d``, typographic dashes and slashes as typed ones, outer spaces off."""
    plain = text.replace("\N{MINUS SIGN}", "-").replace("\N{EN DASH}", "-").replace("\N{FRACTION SLASH}", "/")
    spelled = (
        " " + unicodedata.normalize("NFKC", char).replace("\N{FRACTION SLASH}", "/")
        if unicodedata.decomposition(char).startswith("<fraction>")
        else char
        for char in plain
    )
    return "".join(spelled).strip()
