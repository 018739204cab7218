"""The liner strip itself: its ground, tread edges, zone limits, the datum and the angles at its side."""

import math

import numpy as np
import shapely

from tiremap.assessment import Assessment
from tiremap.drawing.edges import Edge, refused_beyond, tread_edge, zone_edge
from tiremap.drawing.lettering import text_box
from tiremap.drawing.scene import Area, Label, Line, SceneMark, View
from tiremap.drawing.sight import StripWindow
from tiremap.drawing.wording import angle as angle_words
from tiremap.model.units import degrees, radians

TICK_STEPS = (1, 2, 5, 10, 15, 30, 45, 90)
"""Degrees between the ticks at the side; the first that leaves room is taken."""
TICK_ROOM = 7.0
"""Paper mm between two ticks."""


def ground_marks(assessment: Assessment, window: StripWindow) -> list[SceneMark]:
    """The liner in view: the crown lighter than what lies past the tread edge."""
    edge = tread_edge(assessment.known_facts)
    return [
        Area(_band(window, -window.half_width, window.half_width), "shoulder_ground"),
        Area(_band(window, window.x(-edge.drawn), window.x(edge.drawn)), "liner_ground"),
    ]


def edge_marks(assessment: Assessment, window: StripWindow) -> list[SceneMark]:
    """Tread edges and zone limits: lines where measured, bands where estimated."""
    tread, zone, outer = tread_edge(assessment.known_facts), zone_edge(assessment), refused_beyond(assessment)
    marks = _edges(window, tread, "tread_edge", "tread_edge_band")
    if zone is not None:
        marks += _edges(window, zone, "zone_limit", "zone_band")
    if outer is not None:
        marks += _edges(window, outer, "zone_outer", "zone_band")
    middle = window.length / 2
    return [*marks, Line(np.array([(0.0, -middle), (0.0, middle)]), "center_plane")]


def datum_marks(assessment: Assessment, window: StripWindow, view: View, right: float) -> list[SceneMark]:
    """The cut at the datum, wherever it is in view; its name stands to the right of ``right``, mm."""
    called = {"valve": "datum: valve", "date_code": "datum: date code", None: "datum"}[assessment.job.tire.datum]
    reach, gap = window.half_width, 1.2 * view.paper_scale
    marks: list[SceneMark] = []
    text = called.replace(" ", "\n")  # narrow: it stands beside the strip
    room = window.length / 2 - view.paper_scale * text_box(text, "label", view.type_size)[1] / 2
    for y in window.heights(0.0):
        marks.append(Line(np.array([(-reach, y), (reach, y)]), "datum"))
        marks.append(Label(right + gap, max(-room, min(room, y)), text, "label", anchor="right"))
    return marks


def tick_marks(window: StripWindow, view: View, left: float) -> list[SceneMark]:
    """Angles from the datum, in degrees, to the left of ``left``, mm."""
    per_degree = radians(1) * window.strip.R0 / view.paper_scale
    step = next((each for each in TICK_STEPS if each * per_degree >= TICK_ROOM), TICK_STEPS[-1])
    low = degrees((window.middle - window.length / 2) / window.strip.R0)
    high = degrees((window.middle + window.length / 2) / window.strip.R0)
    x, tick = left, 1.5 * view.paper_scale
    room = window.length / 2 - view.paper_scale * text_box("0°", "label_quiet", view.type_size)[1] / 2
    marks: list[SceneMark] = []
    for count in range(math.ceil(low / step), math.floor(high / step) + 1):
        y = window.middle - radians(count * step) * window.strip.R0
        marks.append(Line(np.array([(x - tick, y), (x, y)]), "tick"))
        if abs(y) <= room:
            marks.append(Label(x - 1.5 * tick, y, angle_words(count * step % 360), "label_quiet", anchor="left"))
    return marks


def window_outline(window: StripWindow) -> Area:
    """The window's outline."""
    return Area(_band(window, -window.half_width, window.half_width), "window")


def _band(window: StripWindow, x_low: float, x_high: float) -> shapely.Polygon:
    return shapely.box(min(x_low, x_high), -window.length / 2, max(x_low, x_high), window.length / 2)


def _edges(window: StripWindow, edge: Edge, line: str, band: str) -> list[SceneMark]:
    half = window.length / 2
    marks: list[SceneMark] = []
    for out in (-1, 1):
        if edge.estimated:
            low, high = (max(-window.half_width, min(window.half_width, window.x(out * each)))
                         for each in (edge.low, edge.high))
            marks.append(Area(_band(window, low, high), band))
        else:
            x = window.x(out * edge.drawn)
            marks.append(Line(np.array([(x, -half), (x, half)]), line))
    return marks
