"""The crown zones of all guidance one under another across one tread, with the injury through all of them.

Drawing frame: ``x`` as the section's, ``y`` lanes from 0 downward. Half-widths are as drawn, never for an answer.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from shapely import box

from tiremap.assessment import AssessedMark, Assessment
from tiremap.drawing.edges import refused_beyond, tread_edge, zone_edge
from tiremap.drawing.labels import Lettering
from tiremap.drawing.lettering import broken, text_box
from tiremap.drawing.mark_looks import chosen_mark, key_of
from tiremap.drawing.scene import Anchor, Area, Label, Line, Scene, SceneMark, Symbol, View
from tiremap.drawing.sight import side
from tiremap.drawing.wording import length


class Lane(NamedTuple):
    """One guidance: its short title, the assessment by it, and whether it is the one followed."""

    title: str
    assessment: Assessment
    own: bool


def guidance_scene(assessment: Assessment, lanes: Sequence[Lane], view: View, tall: float, answers: bool) -> Scene:
    """The lanes; ``tall`` is the height of the room as a share of its width; ``answers`` shows what each says."""
    lettering = Lettering(view.paper_scale, view.type_size)
    line = view.paper_scale * text_box("0", "label", view.type_size)[1]
    edge = tread_edge(assessment.known_facts)
    half = edge.drawn + 3.0 * view.paper_scale
    head, foot = 1.5 * line, 0.3 * line
    lane = max(line, (2 * half * tall - head - foot) / max(len(lanes), 1))
    bottom = -lane * len(lanes) - foot
    mark, across = chosen_mark(assessment, view), side(view)
    marks: list[SceneMark] = []
    for s, name in ((-edge.drawn, "tread edge"), (0.0, "center"), (edge.drawn, "tread edge")):
        marks.append(Line(np.array([(s, 0.3 * line), (s, bottom)]), "tread_edge" if s else "center_plane"))
        anchor: Anchor = "center" if not s else ("right" if s < 0 else "left")
        marks.append(Label(s, 0.85 * line, name, "label", anchor=anchor))
    if mark is not None and mark.facts.is_injury:
        marks += _stripe(mark, across, bottom)
    for number, each in enumerate(lanes):
        marks += _lane(each, -lane * (number + 1), lane, line, lettering, half, view)
    if answers:
        marks += _answers(lanes, view, lane, line, half)
    return Scene("guidance", tuple(marks), (-half, bottom, half, head), view.type_size)


def _lane(
    each: Lane, y: float, lane: float, line: float, lettering: Lettering, half: float, view: View
) -> list[SceneMark]:
    """The title over the band, its half-width at the right; two edges where there are two."""
    words = y + min(lane - 0.5 * line, 1.25 * line)
    style = "lane_own" if each.own else "lane"
    zone, outer = zone_edge(each.assessment), refused_beyond(each.assessment)
    title = broken(each.title, "label_mark" if each.own else "label", lettering.type_size, 1.4 * half / lettering.scale)
    title = title.split("\n")[0]
    marks: list[SceneMark] = [Label(-half, words, title, "label_mark" if each.own else "label",
                                    anchor="right")]
    if zone is None:
        return marks
    band = y + 0.45 * line
    for reach, look in ((zone.drawn, style), (None if outer is None else outer.drawn, "lane_maker")):
        if reach is not None:
            foot = 0.28 * line
            corners = [(-reach, band - foot), (-reach, band), (reach, band), (reach, band - foot)]
            marks.append(Line(np.array(corners), look))
    about = "about " if zone.estimated else ""
    marks.append(Label(half, words, f"{about}{length(zone.drawn, view.unit)}", "label_zone", anchor="left"))
    return marks


def _stripe(mark: AssessedMark, across: int, bottom: float) -> list[SceneMark]:
    """The hole through all lanes: from where it enters to where it comes out inside."""
    size = mark.facts.channel.stated or 2.0
    low, high = sorted((mark.outside, mark.inside))
    ends = sorted((across * (low - size / 2), across * (high + size / 2)))
    return [Area(box(ends[0], bottom, ends[1], 0.0), "stripe", key_of(mark))]


def _answers(lanes: Sequence[Lane], view: View, lane: float, line: float, half: float) -> list[SceneMark]:
    """What each guidance says of the chosen injury by itself, as its symbol on the band."""
    marks: list[SceneMark] = []
    for number, each in enumerate(lanes):
        mark = chosen_mark(each.assessment, view)
        if mark is not None and mark.facts.is_injury:
            x = half - 3.2 * view.paper_scale
            y = -lane * (number + 1) + 0.45 * line
            marks.append(Symbol(x, y, each.assessment.own_answer(mark), key_of(mark)))
    return marks
