"""The shown reason on the strip: its dimension line, and its shapes made to stand out."""

import numpy as np
from shapely import Point

from tiremap.assessment import AssessedMark, Assessment
from tiremap.drawing.edges import belt_edge, tread_edge, zone_edge
from tiremap.drawing.mark_looks import key_of, pair_key
from tiremap.drawing.reason_in_section import disc_reach, outward, worst_end
from tiremap.drawing.scene import Area, DimensionLine, SceneMark, View
from tiremap.drawing.shown_reason import margin_words, shown_reason
from tiremap.drawing.sight import StripWindow
from tiremap.drawing.strip_marks import symbol_places
from tiremap.drawing.strip_pair import pair_ends, shown_pair
from tiremap.drawing.wording import length
from tiremap.rules.reasons import Reason

LIFT = 4.4
"""Paper mm from a mark up to its dimension line: over its symbol."""


def reason_marks(assessment: Assessment, window: StripWindow, view: View) -> list[SceneMark]:
    """Dimension and highlight of the shown reason."""
    reason = shown_reason(assessment, view)
    if reason is None or not reason.subject:
        return []
    if len(reason.subject) == 2:
        return _pair(assessment, window, view, reason)
    mark = assessment.mark(reason.subject[0])
    if mark is None or not mark.facts.is_injury:
        return []
    found: list[SceneMark] = []
    for place in symbol_places(window, mark):
        if reason.code == "place":
            found += _place(assessment, window, view, mark, reason, place)
        elif reason.code == "hole_size":
            found += _hole_size(view, mark, reason, place)
        elif reason.code in ("head_at_tread_edge", "head_at_belt_edge"):
            found += _head(assessment, window, view, mark, reason, place)
    return found


def _place(
    assessment: Assessment, window: StripWindow, view: View, mark: AssessedMark, reason: Reason,
    place: tuple[float, float],
) -> list[SceneMark]:
    edge = zone_edge(assessment)
    if edge is None:
        return []
    end = worst_end(mark)
    out, y = outward(end), place[1]
    disc, limit = window.x(end + out * disc_reach(mark)), window.x(out * edge.drawn)
    return [
        Area(Point(window.x(end), y).buffer(max(1.0, disc_reach(mark))), "shown", key_of(mark)),
        _level(disc, limit, y, margin_words(reason, view), key_of(mark), view),
    ]


def _hole_size(view: View, mark: AssessedMark, reason: Reason, place: tuple[float, float]) -> list[SceneMark]:
    if reason.value is None:
        return []
    x, y = place
    half = reason.value / 2
    text = length(reason.value, view.unit)
    text += f", limit {length(reason.limit, view.unit)}" if reason.limit is not None else ""
    return [
        Area(Point(x, y).buffer(half), "shown", key_of(mark)),
        _level(x - half, x + half, y, text, key_of(mark), view),
    ]


def _head(
    assessment: Assessment, window: StripWindow, view: View, mark: AssessedMark, reason: Reason,
    place: tuple[float, float],
) -> list[SceneMark]:
    if mark.ground is None or mark.head is None:
        return []
    edge = tread_edge if reason.code == "head_at_tread_edge" else belt_edge
    out, y = outward(mark.inside), place[1]
    end = window.x(mark.inside + out * mark.head.reach_across)
    limit = window.x(out * edge(assessment.known_facts).drawn)
    shapes = [Area(shape, "shown", key_of(mark)) for shape in window.laid(mark.ground.head)]
    return [*shapes, _level(end, limit, y, margin_words(reason, view), key_of(mark), view)]


def _pair(assessment: Assessment, window: StripWindow, view: View, reason: Reason) -> list[SceneMark]:
    """The gap between two heads, or how deep they overlap, on the line between their centers."""
    first, second = (assessment.mark(each) for each in reason.subject)
    pair = shown_pair(assessment, view)
    if first is None or second is None or pair is None:
        return []
    key = pair_key(first, second)
    marks: list[SceneMark] = [
        Area(shape, "shown", key) for mark in (first, second) if mark.ground is not None
        for shape in window.laid(mark.ground.buffed if _is_buffed(mark, reason) else mark.ground.head)
    ]
    ends = pair_ends(assessment, window, pair)
    if ends is None or first.head is None or second.head is None or reason.margin is None:
        return marks
    one, other = (np.array(each) for each in ends)
    apart = float(np.hypot(*(other - one))) or 1.0
    border = assessment.stock.beyond_the_head.border
    reaches = [
        head.radius + (border if _is_buffed(mark, reason) else 0.0)
        for mark, head in ((first, first.head), (second, second.head))
    ]
    along = (other - one) / apart
    near = one + along * min(apart, reaches[0])
    far = other - along * min(apart, reaches[1])
    word = "gap" if reason.margin >= 0 else "overlap"
    text = f"{word} {length(abs(reason.margin), view.unit)}"
    away = 6.0 * view.paper_scale
    ways = sorted((tuple(near), tuple(far)))
    return [*marks, DimensionLine(ways[0], ways[1], text, "dimension_shown", key, away)]


def _is_buffed(mark: AssessedMark, reason: Reason) -> bool:
    """Whether the reason speaks of the buffed area of this mark, and not of its head."""
    return reason.code == "buffed_overlap" or (reason.code == "earlier_head_buffed" and mark.facts.is_injury)


def _level(x_one: float, x_other: float, y: float, text: str, key: str, view: View) -> DimensionLine:
    """A level dimension, lifted clear of the symbol."""
    low, high = sorted((x_one, x_other))
    return DimensionLine((low, y), (high, y), text, "dimension_shown", key, LIFT * view.paper_scale)
