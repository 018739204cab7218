"""The matplotlib artists of one mark of a scene: made once in its style, then put where the mark is.

What a mark looks like makes its artists, where it is places them; so a mark that only moves keeps its artists.
"""

from math import atan2, cos, pi, sin
from typing import Any

import numpy as np
import shapely
from matplotlib.artist import Artist
from matplotlib.path import Path
from matplotlib.text import Text
from matplotlib.transforms import ScaledTranslation, Transform
from shapely import Geometry, Polygon

from tiremap.drawing.labels import dimension_ends
from tiremap.drawing.lettering import cap_height
from tiremap.drawing.scene import Anchor, Area, DimensionLine, Label, Line, Scene, SceneMark, Symbol
from tiremap.model.units import MM_PER_INCH
from tiremap.render.palettes import POINTS_PER_MM, Look, look, palette
from tiremap.render.quick_artists import QuickLine, QuickPatch, QuickText, Spot, ToDots
from tiremap.render.symbols import SymbolPart, symbol_parts
from tiremap.resources import read_toml

FACE = "DejaVu Sans"
"""Ships with matplotlib, so a sheet looks alike on every machine."""
ON_YELLOW = "#262422"
"""Outline on the yellow of Measure first: dark in every palette."""
_LINE_SPACING = 1.28
"""Sets lines 1.6 cap heights apart, within ``metrics.line`` of the style sheet (matplotlib counts otherwise)."""
HATCH_MM = 0.18
"""Weight of hatching, paper mm."""
_NOWHERE = Path(np.zeros((1, 2)))

XY = tuple[float, float]

Kind = tuple[object, ...]
"""All that a mark's artists are made from; marks of one kind differ in place and words alone."""


def kind_of(mark: SceneMark, scene: Scene) -> Kind:
    """The kind of a mark."""
    if isinstance(mark, Symbol):
        return (Symbol, mark.kind, mark.chosen, mark.hovered)
    if isinstance(mark, Label):
        return (Label, mark.style, mark.anchor, mark.turn, mark.leader_to is None, "\n" in mark.text, scene.type_size)
    if isinstance(mark, DimensionLine):
        return (DimensionLine, mark.style, mark.offset == 0, mark.outside, mark.text == "", scene.type_size)
    return (type(mark), mark.style)


def made(mark: SceneMark, scene: Scene, palette_name: str, to_dots: ToDots) -> list[Artist]:
    """New artists for a mark, from back to front, to be added to axes and then placed."""
    if isinstance(mark, Symbol):
        colors, spot = {**palette(palette_name), "on_yellow": ON_YELLOW}, Spot(to_dots)
        return [symbol_patch(part, colors, spot) for part in symbol_parts(mark.kind, mark.chosen, mark.hovered)]
    seen = look(mark.style, palette_name)
    if isinstance(mark, Area):
        return _patches(seen, to_dots)
    if isinstance(mark, Line):
        return [_line(seen, to_dots)]
    leader = look("leader", palette_name)
    if isinstance(mark, Label):
        leaders = [] if mark.leader_to is None else [_line(leader, to_dots)]
        return [*leaders, _text(mark.text, mark.style, mark.anchor, mark.turn, scene, palette_name)]
    feet = [_line(leader, to_dots), _line(leader, to_dots)] if mark.offset else []
    value = [_text(mark.text, mark.style, "center", 0.0, scene, palette_name)] if mark.text else []
    arrows = [_arrow(mark, seen, Spot(to_dots)) for _ in (mark.end, mark.start)]
    return [*feet, _line(seen, to_dots), *arrows, *value]


def place(mark: SceneMark, scene: Scene, artists: list[Any], to_dots: ToDots) -> None:
    """Put a mark's artists, as `made` gave them, where the mark is, with the words it has."""
    if isinstance(mark, Area):
        path = path_of(mark.shape)
        for patch in artists:
            patch.set_path(_NOWHERE if path is None else path)
            patch.set_visible(path is not None)
    elif isinstance(mark, Line):
        artists[0].set_data(*mark.points.T)
    elif isinstance(mark, Symbol):
        _spot_of(artists[0]).put(mark.x, mark.y)
    elif isinstance(mark, Label):
        *leaders, text = artists
        if leaders:
            leaders[0].set_data(*np.transpose([(mark.x, mark.y), mark.leader_to]))
        away = read_toml("drawing", "styles.toml")["metrics"]["margin"] * cap_height(mark.style, scene.type_size)
        _put_text(text, mark.x, mark.y, mark.text)
        text.set_transform(_shifted(
            {"left": -away, "right": away}.get(mark.anchor, 0.0), {"above": away, "below": -away}.get(mark.anchor, 0.0),
            to_dots,
        ))
    else:
        _place_dimension(mark, scene, artists, to_dots)


def _place_dimension(mark: DimensionLine, scene: Scene, artists: list[Any], to_dots: ToDots) -> None:
    start, end = dimension_ends(mark)
    if mark.offset:
        for foot, (on, tip) in zip(artists, ((mark.start, start), (mark.end, end)), strict=False):
            foot.set_data(*np.transpose([on, tip]))
        artists = artists[2:]
    line, at_end, at_start = artists[:3]
    line.set_data(*np.transpose([start, end]))
    along = atan2(end[1] - start[1], end[0] - start[0])
    turned = pi if mark.outside else 0.0
    _spot_of(at_end).put(*end, along + turned)
    _spot_of(at_start).put(*start, along + pi + turned)
    if mark.text:
        _place_value(mark, scene, artists[3], (start, end), to_dots)


def _place_value(
    mark: DimensionLine, scene: Scene, text: Text, ends: tuple[XY, XY], to_dots: ToDots
) -> None:
    """The value above the middle of its line, readable from below or from the right."""
    (x0, y0), (x1, y1) = ends
    turn = np.degrees(atan2(y1 - y0, x1 - x0))
    if turn > 90.001 or turn <= -89.999:
        turn -= 180 if turn > 0 else -180
    up = np.radians(turn + 90)
    line = read_toml("drawing", "styles.toml")["metrics"]["line"]
    away = 0.5 * line * cap_height(mark.style, scene.type_size) + 0.35
    _put_text(text, (x0 + x1) / 2, (y0 + y1) / 2, mark.text)
    text.set_rotation(turn)
    text.set_transform(_shifted(away * cos(up), away * sin(up), to_dots))


def _put_text(text: Text, x: float, y: float, words: str) -> None:
    text.set_position((x, y))
    text.set_text(words)


def _shifted(across_mm: float, up_mm: float, to_dots: ToDots) -> Transform:
    """Paper mm away from a point of the drawing."""
    return to_dots + ScaledTranslation(across_mm / MM_PER_INCH, up_mm / MM_PER_INCH, to_dots.paper)


def _spot_of(artist: Artist) -> Spot:
    spot: Any = Artist.get_transform(artist)  # a patch's own transform holds its path's too
    assert isinstance(spot, Spot)
    return spot


def _patches(seen: Look, to_dots: ToDots) -> list[Artist]:
    """Fill, hatch and outline of an area, as far as its style has them."""
    looks: list[dict[str, object]] = []
    if seen.fill is not None:
        looks.append({"facecolor": seen.fill, "alpha": seen.fill_alpha, "edgecolor": "none", "linewidth": 0})
    if seen.hatch is not None:
        looks.append({
            "facecolor": "none", "edgecolor": seen.stroke, "linewidth": 0, "hatch": seen.hatch,
            "hatch_linewidth": HATCH_MM * POINTS_PER_MM,
        })
    if seen.stroke is not None:
        looks.append({
            "facecolor": "none", "edgecolor": seen.stroke, "linewidth": seen.weight, "linestyle": seen.line_style,
            "joinstyle": "round",
        })
    return [QuickPatch(_NOWHERE, transform=to_dots, **each) for each in looks]


def _line(seen: Look, to_dots: ToDots) -> QuickLine:
    line = QuickLine(
        [], [], color=seen.stroke, linewidth=seen.weight, solid_capstyle="butt", solid_joinstyle="round",
        dash_capstyle="butt", transform=to_dots,
    )
    if seen.dashes is not None:
        line.set_linestyle((0.0, tuple(each / seen.weight for each in seen.dashes)))
    return line


def _text(words: str, style: str, anchor: Anchor, turn: float, scene: Scene, palette_name: str) -> Text:
    seen = look(style, palette_name)
    metrics = read_toml("drawing", "styles.toml")["metrics"]
    size = cap_height(style, scene.type_size) / metrics["cap_height_of_size"] * POINTS_PER_MM
    up = {"above": "bottom", "below": "top"}.get(anchor, "center")
    one_line = "\n" not in words
    laid = QuickText(
        0.0, 0.0, words, setting=(style, anchor, one_line, scene.type_size),
        color=seen.color, fontsize=size, fontfamily=FACE, fontweight="bold" if seen.bold else "normal",
        horizontalalignment={"left": "right", "right": "left"}.get(anchor, "center"),
        verticalalignment="center_baseline" if up == "center" and one_line else up, rotation=turn,
        rotation_mode="anchor" if one_line else "default",
        multialignment={"right": "left", "left": "right"}.get(anchor, "center"), parse_math=False,
    )
    laid.set_linespacing(_LINE_SPACING)
    laid.set_clip_on(True)
    if seen.backed:
        laid.set_bbox({"facecolor": palette(palette_name)["paper"], "alpha": 0.82, "linewidth": 0, "pad": 0.8})
    return laid


def _arrow(mark: DimensionLine, seen: Look, spot: Spot) -> QuickPatch:
    """An arrow with its tip at the origin; one that stands outside its line has a tail of its own."""
    sizes = read_toml("drawing", "styles.toml")["sizes"]
    long, half = sizes["arrow"], sizes["arrow_half_width"]
    path = Path([(0, 0), (-long, half), (-long, -half), (0, 0)], closed=True)
    if not mark.outside:
        return QuickPatch(path, transform=spot, facecolor=seen.stroke, edgecolor="none", linewidth=0)
    path = Path.make_compound_path(path, Path([(-long, 0), (-1.8 * long, 0)]))
    return QuickPatch(
        path, transform=spot, facecolor=seen.stroke, edgecolor=seen.stroke, linewidth=seen.weight, joinstyle="miter"
    )


def symbol_patch(part: SymbolPart, colors: dict[str, str], transform: Transform) -> QuickPatch:
    """One part of a symbol; ``transform`` takes paper mm about its middle to the figure."""
    weight = part.weight * POINTS_PER_MM
    patch = QuickPatch(
        part.path, transform=transform, facecolor="none" if part.fill is None else colors[part.fill],
        edgecolor="none" if part.stroke is None else colors[part.stroke], linewidth=weight,
        capstyle="round", joinstyle="round",
    )
    if part.dashes is not None:
        patch.set_linestyle((0.0, tuple(each / part.weight for each in part.dashes)))
        patch.set_capstyle("butt")
    return patch


def path_of(shape: Geometry) -> Path | None:
    """A shape as one path, holes and all; ``None`` for an empty one."""
    paths = []
    for polygon in [shape] if isinstance(shape, Polygon) else shapely.get_parts(shape):
        if not isinstance(polygon, Polygon) or polygon.is_empty:
            continue
        # Holes wind the other way, so that they stay open.
        paths += [_closed(polygon.exterior, True), *(_closed(hole, False) for hole in polygon.interiors)]
    if len(paths) == 1:
        return paths[0]
    return Path.make_compound_path(*paths) if paths else None


def _closed(ring: Geometry, leftward: bool) -> Path:
    """A ring as a path; to the left around, as one looks at the drawing, or to the right."""
    points = shapely.get_coordinates(ring)
    return Path(points if shapely.is_ccw(ring) == leftward else points[::-1], closed=True)
