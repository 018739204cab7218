"""Dimensions of a tire, from its size code by the formulas or as typed from the tire.

Formulas, figures and sources: ``resources/dimensions/size_formulas.toml``. Every dimension carries its basis.
Lengths in mm, rim widths in inches. Whole millimeters come out because the tire tables round each step half up.
"""

from typing import Any, Literal

from pydantic import BaseModel, ConfigDict

from tiremap.errors import TiremapError
from tiremap.model.size_code import Family, SizeCode
from tiremap.model.units import half_up, inches_from_mm, mm_from_inches
from tiremap.resources import read_toml

Basis = Literal["published", "derived", "assumed", "measured"]


class DimensionBases(BaseModel):
    """Where each dimension comes from; the section height has the basis of the diameter."""

    model_config = ConfigDict(frozen=True)

    overall_diameter: Basis
    section_width: Basis
    rim_diameter: Basis
    measuring_rim_width: Basis
    approved_rim_width: Basis | None
    max_in_service: Basis | None


class TireDimensions(BaseModel):
    """The dimensions of one tire on a rim of ``rim_width_in``; ``None`` where nothing tells.

    ``size`` is the code without load and speed, or ``None`` for dimensions as typed. ``notes`` are caveats to show.
    """

    model_config = ConfigDict(frozen=True, allow_inf_nan=False)

    size: str | None
    family: Family | None
    nominal_width_mm: float
    aspect_ratio: float
    overall_diameter_mm: float
    section_width_mm: float
    section_height_mm: float
    rim_diameter_mm: float
    rim_width_in: float
    measuring_rim_width_in: float
    approved_rim_width_in: tuple[float, float] | None
    max_in_service_width_mm: float | None
    max_in_service_diameter_mm: float | None
    basis: DimensionBases
    notes: tuple[str, ...] = ()


def dimensions_of(size: SizeCode, rim_width_in: float | None = None) -> TireDimensions:
    """The dimensions of a size on its measuring rim, or on a rim of the given width in inches.

    Raises ``TiremapError`` for a rim width out of bounds and for a van size without aspect ratio not in the table.
    """
    rim_diameter = rim_diameter_mm(size.rim_code)
    height, height_basis = _section_height(size, rim_diameter)
    measuring_rim, rim_basis = _measuring_rim(size)
    rim_width = measuring_rim if rim_width_in is None else _sound_rim_width(rim_width_in)
    width, width_basis = _section_width(size, rim_width, measuring_rim)
    growth = _formulas()["in_service"][size.construction]
    approved = approved_rim_width(size)
    exact_family = size.family in ("passenger", "temporary_spare") and size.construction != "B"
    return TireDimensions(
        size=size.size,
        family=size.family,
        nominal_width_mm=size.nominal_width_mm,
        aspect_ratio=100 * height / size.nominal_width_mm if size.aspect_ratio is None else size.aspect_ratio,
        overall_diameter_mm=rim_diameter + 2 * height,
        section_width_mm=width,
        section_height_mm=height,
        rim_diameter_mm=rim_diameter,
        rim_width_in=rim_width,
        measuring_rim_width_in=measuring_rim,
        approved_rim_width_in=approved,
        max_in_service_width_mm=_whole(growth["width"] * width),
        max_in_service_diameter_mm=rim_diameter + 2 * _whole(growth["height"] * height),
        basis=DimensionBases(
            overall_diameter=height_basis,
            section_width=width_basis,
            rim_diameter="published",
            measuring_rim_width=rim_basis,
            approved_rim_width=None if approved is None else _formula_basis(size),
            max_in_service="derived" if exact_family and _formula_basis(size) == "derived" else "assumed",
        ),
        notes=_notes(size),
    )


def dimensions_as_typed(
    overall_diameter_mm: float, section_width_mm: float, rim_diameter_mm: float, rim_width_in: float
) -> TireDimensions:
    """Dimensions read off a tire whose size code is not computed here; basis measured.

    Raises ``TiremapError`` for a figure out of bounds or a rim that does not fit inside the tire.
    """
    bounds = _formulas()["bounds"]
    _check("overall diameter", overall_diameter_mm, bounds["typed_overall_diameter_mm"], "mm", "632 mm (24.9 in)")
    _check("section width", section_width_mm, bounds["typed_section_width_mm"], "mm", "214 mm (8.4 in)")
    _check("rim diameter", rim_diameter_mm, bounds["typed_rim_diameter_mm"], "mm", "406 mm for a 16 in rim")
    rim_width = _sound_rim_width(rim_width_in)
    height = (overall_diameter_mm - rim_diameter_mm) / 2
    if height < bounds["typed_least_section_height_mm"]:
        raise TiremapError(
            f"An overall diameter of {overall_diameter_mm:g} mm on a rim of {rim_diameter_mm:g} mm leaves a section "
            f"only {height:g} mm high.",
            "The tire is larger than its rim: 632 mm overall on a 406 mm rim is 113 mm high.",
        )
    measured: Basis = "measured"
    return TireDimensions(
        size=None,
        family=None,
        nominal_width_mm=section_width_mm,
        aspect_ratio=100 * height / section_width_mm,
        overall_diameter_mm=overall_diameter_mm,
        section_width_mm=section_width_mm,
        section_height_mm=height,
        rim_diameter_mm=rim_diameter_mm,
        rim_width_in=rim_width,
        measuring_rim_width_in=rim_width,
        approved_rim_width_in=None,
        max_in_service_width_mm=None,
        max_in_service_diameter_mm=None,
        basis=DimensionBases(
            overall_diameter=measured,
            section_width=measured,
            rim_diameter=measured,
            measuring_rim_width=measured,
            approved_rim_width=None,
            max_in_service=None,
        ),
    )


def rim_diameter_mm(rim_code: float) -> int:
    """The rim diameter in mm for a rim code in inches, as the tables round it: 16 is 406."""
    return half_up(mm_from_inches(rim_code))


def approved_rim_width(size: SizeCode) -> tuple[float, float] | None:
    """Narrowest and widest approved rim in inches; ``None`` where no formula meets the tables."""
    if size.aspect_ratio is None or size.prefix == "HL":
        return None
    for step in _formulas()["approved_rim"]["steps"]:
        if step["aspect"][0] <= size.aspect_ratio <= step["aspect"][1]:
            width_in = inches_from_mm(size.nominal_width_mm)
            return _half_inch(step["least"] * width_in), _half_inch(step["greatest"] * width_in)
    return None


def rim_warning(size: SizeCode, rim_width_in: float) -> str | None:
    """A sentence where a rim may not suit the tire, else ``None``. Widths in inches."""
    approved = approved_rim_width(size)
    if approved is None:
        return f"No formula gives the approved rims of {size.size}: check the maker's table for {rim_width_in:g} in."
    least, greatest = approved
    if least <= rim_width_in <= greatest:
        return None
    side = "narrower" if rim_width_in < least else "wider"
    return (
        f"A rim of {rim_width_in:g} in is {side} than approved for {size.size}: "
        f"{least:.1f} to {greatest:.1f} in ({_formula_basis(size)}). Check the maker's table."
    )


def _formulas() -> dict[str, Any]:
    return read_toml("dimensions", "size_formulas.toml")


def _formula_basis(size: SizeCode) -> Basis:
    """Derived where the formulas were fitted: passenger and spare tires at the aspect ratios of the tables."""
    fitted = size.family in ("passenger", "temporary_spare")
    return "derived" if fitted and size.aspect_ratio is not None and size.aspect_ratio % 5 == 0 else "assumed"


def _section_height(size: SizeCode, rim_diameter: int) -> tuple[float, Basis]:
    """The height, and the basis of height and diameter. A diameter that is given keeps its half millimeter here."""
    if size.flotation_diameter_in is not None:
        return (half_up(mm_from_inches(size.flotation_diameter_in)) - rim_diameter) / 2, "assumed"
    if size.aspect_ratio is None:
        return (_van_row(size)["overall_diameter_mm"] - rim_diameter) / 2, "published"
    return _whole(size.nominal_width_mm * size.aspect_ratio / 100), "assumed" if size.family == "truck" else "derived"


def _measuring_rim(size: SizeCode) -> tuple[float, Basis]:
    formulas = _formulas()
    exception = _published_exception(size)
    if exception is not None:
        return exception["measuring_rim_width_in"], "published"
    if size.flotation_diameter_in is not None:
        return _half_inch(formulas["flotation"]["measuring_rim_k"] * inches_from_mm(size.nominal_width_mm)), "assumed"
    if size.aspect_ratio is None:
        return _van_row(size)["measuring_rim_width_in"], "published"
    k = _step(formulas["measuring_rim"]["steps"], size.aspect_ratio)["k"]
    return _half_inch(k * inches_from_mm(size.nominal_width_mm)), _formula_basis(size)


def _section_width(size: SizeCode, rim_width: float, measuring_rim: float) -> tuple[int, Basis]:
    """The width on a rim: by the formula from the nominal width, or from the width on the measuring rim."""
    formula = _formulas()["section_width"]
    on_measuring_rim = rim_width == measuring_rim
    exception = _published_exception(size)
    if exception is not None and on_measuring_rim:
        return exception["section_width_mm"], "published"
    if size.aspect_ratio is not None:
        x = _step(formula["steps"], size.aspect_ratio)["x"]
        wider = formula["rim_share"] * (mm_from_inches(rim_width) - x * size.nominal_width_mm)
        return _whole(size.nominal_width_mm + wider), _formula_basis(size)
    known = size.nominal_width_mm if size.flotation_diameter_in is not None else _van_row(size)["section_width_mm"]
    basis: Basis = "published" if size.flotation_diameter_in is None and on_measuring_rim else "assumed"
    return _whole(known + formula["rim_share"] * mm_from_inches(rim_width - measuring_rim)), basis


def _van_row(size: SizeCode) -> dict[str, float]:
    plain = f"{size.nominal_width_mm:g}{size.construction}{size.rim_code:g}C"
    rows = _formulas()["van_without_aspect"]["rows"]
    if plain not in rows:
        raise TiremapError(
            f"No table here has the van size {plain}, and no formula gives a size without aspect ratio.",
            f"Known are {', '.join(rows)}; for any other type overall diameter, section width and rim.",
        )
    row: dict[str, float] = rows[plain]
    return row


def _published_exception(size: SizeCode) -> dict[str, Any] | None:
    return next((row for row in _formulas()["exception"] if row["size"] == size.size), None)


def _step(steps: list[dict[str, Any]], aspect: float) -> dict[str, Any]:
    """The step an aspect ratio falls in; between two steps the lower one (then the basis is assumed)."""
    return [step for step in steps if step["aspect"][0] <= aspect][-1]


def _whole(value: float) -> int:
    """Half up to the millimeter. Nine decimals first: 1.06 * 175 is 185.5 on paper, a hair off in binary."""
    return half_up(round(value, 9))


def _half_inch(value: float) -> float:
    return _whole(2 * value) / 2


def _sound_rim_width(rim_width_in: float) -> float:
    _check("rim width", rim_width_in, _formulas()["bounds"]["rim_width_in"], "in", "6.5 in")
    return rim_width_in


def _check(name: str, value: float, bounds: list[float], unit: str, example: str) -> None:
    least, greatest = bounds
    if not least <= value <= greatest:  # NaN fails too
        raise TiremapError(
            f"The {name} is {value:g} {unit}, outside {least:g} to {greatest:g} {unit}.", f"For example {example}."
        )


def _notes(size: SizeCode) -> tuple[str, ...]:
    told = {
        "light_truck": "Deep-tread light truck tires run up to 12 mm over this diameter.",
        "trailer": "Trailer sizes by the passenger formulas.",
        "van": "Widths of van sizes miss the tables by 3 to 6 mm." if size.aspect_ratio is not None else "",
        "flotation": "The numbers of a flotation size are nominal: measure the tire.",
        "truck": "Truck sizes by the passenger formulas; the published measuring rim may be wider.",
    }
    rim = "A 15-degree rim has no J flange: it is drawn as an outline." if size.has_fifteen_degree_rim else ""
    return tuple(filter(None, [told.get(size.family, ""), rim]))
