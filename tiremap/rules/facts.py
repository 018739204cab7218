"""What the checks know of the tire: every quantity as a reading, whatever was entered or left out."""

from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Any

from tiremap.errors import TiremapError
from tiremap.geometry.crown import liner_radius, tread_across
from tiremap.geometry.section_data import assumed
from tiremap.geometry.section_inputs import default_under_grooves
from tiremap.model.job import Job, Tire, TireClass
from tiremap.model.load_and_speed import speed_kmh
from tiremap.model.measures import Length
from tiremap.model.size_code import SizeCode, read_size_code
from tiremap.model.tire_class import class_of
from tiremap.model.tire_dimensions import TireDimensions, dimensions_as_typed, dimensions_of
from tiremap.model.tolerances import length_range, usual_tolerance
from tiremap.model.tread_width import TreadWidthEstimate, tread_width_estimate
from tiremap.resources import read_toml
from tiremap.rules.depths import TreadDepths, tread_depths
from tiremap.rules.reading import Reading, unknown

NO_CHOICE = ("T", "ST")
"""Prefixes that settle the class by themselves: temporary spares and special trailer tires."""


@dataclass(frozen=True)
class TireFacts:
    """The tire as readings, mm. ``size`` is ``None`` where dimensions were typed in place of a code."""

    size: SizeCode | None
    dimensions: TireDimensions
    estimate: TreadWidthEstimate
    tire_class: TireClass | None
    speed_kmh: int | None
    nominal_width: Reading
    tread_width: Reading
    depths: TreadDepths
    thickness: Reading
    """Of the crown where a hole lies: tread depth there and what lies under the grooves."""
    belt: Reading
    """Half the belt width if measured, else how far the belt edge lies inside the tread edge."""
    belt_measured: bool
    between_outer_grooves: Reading
    """Across the tread between the two outermost grooves, from inner wall to inner wall."""
    crown_radius: float
    under_grooves: float | None
    """As measured, mm; part of `thickness`."""

    @property
    def overall_diameter(self) -> float:
        """Overall diameter, mm."""
        return self.dimensions.overall_diameter_mm

    @property
    def load_index(self) -> int | None:
        """The load index of single fitment, or ``None`` where the code does not tell it."""
        return self.size.load_indices[0] if self.size is not None and self.size.load_indices else None

    @property
    def tread_depth(self) -> Reading:
        """The shallowest tread depth found, wherever that was."""
        return self.depths.shallowest

    @property
    def drawn_tread_width(self) -> float:
        """The tread width to draw with, mm: as measured, else the estimate. Never for an answer."""
        return self.tread_width.stated if self.tread_width.stated is not None else self.estimate.drawn_mm

    @cached_property
    def drawn_thickness(self) -> float:
        """The crown thickness to draw with, mm: as measured where it was, else the drawing's defaults."""
        depth = assumed("crown", "tread_depth") if self.depths.drawn is None else self.depths.drawn
        under = default_under_grooves() if self.under_grooves is None else self.under_grooves
        thinnest: float = read_toml("dimensions", "unmeasured.toml")["crown"]["thinnest_mm"]
        return max(depth + under, thinnest)

    def belt_half_width(self, tread_width: float, belt: float) -> float:
        """Where the belt edge lies, mm from the center plane, for values of the two readings."""
        return belt if self.belt_measured else tread_width / 2 - belt

    def across(self, origin: str, value: float, tread_width: float, thickness: float) -> float:
        """The tread coordinate ``s`` (mm, + outboard) of a reading ``value`` taken from ``origin``."""
        if origin == "center":
            return value
        if origin == "outboard_edge":
            return tread_width / 2 - value
        if origin == "inboard_edge":
            return value - tread_width / 2
        return tread_across(value, thickness, self.crown_radius)  # along the liner from the center plane

    def liner_radius(self, s: float, thickness: float) -> float:
        """Liner radius (mm) under ``s`` mm; beyond the nominal width a place is taken at its edge."""
        reach = self.nominal_width.high / 2
        return liner_radius(max(-reach, min(reach, s)), self.overall_diameter, thickness, self.crown_radius)


def tire_facts(job: Job) -> TireFacts | None:
    """The tire of a job as readings, or ``None`` while neither a size code nor dimensions were entered.

    Raises `TiremapError` for a size code that cannot be read, and for a crown thicker than the section is high.
    """
    tire = job.tire
    size = _size(tire)
    if size is not None and tire.typed_dimensions is None:
        dimensions, estimate = _of_code(tire.size_code, tire.rim_width_in)
        width = size.nominal_width_mm
        nominal_width = Reading("tire.size_code", "the section width", width, width, width)
    elif tire.typed_dimensions is not None:
        typed = tire.typed_dimensions
        dimensions = dimensions_as_typed(
            typed.overall_diameter_mm, typed.section_width_mm, typed.rim_diameter_mm, typed.rim_width_in
        )
        width = typed.section_width_mm
        nominal_width = _nominal_of_measured(width)
        estimate = _as_wide_as(tread_width_estimate(dimensions), nominal_width, width)
    else:
        return None
    unmeasured = read_toml("dimensions", "unmeasured.toml")
    tire_class = _class(tire, size)
    tread_width = _tread_width(tire.tread_width, estimate)
    depths = tread_depths(tire, tire_class)
    thickness = _thickness(tire.under_grooves, depths.at_a_hole, unmeasured)
    crown_radius = assumed("crown", "radius_of_nominal_width") * width
    _refuse_too_thick(thickness, dimensions, crown_radius)
    belt = _belt(tire.belt_width, unmeasured["belt_edge"])
    return TireFacts(
        size=size,
        dimensions=dimensions,
        estimate=estimate,
        tire_class=tire_class,
        speed_kmh=_speed(size),
        nominal_width=nominal_width,
        tread_width=tread_width,
        depths=depths,
        thickness=thickness,
        belt=belt,
        belt_measured=tire.belt_width is not None,
        between_outer_grooves=_between_outer_grooves(tire.between_outer_grooves, tread_width, unmeasured),
        crown_radius=crown_radius,
        under_grooves=tire.under_grooves.mm if tire.under_grooves else None,
    )


def _refuse_too_thick(thickness: Reading, dimensions: TireDimensions, crown_radius: float) -> None:
    """Raise `TiremapError` for a crown that leaves no room for the tire: what was entered is a slip of the pen."""
    height, room = dimensions.section_height_mm, min(dimensions.overall_diameter_mm / 2, crown_radius)
    if thickness.low >= height or thickness.high >= room:
        raise TiremapError(
            f"A crown up to {thickness.high:g} mm thick does not fit on a section {height:g} mm high.",
            "Check the tread depth and the thickness under the grooves; a right one is such as 7 mm.",
        )


def _size(tire: Tire) -> SizeCode | None:
    """The size code as read. Beside typed dimensions one that cannot be read is only what stands on the sidewall."""
    if not tire.size_code:
        return None
    try:
        return _read(tire.size_code)
    except TiremapError:
        if tire.typed_dimensions is None:
            raise
        return None


_CODES_KEPT = 256
"""How many size codes are kept as read; a shop sees a few dozen, over and over."""


@lru_cache(_CODES_KEPT)
def _read(code: str) -> SizeCode:
    return read_size_code(code)


@lru_cache(_CODES_KEPT)
def _of_code(code: str, rim_width_in: float | None) -> tuple[TireDimensions, TreadWidthEstimate]:
    """What hangs on the size code and the rim's width alone."""
    size = _read(code)
    return dimensions_of(size, rim_width_in), tread_width_estimate(size)


def _nominal_of_measured(width: float) -> Reading:
    """The nominal section width that a measured one may stand for, mm: on its rim and grown in service it is wider."""
    shares = read_toml("dimensions", "unmeasured.toml")["nominal_width"]
    minus, plus = usual_tolerance("typed_dimensions", "tape")
    low, high = (width - minus) * shares["least_of_measured"], (width + plus) * shares["greatest_of_measured"]
    return Reading("tire.size_code", "the nominal section width", low, width, high, estimated=True, step=0.0)


def _as_wide_as(estimate: TreadWidthEstimate, nominal: Reading, stated: float) -> TreadWidthEstimate:
    """The tread widths of every nominal width a reading allows; the estimate is that of the stated one."""
    least, greatest = nominal.low / stated, nominal.high / stated
    ends = {"least_mm": estimate.least_mm * least, "greatest_mm": estimate.greatest_mm * greatest}
    return estimate.model_copy(update=ends)


def _class(tire: Tire, size: SizeCode | None) -> TireClass | None:
    """The class as chosen or as the code tells; nobody's choice makes a spare or a trailer tire into another."""
    if size is not None and size.prefix in NO_CHOICE:
        return class_of(size)
    return tire.tire_class or (class_of(size) if size else None)


def _speed(size: SizeCode | None) -> int | None:
    """The speed a tire is marked for, km/h; ZR alone promises at least its own."""
    if size is None:
        return None
    return speed_kmh(size.speed_symbol) if size.speed_symbol else size.least_speed_kmh


def _tread_width(taken: Length | None, estimate: TreadWidthEstimate) -> Reading:
    field, words = "tire.tread_width", "the tread width"
    if taken is None:
        return unknown(field, words, estimate.least_mm, estimate.greatest_mm, step=1.0)
    low, stated, high = length_range("tread_width", taken)
    return Reading(field, words, low, stated, high, estimated=taken.how == "eye", step=1.0)


def _thickness(taken: Length | None, depth: Reading, unmeasured: dict[str, Any]) -> Reading:
    """Tread depth and under the grooves as one reading: no check needs them apart."""
    words, thinnest = "where the hole comes out inside", unmeasured["crown"]["thinnest_mm"]
    if taken is None:
        low, high = unmeasured["under_grooves"]["least_mm"], unmeasured["under_grooves"]["greatest_mm"]
        return unknown("", words, depth.low + low, depth.high + high, step=0.0)
    low, stated, high = length_range("under_grooves", taken)
    whole = None if depth.stated is None else max(thinnest, depth.stated + stated)
    ends = (max(thinnest, depth.low + low), max(thinnest, depth.high + high))
    return Reading("", words, ends[0], whole, ends[1], estimated=depth.estimated, step=0.0)


def _belt(taken: Length | None, unmeasured: dict[str, float]) -> Reading:
    field, words = "tire.belt_width", "the belt width"
    if taken is None:
        outside, inside = unmeasured["furthest_outside_tread_edge_mm"], unmeasured["furthest_inside_tread_edge_mm"]
        return unknown(field, words, -outside, inside, step=0.0)
    low, stated, high = length_range("belt_width", taken)
    return Reading(field, words, low / 2, stated / 2, high / 2, estimated=taken.how == "eye", step=0.0)


def _between_outer_grooves(taken: Length | None, tread_width: Reading, unmeasured: dict[str, Any]) -> Reading:
    field, words = "tire.between_outer_grooves", "the distance between the outer grooves"
    if taken is None:
        least = unmeasured["between_outer_grooves"]["least_of_tread_width"] * tread_width.low
        return unknown(field, words, least, tread_width.high, step=1.0)
    low, stated, high = length_range("between_outer_grooves", taken)
    return Reading(field, words, low, stated, high, estimated=taken.how == "eye", step=1.0)
