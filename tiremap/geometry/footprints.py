"""What repair units cover on the liner: heads, and the buffed ground around them.

A head stays flat rubber when it is stitched down: a round one of radius ``a`` covers the liner within ``a`` of its
center. On the strip that is an ellipse, ``a`` across and ``a * R0 / r`` around (checked against a geodesic disc:
area within 1 %, outline within 0.3 mm, heads to 80 mm). A head is centered on the inside end of its injury.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import shapely
from shapely import Geometry, Polygon
from shapely.affinity import translate

from tiremap.errors import TiremapError
from tiremap.geometry.frames import TreadPoint
from tiremap.geometry.liner_strip import Strip, pieces_wrapped
from tiremap.geometry.outlines import capsule


@dataclass(frozen=True)
class Head:
    """A head on the liner, or ground around one: round where length equals width, else oblong with round ends.

    ``length`` and ``width`` in mm; ``along`` says which way an oblong head lies. Raises `TiremapError` for a head
    without size or longer across its width than along its length.
    """

    length: float
    width: float
    along: Literal["around", "across"] = "around"

    def __post_init__(self) -> None:
        if not (0 < self.width <= self.length < math.inf):
            raise TiremapError(
                f"A head cannot be {self.length:g} mm long and {self.width:g} mm wide.",
                "Both are more than 0 mm and the length is the longer one (equal for a round head).",
            )

    @property
    def is_round(self) -> bool:
        """Whether the head is a disc."""
        return self.length == self.width

    @property
    def radius(self) -> float:
        """Radius of the rounded ends, mm: everything within it of the head's axis belongs to the head."""
        return self.width / 2

    @property
    def half_axis(self) -> float:
        """From the center to the center of a rounded end, mm; 0 for a round head."""
        return (self.length - self.width) / 2

    @property
    def axis_reach(self) -> tuple[float, float]:
        """How far the axis reaches from the center: mm across, mm around; one of the two is 0."""
        return (self.half_axis, 0.0) if self.along == "across" else (0.0, self.half_axis)

    @property
    def reach_across(self) -> float:
        """How far the head reaches across from its center, mm."""
        return self.axis_reach[0] + self.radius

    def grown(self, border: float) -> "Head":
        """The same outline ``border`` mm further out all round."""
        return Head(self.length + 2 * border, self.width + 2 * border, self.along)


def round_head(diameter: float) -> Head:
    """A round head of ``diameter`` mm."""
    return Head(diameter, diameter)


@lru_cache(maxsize=256)  # a shop has a handful of heads; drawing each anew took as long as uniting them
def laid_flat(head: Head) -> Polygon:
    """The head by itself at true size, origin at its center: x across, y around, mm."""
    across, around = head.axis_reach
    return capsule((-across, -around), (across, around), head.radius)


def head_outline(strip: Strip, place: TreadPoint, head: Head) -> Polygon:
    """The head centered on ``place``, on the strip, mm; not cut at the datum, so ``t`` may pass 0 or a whole turn."""
    center = strip.point(place)
    stretch = strip.R0 / strip.radius_at(place.s)
    return shapely.transform(laid_flat(head), lambda corners: corners * (1, stretch) + center)


def union_outline(strip: Strip, places_and_heads: Iterable[tuple[TreadPoint, Head]]) -> Geometry:
    """The ground that heads cover together, on the strip, mm, cut at the datum; empty without heads."""
    return united(strip, (head_outline(strip, place, head) for place, head in places_and_heads))


def united(strip: Strip, outlines: Iterable[Geometry]) -> Geometry:
    """The ground inside any of some outlines on the strip, mm, cut at the datum; empty without outlines.

    Each is cut before they are united, so outlines on either side of the datum find each other. Only those that meet
    are worked into one.
    """
    cut = [piece for outline in outlines for piece in pieces_wrapped(strip, outline)]
    return shapely.disjoint_subset_union_all(cut) if cut else Polygon()


def footprint_at_true_scale(strip: Strip, place: TreadPoint, head: Head) -> Polygon:
    """The head for a template: the liner developed about ``place`` alone, where a round head is a circle.

    x is ``s_liner``, y is `around_at_true_scale`, which is 0 at ``place``; mm.
    """
    return translate(laid_flat(head), xoff=strip.liner_across(place.s))


def around_at_true_scale(strip: Strip, angle: float, developed_about: TreadPoint) -> float:
    """How far around (mm, + towards growing angle) ``angle`` lies in the development about a place: (a - a0) r(s0)."""
    return (angle - developed_about.a) * strip.radius_at(developed_about.s)
