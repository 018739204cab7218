"""Where the center of one more unit could lie: a band of the liner less what lies too near other heads.

The center of the new unit is the inside end of its channel. Around each other head two places are measured as
`tiremap.geometry.overlap` measures a pair, not on the flat strip, so a keep-away region is not an ellipse: at each
place across, its half angle follows from the distance left and the mean of the two liner radii.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import Geometry, Polygon

from tiremap.errors import TiremapError
from tiremap.geometry.frames import TreadPoint
from tiremap.geometry.liner_strip import SEAM_GRID, Strip, true_area, wrapped, zone_band
from tiremap.geometry.outlines import corners_in_half_turn

GUARD = 0.01
"""How far (mm) outside the true curve the corners of a keep-away outline lie. Its chords stand inside their arcs by
0.002 mm (`tiremap.geometry.outlines.CHORD_ERROR`) and a little more where the radius changes across; with the guard no
chord comes inside the true curve, so what is called free is free."""

AXIS_STEP = 4.0
"""Longest chord (mm) along the flank of an oblong head, which on the strip bends with the liner's radius only."""

SLIVER = 1e-6
"""Area (mm2) up to which a piece of the region is rounding between two cuts, not a place."""


@dataclass(frozen=True)
class KeepAway:
    """What the center of a new unit keeps clear of: one other head, on the liner, on the tread and by angle.

    ``across`` and ``around`` are the half axes of both heads together (`Head.axis_reach`, mm on the liner) and, across,
    how far the other head may lie from ``place``. ``radius`` is the least distance from that axis to the new center,
    mm: both radii and the gap. ``around_tread`` is the least distance around on the tread, mm at half the overall
    diameter, and ``angle`` the least angle apart, radians; each takes a band out of the whole width. 0 asks nothing.
    Exactly at the least distance is allowed. ``astray`` is how far around (radians) the other head may lie from
    ``place`` to either side, and ``liner_radius`` the least liner radius there (mm) where it is not that of ``place``.
    Raises `TiremapError` for a length that is negative or no number.
    """

    place: TreadPoint
    across: float
    around: float
    radius: float
    around_tread: float = 0.0
    angle: float = 0.0
    astray: float = 0.0
    liner_radius: float | None = None

    def __post_init__(self) -> None:
        lengths = (self.across, self.around, self.radius, self.around_tread, self.angle, self.astray)
        if not (all(0 <= length < math.inf for length in lengths) and all(map(math.isfinite, self.place))):
            raise TiremapError(
                f"A new unit cannot be kept {self.radius:g} mm, {self.around_tread:g} mm around and {self.angle:g} rad "
                f"from a head at {self.place.s:g} mm, {self.place.a:g} rad with half axes {self.across:g} and "
                f"{self.around:g} mm.",
                "The place is two numbers; half axes, distances and angle are 0 or more.",
            )


def free_region(strip: Strip, half_width: float, keep_away: Sequence[KeepAway]) -> Geometry:
    """Where the center (inside end) of a new round unit could lie, on the strip, mm, cut at the datum.

    ``half_width`` is how far across (mm, tread coordinate) the center may go; the caller has taken off what hole and
    head need. Empty where no width is left. Smaller than the true region by at most 0.05 mm along any edge, never
    larger. Raises `TiremapError` for a half width at which this tire has no liner.
    """
    if half_width <= 0:
        return Polygon()
    if not (half_width < math.pi * strip.crown_radius and strip.radius_at(half_width) > 0):
        raise TiremapError(
            f"No liner lies {half_width:g} mm across from the center plane of this tire.",
            "The half width is at most half the tread width.",
        )
    taken = [wrapped(strip, outline) for each in keep_away for outline in _outlines(strip, half_width, each)]
    free = zone_band(strip, -half_width, half_width).difference(shapely.union_all(taken))
    pieces = shapely.get_parts(free)
    return shapely.union_all(pieces[shapely.area(pieces) > SLIVER])


def free_area(strip: Strip, region: Geometry) -> float:
    """Area of the region on the liner itself, mm2."""
    return true_area(strip, region)


def widest_gap(strip: Strip, region: Geometry) -> tuple[float, float] | None:
    """The longest stretch around (radians, from and to) with a place free somewhere across at each angle of it.

    From is in [0, 2 pi); to is the larger and passes 2 pi where the stretch runs over the datum. (0, 2 pi) where no
    angle is closed, None where all are; the first of equals.
    """
    if region.is_empty:
        return None
    stretches: list[tuple[float, float]] = []
    for start, end in sorted((piece.bounds[1], piece.bounds[3]) for piece in shapely.get_parts(region)):
        if stretches and start <= stretches[-1][1] + SEAM_GRID:
            stretches[-1] = stretches[-1][0], max(end, stretches[-1][1])
        else:
            stretches.append((start, end))
    over_the_datum = stretches[0][0] <= SEAM_GRID and stretches[-1][1] >= strip.circumference - SEAM_GRID
    if len(stretches) > 1 and over_the_datum:
        (_, end), *between, (start, _) = stretches
        stretches = [*between, (start, end + strip.circumference)]
    start, end = max(stretches, key=lambda stretch: stretch[1] - stretch[0])
    return start / strip.R0, end / strip.R0


def _outlines(strip: Strip, half_width: float, keep: KeepAway) -> list[Polygon]:
    """What ``keep`` takes out of the band, on the strip, mm; about its angle in the first turn, so ``t`` may be < 0."""
    center = strip.point(strip.tread_place(strip.point(keep.place)))
    shapes = []
    half_angle = max(keep.angle, keep.around_tread / (strip.overall_diameter / 2))
    if half_angle > 0:
        edge, aside = strip.liner_across(half_width), (half_angle + keep.astray) * strip.R0
        shapes.append(shapely.box(-edge, center.t - aside, edge, center.t + aside))
    across = _places_across(strip, half_width, keep)
    if len(across) > 1:
        half = np.array([_half_angle(strip, keep, x) for x in across]) * strip.R0
        upper, lower = np.column_stack([across, center.t + half]), np.column_stack([across, center.t - half])
        shapes.append(Polygon(np.vstack([lower, upper[::-1]])))
    return shapes


def _places_across(strip: Strip, half_width: float, keep: KeepAway) -> list[float]:
    """Where across (``s_liner``, mm, growing) the outline about one head has corners, from edge to edge of the band.

    Evenly spaced in angle about the round ends, so that the tips, where the outline runs straight around, are as
    close to the curve as the rest. Empty where no distance is asked or it does not reach into the band.
    """
    if keep.radius == 0:
        return []
    middle, edge, radius = strip.liner_across(keep.place.s), strip.liner_across(half_width), keep.radius + GUARD
    quarter = radius * np.sin(np.linspace(0, math.pi / 2, corners_in_half_turn(radius) // 2 + 1))
    flank = np.linspace(-keep.across, keep.across, math.ceil(2 * keep.across / AXIS_STEP) + 1)
    corners = middle + np.concatenate([-keep.across - quarter, flank, keep.across + quarter])
    low, high = max(-edge, corners.min()), min(edge, corners.max())
    if low >= high:
        return []
    return [float(each) for each in np.unique([low, *corners[(low < corners) & (corners < high)], high])]


def _half_angle(strip: Strip, keep: KeepAway, s_liner: float) -> float:
    """Angle (radians) to either side of the head within which a center at ``s_liner`` (mm) is too near.

    Undoes the distance of a pair: half axes parted off each way, the way around times the mean liner radius.
    """
    bare_across = max(0.0, abs(s_liner - strip.liner_across(keep.place.s)) - keep.across)
    bare_around = math.sqrt(max(0.0, (keep.radius + GUARD) ** 2 - bare_across**2))
    there = strip.radius_at(keep.place.s) if keep.liner_radius is None else keep.liner_radius
    mean_radius = (strip.radius_at(strip.tread_across(s_liner)) + there) / 2
    return keep.astray + (keep.around + bare_around) / mean_radius
