"""Where one more unit could go, on the strip and in words."""

from math import floor, tau

import shapely

from tiremap.drawing.labels import Wanted
from tiremap.drawing.scene import Area
from tiremap.drawing.sight import StripWindow
from tiremap.drawing.wording import Unit
from tiremap.free_places import FreePlaces
from tiremap.geometry.liner_strip import unrolled
from tiremap.model.stock import RepairUnit
from tiremap.model.units import MM_PER_INCH

WHOLE_TURN = 1e-6
"""Radians short of a turn that rounding makes."""


def free_areas(free: FreePlaces, window: StripWindow) -> list[Area]:
    """The free region in the window, whole over the datum."""
    seen = unrolled(window.strip, free.region, window.middle - window.length / 2, window.middle + window.length / 2)
    if seen.is_empty:
        return []
    laid = shapely.transform(seen, lambda c: c * (window.side, -1) + (0.0, window.middle))
    return [Area(part, "free_places") for part in shapely.get_parts(laid)]


def free_label(free: FreePlaces, areas: list[Area]) -> list[Wanted]:
    """The word where the region in the window has most room for it."""
    if not areas:
        return []
    largest = max((area.shape for area in areas), key=lambda shape: shape.area)
    x, y = shapely.maximum_inscribed_circle(largest, tolerance=1.0).coords[0]
    return [Wanted(x, y, free_word(free), "label_free", sides=("above", "below"), near=0.3, leads=False)]


def free_word(free: FreePlaces) -> str:
    """What the region is called: with anything unknown it is what is certainly free, perhaps not all that is."""
    return "certainly free" if free.taken_at_worst else "free"


def free_in_words(free: FreePlaces, unit: Unit) -> str:
    """Unit, area and widest gap; where nothing is free, that."""
    return _told(free, unit, f" for the {unit_in_words(free.unit, unit)}")


def free_beside_its_unit(free: FreePlaces, unit: Unit) -> str:
    """The same where the unit stands beside it."""
    return _told(free, unit, "")


def has_gap(free: FreePlaces) -> bool:
    """Whether something is free, but not at every angle."""
    return free.widest_gap is not None and free.widest_gap[1] - free.widest_gap[0] < tau - WHOLE_TURN


def _told(free: FreePlaces, unit: Unit, for_unit: str) -> str:
    if free.region.is_empty:
        return f"Nothing is {free_word(free)}{for_unit}."
    gap = f"widest gap {_gap(free.widest_gap_mm, unit)} around on the tread"
    if not has_gap(free):
        gap = "with a place somewhere across at every angle"
    return f"{free_word(free).capitalize()}{for_unit}: {_area(free.area_mm2, unit)}, {gap}."


def unit_in_words(repair_unit: RepairUnit, unit: Unit) -> str:
    """A repair unit by its stem and head."""
    stem, head = _size(repair_unit.stem_mm, unit), _size(repair_unit.head_length_mm, unit)
    if repair_unit.head_width_mm is None:
        return f"{stem} {unit} stem, {head} {unit} head"
    return f"{stem} {unit} stem, {head} × {_size(repair_unit.width_mm, unit)} {unit} head {repair_unit.head_along}"


def _size(mm: float, unit: Unit) -> str:
    return f"{mm / MM_PER_INCH:.3f}".rstrip("0").rstrip(".") if unit == "in" else f"{mm:g}"


def _gap(mm: float, unit: Unit) -> str:
    """Cut to the last digit that is written: it never looks wider than it is."""
    return f"{floor(mm / MM_PER_INCH * 10) / 10:g} in" if unit == "in" else f"{floor(mm)} mm"


def _area(mm2: float, unit: Unit) -> str:
    """Cut to a tenth; never larger than it is."""
    if unit == "in":
        return f"{floor(mm2 / MM_PER_INCH**2 * 10) / 10:g} in²"
    return f"{floor(mm2 / 10) / 10:g} cm²"
