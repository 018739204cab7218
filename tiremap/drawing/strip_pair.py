"""The distance of the chosen pair on the strip: millimeters along the liner, degrees around."""

from dataclasses import replace

from tiremap.assessment import AssessedMark, AssessedPair, Assessment
from tiremap.drawing.dimensions import holds_its_value
from tiremap.drawing.labels import Lettering, dimension_label, text_shape
from tiremap.drawing.mark_looks import chosen_mark, pair_key
from tiremap.drawing.scene import DimensionLine, SceneMark, View
from tiremap.drawing.shown_reason import shown_reason
from tiremap.drawing.sight import StripWindow, across_in_view
from tiremap.drawing.strip_marks import symbol_places
from tiremap.drawing.wording import length

LIFT = 4.4
"""Paper mm from the line between two centers to its dimension: clear of their symbols."""


def shown_pair(assessment: Assessment, view: View) -> AssessedPair | None:
    """The pair of the shown reason; else the chosen mark and the one pointed at; else it and its nearest."""
    reason = shown_reason(assessment, view)
    if reason is not None and len(reason.subject) == 2:
        return assessment.pair(*reason.subject)
    chosen = chosen_mark(assessment, view)
    if chosen is None:
        return None
    if view.hovered is not None and view.hovered != chosen.id:
        return assessment.pair(chosen.id, view.hovered)
    apart = [(pair, pair.distance_mm) for pair in assessment.pairs_with(chosen.id) if pair.distance_mm is not None]
    return min(apart, key=lambda each: each[1])[0] if apart else None


def pair_ends(
    assessment: Assessment, window: StripWindow, pair: AssessedPair
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """The two copies of a pair in the window that are nearest to each other, or ``None`` where one is out of view."""
    marks = _marks_of(assessment, pair)
    if any(mark.inside_place is None for mark in marks):
        return None
    ones, others = (symbol_places(window, mark) for mark in marks)
    ways = [(one, other) for one in ones for other in others]
    return min(ways, key=lambda way: abs(way[0][1] - way[1][1]), default=None)


def distance_marks(assessment: Assessment, window: StripWindow, view: View) -> list[SceneMark]:
    """Dimension lines of the shown pair: center to center, and the angle at the right side of the strip."""
    pair = shown_pair(assessment, view)
    ends = None if pair is None else pair_ends(assessment, window, pair)
    if pair is None or ends is None or pair.distance_mm is None:
        return []
    key = pair_key(*_marks_of(assessment, pair))
    start, end = sorted(ends)
    low, high = sorted((start[1], end[1]))
    _, x_high = across_in_view(view, window.half_width)
    beside = min(window.half_width, x_high) - 4.0 * view.paper_scale
    words = length(pair.distance_mm, view.unit) + ("" if view.while_dragging else " along the liner")
    along = DimensionLine(start, end, words, key=key, offset=LIFT * view.paper_scale)
    if pair.around_deg is None or high - low <= 2.0 * view.paper_scale:
        return [along]
    angle = f"{pair.around_deg:.1f}°"
    around = DimensionLine((beside, low), (beside, high), angle, key=key)
    if _touch(along, around, view):
        return [replace(along, text=f"{words}, {angle}")]
    return [along, around]


def _touch(one: DimensionLine, other: DimensionLine, view: View) -> bool:
    """Whether the values of two dimension lines would lie on each other, or one has no room on its line."""
    lettering = Lettering(view.paper_scale, view.type_size)
    if not holds_its_value(one, lettering) or not holds_its_value(other, lettering):
        return True
    first, second = (text_shape(dimension_label(each, lettering), lettering) for each in (one, other))
    return bool(first.intersects(second))


def _marks_of(assessment: Assessment, pair: AssessedPair) -> tuple[AssessedMark, AssessedMark]:
    by_id = {mark.id: mark for mark in assessment.marks}
    return by_id[pair.first], by_id[pair.second]
