"""Places set by hand on the drawing: by eye, across from the center and around from the datum in degrees.

A click, a drag and a nudge are all by eye. Across is the tread coordinate in mm, + outboard; around is clockwise
seen from outboard, kept between 0 and 360 degrees.
"""

from typing import Any

from tiremap.edits.change import changed, made
from tiremap.model.job import Injury, Repair
from tiremap.model.measures import Across, Around, BeadToes

_CLEAN = 6
"""Decimals kept of a place by eye (a millionth of a mm): ten nudges of 0.1 mm end where one of 1 mm does."""


def across_by_eye(center_mm: float) -> Across:
    """A place across by eye, ``center_mm`` from the center, + outboard."""
    return made(Across, value=round(center_mm, _CLEAN), origin="center", how="eye")


def around_by_eye(angle_deg: float) -> Around:
    """A place around by eye, ``angle_deg`` from the datum."""
    return made(Around, value=round(angle_deg % 360, _CLEAN) % 360, how="eye")


def moved_by_eye(end: str, across_mm: float | None, around_deg: float | None) -> dict[str, Any]:
    """The fields of a mark whose ``end`` is put there by eye; a coordinate not given is not among them."""
    fields: dict[str, Any] = {}
    if across_mm is not None:
        fields[end] = across_by_eye(across_mm)
    if around_deg is not None:
        fields["around"] = around_by_eye(around_deg)
    return fields


def nudged_by_eye(
    mark: Injury | Repair,
    end: str,
    across_mm: float,
    around_deg: float,
    center_mm: float | None,
    angle_deg: float | None,
) -> dict[str, Any]:
    """The fields of a mark whose ``end`` is shifted by that much; what is not shifted is not among them.

    ``center_mm`` and ``angle_deg`` say where it lies now, as for `nudged_across` and `nudged_around`.
    """
    fields: dict[str, Any] = {}
    if across_mm:
        fields[end] = nudged_across(getattr(mark, end), across_mm, center_mm)
    if around_deg:
        fields["around"] = nudged_around(mark.around, around_deg, angle_deg)
    return fields


def nudged_across(place: Across | BeadToes | None, by_mm: float, center_mm: float | None) -> Across:
    """The place moved by ``by_mm``, + outboard.

    ``center_mm`` is where it lies now; it may be left out only for a place already kept from the center.
    """
    if center_mm is None:
        if not isinstance(place, Across) or place.origin != "center":
            raise ValueError("a place not kept from the center needs its present distance from the center")
        center_mm = place.mm
    return across_by_eye(center_mm + by_mm)


def nudged_around(place: Around | None, by_deg: float, angle_deg: float | None) -> Around:
    """The place turned by ``by_deg``. ``angle_deg`` is where it lies now; it may be left out for one in degrees."""
    if angle_deg is None:
        if place is None or place.unit != "deg":
            raise ValueError("a place not kept in degrees needs its present angle from the datum")
        angle_deg = place.value
    return around_by_eye(angle_deg + by_deg)


def confirmed_across(place: Across | BeadToes | None) -> Across | BeadToes | None:
    """A place by eye taken as taped where it stands; any other is returned as it is."""
    return changed(place, how="tape") if place is not None and place.how == "eye" else place


def confirmed_around(place: Around | None) -> Around | None:
    """A place around by eye taken as measured where it stands: degrees by protractor, lengths by tape."""
    if place is None or place.how != "eye":
        return place
    return changed(place, how={"deg": "protractor", "h": "clock"}.get(place.unit, "tape"))
