"""The section as a scene: the tire cut across, what was found in it, and the zone of the rule set above it."""

import numpy as np
import shapely
from shapely import Geometry

from tiremap.assessment import Assessment
from tiremap.drawing.captions import captions
from tiremap.drawing.edges import belt_edge, tread_edge
from tiremap.drawing.labels import Lettering, Wanted, laid, symbol_box
from tiremap.drawing.mark_looks import chosen_mark, key_of
from tiremap.drawing.nothing_drawn import sentence_scene
from tiremap.drawing.reason_in_section import reason_marks
from tiremap.drawing.scene import Label, Line, Scene, SceneMark, Symbol, View
from tiremap.drawing.section_edges import edge_marks, zone_marks, zone_name
from tiremap.drawing.section_marks import follow_line, mark_shapes, mark_symbols
from tiremap.drawing.section_tire import tire_marks
from tiremap.drawing.sight import drawn_section, half_width_shown, section_of, side
from tiremap.geometry.section import Section
from tiremap.resources import read_toml

REASON_ROW, BRACKET_ROW, NAME_ROOM = 8.0, 13.5, 11.0
"""Paper mm above the tread: the shown reason's dimension, the zone's bracket; and the room for the zone's name."""


def section_scene(assessment: Assessment, view: View) -> Scene:
    """The section of the job's tire, or a sentence that says why there is none."""
    if assessment.section_inputs is None:
        return sentence_scene("section", "Type the tire's size code to draw its section.", view, view.paper_scale)
    section = section_of(assessment)
    if section is None:
        why = drawn_section(assessment.section_inputs)
        half = half_width_shown(assessment, view)
        return sentence_scene("section", str(why), view, view.paper_scale, half)
    return _drawn(assessment, section, view)


def _drawn(assessment: Assessment, section: Section, view: View) -> Scene:
    lettering = Lettering(view.paper_scale, view.type_size)
    half, tread = half_width_shown(assessment, view), assessment.facts.overall_diameter / 2
    bottom = float(section.rim[:, 1].min()) - 3.0 * view.paper_scale
    bracket = tread + BRACKET_ROW * _grown(view) * view.paper_scale
    inner = half - 2.0 * view.paper_scale
    head = "cut across the tire" + (", approximate" if section.approximate else "")
    tall = -captions(assessment, lettering, -inner, inner, 0.0, view.unit, head)[1]
    top = bracket + NAME_ROOM * _grown(view) * view.paper_scale + tall
    fixed, _ = captions(assessment, lettering, -inner, inner, top, view.unit, head)
    name = zone_name(assessment, view, bracket, lettering, 2 * inner)
    fixed += [name] if name else []
    fixed += _side_labels(section, view)
    shapes = mark_shapes(assessment, section, view)
    reason = reason_marks(assessment, section, view, tread + REASON_ROW * _grown(view) * view.paper_scale)
    zone = zone_marks(assessment, section, view, bracket, bottom)
    symbols = mark_symbols(assessment, section, view)
    frame = (-half, bottom, half, top + view.paper_scale)
    fixed_text = [*fixed, *zone, *reason]
    marks: list[SceneMark] = [
        *tire_marks(section), *edge_marks(assessment, section, view), _center_plane(section, bracket), *zone, *shapes,
    ]
    chosen = chosen_mark(assessment, view)
    if chosen is not None:
        marks.append(follow_line(section, view, chosen, bottom))
    marks += [*reason, *symbols, *fixed]
    marks += laid(
        _wanted(assessment, section, view, symbols), _taken(section, lettering, symbols), fixed_text, frame, lettering,
        not view.while_dragging,
    )
    return Scene("section", tuple(marks), frame, view.type_size)


def _grown(view: View) -> float:
    """How much more room rows need for larger type than on screen."""
    heights = read_toml("drawing", "styles.toml")["text"]
    return max(0.8, heights[view.type_size]["label"] / heights["screen"]["label"])


def _center_plane(section: Section, top: float) -> Line:
    return Line(np.array([(0.0, float(section.liner[:, 1].max()) - 4 * section.thickness), (0.0, top)]), "center_plane")


def _side_labels(section: Section, view: View) -> list[Label]:
    """Outboard and inboard, written in the cavity by their sidewalls."""
    widest = section.liner[int(np.argmax(section.liner[:, 0]))]
    x, r = float(widest[0]) - 2.0 * view.paper_scale, float(widest[1])
    across = side(view)
    return [
        Label(across * x, r, "outboard", "label", anchor="left" if across > 0 else "right"),
        Label(-across * x, r, "inboard", "label", anchor="right" if across > 0 else "left"),
    ]


def _wanted(assessment: Assessment, section: Section, view: View, symbols: list[SceneMark]) -> list[Wanted]:
    """Names of the marks, the chosen one first, then of the edges."""
    chosen = chosen_mark(assessment, view)
    first = "" if chosen is None else key_of(chosen)
    named = [symbol for symbol in symbols if isinstance(symbol, Symbol)]
    wanted = [
        Wanted(symbol.x, symbol.y, symbol.key.split(".", 1)[1], "label_mark", symbol.key, ("right", "left", "above"))
        for symbol in sorted(named, key=lambda symbol: symbol.key != first)
    ]
    across = side(view)
    outer = section.outer_place(tread_edge(assessment.facts).drawn, -2.0 * view.paper_scale)
    sides = ("right", "right above") if across > 0 else ("left", "left above")
    wanted.append(Wanted(across * outer.x, outer.r, "tread edge", "label_quiet", sides=sides))
    belt = section.outer_place(-belt_edge(assessment.facts).drawn, 0.95 * section.thickness)
    sides = ("right below", "below") if across > 0 else ("left below", "below")
    wanted.append(Wanted(across * belt.x, belt.r, "belt edge", "label_quiet", sides=sides))
    return wanted


def _taken(section: Section, lettering: Lettering, symbols: list[SceneMark]) -> list[Geometry]:
    size = read_toml("drawing", "styles.toml")["sizes"]["symbol"]
    boxes = [symbol_box(each.x, each.y, lettering, size) for each in symbols if isinstance(each, Symbol)]
    return [section.body, shapely.LineString(section.rim), *boxes]
