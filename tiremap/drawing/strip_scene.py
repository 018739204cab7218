"""The liner strip as a scene: the liner rolled flat, seen from inside, under the section and on its scale."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely
from shapely import Geometry, LineString

from tiremap.assessment import Assessment
from tiremap.drawing.captions import captions
from tiremap.drawing.dimensions import value_aside
from tiremap.drawing.ground import TireOf, at_no_mark
from tiremap.drawing.labels import (
    Lettering,
    Shaped,
    Texts,
    Wanted,
    clear_of,
    dimension_ends,
    laid,
    shaped,
    symbol_box,
    text_height,
    texts_of,
)
from tiremap.drawing.lettering import text_box
from tiremap.drawing.mark_looks import chosen_mark, key_of
from tiremap.drawing.nothing_drawn import sentence_scene
from tiremap.drawing.reason_on_strip import reason_marks
from tiremap.drawing.scene import Area, DimensionLine, Label, Line, Scene, SceneMark, Symbol, View, keys_of
from tiremap.drawing.shown_reason import shown_reason
from tiremap.drawing.sight import StripWindow, across_in_view, beside_strip, half_width_shown, strip_window
from tiremap.drawing.strip_free import free_areas, free_in_words, free_label
from tiremap.drawing.strip_ground import datum_marks, edge_marks, ground_marks, tick_marks, window_outline
from tiremap.drawing.strip_marks import Overlap, mark_shapes, mark_symbols, overlaps
from tiremap.drawing.strip_pair import distance_marks
from tiremap.drawing.wording import ANSWER_WORDS, OWN_WORDS, area
from tiremap.free_places import FreePlaces
from tiremap.resources import read_toml


def strip_scene(assessment: Assessment, view: View, free: FreePlaces | None = None) -> Scene:
    """The part of the liner strip in view, or a sentence while the tire is unknown.

    ``free`` is where one more unit could go, if that is to be shown.
    """
    if assessment.strip is None:
        return sentence_scene("strip", "The liner strip is drawn once the size is known.", view, view.paper_scale)
    head = None if free is None or view.composed else free_in_words(free, view.unit)
    ground = _ground(TireOf(assessment), at_no_mark(view), head)
    window, lettering = ground.window, ground.lettering
    heads, buffed = overlaps(assessment, window, heads=True), overlaps(assessment, window, heads=False)
    symbols = mark_symbols(assessment, window, view)
    reason = reason_marks(assessment, window, view)
    distances = [] if _speaks_for_itself(assessment, view) else distance_marks(assessment, window, view)
    values, lines = _values_aside(assessment, window, [*distances, *reason], lettering)
    could_go = [] if free is None else free_areas(free, window)
    beside = clear_of(ground.beside, lines, lettering)
    marks: list[SceneMark] = [
        *ground.liner, *could_go, *ground.edges,
        *_follow(assessment, window, view),
        *mark_shapes(assessment, window, view),
        *(Area(shape, "buffed_overlap", key) for shape, _, key in buffed),
        *(Area(shape, "head_overlap", key) for shape, _, key in heads),
        ground.outline, *lines, *symbols, *ground.over, *beside,
    ]
    wanted = [*values, *_wanted(assessment, window, view, symbols, heads, buffed)]
    if free is not None:
        wanted += free_label(free, could_go)
    taken = () if view.while_dragging else _taken(assessment, window, lettering, symbols, lines)
    standing = ground.texts if len(beside) == len(ground.beside) else texts_of([*ground.over, *beside], lettering)
    texts = standing + texts_of(lines, lettering)
    marks += laid(wanted, taken, texts, ground.inside, lettering, not view.while_dragging)
    return Scene("strip", tuple(marks), ground.frame, view.type_size)


@dataclass(frozen=True, eq=False)
class _Ground:
    """What is the same for every mark on the tire: the liner in view and its edges under the marks, captions over them,
    and ``beside`` the strip what stands where no value does. ``texts`` are of the last two. Boxes in mm of the drawing.
    """

    window: StripWindow
    lettering: Lettering
    frame: tuple[float, float, float, float]
    inside: tuple[float, float, float, float]
    liner: tuple[SceneMark, ...]
    edges: tuple[SceneMark, ...]
    outline: SceneMark
    over: tuple[SceneMark, ...]
    beside: tuple[Shaped, ...]
    texts: Texts


@lru_cache(maxsize=16)
def _ground(tire: TireOf, view: View, head: str | None) -> _Ground:
    """``head`` is what the captions say of free places."""
    assessment, lettering = tire.bare, Lettering(view.paper_scale, view.type_size)
    window, half = strip_window(assessment, view), half_width_shown(assessment, view)
    x_low, x_high = across_in_view(view, half)
    over, frame = _captions(assessment, window, view, half, lettering, head)
    aside = beside_strip(view)
    left, right = max(-window.half_width, x_low + aside), min(window.half_width, x_high - aside)
    beside = [*datum_marks(assessment, window, view, right), *tick_marks(window, view, left)]
    return _Ground(
        window, lettering, frame, (x_low, -window.length / 2, x_high, window.length / 2),
        tuple(ground_marks(assessment, window)), tuple(edge_marks(assessment, window)), window_outline(window),
        tuple(over), shaped(beside, lettering), texts_of([*over, *beside], lettering),
    )


def _captions(
    assessment: Assessment, window: StripWindow, view: View, half: float, lettering: Lettering, head: str | None,
) -> tuple[list[SceneMark], tuple[float, float, float, float]]:
    """Which side one looks at, over the strip; alone on a canvas size, scale and caution under it; and the frame."""
    scale, top = view.paper_scale, window.length / 2
    row = top + 0.9 * text_height("label", lettering) + scale
    seen = "seen from inside the tire" if view.from_inside else "seen from outside the tire"
    right, left = ("outboard", "inboard") if view.from_inside else ("inboard", "outboard")
    x_low, x_high = across_in_view(view, half)
    inner, middle, inner_seen = half - 2.0 * scale, (x_low + x_high) / 2, (x_high - x_low) / 2 - 2.0 * scale
    seen_row = row
    if _wide(seen, lettering) + 2 * _wide("outboard", lettering) > 2 * inner:
        seen_row += lettering.scale * text_box(seen, "label", view.type_size)[1]
    fixed: list[SceneMark] = [
        Label(middle, seen_row, seen, "label"),
        Label(middle - inner_seen, row, left, "label", anchor="right"),
        Label(middle + inner_seen, row, right, "label", anchor="left"),
    ]
    above = seen_row + 1.0 * text_height("label", lettering)
    if view.composed:
        return fixed, (-half, -top - 2.0 * scale, half, above)
    below, bottom = captions(assessment, lettering, -inner, inner, -top - 1.5 * scale, view.unit, head)
    return fixed + below, (-half, bottom, half, above)


def _wide(text: str, lettering: Lettering) -> float:
    return lettering.scale * text_box(text, "label", lettering.type_size)[0]


def _values_aside(
    assessment: Assessment, window: StripWindow, marks: list[SceneMark], lettering: Lettering
) -> tuple[list[Wanted], list[SceneMark]]:
    """The marks with the values of short dimension lines taken off, and those values, to stand off the heads."""
    values: list[Wanted] = []
    lines: list[SceneMark] = []
    for mark in marks:
        if isinstance(mark, DimensionLine):
            mark, value = value_aside(mark, lettering, _heads_of(assessment, window, mark))
            values += [] if value is None else [value]
        lines.append(mark)
    return values, lines


def _heads_of(assessment: Assessment, window: StripWindow, line: DimensionLine) -> Geometry:
    """The heads of the marks a dimension line belongs to, and the line itself."""
    heads = [shape for mark in assessment.marks if mark.ground is not None and key_of(mark) in keys_of(line)
             for shape in window.laid(mark.ground.head)]
    return shapely.union_all([*heads, LineString(dimension_ends(line))])


def _speaks_for_itself(assessment: Assessment, view: View) -> bool:
    """Whether the shown reason draws a dimension of its own, so that the pair's would only crowd it."""
    return shown_reason(assessment, view) is not None


def _follow(assessment: Assessment, window: StripWindow, view: View) -> list[SceneMark]:
    """From the section down to the chosen mark."""
    chosen = chosen_mark(assessment, view)
    if chosen is None:
        return []
    place = chosen.inside_place
    heights = window.heights(place.a) if place is not None else []
    if place is None or not heights:
        return []
    y = max(heights)
    x = window.x(place.s)
    return [Line(np.array([(x, window.length / 2), (x, y)]), "follow", key_of(chosen))]


def _name(assessment: Assessment, symbol: Symbol, chosen: str) -> str:
    """A mark's name; the chosen one's with its answer, so that this is what one reads first."""
    name = symbol.key.split(".", 1)[1]
    mark = assessment.mark(name)
    if symbol.key != chosen or symbol.kind not in ANSWER_WORDS or mark is None:
        return name
    own = assessment.better_by_itself(mark)
    return f"{name} {ANSWER_WORDS[symbol.kind]}" + (f"\n({OWN_WORDS[own]})" if own else "")


def _wanted(
    assessment: Assessment, window: StripWindow, view: View, symbols: list[Symbol], heads: list[Overlap],
    buffed: list[Overlap],
) -> list[Wanted]:
    """Names of the marks, the chosen one first; areas of overlaps; names of the edges."""
    chosen = chosen_mark(assessment, view)
    first = "" if chosen is None else key_of(chosen)
    wanted = [
        Wanted(symbol.x, symbol.y, _name(assessment, symbol, first), "label_mark", symbol.key,
               ("right above", "left above", "right below", "left below"))
        for symbol in sorted(symbols, key=lambda symbol: symbol.key != first)
    ]
    for shared, what in ((heads, "heads"), (buffed, "buffed")):
        for shape, size, key in shared:
            if what == "buffed" and any(key == each for _, _, each in heads):
                continue
            x, y = shape.representative_point().coords[0]
            wanted.append(Wanted(x, y, f"{what} share {area(size, view.unit)}", "label", key, near=1.5))
    if view.while_dragging:
        return wanted  # the edges' names stand
    top = window.length / 2 - 2.0 * view.paper_scale
    if assessment.zone_half_width_mm is not None:
        x = window.x(-window.side * assessment.zone_half_width_mm)
        wanted.append(Wanted(x, top, "zone limit", "label_zone", sides=("right", "right below"), near=1.2))
    x = window.x(-window.side * assessment.known_facts.drawn_tread_width / 2)
    wanted.append(Wanted(x, -top, "tread edge", "label_quiet", sides=("right", "right above"), near=1.2, leads=False))
    return wanted


def _taken(
    assessment: Assessment, window: StripWindow, lettering: Lettering, symbols: list[Symbol], lines: list[SceneMark]
) -> list[Geometry]:
    size = read_toml("drawing", "styles.toml")["sizes"]["symbol"]
    boxes = [symbol_box(each.x, each.y, lettering, size) for each in symbols]
    heads = [shape.boundary for mark in assessment.marks if mark.ground is not None
             for shape in window.laid(mark.ground.head)]
    arrows = [LineString([each.start, each.end]) for each in lines if isinstance(each, DimensionLine)]
    return [*boxes, *heads, *arrows]
