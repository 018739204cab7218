"""Laying labels so that none lies on another, and as few as can be on what is drawn.

Each label tries places around the point it speaks of, near ones first; one that had to go further gets a leader.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import Geometry, STRtree

from tiremap.drawing.lettering import cap_height, text_box
from tiremap.drawing.scene import Anchor, DimensionLine, Label, Line, Scene, SceneMark, TypeSize

NEAR = 3.2
"""Paper mm from a point to its label: clear of the symbol that stands on it."""
RINGS = (1.0, 1.7, 2.7, 4.0, 5.5, 7.5, 10.0, 13.0, 17.0)
"""Distances tried, in multiples of `NEAR`; beyond the second a leader is drawn."""
_DIRECTIONS: dict[str, tuple[float, float]] = {
    "right": (1, 0), "left": (-1, 0), "above": (0, 1), "below": (0, -1),
    "right above": (0.75, 0.75), "left above": (-0.75, 0.75), "right below": (0.75, -0.75),
    "left below": (-0.75, -0.75),
}

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
        across, up = {"center": (-0.5, -0.5), "left": (-1, -0.5), "right": (0, -0.5), "above": (-0.5, 0),
                      "below": (-0.5, -1)}[label.anchor]
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


def laid(
    wanted: Sequence[Wanted], taken: Iterable[Geometry], fixed: Iterable[SceneMark], frame: Frame,
    lettering: Lettering, searching: bool = True,
) -> list[Label]:
    """The labels at their places; one for which no free place is left in the frame is left out.

    ``taken`` are shapes to keep clear of where there is room, ``fixed`` marks whose text must not be covered.
    ``searching`` False puts each at its first place, as during a drag.
    """
    kept = [
        text_shape(dimension_label(mark, lettering) if isinstance(mark, DimensionLine) else mark, lettering)
        for mark in fixed if isinstance(mark, DimensionLine | Label) and mark.text
    ]
    obstacles = STRtree(list(taken))
    placed: list[Label] = []
    boxes = np.array([shape.bounds for shape in kept]).reshape(-1, 4)
    for each in wanted:
        label = _placed(each, obstacles, boxes, frame, lettering, searching)
        if label is not None:
            placed.append(label)
            boxes = np.vstack([boxes, lettering.box(label)])
    return placed


def _placed(
    wanted: Wanted, obstacles: STRtree, boxes: np.ndarray, frame: Frame, lettering: Lettering, searching: bool
) -> Label | None:
    labels = _candidates(wanted, lettering)
    if not searching:
        return labels[0][0]
    places = np.array([lettering.box(label) for label, _ in labels])
    fits = _inside(places, frame) & ~_hit(places, boxes)
    if not fits.any():
        return None
    crossed = np.zeros(len(labels))
    touching = obstacles.query(shapely.box(*places.T), predicate="intersects")[0]
    np.add.at(crossed, touching, 1.0)
    cost = crossed * 6.0 + np.array([cost for _, cost in labels])
    cost[~fits] = np.inf
    best, _ = labels[int(np.argmin(cost))]
    return best


def _candidates(wanted: Wanted, lettering: Lettering) -> list[tuple[Label, float]]:
    """Places around the point with what each costs: far ones more, unasked sides a little."""
    order = {name: rank for rank, name in enumerate(wanted.sides)}
    names = sorted(_DIRECTIONS, key=lambda name: order.get(name, len(order)))
    found = []
    for ring, reach in enumerate(RINGS):
        for name in names:
            across, up = _DIRECTIONS[name]
            away = wanted.near * reach * lettering.scale
            anchor: Anchor = name.split()[0]  # type: ignore[assignment]
            leader = (wanted.x, wanted.y) if ring > 1 else None
            label = Label(wanted.x + across * away, wanted.y + up * away, wanted.text, wanted.style, wanted.key,
                          anchor, leader)
            found.append((label, 1.6 * ring + 0.5 * order.get(name, len(order))))
    return found


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
    return ~apart.all(axis=1)


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
