"""How hard the inside of the loaded tire is bent, as a curve along the liner from the center plane to the bead.

``x`` is the length along the unloaded liner, mm; ``y`` the strain, one percent as high as `per_percent` says. The
frame fits the shape of the room it is drawn in.
"""

from collections.abc import Callable

import numpy as np
from shapely import box

from tiremap.assessment import AssessedMark, Assessment
from tiremap.drawing.edges import belt_edge
from tiremap.drawing.labels import Lettering
from tiremap.drawing.lettering import text_box
from tiremap.drawing.loaded_scene import bent_head, percent
from tiremap.drawing.mark_looks import chosen_mark, key_of
from tiremap.drawing.scene import Area, Label, Line, Scene, SceneMark, View
from tiremap.drawing.wording import Unit, figure, length
from tiremap.geometry.loaded_data import loaded_data
from tiremap.geometry.loaded_section import LoadedSection
from tiremap.geometry.membrane import arc_radius

LEAST_SHOWN = 0.05
"""Strain the axis reaches at least: so the curve grows with the load, and not the axis."""


def bending_scene(assessment: Assessment, loaded: LoadedSection, view: View, tall: float) -> Scene:
    """The curve; ``tall`` is the height of the room as a share of its width."""
    lettering = Lettering(view.paper_scale, view.type_size)
    bending = loaded.bending
    line = view.paper_scale * text_box("0", "label", view.type_size)[1]
    left = -view.paper_scale * text_box("0.0 %", "label", view.type_size)[0]
    right = float(bending.lengths[-1]) + 2.0 * view.paper_scale
    wide = right - left
    bottom, head = -1.5 * line, 1.25 * line
    highest = max(LEAST_SHOWN, float(bending.strains.max()))
    per_percent = max(tall * wide - head + bottom, 2 * line) / (100 * highest)
    top = 100 * highest * per_percent

    def y(strain: float) -> float:
        return 100 * strain * per_percent

    marks: list[SceneMark] = _grid(highest, right, y, line)
    blended = bending.blended
    marks += [
        Area(box(blended[0], 0.0, blended[1], top), "bend_blended"),
        Line(np.column_stack([bending.lengths, 100 * bending.strains * per_percent]), "bend_curve"),
        Line(np.array([(0.0, top), (0.0, 0.0), (right, 0.0)]), "axis"),
        Label(0.0, top + head / 2, "bent by, along the liner", "label", anchor="right"),
    ]
    mark = chosen_mark(assessment, view)
    if mark is not None and mark.facts.is_injury:
        marks += _head(loaded, mark, y, lettering)
    marks += _feet(assessment, loaded, line, lettering, right)
    return Scene("bending", tuple(marks), (left, bottom, right, top + head), view.type_size)


def comparison(assessment: Assessment, loaded: LoadedSection, view: View) -> str:
    """What the curve says, in one sentence; empty without an injury or load."""
    mark = chosen_mark(assessment, view)
    if mark is None or not mark.facts.is_injury or not loaded.bending.crown:
        return ""
    here = bent_head(loaded, mark).strain
    times = here / loaded.bending.crown
    if times < 1.05:
        return f"At every turn the inside is bent here by {percent(here)}, as in the middle of the crown."
    return (f"At every turn the inside is bent here by {percent(here)}, {times:.1f} times as hard as in the middle of "
            f"the crown ({percent(loaded.bending.crown)}).")


def assumed_words(unit: Unit) -> str:
    """Which figures of the teaching model nobody measured, in one sentence."""
    face = length(loaded_data("head", "face_from_cord"), unit)
    return f"Assumed: load, thicknesses, a head's face {face} inside the cords, the grey blend over the shoulder."


def widest_words(loaded: LoadedSection, unit: Unit) -> str:
    """To what radius the sidewall is bent at its widest, and for comparison as a plain membrane, a circular arc."""
    unloaded, bent = loaded.unloaded.sidewall, loaded.sidewall
    ours = [figure(1.0 / (each.c * each.rw), unit) for each in (unloaded, bent)]
    arcs = [figure(arc_radius(each), unit) for each in (unloaded, bent)]
    return (f"At its widest the sidewall is bent from a radius of {ours[0]} to {ours[1]} {unit}; as a plain arc of the "
            f"same length, from {arcs[0]} to {arcs[1]} {unit}.")


def _grid(highest: float, right: float, y: Callable[[float], float], line: float) -> list[SceneMark]:
    """Level lines at whole percents, as many as can be lettered one over another."""
    marks: list[SceneMark] = []
    step = next((each for each in (1, 2, 5, 10) if y(each / 100) >= 0.8 * line), 20)
    for each in range(step, int(100 * highest) + 1, step):
        height = y(each / 100)
        marks.append(Line(np.array([(0.0, height), (right, height)]), "grid"))
        marks.append(Label(0.0, height, f"{each} %", "label", anchor="left"))
    return marks


def _head(
    loaded: LoadedSection, mark: AssessedMark, y: Callable[[float], float], lettering: Lettering
) -> list[SceneMark]:
    """The head as the stretch of the liner it covers, as high as it is bent."""
    reach = 0.0 if mark.head is None else mark.head.reach_across
    middle = abs(loaded.liner_length(mark.inside))
    low, high = max(middle - reach, 0.0), min(middle + reach, float(loaded.bending.lengths[-1]))
    bent = bent_head(loaded, mark)
    height, text = y(bent.strain), percent(bent.strain)
    half = lettering.scale * text_box(text, "label_bend", lettering.type_size)[0] / 2
    x = min(max((low + high) / 2, half), float(loaded.bending.lengths[-1]) - half)
    return [Area(box(low, 0.0, max(high, low + 1.0), height), "bend_head", key_of(mark)),
            Label(x, height / 2, text, "label_bend", key_of(mark))]


def _feet(
    assessment: Assessment, loaded: LoadedSection, line: float, lettering: Lettering, right: float
) -> list[SceneMark]:
    """Names of the places under the curve; one with no room is left out."""
    bending = loaded.bending
    places = [
        (0.0, "center"), (loaded.liner_length(belt_edge(assessment.known_facts).drawn), "belt edge"),
        (bending.widest_at, "widest"), (float(bending.lengths[-1]), "bead"),
    ]
    marks: list[SceneMark] = []
    taken = -1e9
    for x, text in places:
        wide = lettering.scale * text_box(text, "label", lettering.type_size)[0]
        middle = min(max(x, wide / 2), right - wide / 2)
        marks.append(Line(np.array([(x, 0.0), (x, -0.3 * line)]), "axis"))
        if middle - wide / 2 >= taken:
            marks.append(Label(middle, -0.85 * line, text, "label"))
            taken = middle + wide / 2
    return marks
