"""The liner as a surface of revolution, cut at the datum and rolled flat.

The strip keeps lengths across and, on the center plane, lengths around. Away from the center plane the liner's
radius is smaller, so what runs around is drawn too long by ``R0 / r(s)``: on 205/55R16 50 mm at s = 60 measures
50.4 mm on the strip. Distances and areas are therefore taken from the radius, not read off the strip.
"""

import math
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import Geometry, Polygon
from shapely.affinity import translate

from tiremap.errors import TiremapError
from tiremap.geometry import crown
from tiremap.geometry.frames import StripPoint, TreadPoint

SEAM_GRID = 1e-6
"""Grid (mm) on which the two lips of the datum cut are laid together when pieces are joined again."""

_GAUSS_PLACES, _GAUSS_SHARES = np.polynomial.legendre.leggauss(3)


@dataclass(frozen=True)
class Strip:
    """The liner near the crown: diameter over the tread, thickness from tread to liner, crown radius; all mm.

    Past the crown the same formulas are continued (see `tiremap.geometry.crown`).
    Raises `TiremapError` where the three cannot belong to one tire.
    """

    overall_diameter: float
    thickness: float
    crown_radius: float

    def __post_init__(self) -> None:
        room = min(self.overall_diameter / 2, self.crown_radius)
        if not (0 < self.thickness < room < math.inf):
            raise TiremapError(
                f"A tire {self.overall_diameter:g} mm across with a crown radius of {self.crown_radius:g} mm cannot be "
                f"{self.thickness:g} mm thick under the tread.",
                "The thickness is more than 0 and less than both the tire's and the crown's radius.",
            )

    @property
    def R0(self) -> float:
        """Radius of the liner from the axle on the center plane, mm."""
        return self.overall_diameter / 2 - self.thickness

    @property
    def circumference(self) -> float:
        """Length of the strip: once around the liner on the center plane, mm."""
        return 2 * math.pi * self.R0

    def liner_across(self, s: float) -> float:
        """Arc length across the liner (mm, + outboard) under the tread coordinate ``s`` (mm)."""
        return crown.liner_across(s, self.thickness, self.crown_radius)

    def tread_across(self, s_liner: float) -> float:
        """Tread coordinate ``s`` (mm) above ``s_liner`` (mm)."""
        return crown.tread_across(s_liner, self.thickness, self.crown_radius)

    def radius_at(self, s: float) -> float:
        """Radius of the liner from the axle (mm) under the tread coordinate ``s`` (mm)."""
        return crown.liner_radius(s, self.overall_diameter, self.thickness, self.crown_radius)

    def point(self, place: TreadPoint) -> StripPoint:
        """Where ``place`` lies on the strip; ``t`` goes on past the datum as the angle does."""
        return StripPoint(self.liner_across(place.s), place.a * self.R0)

    def tread_place(self, point: StripPoint) -> TreadPoint:
        """The place above a point of the strip; its angle in [0, 2 pi)."""
        turn = 2 * math.pi
        # A tiny negative angle comes out of the remainder as a whole turn.
        angle = (point.t / self.R0) % turn
        return TreadPoint(self.tread_across(point.s_liner), 0.0 if angle >= turn else angle)


def zone_band(strip: Strip, s_low: float, s_high: float) -> Polygon:
    """The liner between two tread coordinates (mm), once around, on the strip; empty where nothing is between them."""
    if s_low >= s_high:
        return Polygon()
    return shapely.box(strip.liner_across(s_low), 0, strip.liner_across(s_high), strip.circumference)


def wrapped(strip: Strip, shape: Geometry) -> Geometry:
    """``shape`` with whatever passes the datum cut off and laid at the other end: 0 <= t <= circumference.

    A shape longer than the strip laps over itself and comes out once.
    """
    pieces = pieces_wrapped(strip, shape)
    return pieces[0] if len(pieces) == 1 else shapely.union_all(pieces)


def pieces_wrapped(strip: Strip, shape: Geometry) -> list[Geometry]:
    """The pieces of `wrapped`, one for each turn of the strip that ``shape`` touches, not yet united."""
    if shape.is_empty:
        return [shape]
    turns = _turns_between(strip, shape.bounds[1], shape.bounds[3])
    if len(turns) == 1:
        return [_turned(strip, shape, -turns[0])]
    length = strip.circumference
    return [_turned(strip, _cut(shape, turn * length, (turn + 1) * length), -turn) for turn in turns]


def _turned(strip: Strip, shape: Geometry, turns: int) -> Geometry:
    """``shape`` so many whole turns further around."""
    return translate(shape, yoff=turns * strip.circumference) if turns else shape


def unrolled(strip: Strip, shape: Geometry, t_low: float, t_high: float) -> Geometry:
    """A wrapped ``shape`` as it is seen in the window from ``t_low`` to ``t_high`` (mm), the cut at the datum healed.

    The window may start before the datum and run on past it, as the drawing does when it scrolls.
    """
    turns = _turns_between(strip, t_low, t_high)
    copies = [_turned(strip, shape, turn) for turn in turns]
    return _cut(shapely.union_all(copies, grid_size=SEAM_GRID), t_low, t_high)


def true_area(strip: Strip, shape: Geometry) -> float:
    """Area on the liner itself (mm2) of a shape on the strip.

    The strip's area element weighs ``r / R0``; its integral over the shape is taken around the outline (Green), so
    cutting a shape at the datum, or anywhere else, changes no area. The short rule, strip area times ``r / R0`` at
    the centroid, agrees within 0.1 % for a head but is 0.2 % high for a whole crown zone.
    """
    rings, part_of = shapely.get_rings(shapely.get_parts(shape), return_index=True)  # none of a line or an empty part
    if not rings.size:
        return 0.0
    corners, ring_of = shapely.get_coordinates(rings, return_index=True)
    on_a_ring = ring_of[1:] == ring_of[:-1]
    within = np.bincount(ring_of[1:], _swept(strip, corners) * on_a_ring)
    is_outline = np.diff(part_of, prepend=-1) > 0  # of each part the first ring, its holes after it
    return float(np.abs(within) @ np.where(is_outline, 1.0, -1.0))


def _swept(strip: Strip, corners: np.ndarray) -> np.ndarray:
    """True area (mm2, signed) between the line ``s_liner = 0`` and each edge from corner to corner.

    The integral of ``F(s_liner) dt`` along the edge, with ``F' = r / R0``.
    """
    middle, half = (corners[1:] + corners[:-1]) / 2, (corners[1:] - corners[:-1]) / 2
    across = middle[:, :1] + half[:, :1] * _GAUSS_PLACES
    liner_crown_radius = strip.crown_radius - strip.thickness
    axle_to_crown_center = strip.overall_diameter / 2 - strip.crown_radius
    swept = axle_to_crown_center * across + liner_crown_radius**2 * np.sin(across / liner_crown_radius)
    areas: np.ndarray = half[:, 1] * (swept @ _GAUSS_SHARES) / strip.R0
    return areas


def _turns_between(strip: Strip, t_low: float, t_high: float) -> range:
    """The whole turns of the strip that the span from ``t_low`` to ``t_high`` touches with more than its end."""
    first = math.floor(t_low / strip.circumference)
    return range(first, max(first + 1, math.ceil(t_high / strip.circumference)))


def _cut(shape: Geometry, t_low: float, t_high: float) -> Geometry:
    """The part of ``shape`` between two values of ``t`` (mm): areas stay areas, lines stay lines."""
    if shape.is_empty:
        return shape
    part = shape.intersection(shapely.box(shape.bounds[0] - 1, t_low, shape.bounds[2] + 1, t_high))
    # A shape that touches the cut leaves a bare point or line there, which is no part of it.
    pieces = shapely.get_parts(part)
    whole = shapely.get_dimensions(pieces) == shapely.get_dimensions(shape)
    return part if whole.all() else shapely.union_all(pieces[whole])
