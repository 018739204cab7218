"""From a point of a drawing to a place on the tire and back, and which mark lies there. Geometry only.

Drawing points in mm, as scenes use them; tread coordinate ``s`` in mm, angles in radians.
"""

import math
from typing import Literal

import shapely
from shapely import LineString, Point

from tiremap.assessment import AssessedMark, Assessment
from tiremap.drawing import ring_scene, section_marks, strip_marks
from tiremap.drawing.scene import View
from tiremap.drawing.sight import section_of, side, strip_window

DrawingName = Literal["section", "strip", "ring"]


def section_place(assessment: Assessment, view: View, x: float, y: float) -> float | None:
    """Tread coordinate of the tread nearest to a point of the section, or ``None`` where there is no section."""
    section = section_of(assessment)
    return None if section is None else section.tread_coordinate(side(view) * x, y)


def section_point(assessment: Assessment, view: View, s: float) -> tuple[float, float] | None:
    """Where a tread coordinate lies on the outer surface of the section."""
    section = section_of(assessment)
    if section is None:
        return None
    x, r = section.outer_place(s)
    return side(view) * x, r


def strip_place(assessment: Assessment, view: View, x: float, y: float) -> tuple[float, float] | None:
    """Tread coordinate and angle (0 to a whole turn) of a point of the strip, or ``None`` while the tire is unknown."""
    if assessment.strip is None:
        return None
    window = strip_window(assessment, view)
    angle = (window.middle - y) / window.strip.R0 % math.tau
    return window.strip.tread_across(window.side * x), 0.0 if angle >= math.tau else angle


def strip_point(assessment: Assessment, view: View, s: float, a: float) -> tuple[float, float] | None:
    """Where a place lies on the strip: the copy nearest to the middle of the window."""
    if assessment.strip is None:
        return None
    window = strip_window(assessment, view)
    return window.x(s), window.height(a)


def ring_angle(view: View, x: float, y: float) -> float:
    """Angle from the datum (0 to a whole turn) of a point of the ring."""
    angle = (math.atan2(x, y) - view.datum_hour / 12 * math.tau) % math.tau
    return 0.0 if angle >= math.tau else angle


def ring_point(view: View, a: float, radius: float) -> tuple[float, float]:
    """Where an angle lies on the ring, ``radius`` mm from the axle."""
    return ring_scene.ring_point(view, a, radius)


def marks_at(
    assessment: Assessment, view: View, drawing: DrawingName, x: float, y: float, within_mm: float
) -> tuple[str, ...]:
    """Ids of the marks within ``within_mm`` (tire mm) of a point of a drawing, the nearest first.

    Inside several heads the one whose center is nearest comes first; of two as near, injuries before repairs.
    """
    away = {"section": _from_section, "strip": _from_strip, "ring": _from_ring}[drawing]
    found = [(away(assessment, view, mark, x, y), mark) for mark in assessment.marks]
    near = [(distance, mark) for distance, mark in found if distance is not None and distance[0] <= within_mm]
    return tuple(mark.id for _, mark in sorted(near, key=lambda each: each[0]))


def mark_at(
    assessment: Assessment, view: View, drawing: DrawingName, x: float, y: float, within_mm: float
) -> str | None:
    """Id of the mark nearest to a point of a drawing, or ``None`` if none is within ``within_mm`` (tire mm)."""
    return next(iter(marks_at(assessment, view, drawing, x, y, within_mm)), None)


Away = tuple[float, float]
"""Distance to a mark's shape, then to its middle, mm."""


def _from_section(assessment: Assessment, view: View, mark: AssessedMark, x: float, y: float) -> Away | None:
    section = section_of(assessment)
    if section is None:
        return None
    symbol = math.dist((x, y), section_marks.symbol_place(section, view, mark))
    if not mark.facts.is_injury:
        return symbol, symbol
    channel = LineString(section_marks.channel_ends(section, view, mark))
    near = min(symbol, shapely.distance(channel, Point(x, y)))
    return near, near


def _from_strip(assessment: Assessment, view: View, mark: AssessedMark, x: float, y: float) -> Away | None:
    if assessment.strip is None:
        return None
    window = strip_window(assessment, view)
    if mark.inside_place is None:
        off = abs(x - window.x(mark.inside))
        return off, off
    middles = [math.dist((x, y), place) for place in strip_marks.symbol_places(window, mark)]
    heads = [] if mark.ground is None else [
        shapely.distance(shape, Point(x, y)) for shape in window.laid(mark.ground.head)
    ]
    if not middles and not heads:
        return None
    middle = min(middles, default=min(heads, default=math.inf))
    return min([middle, *heads]), middle


def _from_ring(assessment: Assessment, view: View, mark: AssessedMark, x: float, y: float) -> Away | None:
    if assessment.facts is None:
        return None
    away = math.dist((x, y), ring_scene.symbol_place(assessment, view, mark))
    return away, away
