"""The section as a scene: the tire cut across, what was found in it, and the zone of the rule set above it."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely
from shapely import Geometry

from tiremap.assessment import Assessment
from tiremap.drawing.captions import captions, caution_over_section
from tiremap.drawing.dimensions import value_within, with_arrows
from tiremap.drawing.edges import belt_edge, tread_edge
from tiremap.drawing.ground import TireOf, at_no_mark
from tiremap.drawing.labels import (
    Lettering,
    Shaped,
    Texts,
    Wanted,
    clear_of,
    laid,
    shaped,
    symbol_box,
    texts_of,
)
from tiremap.drawing.lettering import text_box
from tiremap.drawing.mark_looks import chosen_mark, key_of
from tiremap.drawing.nothing_drawn import sentence_scene
from tiremap.drawing.reason_in_section import reason_marks
from tiremap.drawing.scene import DimensionLine, Label, Line, Scene, SceneMark, Symbol, View
from tiremap.drawing.section_edges import edge_marks, zone_marks, zone_name
from tiremap.drawing.section_marks import follow_line, mark_shapes, mark_symbols
from tiremap.drawing.section_tire import tire_marks
from tiremap.drawing.sight import BESIDE_TIRE, across_in_view, drawn_section, half_width_shown, section_of, side
from tiremap.geometry.section import Section
from tiremap.resources import read_toml

REASON_ROW = 7.6
"""Paper mm from the tread to the dimension of the shown reason, over the symbols; its room is always kept."""
ROW_GAP = 1.4
SAME_SPOT = 3.0
"""Paper mm: symbols nearer to each other than this share a label."""


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
    ground = _ground(TireOf(assessment), section, at_no_mark(view))
    lettering = ground.lettering
    shapes = mark_shapes(assessment, section, view)
    reason = [with_arrows(mark, lettering) if isinstance(mark, DimensionLine) else mark
              for mark in reason_marks(assessment, section, view, ground.reason_row)]
    reason = [part for mark in reason for part in value_within(mark, ground.seen, lettering)]
    beside = clear_of(ground.beside, reason, lettering)
    symbols = mark_symbols(assessment, section, view)
    marks: list[SceneMark] = [*ground.under, *shapes]
    chosen = chosen_mark(assessment, view)
    if chosen is not None:
        marks.append(follow_line(section, view, chosen, ground.bottom))
    marks += [*reason, *symbols, *ground.over, *beside]
    marks += laid(
        _wanted(assessment, section, view, symbols),
        () if view.while_dragging else _taken(section, lettering, symbols),
        ground.texts + texts_of([*reason, *beside], lettering), ground.seen, lettering, not view.while_dragging,
    )
    return Scene("section", tuple(marks), ground.frame, view.type_size)


@dataclass(frozen=True, eq=False)
class _Ground:
    """What is the same for every mark on the tire. ``under`` and ``over`` the marks, ``beside`` only where no value of
    a reason stands; ``texts`` are those of ``under`` and ``over``. Heights in mm of the drawing.
    """

    lettering: Lettering
    bottom: float
    reason_row: float
    frame: tuple[float, float, float, float]
    seen: tuple[float, float, float, float]
    under: tuple[SceneMark, ...]
    over: tuple[SceneMark, ...]
    beside: tuple[Shaped, ...]
    texts: Texts


@lru_cache(maxsize=16)
def _ground(tire: TireOf, section: Section, view: View) -> _Ground:
    assessment, lettering = tire.bare, Lettering(view.paper_scale, view.type_size)
    half, tread = _half_width(assessment, section, view), assessment.known_facts.overall_diameter / 2
    bottom = float(section.rim[:, 1].min()) - 3.0 * view.paper_scale
    reason_row = tread + REASON_ROW * view.paper_scale
    line = view.paper_scale * (text_box("0", "label", view.type_size)[1] + ROW_GAP)
    bracket = reason_row + line
    left, right = across_in_view(view, half)
    left, right = left + 2.0 * view.paper_scale, right - 2.0 * view.paper_scale
    said = _head(section, view), caution_over_section(view)
    tall = -captions(assessment, lettering, left, right, 0.0, view.unit, *said)[1]
    name = zone_name(assessment, view, bracket, lettering, right - left)
    top = bracket + 2 * line + tall + (0.0 if name is None else name.text.count("\n") * line)
    frame = (-half, bottom, half, top + view.paper_scale)
    seen = view.visible or frame
    fixed, below = captions(assessment, lettering, left, right, seen[3] - view.paper_scale, view.unit, *said)
    if name is not None and _top(name, lettering) <= below:  # where the window leaves it no room the form names it
        fixed.append(name)
    zone = zone_marks(assessment, section, view, bracket, bottom)
    under = (*tire_marks(section), *edge_marks(assessment, section, view), _center_plane(section, bracket), *zone)
    beside = () if view.composed else shaped(_side_labels(view, half, bottom), lettering)
    return _Ground(
        lettering, bottom, reason_row, frame, seen, under, tuple(fixed), beside, texts_of([*fixed, *zone], lettering)
    )


def _half_width(assessment: Assessment, section: Section, view: View) -> float:
    """Half the width of the frame: shared with the strip, but for a class each drawing stands by itself."""
    if view.type_size == "room":
        return section.widest_half_width + BESIDE_TIRE * view.paper_scale
    return half_width_shown(assessment, view)


def _top(label: Label, lettering: Lettering) -> float:
    """The upper edge of a label that stands above its place."""
    return label.y + lettering.scale * text_box(label.text, label.style, lettering.type_size)[1]


def _head(section: Section, view: View) -> str | None:
    """What the drawing is; on a canvas with the others only what one would not see."""
    if view.composed or view.type_size == "room":
        return "approximate" if section.approximate else None
    return "cut across the tire" + (", approximate" if section.approximate else "")


def _center_plane(section: Section, top: float) -> Line:
    return Line(np.array([(0.0, float(section.liner[:, 1].max()) - 4 * section.thickness), (0.0, top)]), "center_plane")


def _side_labels(view: View, half: float, bottom: float) -> list[Label]:
    """Outboard and inboard, beside the beads."""
    tall = text_box("0", "label", view.type_size)[1]
    x, y = half - 2.0 * view.paper_scale, bottom + max(2.5, 0.5 * tall + 0.5) * view.paper_scale
    right, left = ("outboard", "inboard") if side(view) > 0 else ("inboard", "outboard")
    return [Label(x, y, right, "label", anchor="left"), Label(-x, y, left, "label", anchor="right")]


def _wanted(assessment: Assessment, section: Section, view: View, symbols: list[SceneMark]) -> list[Wanted]:
    """Names of the marks, the chosen one first, then of the edges; symbols on one spot share a label."""
    wanted = [
        Wanted(x, y, text, "label_mark", key, ("right", "left", "above"))
        for x, y, text, key in _named(assessment, view, symbols)
    ]
    if view.while_dragging:
        return wanted[:1]  # the others stand
    chosen = chosen_mark(assessment, view)
    free = -1 if chosen is not None and chosen.outside > 0 else 1  # the half with nothing to read in it
    across = free * side(view)
    outer = section.outer_place(tread_edge(assessment.known_facts).drawn, -2.0 * view.paper_scale)
    sides = ("right above", "right") if across > 0 else ("left above", "left")
    text = "tread edge" if assessment.known_facts.tread_width.stated is not None else "tread edge, estimated"
    wanted.append(Wanted(across * outer.x, outer.r, text.replace(", ", ",\n"), "label_quiet", sides=sides,
                         leads=False, off=section.body))
    across = side(view)
    belt = section.outer_place(-belt_edge(assessment.known_facts).drawn, 0.95 * section.thickness)
    sides = ("right below", "below") if across > 0 else ("left below", "below")
    wanted.append(Wanted(across * belt.x, belt.r, "belt edge", "label_quiet", sides=sides, leads=False,
                         off=section.body))
    return wanted


def _named(assessment: Assessment, view: View, symbols: list[SceneMark]) -> list[tuple[float, float, str, str]]:
    """Place, text and keys of each label; the chosen mark's first."""
    chosen = chosen_mark(assessment, view)
    first = "" if chosen is None else key_of(chosen)
    groups: list[list[Symbol]] = []
    for symbol in sorted((each for each in symbols if isinstance(each, Symbol)), key=lambda each: each.key != first):
        near = (group for group in groups if _on_one_spot(group[0], symbol, view))
        group = next(near, None)
        if group is None:
            groups.append([symbol])
        else:
            group.append(symbol)
    return [
        (group[0].x, group[0].y, ", ".join(each.key.split(".", 1)[1] for each in group),
         " ".join(each.key for each in group))
        for group in groups
    ]


def _on_one_spot(one: Symbol, other: Symbol, view: View) -> bool:
    return max(abs(one.x - other.x), abs(one.y - other.y)) < SAME_SPOT * view.paper_scale


def _taken(section: Section, lettering: Lettering, symbols: list[SceneMark]) -> list[Geometry]:
    size = read_toml("drawing", "styles.toml")["sizes"]["symbol"]
    boxes = [symbol_box(each.x, each.y, lettering, size) for each in symbols if isinstance(each, Symbol)]
    return [section.body, shapely.LineString(section.rim), *boxes]
