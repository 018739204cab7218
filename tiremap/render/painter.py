"""Lays scenes on matplotlib axes: shapes in tire mm, line weights, text and symbols in paper mm.

The axes' limits are the caller's: zooming changes them, and neither weights nor text grow with it.
"""

from collections.abc import Iterator
from itertools import count
from math import hypot

from matplotlib.artist import Artist
from matplotlib.axes import Axes

from tiremap.drawing.scene import Scene, SceneMark, keys_of
from tiremap.render.artists import MM_PER_INCH, Kind, kind_of, made, place
from tiremap.render.palettes import palette
from tiremap.render.quick_artists import ToDots


class Painter:
    """Lays scenes on one axes in one palette, and takes off what it laid before.

    Raises `TiremapError` for a palette that does not exist.
    """

    def __init__(self, axes: Axes, palette_name: str = "light") -> None:
        palette(palette_name)  # one that does not exist is refused here, not at the first mark
        self.axes = axes
        self.palette_name = palette_name
        self._to_dots = ToDots(axes)
        self._still: list[Artist] = []
        self._moving: list[tuple[Kind, list[Artist]]] = []

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
        self.clear()
        orders = count(1)
        for mark in scene.marks:
            artists = self._new(mark, scene)
            _stack(artists, orders)
            if moving.isdisjoint(keys_of(mark)):
                self._still += artists
            else:
                self._moving.append((kind_of(mark, scene), artists))
        return self._animated()

    def lay_moving(self, scene: Scene, moving: frozenset[str]) -> list[Artist]:
        """Lay only the marks that move, in place of the moving ones laid before: one frame of a drag.

        Artists of the frame before are moved where there are some of the same kind: making new ones takes longer.
        """
        there: dict[Kind, list[list[Artist]]] = {}
        for kind, artists in self._moving:
            there.setdefault(kind, []).append(artists)
        self._moving = []
        orders = count(len(self._still) + 1)
        for mark in scene.marks:
            if moving.isdisjoint(keys_of(mark)):
                continue
            kind = kind_of(mark, scene)
            if there.get(kind):
                artists = there[kind].pop(0)
                place(mark, scene, artists, self._to_dots)
            else:
                artists = self._new(mark, scene)
            _stack(artists, orders)
            self._moving.append((kind, artists))
        _remove([artist for left in there.values() for artists in left for artist in artists])
        return self._animated()

    def clear(self) -> None:
        """Take off everything this painter laid."""
        _remove(self._still)
        _remove([artist for _, artists in self._moving for artist in artists])
        self._moving = []

    def _new(self, mark: SceneMark, scene: Scene) -> list[Artist]:
        artists = made(mark, scene, self.palette_name, self._to_dots)
        for artist in artists:
            self.axes.add_artist(artist)
        place(mark, scene, artists, self._to_dots)
        return artists

    def _animated(self) -> list[Artist]:
        every = [artist for _, artists in self._moving for artist in artists]
        for artist in every:
            artist.set_animated(True)
        return every


def length_in_paper_mm(axes: Axes, mm: float) -> float:
    """How long a tire length comes out on paper or screen, mm, at the axes' present limits."""
    (x0, y0), (x1, y1) = axes.transData.transform([(0.0, 0.0), (mm, 0.0)])
    return hypot(x1 - x0, y1 - y0) / axes.figure.dpi * MM_PER_INCH


def _stack(artists: list[Artist], orders: Iterator[int]) -> None:
    for artist, order in zip(artists, orders, strict=False):
        artist.set_zorder(order)


def _remove(artists: list[Artist]) -> None:
    for artist in artists:
        artist.remove()
    artists.clear()
