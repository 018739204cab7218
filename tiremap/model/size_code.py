"""The size code on a tire's sidewall, read as people type it: ``205/55R16 91V``.

The grammar, after an optional prefix (P, LT, HL, T, ST):

    width / aspect [speed letter] R|B|D|- rim [C|LT] [XL] [load range] [load index[/load index]] [speed symbol]
    width [speed letter] R|D|- rim C ...                                  (van sizes without an aspect ratio)
    diameter x width R|- rim [LT] ...                                     (flotation, inches)

Nothing is guessed: what does not fit is a ``SizeCodeError`` with the place. Bounds: ``size_formulas.toml``.
"""

from typing import Any, Literal

from pydantic import BaseModel, ConfigDict

from tiremap.model.load_and_speed import speed_kmh, zr_least_kmh
from tiremap.model.size_marks import read_marks
from tiremap.model.size_text import SizeText, bounds_of, letters
from tiremap.model.units import mm_from_inches
from tiremap.model.wording import in_short

Prefix = Literal["", "P", "LT", "HL", "T", "ST"]
Construction = Literal["R", "D", "B"]
Family = Literal["passenger", "temporary_spare", "trailer", "light_truck", "van", "flotation", "truck"]

_CONSTRUCTION_WORDS = {"R": "radial", "D": "diagonal", "B": "bias-belted"}
_PREFIX_WORDS = {"P": "passenger (P)", "LT": "light truck", "HL": "high load", "T": "temporary spare", "ST": "trailer"}


class SizeCode(BaseModel):
    """What a size code says. ``text`` is the code as typed; widths in mm, rim and flotation sizes in inches."""

    model_config = ConfigDict(frozen=True, allow_inf_nan=False)

    text: str
    prefix: Prefix = ""
    nominal_width_mm: float
    aspect_ratio: float | None = None
    construction: Construction
    rim_code: float
    is_c: bool = False
    is_lt: bool = False
    reinforced: bool = False
    load_range: str | None = None
    load_indices: tuple[int, ...] = ()
    speed_symbol: str | None = None
    speed_beyond: bool = False
    inside_speed_letter: str | None = None
    flotation_diameter_in: float | None = None
    flotation_width_in: float | None = None

    @property
    def size(self) -> str:
        """The size without load, speed and XL, written one way: ``205/55R16``, ``185R14C``, ``31x10.50R15LT``."""
        construction = (self.inside_speed_letter or "") + self.construction
        if self.flotation_diameter_in is not None:
            across = f"{self.flotation_diameter_in:g}x{self.flotation_width_in:.2f}"
            return f"{across}{construction}{self.rim_code:g}{'LT' if self.is_lt else ''}"
        aspect = "" if self.aspect_ratio is None else f"/{self.aspect_ratio:g}"
        return (
            f"{self.prefix}{self.nominal_width_mm:g}{aspect}{construction}{self.rim_code:g}{'C' if self.is_c else ''}"
        )

    @property
    def canonical(self) -> str:
        """The whole code written one way; reading it gives the same record."""
        service = "/".join(map(str, self.load_indices)) + self._trailing_symbol()
        if self.speed_beyond:
            service = f"({service})"
        load_range = f"LR {self.load_range}" if self.load_range else ""
        return " ".join(filter(None, [self.size, load_range, service, "XL" if self.reinforced else ""]))

    @property
    def family(self) -> Family:
        """The kind of tire, for the choice of formulas and limits. Two load indices without LT mean a van."""
        by_prefix: dict[str, Family] = {"LT": "light_truck", "T": "temporary_spare", "ST": "trailer"}
        if self.flotation_diameter_in is not None:
            return "flotation"
        if self.prefix in by_prefix:
            return by_prefix[self.prefix]
        if self.is_c:
            return "van"
        if self.has_fifteen_degree_rim:
            return "truck"
        return "van" if len(self.load_indices) == 2 else "passenger"

    @property
    def has_fifteen_degree_rim(self) -> bool:
        """Whether the rim is a half-inch one (22.5): its seats stand at 15 degrees and it has no J flange."""
        return self.rim_code % 1 == 0.5

    @property
    def least_speed_kmh(self) -> int | None:
        """The speed in km/h the code promises at least; for ZR alone and for (98Y) the tire may do more."""
        if self.speed_symbol is not None:
            return speed_kmh(self.speed_symbol)
        return zr_least_kmh() if self.inside_speed_letter == "Z" else None

    def _trailing_symbol(self) -> str:
        if self.speed_symbol is None or (not self.load_indices and self.inside_speed_letter == self.speed_symbol):
            return ""
        return self.speed_symbol


def read_size_code(text: str) -> SizeCode:
    """The size code in a typed text. Raises ``SizeCodeError`` with the place and what a right one looks like."""
    return read_in_words(text)[0]


def read_in_words(text: str) -> tuple[SizeCode, tuple[str, ...]]:
    """The size code and what it says up to the rim, part by part in words, for the live sentence."""
    typed = SizeText(text)
    parts: dict[str, Any] = {"text": text}
    _refuse_letter_sizes(typed)
    _read_prefix(typed, parts)
    _read_widths(typed, parts)
    _read_construction(typed, parts)
    _read_rim(typed, parts)
    size_words = tuple(typed.taken)
    read_marks(typed, parts)
    _refuse_missing_aspect(typed, parts)
    if parts.get("speed_symbol") is None and parts["inside_speed_letter"] != "Z":
        parts["speed_symbol"] = parts["inside_speed_letter"]
    return SizeCode(**parts), size_words


def _refuse_letter_sizes(typed: SizeText) -> None:
    if typed.sees(r"[A-N]R?\d\d-\d\d"):
        raise typed.other_family("this is an old letter size (such as E78-14), whose dimensions no formula gives.")


def _read_prefix(typed: SizeText, parts: dict[str, Any]) -> None:
    prefix = typed.take(r"LT|HL|ST|P|T") or ""
    if not prefix and (typed.at_end or typed.rest in ("L", "H", "S")):
        raise typed.missing("the width in mm, such as 205, or P, LT, HL, T, ST before it")
    if not prefix and not typed.sees(r"\d"):
        raise typed.error("a size starts with its width in mm, or with P, LT, HL, T or ST before it.")
    parts["prefix"] = prefix
    parts["is_lt"] = prefix == "LT"
    if prefix:
        typed.taken.append(_PREFIX_WORDS[prefix])


def _read_widths(typed: SizeText, parts: dict[str, Any]) -> None:
    start = typed.at
    hint = "the width in mm, such as 205"
    first = typed.take(r"\d+(\.\d+)?")
    if first is None:
        raise typed.missing(hint) if typed.at_end else typed.error(f"the width is missing here; next: {hint}.")
    if typed.take("X"):
        _read_flotation(typed, parts, first, start)
        return
    least, greatest = bounds_of("inch_width_in")
    if typed.sees(r"[QSTUHVWYZ]?[RD-]\d") and len(first) <= 5 and least <= float(first) <= greatest:
        raise typed.other_family("sizes that give only a width in inches (11R22.5, 7.50R16) are not in the formulas.")
    if "." in first:
        if typed.at_end:
            raise typed.missing("x and the section width in inches, as in 31x10.50R15LT")
        raise typed.error("the width in mm is a whole number.", at=start)
    if len(first) > 3:
        said = in_short(first)
        raise typed.error(f"the width is {said} mm; after two or three digits a / follows, as in 205/55.", at=start)
    typed.check(first, "width", bounds_of("width_mm"), "mm", hint, start)
    parts["nominal_width_mm"] = int(first)
    typed.taken.append(f"{first} mm wide")
    if typed.at_end:
        raise typed.missing("/ and the aspect ratio, such as /55")
    if typed.take("/"):
        hint = "the aspect ratio, such as 55"
        parts["aspect_ratio"] = typed.whole_number("aspect ratio", bounds_of("aspect_ratio"), "", hint)
        typed.taken.append(f"aspect {parts['aspect_ratio']}")


def _read_flotation(typed: SizeText, parts: dict[str, Any], diameter: str, start: int) -> None:
    if parts["prefix"] not in ("", "LT"):
        raise typed.error(f"a flotation size takes no {parts['prefix']} before it, only LT.", at=0)
    parts["prefix"] = ""
    diameter = _inches(typed, diameter, "overall diameter", "flotation_diameter_in", start)
    start = typed.at
    width = typed.take(r"\d+(\.\d*)?")
    hint = "the section width in inches, such as 10.50"
    if width is None or (width.endswith(".") and typed.at_end):
        raise typed.missing(hint) if typed.at_end else typed.error(f"the section width is missing here; next: {hint}.")
    width = _inches(typed, width, "section width", "flotation_width_in", start)
    parts["flotation_diameter_in"], parts["flotation_width_in"] = float(diameter), float(width)
    parts["nominal_width_mm"] = mm_from_inches(float(width))
    typed.taken.append(f"flotation, {diameter} in diameter, {width} in wide")


def _inches(typed: SizeText, digits: str, name: str, bounds: str, start: int) -> str:
    typed.check(digits, name, bounds_of(bounds), "in", f"the {name} in inches", start)
    if digits.endswith(".") or len(digits.partition(".")[2]) > 2:
        raise typed.error(f"the {name} of a flotation size has at most two decimals, as in 31x10.50R15LT.", at=start)
    return digits


def _read_construction(typed: SizeText, parts: dict[str, Any]) -> None:
    if typed.at_end or typed.rest in tuple(letters("inside_the_size")):
        raise typed.missing("R for radial (D or - diagonal, B bias-belted) and the rim, such as R16")
    letter = typed.take(rf"[{letters('inside_the_size')}](?=[RB])")
    sign = typed.take(r"[RBD-]")
    if sign is None:
        raise typed.error("here stands R for radial, D or - for diagonal, or B for bias-belted, before the rim.")
    parts["construction"] = "D" if sign == "-" else sign
    parts["inside_speed_letter"] = letter
    typed.taken.append(_CONSTRUCTION_WORDS[parts["construction"]])


def _read_rim(typed: SizeText, parts: dict[str, Any]) -> None:
    start = typed.at
    hint = "the rim diameter in inches, such as 16"
    least, greatest = bounds_of("millimeter_rim")
    metric = typed.sees(r"\d{3}")
    if metric and least <= int(metric.group()) <= greatest:
        raise typed.other_family("a rim given in millimeters (190/65R390) is not in the formulas.")
    digits = typed.take(r"\d{1,2}(\.5)?")
    if digits is None:
        raise typed.missing(hint) if typed.at_end else typed.error(f"the rim is missing here; next: {hint}.")
    typed.check(digits, "rim diameter", bounds_of("rim_code_in"), "in", hint, start)
    if typed.rest == ".":
        raise typed.missing("5, for a half-inch rim such as 22.5")
    if typed.sees(r"\."):
        raise typed.error("a rim is whole or half inches: 16, 22.5.")
    parts["rim_code"] = float(digits)
    typed.taken.append(f"{digits} in rim")


def _refuse_missing_aspect(typed: SizeText, parts: dict[str, Any]) -> None:
    if parts.get("aspect_ratio") is None and parts.get("flotation_diameter_in") is None and not parts.get("is_c"):
        raise typed.other_family("a size without aspect ratio is read only with C behind the rim (195R14C).")
