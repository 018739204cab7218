"""Laying labels so that none lies on another, and as few as can be on what is drawn.

Each label tries places around the point it speaks of, near ones first; one that had to go further gets a leader.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
import shapely
from shapely import Geometry, STRtree

from tiremap.drawing.lettering import cap_height, text_box
from tiremap.drawing.scene import Anchor, DimensionLine, Label, Line, Scene, SceneMark, TypeSize

NEAR = 3.4
"""Paper mm from a point to its label: clear of the symbol that stands on it."""
RINGS = (1.0, 1.7, 2.7, 4.0, 5.5, 7.5, 10.0, 13.0, 17.0)
"""Distances tried, in multiples of the nearest."""
_DIRECTIONS: dict[str, tuple[float, float]] = {
    "right": (1, 0), "left": (-1, 0), "above": (0, 1), "below": (0, -1),
    "right above": (0.85, 0.85), "left above": (-0.85, 0.85), "right below": (0.85, -0.85),
    "left below": (-0.85, -0.85),
}
_CORNERS: dict[Anchor, tuple[float, float]] = {
    "center": (-0.5, -0.5), "left": (-1, -0.5), "right": (0, -0.5), "above": (-0.5, 0), "below": (-0.5, -1),
}
"""From a label's point to the lower left corner of its box, in box sizes."""
NO_LEADER = 2
"""How many of the rings need no leader."""
COVERING = 100.0
"""What it costs to lie on the shape a label is to keep off."""
CROSSING = 6.0
"""What it costs to lie on a shape, against 1.6 for going one ring further."""

Box = tuple[float, float, float, float]
Frame = Box


@dataclass(frozen=True)
class Wanted:
    """A label looking for its place: the point it speaks of, and the sides it would like best, in order."""

    x: float
    y: float
    text: str
    style: str
    key: str = ""
    sides: tuple[str, ...] = ("right", "left", "above", "below")
    near: float = NEAR
    leads: bool = True
    """Whether it may go as far as needs a leader; else it is left out where there is no room."""
    off: Geometry | None = None
    """A shape it must not lie on as long as there is a place off it. One that may lead away stands beside it first;
    one that may not is left out where it would lie on it.
    """


@dataclass(frozen=True)
class Lettering:
    """Tire mm per paper mm and the size of type: all that turns a text into a box."""

    scale: float
    type_size: TypeSize

    def box(self, label: Label) -> Box:
        """The box a label takes, tire mm; a turned one takes the box around it."""
        width, height = (self.scale * each for each in text_box(label.text, label.style, self.type_size))
        if label.turn % 180 == 90:
            width, height = height, width
        across, up = _CORNERS[label.anchor]
        return (label.x + across * width, label.y + up * height,
                label.x + (across + 1) * width, label.y + (up + 1) * height)


def dimension_label(line: DimensionLine, lettering: Lettering) -> Label:
    """The value of a dimension line as a label above its middle, turned to be read from below or from the right."""
    (x0, y0), (x1, y1) = dimension_ends(line)
    along = np.degrees(np.arctan2(y1 - y0, x1 - x0))
    if along > 90.001 or along <= -89.999:
        along -= 180 if along > 0 else -180
    up = np.radians(along + 90)
    away = lettering.scale * (0.5 * text_box(line.text, line.style, lettering.type_size)[1] + 0.35)
    return Label(
        (x0 + x1) / 2 + away * np.cos(up), (y0 + y1) / 2 + away * np.sin(up), line.text, line.style, line.key,
        turn=float(round(along, 3)),
    )


def dimension_ends(line: DimensionLine) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where the arrows of a dimension line end, its offset counted."""
    (x0, y0), (x1, y1) = line.start, line.end
    length = float(np.hypot(x1 - x0, y1 - y0)) or 1.0
    off_x, off_y = -(y1 - y0) / length * line.offset, (x1 - x0) / length * line.offset
    return (x0 + off_x, y0 + off_y), (x1 + off_x, y1 + off_y)


def label_boxes(scene: Scene, scale: float) -> list[tuple[Label, Geometry]]:
    """Every label of a scene, those of dimension lines too, with the shape its text takes."""
    lettering = Lettering(scale, scene.type_size)
    labels = [
        dimension_label(mark, lettering) if isinstance(mark, DimensionLine) else mark
        for mark in scene.marks if isinstance(mark, DimensionLine | Label)
    ]
    return [(label, text_shape(label, lettering)) for label in labels if label.text]


def text_shape(label: Label, lettering: Lettering) -> Geometry:
    """The rectangle a label's text takes, turned with it."""
    flat = shapely.box(*lettering.box(replace(label, turn=0.0)))
    return shapely.affinity.rotate(flat, label.turn, origin=(label.x, label.y)) if label.turn else flat


@dataclass(frozen=True, eq=False)
class Texts:
    """Where texts stand that must not be covered, mm: the boxes of level ones ``(n, 4)``, the shapes of others."""

    level: np.ndarray
    slanting: tuple[Geometry, ...]

    def __add__(self, more: "Texts") -> "Texts":
        return Texts(np.vstack([self.level, more.level]), self.slanting + more.slanting)


def texts_of(marks: Iterable[SceneMark], lettering: Lettering) -> Texts:
    """Where the texts among the marks stand, values of dimension lines too."""
    level: list[Box] = []
    slanting: list[Geometry] = []
    for mark in marks:
        if not isinstance(mark, DimensionLine | Label) or not mark.text:
            continue
        label = dimension_label(mark, lettering) if isinstance(mark, DimensionLine) else mark
        shape = text_shape(label, lettering) if label.turn else None
        if shape is None:
            level.append(lettering.box(label))
        elif _is_level(shape):
            level.append(shape.bounds)
        else:
            slanting.append(shape)
    return Texts(np.array(level).reshape(-1, 4), tuple(slanting))


def laid(
    wanted: Sequence[Wanted], taken: Iterable[Geometry], fixed: Texts, frame: Frame, lettering: Lettering,
    searching: bool = True,
) -> list[Label]:
    """The labels at their places; one for which no free place is left in the frame is left out.

    ``taken`` are shapes to keep clear of where there is room, ``fixed`` texts that must not be covered.
    ``searching`` False puts each at its first place, as during a drag; level texts alone can leave it out there.
    """
    obstacles, slanting = STRtree(list(taken)), STRtree(fixed.slanting)
    placed: list[Label] = []
    boxes = fixed.level
    for each in wanted:
        if not _holds(frame, each):
            continue
        label = _placed(each, obstacles, slanting, boxes, frame, lettering, searching)
        if label is not None:
            placed.append(label)
            boxes = np.vstack([boxes, lettering.box(label)])
    return placed


def _placed(
    wanted: Wanted, obstacles: STRtree, slanting: STRtree, boxes: np.ndarray, frame: Frame, lettering: Lettering,
    searching: bool,
) -> Label | None:
    tried = _places_tried(wanted.sides, len(RINGS) if wanted.leads else NO_LEADER)
    if not searching:
        aside = wanted.off is not None and wanted.leads
        label = _beside(wanted, frame, lettering) if aside else _label_at(wanted, tried, 0, lettering)
        return None if _hit(np.array([lettering.box(label)]), boxes)[0] else label
    places = _boxes_at(wanted, tried, lettering)
    fits = np.flatnonzero(_inside(places, frame) & ~_hit(places, boxes))
    if len(slanting):
        covered = slanting.query(shapely.box(*places[fits].T), predicate="intersects")[0]
        fits = np.delete(fits, np.unique(covered))
    covers = np.zeros(len(fits), dtype=bool)
    if wanted.off is not None:
        covers = shapely.intersects(wanted.off, shapely.box(*places[fits].T))
        if not wanted.leads:
            fits, covers = fits[~covers], covers[~covers]
    if not len(fits):
        return None
    crossed = obstacles.query(shapely.box(*places[fits].T), predicate="intersects")[0]
    cost = tried.cost[fits] + CROSSING * np.bincount(crossed, minlength=len(fits))
    cost = cost + COVERING * covers
    return _label_at(wanted, tried, int(fits[np.argmin(cost)]), lettering)


@dataclass(frozen=True, eq=False)
class Tried:
    """Places tried around a point: ``away`` in multiples of the nearest, the corner of the box from there in box
    sizes, which side, what each costs, and whether it needs a leader.
    """

    away: np.ndarray
    corner: np.ndarray
    anchors: tuple[Anchor, ...]
    cost: np.ndarray
    leads: np.ndarray


def _anchor_of(direction: str) -> Anchor:
    """The side of the point a label lies on, of a direction such as "right above"."""
    return next(anchor for anchor in _CORNERS if anchor == direction.split()[0])


@lru_cache(maxsize=64)
def _places_tried(sides: tuple[str, ...], rings: int) -> Tried:
    """Near places before far ones, asked sides before others."""
    order = {name: rank for rank, name in enumerate(sides)}
    names = sorted(_DIRECTIONS, key=lambda name: order.get(name, len(order)))
    every = [(ring, name) for ring in range(rings) for name in names]
    anchors = tuple(_anchor_of(name) for _, name in every)
    return Tried(
        away=np.array([np.multiply(_DIRECTIONS[name], RINGS[ring]) for ring, name in every]),
        corner=np.array([_CORNERS[anchor] for anchor in anchors]),
        anchors=anchors,
        cost=np.array([1.6 * ring + 0.5 * order.get(name, len(order)) for ring, name in every]),
        leads=np.array([ring >= NO_LEADER for ring, _ in every]),
    )


def _beside(wanted: Wanted, frame: Frame, lettering: Lettering) -> Label:
    """Level with the point a label speaks of, beside the shape it keeps off, on the side with more room."""
    assert wanted.off is not None  # asked only of labels that keep off a shape
    low, _, high, _ = wanted.off.bounds
    gap = 1.5 * lettering.scale
    to_right = frame[2] - high >= low - frame[0]
    return Label(high + gap if to_right else low - gap, wanted.y, wanted.text, wanted.style, wanted.key,
                 "right" if to_right else "left", (wanted.x, wanted.y))


def _points_at(wanted: Wanted, tried: Tried, lettering: Lettering) -> np.ndarray:
    return np.array([wanted.x, wanted.y]) + wanted.near * lettering.scale * tried.away


def _boxes_at(wanted: Wanted, tried: Tried, lettering: Lettering) -> np.ndarray:
    size = lettering.scale * np.array(text_box(wanted.text, wanted.style, lettering.type_size))
    low = _points_at(wanted, tried, lettering) + tried.corner * size
    return np.hstack([low, low + size])


def _label_at(wanted: Wanted, tried: Tried, place: int, lettering: Lettering) -> Label:
    x, y = (float(at + wanted.near * lettering.scale * away)
            for at, away in zip((wanted.x, wanted.y), tried.away[place], strict=True))
    leader = (wanted.x, wanted.y) if tried.leads[place] else None
    return Label(x, y, wanted.text, wanted.style, wanted.key, tried.anchors[place], leader)


def _holds(frame: Frame, wanted: Wanted) -> bool:
    """Whether the point a label speaks of is in view."""
    return frame[0] <= wanted.x <= frame[2] and frame[1] <= wanted.y <= frame[3]


def _is_level(shape: Geometry) -> bool:
    """Whether a text's rectangle is its own bounding box."""
    return bool(shape.area > 0.999 * shapely.box(*shape.bounds).area)


def _inside(places: np.ndarray, frame: Frame) -> np.ndarray:
    return (
        (places[:, 0] >= frame[0]) & (places[:, 1] >= frame[1])
        & (places[:, 2] <= frame[2]) & (places[:, 3] <= frame[3])
    )


def _hit(places: np.ndarray, boxes: np.ndarray) -> np.ndarray:
    """Which places lie on any of the boxes."""
    if not len(boxes):
        return np.zeros(len(places), dtype=bool)
    apart = (
        (places[:, None, 2] <= boxes[:, 0]) | (places[:, None, 0] >= boxes[:, 2])
        | (places[:, None, 3] <= boxes[:, 1]) | (places[:, None, 1] >= boxes[:, 3])
    )
    return np.asarray(~apart.all(axis=1))


Shaped = tuple[SceneMark, Geometry | None]
"""A mark and the shape its text takes, if it is a label."""


def shaped(marks: Iterable[SceneMark], lettering: Lettering) -> tuple[Shaped, ...]:
    """The marks, each with the shape of its text."""
    return tuple((mark, text_shape(mark, lettering) if isinstance(mark, Label) else None) for mark in marks)


def clear_of(marks: Sequence[Shaped], lines: Iterable[SceneMark], lettering: Lettering) -> list[SceneMark]:
    """The marks without those labels that the value of a dimension line would lie on."""
    values = STRtree([
        text_shape(dimension_label(line, lettering), lettering) for line in lines if isinstance(line, DimensionLine)
    ])
    texts = np.array([text for _, text in marks], dtype=object)
    covered = set(values.query(texts, predicate="intersects")[0].tolist())
    return [mark for place, (mark, _) in enumerate(marks) if place not in covered]


def symbol_box(x: float, y: float, lettering: Lettering, size: float) -> Geometry:
    """The square a symbol of ``size`` paper mm takes."""
    half = 0.5 * size * lettering.scale
    return shapely.box(x - half, y - half, x + half, y + half)


def text_height(style: str, lettering: Lettering) -> float:
    """Cap height of a style in tire mm: what rows of captions are spaced by."""
    return cap_height(style, lettering.type_size) * lettering.scale


def line_shape(line: Line) -> Geometry:
    """A line as a shape labels keep clear of."""
    return shapely.LineString(line.points)
