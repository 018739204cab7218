"""Lays scenes on matplotlib axes: shapes in tire mm, line weights, text and symbols in paper mm.

The axes' limits are the caller's: zooming changes them, and neither weights nor text grow with it.
"""

from dataclasses import replace
from itertools import chain
from math import hypot
from typing import NamedTuple

from matplotlib.artist import Artist
from matplotlib.axes import Axes

from tiremap.drawing.scene import Scene, SceneMark, keys_of
from tiremap.model.units import MM_PER_INCH
from tiremap.render.artists import Kind, kind_of, made, place
from tiremap.render.palettes import palette
from tiremap.render.quick_artists import ToDots


class Laid(NamedTuple):
    """A mark, its kind and the artists it is laid with."""

    mark: SceneMark
    kind: Kind
    artists: list[Artist]


class Painter:
    """Lays scenes on one axes in one palette, and takes off what it laid before.

    Raises `TiremapError` for a palette that does not exist.
    """

    def __init__(self, axes: Axes, palette_name: str = "light") -> None:
        palette(palette_name)  # one that does not exist is refused here, not at the first mark
        self.axes = axes
        self.palette_name = palette_name
        self._to_dots = ToDots(axes)
        self._still: list[Laid] = []
        self._moving: list[Laid] = []

    def fit(self, scene: Scene) -> float:
        """Show the whole scene centered, on equal scales both ways; gives tire mm per paper mm.

        To be called again when the axes change their size.
        """
        x_low, y_low, x_high, y_high = scene.frame
        wide, tall = self.axes.bbox.width, self.axes.bbox.height
        per_dot = max((x_high - x_low) / wide, (y_high - y_low) / tall)
        self.axes.set_axis_off()
        self.axes.set_xlim((x_low + x_high - wide * per_dot) / 2, (x_low + x_high + wide * per_dot) / 2)
        self.axes.set_ylim((y_low + y_high - tall * per_dot) / 2, (y_low + y_high + tall * per_dot) / 2)
        return per_dot * self.axes.figure.dpi / MM_PER_INCH

    def lay(self, scene: Scene, moving: frozenset[str] = frozenset()) -> list[Artist]:
        """Lay a scene in place of the one before; gives the artists of marks whose keys are among ``moving``.

        Those are animated: a full draw leaves them out, and the canvas draws them over the kept background.
        """
        laid = self._laid_anew(scene, self._still + self._moving)
        self._still = [each for each in laid if moving.isdisjoint(keys_of(each.mark))]
        self._moving = [each for each in laid if not moving.isdisjoint(keys_of(each.mark))]
        _stack(laid, 1)
        for artist in _artists(self._still):
            artist.set_animated(False)
        return self._animated()

    def lay_moving(self, scene: Scene, moving: frozenset[str]) -> list[Artist]:
        """Lay only the marks that move, in place of the moving ones laid before: one frame of a drag."""
        marks = tuple(mark for mark in scene.marks if not moving.isdisjoint(keys_of(mark)))
        self._moving = self._laid_anew(replace(scene, marks=marks), self._moving)
        _stack(self._moving, len(_artists(self._still)) + 1)
        return self._animated()

    def clear(self) -> None:
        """Take off everything this painter laid."""
        _remove(self._still + self._moving)
        self._still, self._moving = [], []

    def _laid_anew(self, scene: Scene, before: list[Laid]) -> list[Laid]:
        """The marks of a scene laid with the artists of those before, as far as there are some of the same kind: making
        new ones takes longer than all else. The very same mark stays as it is; artists that are left over go.
        """
        kinds = [kind_of(mark, scene) for mark in scene.marks]
        same: dict[tuple[int, Kind], list[Laid]] = {}
        for each in before:
            same.setdefault((id(each.mark), each.kind), []).append(each)
        there = [same.get((id(mark), kind)) for mark, kind in zip(scene.marks, kinds, strict=True)]
        staying = [each.pop() if each else None for each in there]
        left: dict[Kind, list[Laid]] = {}
        for each in chain.from_iterable(same.values()):
            left.setdefault(each.kind, []).append(each)
        laid = [
            stays or self._laid(mark, kind, left.get(kind), scene)
            for mark, kind, stays in zip(scene.marks, kinds, staying, strict=True)
        ]
        _remove(list(chain.from_iterable(left.values())))
        return laid

    def _laid(self, mark: SceneMark, kind: Kind, alike: list[Laid] | None, scene: Scene) -> Laid:
        if alike:
            artists = alike.pop(0).artists
        else:
            artists = made(mark, scene, self.palette_name, self._to_dots)
            for artist in artists:
                self.axes.add_artist(artist)
        place(mark, scene, artists, self._to_dots)
        return Laid(mark, kind, artists)

    def _animated(self) -> list[Artist]:
        every = _artists(self._moving)
        for artist in every:
            artist.set_animated(True)
        return every


def length_in_paper_mm(axes: Axes, mm: float) -> float:
    """How long a tire length comes out on paper or screen, mm, at the axes' present limits."""
    (x0, y0), (x1, y1) = axes.transData.transform([(0.0, 0.0), (mm, 0.0)])
    return hypot(x1 - x0, y1 - y0) / axes.figure.dpi * MM_PER_INCH


def _artists(laid: list[Laid]) -> list[Artist]:
    return [artist for each in laid for artist in each.artists]


def _stack(laid: list[Laid], lowest: int) -> None:
    for order, artist in enumerate(_artists(laid), lowest):
        artist.set_zorder(order)


def _remove(laid: list[Laid]) -> None:
    for artist in _artists(laid):
        artist.remove()
