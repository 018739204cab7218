"""Artists that are drawn many times over: what their look comes to is worked out once.

matplotlib works out colors, dashes, transforms and the layout of words anew at each draw, which takes several times as
long as laying the ink. These remember it. Their look must not be changed after the first draw; path, place, words and
turn may. On anything but Agg (PDF, SVG) they are drawn as matplotlib draws their parents.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import cos, radians, sin
from typing import Any

import numpy as np
from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.backend_bases import GraphicsContextBase, RendererBase
from matplotlib.backends.backend_agg import RendererAgg, get_hinting_flag
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.path import Path
from matplotlib.text import Text
from matplotlib.transforms import Affine2D, Affine2DBase, IdentityTransform, Transform

from tiremap.model.units import MM_PER_INCH

MOST_KEPT = 4096
"""How many words set in type are remembered; then all are forgotten."""

_set_before: dict[tuple[object, ...], "SetWords"] = {}

Ink = tuple[GraphicsContextBase, Any]
"""How a path is drawn: pen, dashes, hatch and clip; and its fill, or ``None``."""


class ToDots(Affine2DBase):
    """From mm of a drawing to dots: the transform of its axes, worked out once until that changes."""

    _invalid: int

    def __init__(self, axes: Axes) -> None:
        super().__init__()
        self.paper = axes.figure.dpi_scale_trans
        self._of = axes.transData
        self._matrix: np.ndarray | None = None
        self.set_children(self._of)

    def get_matrix(self) -> np.ndarray:
        """The 3 by 3 matrix."""
        if self._matrix is None or self._invalid:
            self._matrix, self._invalid = self._of.get_affine().get_matrix(), 0
        return self._matrix


class Spot(Affine2DBase):
    """From paper mm about a point of the drawing to dots; turned by ``turn`` radians about it."""

    _invalid: int

    def __init__(self, to_dots: ToDots) -> None:
        super().__init__()
        self._to_dots = to_dots
        self._place = 0.0, 0.0, 0.0
        self._matrix: np.ndarray | None = None
        self.set_children(to_dots, to_dots.paper)

    def put(self, x: float, y: float, turn: float = 0.0) -> None:
        """Stand at a point of the drawing, mm."""
        self._place, self._matrix = (x, y, turn), None
        self.invalidate()

    def get_matrix(self) -> np.ndarray:
        """The 3 by 3 matrix."""
        if self._matrix is None or self._invalid:
            x, y, turn = self._place
            about = Affine2D().rotate(turn) if turn else Affine2D()
            about.scale(1 / MM_PER_INCH)
            self._matrix = np.dot(self._to_dots.paper.get_matrix(), about.get_matrix())
            self._matrix[:2, 2] += self._to_dots.transform((x, y))
            self._invalid = 0
        return self._matrix


class QuickPatch(PathPatch):
    """A patch that remembers its ink."""

    _ink: Ink | None = None

    def draw(self, renderer: RendererBase) -> None:
        """Draw it."""
        if not isinstance(renderer, RendererAgg):
            super().draw(renderer)
        elif self.get_visible():
            if self._ink is None:
                self._ink = _ink_of(super().draw)
            pen, fill = self._ink
            renderer._renderer.draw_path(pen, self.get_path(), Artist.get_transform(self).get_matrix(), fill)


class QuickLine(Line2D):
    """A line that remembers its ink; of fewer than 1,000 points, without markers."""

    _ink: Ink | None = None

    def draw(self, renderer: RendererBase) -> None:
        """Draw it."""
        if not isinstance(renderer, RendererAgg):
            super().draw(renderer)
        elif self.get_visible():
            if self._ink is None:
                self._ink = _ink_of(super().draw)
            renderer._renderer.draw_path(self._ink[0], self.get_path(), self.get_transform().get_matrix(), None)


@dataclass(frozen=True)
class SetLine:
    """A line of words as an image of its letters; dots from the point the text stands at, y up, to where it begins.

    ``falls`` is by how many dots the image reaches right and below of there.
    """

    letters: np.ndarray
    x: float
    y: float
    falls: tuple[tuple[float, float], tuple[float, float]]


@dataclass(frozen=True)
class SetWords:
    """Words set in type: their lines, and the outline of the paper behind them, dots from the point they stand at."""

    lines: tuple[SetLine, ...]
    behind: tuple[Path, np.ndarray] | None


class QuickText(Text):
    """A text that remembers its ink; ``setting`` names all but words, turn and color that its picture hangs on."""

    def __init__(self, *place_and_words: Any, setting: tuple[object, ...], **look: Any) -> None:
        super().__init__(*place_and_words, **look)
        self._setting = setting
        self._inks: tuple[GraphicsContextBase, Ink | None] | None = None

    def draw(self, renderer: RendererBase) -> None:
        """Draw it."""
        if not isinstance(renderer, RendererAgg):
            super().draw(renderer)
            return
        if not self.get_visible() or not self.get_text():
            return
        if self._inks is None:
            behind = self.get_bbox_patch()
            self._inks = self._pen(), None if behind is None else _ink_of(behind.draw)
        words, (pen, paper) = self._in_type(renderer.dpi), self._inks
        x, y = self.get_transform().transform(self.get_position())
        if words.behind is not None and paper is not None:
            path, about = words.behind
            there = about.copy()
            there[:2, 2] += x, y
            renderer._renderer.draw_path(paper[0], path, there, paper[1])
        for line in words.lines:
            (right, and_right), (down, and_down) = line.falls
            renderer._renderer.draw_text_image(
                line.letters, round(line.x + x + right + and_right),
                round(renderer.height - (line.y + y) + down + and_down) + 1, self.get_rotation(), pen,
            )

    def _pen(self) -> GraphicsContextBase:
        pen = GraphicsContextBase()
        pen.set_foreground(self.get_color())
        alpha = self.get_alpha()
        if alpha is not None:
            pen.set_alpha(alpha)
        pen.set_antialiased(self.get_antialiased())
        self._set_gc_clip(pen)  # type: ignore[attr-defined]  # matplotlib's stubs leave it out
        return pen

    def _in_type(self, dpi: float) -> SetWords:
        """The words set in type, remembered for every text of the same setting."""
        key = self._setting, self.get_text(), self.get_rotation(), dpi
        if key not in _set_before:
            if len(_set_before) >= MOST_KEPT:
                _set_before.clear()
            _set_before[key] = self._set_in_type(_typesetter(dpi))
        return _set_before[key]

    def _set_in_type(self, typesetter: "_Typesetter") -> SetWords:
        """Let matplotlib lay the words out about the origin."""
        place, there = self.get_position(), self.get_transform()
        self.set_position((0.0, 0.0))
        self.set_transform(IdentityTransform())
        try:
            super().draw(typesetter)
        finally:
            self.set_position(place)
            self.set_transform(there)
        return typesetter.taken_down()


class _Listener(RendererBase):
    """Takes down the ink a path is drawn with."""

    ink: Ink

    def draw_path(self, gc: GraphicsContextBase, path: Path, transform: Transform, rgbFace: Any = None) -> None:
        self.ink = gc, rgbFace


def _ink_of(draw: Any) -> Ink:
    listener = _Listener()
    draw(listener)
    return listener.ink


class _Typesetter(RendererAgg):
    """Takes down what a text at the origin would put where, with y up."""

    def __init__(self, dpi: float) -> None:
        super().__init__(1, 1, dpi)  # type: ignore[no-untyped-call]  # Agg has no types
        self._lines: list[SetLine] = []
        self._behind: tuple[Path, np.ndarray] | None = None

    def flipy(self) -> bool:
        return False

    def draw_path(self, gc: GraphicsContextBase, path: Path, transform: Transform, rgbFace: Any = None) -> None:
        self._behind = path, transform.get_matrix().copy()

    def draw_text(
        self, gc: GraphicsContextBase, x: float, y: float, s: str, prop: Any, angle: float, ismath: Any = False,
        mtext: Any = None,
    ) -> None:
        """As `RendererAgg` does it, up to laying the ink."""
        font = self._prepare_font(prop)  # type: ignore[no-untyped-call]  # Agg has no types
        font.set_text(s, 0, flags=get_hinting_flag())
        font.draw_glyphs_to_bitmap(antialiased=gc.get_antialiased())
        descent = font.get_descent() / 64.0
        right, down = (each / 64.0 for each in font.get_bitmap_offset())
        falls = (right, descent * sin(radians(angle))), (down, descent * cos(radians(angle)))
        self._lines.append(SetLine(np.array(font.get_image()), x, y, falls))

    def taken_down(self) -> SetWords:
        words = SetWords(tuple(self._lines), self._behind)
        self._lines, self._behind = [], None
        return words


@lru_cache(maxsize=8)
def _typesetter(dpi: float) -> _Typesetter:
    return _Typesetter(dpi)
