"""Lays scenes on matplotlib axes: shapes in tire mm, line weights, text and symbols in paper mm.

The axes' limits are the caller's: zooming changes them, and neither weights nor text grow with it.
"""

from math import atan2, cos, hypot, sin

import numpy as np
import shapely
from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.path import Path
from matplotlib.text import Text
from matplotlib.transforms import Affine2D, ScaledTranslation
from shapely import Geometry

from tiremap.drawing.labels import dimension_ends
from tiremap.drawing.lettering import cap_height
from tiremap.drawing.scene import Area, DimensionLine, Label, Line, Scene, SceneMark, Symbol, keys_of
from tiremap.render.palettes import POINTS_PER_MM, Look, look, palette
from tiremap.render.symbols import SymbolPart, symbol_parts
from tiremap.resources import read_toml

MM_PER_INCH = 25.4
FACE = "DejaVu Sans"
"""Ships with matplotlib, so a sheet looks alike on every machine."""
_ON_YELLOW = "#262422"
"""Outline on the yellow of Measure first: dark in every palette."""

_LINE_SPACING = 1.28
"""Sets lines 1.6 cap heights apart, within ``metrics.line`` of the style sheet (matplotlib counts otherwise)."""


class Painter:
    """Lays scenes on one axes in one palette, and takes off what it laid before."""

    def __init__(self, axes: Axes, palette_name: str = "light") -> None:
        self.axes = axes
        self.palette_name = palette_name
        self.colors = {**palette(palette_name), "on_yellow": _ON_YELLOW}
        self._still: list[Artist] = []
        self._moving: list[Artist] = []

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
        for mark in scene.marks:
            artists = self._artists(mark, scene)
            if moving.isdisjoint(keys_of(mark)):
                self._still += artists
            else:
                self._moving += artists
        self._animate()
        return list(self._moving)

    def lay_moving(self, scene: Scene, moving: frozenset[str]) -> list[Artist]:
        """Lay only the marks that move, in place of the moving ones laid before: one frame of a drag."""
        _remove(self._moving)
        for mark in scene.marks:
            if not moving.isdisjoint(keys_of(mark)):
                self._moving += self._artists(mark, scene)
        self._animate()
        return list(self._moving)

    def clear(self) -> None:
        """Take off everything this painter laid."""
        _remove(self._still)
        _remove(self._moving)

    def _animate(self) -> None:
        for artist in self._moving:
            artist.set_animated(True)

    def _artists(self, mark: SceneMark, scene: Scene) -> list[Artist]:
        if isinstance(mark, Area):
            artists = self._area(mark)
        elif isinstance(mark, Line):
            artists = [self._line(mark.points, look(mark.style, self.palette_name))]
        elif isinstance(mark, Label):
            artists = self._label(mark, scene)
        elif isinstance(mark, DimensionLine):
            artists = self._dimension(mark, scene)
        else:
            artists = self._symbol(mark)
        for order, artist in enumerate(artists):
            artist.set_zorder(len(self._still) + len(self._moving) + order + 1)
            self.axes.add_artist(artist)
        return artists

    def _area(self, mark: Area) -> list[Artist]:
        path = path_of(mark.shape)
        if path is None:
            return []
        seen = look(mark.style, self.palette_name)
        patches: list[Artist] = []
        if seen.fill is not None:
            patches.append(PathPatch(path, facecolor=seen.fill, alpha=seen.fill_alpha, edgecolor="none", linewidth=0))
        if seen.hatch is not None:
            patches.append(_hatched(path, seen))
        if seen.stroke is not None:
            patches.append(PathPatch(
                path, facecolor="none", edgecolor=seen.stroke, linewidth=seen.weight, linestyle=seen.line_style,
                joinstyle="round",
            ))
        return patches

    def _line(self, points: np.ndarray, seen: Look) -> Line2D:
        line = Line2D(
            points[:, 0], points[:, 1], color=seen.stroke, linewidth=seen.weight, solid_capstyle="butt",
            solid_joinstyle="round", dash_capstyle="butt",
        )
        if seen.dashes is not None:
            line.set_linestyle((0.0, tuple(each / seen.weight for each in seen.dashes)))
        return line

    def _label(self, mark: Label, scene: Scene) -> list[Artist]:
        artists: list[Artist] = []
        if mark.leader_to is not None:
            ends = np.array([(mark.x, mark.y), mark.leader_to])
            artists.append(self._line(ends, look("leader", self.palette_name)))
        across = {"left": "right", "right": "left"}.get(mark.anchor, "center")
        up = {"above": "bottom", "below": "top"}.get(mark.anchor, "center")
        artists.append(self._text(mark.x, mark.y, mark.text, mark.style, scene, across, up, mark.turn, mark.anchor))
        return artists

    def _text(
        self, x: float, y: float, text: str, style: str, scene: Scene, across: str, up: str, turn: float, anchor: str
    ) -> Text:
        seen = look(style, self.palette_name)
        metrics = read_toml("drawing", "styles.toml")["metrics"]
        cap = cap_height(style, scene.type_size)
        size = cap / metrics["cap_height_of_size"] * POINTS_PER_MM
        shift = {"left": -1, "right": 1}.get(anchor, 0) * metrics["margin"] * cap
        rise = {"above": 1, "below": -1}.get(anchor, 0) * metrics["margin"] * cap
        laid = Text(
            x, y, text, color=seen.color, fontsize=size, fontfamily=FACE,
            fontweight="bold" if seen.bold else "normal", horizontalalignment=across,
            verticalalignment="center_baseline" if up == "center" and "\n" not in text else up, rotation=turn,
            rotation_mode="anchor" if "\n" not in text else "default",
            multialignment={"right": "left", "left": "right"}.get(anchor, "center"), parse_math=False,
        )
        laid.set_linespacing(_LINE_SPACING)
        laid.set_transform(self.axes.transData + self._paper(shift, rise))
        laid.set_clip_on(True)
        if seen.backed:
            laid.set_bbox({"facecolor": self.colors["paper"], "alpha": 0.82, "linewidth": 0, "pad": 0.8})
        return laid

    def _paper(self, across_mm: float, up_mm: float) -> ScaledTranslation:
        return ScaledTranslation(across_mm / MM_PER_INCH, up_mm / MM_PER_INCH, self.axes.figure.dpi_scale_trans)

    def _dimension(self, mark: DimensionLine, scene: Scene) -> list[Artist]:
        seen = look(mark.style, self.palette_name)
        start, end = dimension_ends(mark)
        artists: list[Artist] = []
        if mark.offset:
            for foot, tip in ((mark.start, start), (mark.end, end)):
                artists.append(self._line(np.array([foot, tip]), look("leader", self.palette_name)))
        artists.append(self._line(np.array([start, end]), seen))
        along = atan2(end[1] - start[1], end[0] - start[0])
        turned = np.pi if mark.outside else 0.0
        artists += [self._arrow(end, along + turned, seen, mark.outside),
                    self._arrow(start, along + np.pi + turned, seen, mark.outside)]
        if mark.text:
            artists.append(self._dimension_text(mark, scene, start, end))
        return artists

    def _dimension_text(self, mark: DimensionLine, scene: Scene, start, end) -> Text:
        """The value above the middle of its line, readable from below or from the right."""
        along = atan2(end[1] - start[1], end[0] - start[0])
        turn = np.degrees(along)
        if turn > 90.001 or turn <= -89.999:
            turn -= 180 if turn > 0 else -180
        up = np.radians(turn + 90)
        metrics = read_toml("drawing", "styles.toml")["metrics"]
        away = 0.5 * metrics["line"] * cap_height(mark.style, scene.type_size) + 0.35
        text = self._text(
            (start[0] + end[0]) / 2, (start[1] + end[1]) / 2, mark.text, mark.style, scene, "center", "center", turn,
            "center",
        )
        text.set_transform(self.axes.transData + self._paper(away * cos(up), away * sin(up)))
        return text

    def _arrow(self, tip: tuple[float, float], along: float, seen: Look, outside: bool) -> PathPatch:
        """An arrow with its tip there; one that stands outside its line has a tail of its own."""
        sizes = read_toml("drawing", "styles.toml")["sizes"]
        long, half = sizes["arrow"], sizes["arrow_half_width"]
        path = Path([(0, 0), (-long, half), (-long, -half), (0, 0)], closed=True)
        if outside:
            path = Path.make_compound_path(path, Path([(-long, 0), (-1.8 * long, 0)]))
        return PathPatch(path, facecolor=seen.stroke, edgecolor=seen.stroke if outside else "none",
                         linewidth=seen.weight if outside else 0, joinstyle="miter",
                         transform=Affine2D().rotate(along) + self._at(*tip))

    def _symbol(self, mark: Symbol) -> list[Artist]:
        return [self._part(part, self._at(mark.x, mark.y))
                for part in symbol_parts(mark.kind, mark.chosen, mark.hovered)]

    def _at(self, x: float, y: float):
        """Paper mm about a point of the drawing."""
        to_dots = Affine2D().scale(1 / MM_PER_INCH) + self.axes.figure.dpi_scale_trans
        return to_dots + ScaledTranslation(x, y, self.axes.transData)

    def _part(self, part: SymbolPart, transform) -> PathPatch:
        return symbol_patch(part, self.colors, transform)


def symbol_patch(part: SymbolPart, colors: dict[str, str], transform) -> PathPatch:
    """One part of a symbol; ``transform`` takes paper mm about its middle to the figure."""
    weight = part.weight * POINTS_PER_MM
    patch = PathPatch(
        part.path, facecolor="none" if part.fill is None else colors[part.fill],
        edgecolor="none" if part.stroke is None else colors[part.stroke], linewidth=weight, hatch=part.hatch,
        capstyle="round", joinstyle="round", transform=transform,
    )
    if part.dashes is not None:
        patch.set_linestyle((0.0, tuple(each / part.weight for each in part.dashes)))
        patch.set_capstyle("butt")
    if part.hatch is not None:
        patch.set_hatch_linewidth(0.5)
    return patch


def path_of(shape: Geometry) -> Path | None:
    """A shape as one path, holes and all; ``None`` for an empty one."""
    paths = []
    for polygon in shapely.get_parts(shape):
        if polygon.geom_type != "Polygon" or polygon.is_empty:
            continue
        wound = shapely.geometry.polygon.orient(polygon)  # holes wind the other way, so that they stay open
        rings = [wound.exterior, *wound.interiors]
        paths += [Path(np.asarray(ring.coords)[:, :2], closed=True) for ring in rings]
    return Path.make_compound_path(*paths) if paths else None


def length_in_paper_mm(axes: Axes, mm: float) -> float:
    """How long a tire length comes out on paper or screen, mm, at the axes' present limits."""
    (x0, y0), (x1, y1) = axes.transData.transform([(0.0, 0.0), (mm, 0.0)])
    return hypot(x1 - x0, y1 - y0) / axes.figure.dpi * MM_PER_INCH


def _hatched(path: Path, seen: Look) -> PathPatch:
    patch = PathPatch(path, facecolor="none", edgecolor=seen.stroke, linewidth=0, hatch=seen.hatch)
    patch.set_hatch_linewidth(0.18 * POINTS_PER_MM)
    return patch


def _remove(artists: list[Artist]) -> None:
    for artist in artists:
        artist.remove()
    artists.clear()
