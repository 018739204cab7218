"""Injuries and repairs on the strip: buffed outlines, heads, holes, overlaps and symbols."""

from itertools import combinations

import numpy as np
import shapely
from shapely import Geometry, Point

from tiremap.assessment import AssessedMark, Assessment
from tiremap.drawing.mark_looks import (
    drawn_marks,
    from_back_to_front,
    head_style,
    is_unsound,
    key_of,
    pair_key,
    symbol_of,
)
from tiremap.drawing.scene import Area, Line, SceneMark, Symbol, View
from tiremap.drawing.section_marks import THINNEST_CHANNEL
from tiremap.drawing.sight import StripWindow

Overlap = tuple[Geometry, float, str]
"""A shape in the drawing, its true area (mm2), and the key of the pair."""


def mark_shapes(assessment: Assessment, window: StripWindow, view: View) -> list[SceneMark]:
    """Buffed ground of all, then heads and holes, the chosen one in front; a dashed line where around is unknown."""
    marks = drawn_marks(assessment, view)
    shapes: list[SceneMark] = []
    for mark in marks:
        if mark.ground is not None and mark.facts.is_injury:
            shapes += [Area(shape, "buffed", key_of(mark)) for shape in window.laid(mark.ground.buffed)]
    for mark in marks:
        if mark.inside_place is None:
            x, half = window.x(mark.inside), window.length / 2
            shapes.append(Line(np.array([(x, -half), (x, half)]), "around_unknown", key_of(mark)))
        else:
            shapes += _placed(assessment, window, view, mark)
    return shapes


def overlaps(assessment: Assessment, window: StripWindow, heads: bool) -> list[Overlap]:
    """Where two heads, or two buffed areas, lie on each other in the window."""
    found: list[Overlap] = []
    grounds = [(mark, mark.ground) for mark in assessment.marks if mark.ground is not None]
    areas = {
        (pair.first, pair.second): pair.head_overlap_mm2 if heads else pair.buffed_overlap_mm2
        for pair in assessment.pairs
    }
    for (first, ground), (second, others_ground) in combinations(grounds, 2):
        area = areas.get((first.id, second.id))
        if not area:
            continue
        ones, others = (
            window.laid(each.head if heads else each.buffed) for each in (ground, others_ground)
        )
        for one in ones:
            for other in others:
                shared = one.intersection(other)
                if not shared.is_empty and shared.area > 1e-6:
                    found.append((shared, area, pair_key(first, second)))
    return found


def mark_symbols(assessment: Assessment, window: StripWindow, view: View) -> list[Symbol]:
    """A symbol on every copy of every mark in view; in the middle of the window where around is unknown."""
    symbols = []
    for mark in from_back_to_front(assessment, view):
        for x, y in symbol_places(window, mark):
            symbols.append(symbol_of(assessment, view, mark, x, y))
    return symbols


def symbol_places(window: StripWindow, mark: AssessedMark) -> list[tuple[float, float]]:
    """Where a mark's symbol stands: on its inside end."""
    if mark.inside_place is None:
        return [(window.x(mark.inside), 0.0)]
    return [(window.x(mark.inside_place.s), y) for y in window.heights(mark.inside_place.a)]


def _placed(assessment: Assessment, window: StripWindow, view: View, mark: AssessedMark) -> list[SceneMark]:
    key = key_of(mark)
    shapes: list[SceneMark] = []
    if mark.ground is not None:
        for head in window.laid(mark.ground.head):
            shapes.append(Area(head, head_style(assessment, mark), key))
            if view.chosen == mark.id:
                shapes.append(Area(head, "chosen", key))
            if is_unsound(assessment, mark):
                x_low, y_low, x_high, y_high = head.bounds
                shapes.append(Line(np.array([(x_low, y_low), (x_high, y_high)]), "strike", key))
    if mark.facts.is_injury:
        size = max(THINNEST_CHANNEL, mark.facts.channel.stated or 0.0)
        for x, y in symbol_places(window, mark):
            shapes.append(Area(Point(x, y).buffer(size / 2), "hole", key))
            shapes += _lean(window, mark, x, y, key)
    return shapes


def _lean(window: StripWindow, mark: AssessedMark, x: float, y: float, key: str) -> list[SceneMark]:
    """From where a leaning channel enters outside to where it comes out; nothing for an upright one."""
    if mark.around is None or mark.inside_place is None:
        return []
    up = (mark.inside_place.a - mark.around) * window.strip.R0
    outside = (window.x(mark.outside), y + up)
    if np.hypot(outside[0] - x, up) < 1.0:
        return []
    return [
        Line(np.array([outside, (x, y)]), "spoke", key),
        Area(shapely.Point(outside).buffer(THINNEST_CHANNEL / 2), "hole", key),
    ]
