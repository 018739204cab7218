"""The shown reason in the section: its dimension line, and its shape made to stand out."""

from math import hypot

from tiremap.assessment import AssessedMark, Assessment
from tiremap.drawing.edges import belt_edge, tread_edge, zone_edge
from tiremap.drawing.mark_looks import chosen_mark, key_of
from tiremap.drawing.scene import Area, DimensionLine, SceneMark, View
from tiremap.drawing.section_marks import channel_ends
from tiremap.drawing.section_tire import drawn_size, liner_band
from tiremap.drawing.shown_reason import margin_words, shown_reason
from tiremap.drawing.sight import side
from tiremap.drawing.wording import length
from tiremap.geometry.channel import channel_outline
from tiremap.geometry.section import Section
from tiremap.rules.reasons import Reason


def reason_marks(assessment: Assessment, section: Section, view: View, row: float) -> list[SceneMark]:
    """Dimension and highlight of the shown reason; ``row`` is the height kept free for it above the tread."""
    reason = shown_reason(assessment, view) or _place_of_chosen(assessment, view)
    if reason is None or len(reason.subject) != 1:
        return []
    mark = assessment.mark(reason.subject[0])
    if mark is None:
        return []
    if reason.code == "place":
        return _place(assessment, section, view, mark, reason, row)
    if reason.code == "hole_size":
        return _hole_size(section, view, mark, reason, row)
    if reason.code in ("head_at_tread_edge", "head_at_belt_edge"):
        return _head(assessment, section, view, mark, reason)
    return []


def _place_of_chosen(assessment: Assessment, view: View) -> Reason | None:
    """With no reason shown the chosen injury's margin to the zone's limit is: what one wants to see first."""
    chosen = None if view.shown_reason is not None else chosen_mark(assessment, view)
    return None if chosen is None else next((each for each in chosen.reasons if each.code == "place"), None)


def disc_reach(mark: AssessedMark) -> float:
    """How far across the prepared hole reaches from its center, mm: more where it leans."""
    channel = mark.facts.channel
    size = channel.high if channel.stated is None and channel.high < 100 else channel.stated or 0.0
    return size / 2 * hypot(1.0, mark.facts.lean_across.stated or 0.0)


def outward(place: float) -> int:
    """+1 for a place outboard of the center plane, else -1."""
    return 1 if place >= 0 else -1


def worst_end(mark: AssessedMark) -> float:
    """The end of the channel that lies further from the center plane, tread coordinate."""
    return max((mark.outside, mark.inside), key=abs)


def _place(
    assessment: Assessment, section: Section, view: View, mark: AssessedMark, reason: Reason, row: float
) -> list[SceneMark]:
    edge = zone_edge(assessment)
    if edge is None:
        return []
    end, across = worst_end(mark), side(view)
    disc = section.outer_place(end + outward(end) * disc_reach(mark)).x
    limit = section.outer_place(outward(end) * edge.drawn).x
    outer, inner = channel_ends(section, view, mark)
    shape = channel_outline(outer, inner, max(2.0, 2 * disc_reach(mark))).intersection(section.body)
    return [
        Area(shape, "shown", key_of(mark)),
        DimensionLine((across * disc, row), (across * limit, row), margin_words(reason, view), "dimension_shown",
                      key_of(mark)),
    ]


def _hole_size(section: Section, view: View, mark: AssessedMark, reason: Reason, row: float) -> list[SceneMark]:
    size = reason.value
    if size is None:
        return []
    outer, inner = channel_ends(section, view, mark)
    shape = channel_outline(outer, inner, size).intersection(section.body)
    text = f"{length(size, view.unit)}, limit {length(reason.limit, view.unit)}" if reason.limit else ""
    return [
        Area(shape, "shown", key_of(mark)),
        DimensionLine((outer.x - size / 2, row), (outer.x + size / 2, row), text, "dimension_shown", key_of(mark)),
    ]


def _head(
    assessment: Assessment, section: Section, view: View, mark: AssessedMark, reason: Reason
) -> list[SceneMark]:
    if mark.head is None:
        return []
    edge = tread_edge if reason.code == "head_at_tread_edge" else belt_edge
    across, reach, out = side(view), mark.head.reach_across, outward(mark.inside)
    end = section.liner_place(mark.inside + out * reach)
    limit = section.liner_place(out * edge(assessment.known_facts).drawn)
    below = min(end.r, limit.r) - 7.0 * view.paper_scale
    shape = liner_band(section, across, mark.inside - reach, mark.inside + reach, drawn_size("head_thickness"))
    return [
        Area(shape, "shown", key_of(mark)),
        DimensionLine((across * end.x, below), (across * limit.x, below), margin_words(reason, view),
                      "dimension_shown", key_of(mark)),
    ]
