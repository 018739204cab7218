"""The channel of an injury: the straight way from the tread to the liner, upright or leaning.

Lean is given by its two tangents against the normal: across (+ when the inside end lies further outboard) and
around (+ towards growing angle). Plain floats; mm and radians.
"""

import math

from shapely import Polygon

from tiremap.geometry import crown
from tiremap.geometry.frames import SectionPoint, TreadPoint
from tiremap.geometry.liner_strip import Strip
from tiremap.geometry.outlines import capsule


def channel_length(thickness: float, tan_across: float, tan_around: float) -> float:
    """Length of the channel through ``thickness`` (mm): thickness over the cosine of the total lean. A stem is longer.

    Crown and tread are taken as flat over the few millimeters that the channel spans.
    """
    return thickness * math.hypot(1, tan_across, tan_around)


def total_lean(tan_across: float, tan_around: float) -> float:
    """Lean as limits speak of it, radians: tan^2 = tan^2 across + tan^2 around."""
    return math.atan(math.hypot(tan_across, tan_around))


def inside_place(strip: Strip, outside: TreadPoint, tan_across: float, tan_around: float) -> TreadPoint:
    """Where a channel that starts at ``outside`` comes out on the liner; the angle goes on past the datum.

    Good to 0.6 mm up to 40 degrees, as `crown.inside_end` is.
    """
    s_inside = crown.inside_end(outside.s, strip.thickness, tan_across)
    along = strip.thickness * tan_around
    return TreadPoint(s_inside, outside.a + along / strip.radius_at(outside.s))


def leans_between(strip: Strip, outside: TreadPoint, inside: TreadPoint) -> tuple[float, float]:
    """The tangents of lean (across, around) of a channel between two measured ends; undoes `inside_place`."""
    along = crown.short_way_around(inside.a - outside.a) * strip.radius_at(outside.s)
    return (inside.s - outside.s) / strip.thickness, along / strip.thickness


def disc_reach_across(size: float, tan_across: float) -> float:
    """How far across from its center a hole of ``size`` mm reaches on a surface that its channel meets leaning, mm."""
    return size / 2 * math.hypot(1, tan_across)


def channel_outline(outer: SectionPoint, inner: SectionPoint, diameter: float) -> Polygon:
    """The channel in the section frame: a capsule of ``diameter`` (mm) from the tread to the liner.

    Lean around shortens it in this view but leaves its width; its ends stand out of both surfaces by a radius, so
    that cut with the rubber it reaches through whatever the lean.
    """
    return capsule(outer, inner, diameter / 2)
