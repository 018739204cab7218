"""Tread edges, belt edges and the crown zone in the section: a line where measured, a band where not."""

import numpy as np
from shapely import Polygon

from tiremap.assessment import Assessment
from tiremap.drawing.edges import Edge, belt_edge, refused_beyond, tread_edge, zone_edge
from tiremap.drawing.labels import Lettering
from tiremap.drawing.lettering import broken, text_box
from tiremap.drawing.scene import Area, DimensionLine, Label, Line, SceneMark, View
from tiremap.drawing.section_tire import normal_line
from tiremap.drawing.sight import side
from tiremap.drawing.wording import length, span
from tiremap.geometry.section import Section

BOTH_SIDES = (-1, 1)


def edge_marks(assessment: Assessment, section: Section, view: View) -> list[SceneMark]:
    """Short marks where tread and belts end."""
    tread, belt = tread_edge(assessment.known_facts), belt_edge(assessment.known_facts)
    tick = 3.0 * view.paper_scale
    marks: list[SceneMark] = []
    for edge_side in BOTH_SIDES:
        if tread.estimated:
            marks.append(Area(_band_above(section, edge_side, tread, tick), "tread_edge_band"))
        outer, above = (section.outer_place(edge_side * tread.drawn, depth) for depth in (0.0, -tick))
        if not tread.estimated:
            marks.append(Line(np.array([outer, above]), "tread_edge"))
        ends = (section.outer_place(edge_side * belt.drawn, share * section.thickness) for share in (0.45, 0.95))
        marks.append(Line(np.array(list(ends)), "belt_edge"))
    return marks


def zone_marks(assessment: Assessment, section: Section, view: View, bracket: float, bottom: float) -> list[SceneMark]:
    """The crown zone as a bracket at the height ``bracket``, its limits dropped along the normal to ``bottom``."""
    edge, outer = zone_edge(assessment), refused_beyond(assessment)
    if edge is None:
        return []
    marks: list[SceneMark] = []
    for each, style in ((edge, "zone_limit"), (outer, "zone_outer")):
        if each is not None:
            marks += _limits(section, side(view), each, style, bracket, bottom)
    reach = section.outer_place(edge.drawn).x
    drop = 1.5 * view.paper_scale
    feet = bracket - drop
    corners = [(-reach, feet), (-reach, bracket), (reach, bracket), (reach, feet)]
    marks.append(Line(np.array(corners), "zone_bracket"))
    half = length(edge.drawn, view.unit)
    text = f"about {half}" if edge.estimated else half
    marks.append(DimensionLine((0.0, bracket), (reach, bracket), text, "dimension_zone"))
    return marks


def zone_name(assessment: Assessment, view: View, bracket: float, lettering: Lettering, width: float) -> Label | None:
    """The zone's name over its bracket, with the range of an estimated one."""
    edge, rule_set = zone_edge(assessment), assessment.rule_set
    if edge is None or rule_set is None:
        return None
    text = f"crown zone, {rule_set.title}"
    if edge.estimated:
        text += f" (estimated: {span(edge.low, edge.high, view.unit)})"
    text = broken(text, "label_zone", lettering.type_size, width / lettering.scale)
    row = lettering.scale * text_box("0", "dimension_zone", lettering.type_size)[1]
    return Label(0.0, bracket + row + 0.8 * lettering.scale, text, "label_zone", anchor="above")


def _limits(section: Section, across: int, edge: Edge, style: str, top: float, bottom: float) -> list[SceneMark]:
    marks: list[SceneMark] = []
    for edge_side in BOTH_SIDES:
        if edge.estimated:
            low, high = (normal_line(section, across, edge_side * s, top, bottom) for s in (edge.low, edge.high))
            marks.append(Area(Polygon(np.vstack([low, high[::-1]])), "zone_band"))
        else:
            marks.append(Line(normal_line(section, across, edge_side * edge.drawn, top, bottom), style))
    return marks


def _band_above(section: Section, edge_side: int, edge: Edge, height: float) -> Polygon:
    """The band above the tread in which an estimated edge lies; it is alike on both sides."""
    across = np.linspace(edge.low, edge.high, 15)
    on = [section.outer_place(edge_side * s) for s in across]
    above = [section.outer_place(edge_side * s, -height) for s in across]
    return Polygon([*on, *above[::-1]])
