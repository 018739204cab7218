"""Two places on the liner: how far apart, the gap between their heads, the area they share.

A pair is laid flat about both places at once: ``s_liner`` across, the angle between them times the mean of the two
liner radii around, the short way. Distances and gaps are plain arithmetic there, so a rule may try tolerances.
"""

import math

from shapely.affinity import translate

from tiremap.geometry.crown import short_way_around
from tiremap.geometry.footprints import Head, laid_flat
from tiremap.geometry.frames import TreadPoint
from tiremap.geometry.liner_strip import Strip


def apart(strip: Strip, place_a: TreadPoint, place_b: TreadPoint) -> tuple[float, float]:
    """From ``place_a`` to ``place_b`` along the liner: mm across (+ outboard), mm around (+ growing angle)."""
    mean_radius = (strip.radius_at(place_a.s) + strip.radius_at(place_b.s)) / 2
    across = strip.liner_across(place_b.s) - strip.liner_across(place_a.s)
    return across, short_way_around(place_b.a - place_a.a) * mean_radius


def distance(strip: Strip, place_a: TreadPoint, place_b: TreadPoint) -> float:
    """Distance of two places along the liner, the short way around, mm."""
    return math.hypot(*apart(strip, place_a, place_b))


def gap(strip: Strip, place_a: TreadPoint, head_a: Head, place_b: TreadPoint, head_b: Head) -> float:
    """Bare liner between two heads, mm; negative where they overlap.

    Distance between the axes less both radii. Axes lie across or around, so each direction parts them by itself.
    """
    bare = (
        max(0.0, abs(between) - reach_a - reach_b)
        for between, reach_a, reach_b in zip(
            apart(strip, place_a, place_b), head_a.axis_reach, head_b.axis_reach, strict=True
        )
    )
    return math.hypot(*bare) - head_a.radius - head_b.radius


def circle_overlap(a: float, b: float, w: float) -> float:
    """Area common to two flat circles of radii ``a`` and ``b`` whose centers lie ``w`` apart; mm, mm2.

    Two circular segments, back to back on the common chord.
    """
    if w >= a + b:
        return 0.0
    if w <= abs(a - b):
        return math.pi * min(a, b) ** 2
    # Rounding may carry the cosines a hair past 1 and the product below 0 where the circles barely touch.
    half_angle_a = math.acos(_within_one((w * w + a * a - b * b) / (2 * w * a)))
    half_angle_b = math.acos(_within_one((w * w + b * b - a * a) / (2 * w * b)))
    kite = 0.5 * math.sqrt(max(0.0, (-w + a + b) * (w + a - b) * (w - a + b) * (w + a + b)))
    return max(0.0, a * a * half_angle_a + b * b * half_angle_b - kite)


def overlap_area(strip: Strip, place_a: TreadPoint, head_a: Head, place_b: TreadPoint, head_b: Head) -> float:
    """Liner that two heads both cover, true mm2, the short way around.

    Closed form for round heads; oblong ones are cut with each other in the pair's own flat, so that the area is 0
    exactly where the gap is not negative.
    """
    if gap(strip, place_a, head_a, place_b, head_b) >= 0:
        return 0.0
    if head_a.is_round and head_b.is_round:
        return circle_overlap(head_a.radius, head_b.radius, distance(strip, place_a, place_b))
    across, around = apart(strip, place_a, place_b)
    return float(laid_flat(head_a).intersection(translate(laid_flat(head_b), across, around)).area)


def _within_one(cosine: float) -> float:
    return max(-1.0, min(1.0, cosine))
