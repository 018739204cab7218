"""The wheel ring as a scene: everything around the tire, seen from outboard, and the part of the strip in view."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np
from shapely import Geometry, Point, Polygon

from tiremap.assessment import AssessedMark, Assessment
from tiremap.drawing.captions import captions, caution_with_ring, short_captions
from tiremap.drawing.ground import TireOf, at_no_mark
from tiremap.drawing.labels import Lettering, Texts, Wanted, laid, symbol_box, texts_of
from tiremap.drawing.mark_looks import chosen_mark, from_back_to_front, key_of, pair_key, symbol_of
from tiremap.drawing.nothing_drawn import sentence_scene
from tiremap.drawing.scene import Area, Line, Scene, SceneMark, Symbol, View
from tiremap.drawing.sight import strip_window
from tiremap.drawing.wording import angle as angle_words
from tiremap.model.units import degrees
from tiremap.resources import read_toml

BESIDE = 10.5
"""Paper mm kept around the ring for labels."""
SYMBOL_OUT, REPAIR_IN = 2.9, 3.2
"""Paper mm from the tread circle out to an injury's symbol, and in to a repair's."""
STEP = 4.9
"""Paper mm that a symbol stands further off than a neighbor it would lie on."""


def ring_scene(assessment: Assessment, view: View) -> Scene:
    """The whole tire as a ring, or a sentence while the tire is unknown."""
    scale = view.ring_scale
    if assessment.facts is None:
        return sentence_scene("ring", "The ring is drawn once the size is known.", view, scale)
    ground = _ground(TireOf(assessment), at_no_mark(view))
    lettering = ground.lettering
    tread, rim = assessment.facts.overall_diameter / 2, assessment.facts.dimensions.rim_diameter_mm / 2
    symbols = [symbol for mark in from_back_to_front(assessment, view) for symbol in _symbols(assessment, view, mark)]
    # Angles between neighbors would stay behind while one of them is dragged.
    around, angle_names = ([], []) if view.while_dragging else _angles(assessment, view, rim)
    marks: list[SceneMark] = [
        *ground.wheel, *_around_unknown(assessment, tread, scale), *around, *_datum(view, tread),
        *_spokes(symbols, tread), *symbols, *ground.below,
    ]
    names = [
        Wanted(each.x, each.y, each.key.split(".", 1)[1], "label_mark", each.key, _outward_sides(each))
        for each in symbols
    ]
    names = sorted(names, key=lambda each: each.key != _chosen_key(assessment, view))
    marks += laid(
        [*names, *angle_names], () if view.while_dragging else _taken(lettering, symbols, tread, rim), ground.texts,
        ground.frame, lettering, not view.while_dragging,
    )
    return Scene("ring", tuple(marks), ground.frame, view.type_size)


@dataclass(frozen=True, eq=False)
class _Ground:
    """What is the same for every mark on the tire: the wheel, and ``below`` it the captions with their texts."""

    lettering: Lettering
    frame: tuple[float, float, float, float]
    wheel: tuple[SceneMark, ...]
    below: tuple[SceneMark, ...]
    texts: Texts


@lru_cache(maxsize=16)
def _ground(tire: TireOf, view: View) -> _Ground:
    assessment, scale = tire.bare, view.ring_scale
    lettering = Lettering(scale, view.type_size)
    tread, rim = assessment.known_facts.overall_diameter / 2, assessment.known_facts.dimensions.rim_diameter_mm / 2
    half = tread + BESIDE * scale
    inner = half - 2.0 * scale
    seen, top = "seen from the outboard side", -tread - BESIDE * scale
    if view.composed:
        below, bottom = short_captions(
            "seen from outboard", lettering, -inner, inner, top, view.unit, caution_with_ring(view)
        )
    else:
        below, bottom = captions(assessment, lettering, -inner, inner, top, view.unit, seen)
    wheel = (
        Area(Point(0, 0).buffer(tread, 64), "ring_rubber"),
        Area(_window_sector(assessment, view, tread, rim), "ring_window"),
        Area(Point(0, 0).buffer(rim, 64), "ring_rim"),
    )
    return _Ground(lettering, (-half, bottom, half, half), wheel, tuple(below), texts_of(below, lettering))


def ring_point(view: View, angle: float, radius: float) -> tuple[float, float]:
    """Where an angle from the datum (radians) lies on the ring, clockwise from the datum's clock hour."""
    clock = angle + view.datum_hour / 12 * 2 * math.pi
    return radius * math.sin(clock), radius * math.cos(clock)


def _chosen_key(assessment: Assessment, view: View) -> str:
    chosen = chosen_mark(assessment, view)
    return "" if chosen is None else key_of(chosen)


def _symbols(assessment: Assessment, view: View, mark: AssessedMark) -> list[Symbol]:
    x, y = symbol_place(assessment, view, mark)
    return [symbol_of(assessment, view, mark, x, y)]


def symbol_place(assessment: Assessment, view: View, mark: AssessedMark) -> tuple[float, float]:
    """Where a mark's symbol stands; in the middle of the wheel while its way around is unknown."""
    tread, rim = assessment.known_facts.overall_diameter / 2, assessment.known_facts.dimensions.rim_diameter_mm / 2
    if mark.around is None:
        unplaced = [each for each in assessment.marks if each.around is None]
        row = unplaced.index(mark) - (len(unplaced) - 1) / 2
        return min(1.0, rim / (0.5 * len(unplaced) * 7.0 * view.ring_scale)) * row * 7.0 * view.ring_scale, 0.0
    out = SYMBOL_OUT if mark.facts.is_injury else -REPAIR_IN
    if mark.id in _stepping_back(assessment, view, mark.facts.is_injury):
        out += STEP if mark.facts.is_injury else -STEP
    return ring_point(view, mark.around, tread + out * view.ring_scale)


def _stepping_back(assessment: Assessment, view: View, injuries: bool) -> set[str]:
    """Ids of the marks that stand further off: of two that would lie on each other the second one around."""
    marks = assessment.injuries if injuries else assessment.repairs
    placed = _around(marks)
    near = STEP * view.ring_scale / (assessment.known_facts.overall_diameter / 2)
    back: set[str] = set()
    for (before, angle_before), (mark, angle) in pairwise(placed):
        if angle % math.tau - angle_before % math.tau < near and before.id not in back:
            back.add(mark.id)
    if len(placed) > 1:
        (first, angle), (last, angle_before) = placed[0], placed[-1]
        if (angle - angle_before) % math.tau < near and last.id not in back:
            back.add(first.id)
    return back


def _around(marks: Sequence[AssessedMark]) -> list[tuple[AssessedMark, float]]:
    """The marks whose way around is known, with it (radians), in order around from the datum."""
    placed = [(mark, mark.around) for mark in marks if mark.around is not None]
    return sorted(placed, key=lambda each: each[1] % math.tau)


def _spokes(symbols: list[Symbol], tread: float) -> list[Line]:
    """From each symbol to the tread it belongs to."""
    lines = []
    for each in symbols:
        reach = math.hypot(each.x, each.y)
        if reach > 0.5 * tread:
            on = (each.x / reach * tread, each.y / reach * tread)
            lines.append(Line(np.array([(each.x, each.y), on]), "spoke", each.key))
    return lines


def _around_unknown(assessment: Assessment, tread: float, scale: float) -> list[Line]:
    """A dashed circle for each mark that may lie anywhere around."""
    turn = np.linspace(0, 2 * math.pi, 121)
    circle = np.column_stack([np.sin(turn), np.cos(turn)])
    unplaced = [mark for mark in assessment.marks if mark.around is None]
    return [
        Line(circle * (tread - 1.2 * (place + 1) * scale), "around_unknown", key_of(mark))
        for place, mark in enumerate(unplaced)
    ]


def _datum(view: View, tread: float) -> list[SceneMark]:
    x, y = ring_point(view, 0.0, tread)
    return [Symbol(x, y, "datum")]


def _window_sector(assessment: Assessment, view: View, tread: float, rim: float) -> Polygon:
    """The part of the tire that the strip shows."""
    window = strip_window(assessment, view)
    half = window.length / window.strip.R0 / 2
    turn = view.strip_middle + np.linspace(-half, half, 49)
    outer = [ring_point(view, angle, tread) for angle in turn]
    inner = [ring_point(view, angle, rim) for angle in turn[::-1]]
    return Polygon([*outer, *inner])


def _angles(assessment: Assessment, view: View, rim: float) -> tuple[list[SceneMark], list[Wanted]]:
    """Arcs inside the rim between neighbors around the tire, and their angles."""
    placed = _around(assessment.marks)
    if len(placed) < 2:
        return [], []
    radius = rim - 3.0 * view.ring_scale
    lines: list[SceneMark] = []
    names: list[Wanted] = []
    for (first, start), (second, end) in zip(placed, [*placed[1:], placed[0]], strict=True):
        between = (end - start) % math.tau
        turn = start + np.linspace(0, between, max(8, int(between * 20)))
        key = pair_key(first, second)
        lines.append(Line(np.array([ring_point(view, angle, radius) for angle in turn]), "ring_angle", key))
        for at in (start, end):
            lines.append(Line(np.array([ring_point(view, at, radius + step * view.ring_scale)
                                        for step in (-1.2, 1.2)]), "ring_angle", key))
        x, y = ring_point(view, start + between / 2, radius)
        name = angle_words(degrees(between))
        names.append(Wanted(x, y, name, "label", key, _inward_sides(x, y), near=1.6, leads=False))
    return lines, names


def _outward_sides(symbol: Symbol) -> tuple[str, ...]:
    """The sides away from the wheel, best first."""
    across = "right" if symbol.x >= 0 else "left"
    up = "above" if symbol.y >= 0 else "below"
    level = abs(symbol.x) >= abs(symbol.y)
    return (across, f"{across} {up}", up) if level else (up, f"{across} {up}", across)


def _inward_sides(x: float, y: float) -> tuple[str, ...]:
    across = "left" if x >= 0 else "right"
    up = "below" if y >= 0 else "above"
    return (across, f"{across} {up}", up) if abs(x) >= abs(y) else (up, f"{across} {up}", across)


def _taken(lettering: Lettering, symbols: list[Symbol], tread: float, rim: float) -> list[Geometry]:
    size = read_toml("drawing", "styles.toml")["sizes"]["symbol"]
    circles = [Point(0, 0).buffer(radius, 24).boundary for radius in (tread, rim)]
    return [*circles, *(symbol_box(each.x, each.y, lettering, size) for each in symbols)]
