"""What remembers its ink must look, to the last pixel, as matplotlib draws it anew."""

from dataclasses import replace

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.text import Text

from tests.unit.drawing.scenes_of import SCENES, crowded, looking_at
from tiremap.drawing.mark_looks import key_of
from tiremap.drawing.scene import DimensionLine, Label, Scene
from tiremap.edits.injuries import move_injury
from tiremap.render.painter import Painter
from tiremap.render.palettes import palette_names
from tiremap.render.quick_artists import QuickLine, QuickPatch, QuickText, ToDots
from tiremap.session import Session

PARENTS = {QuickPatch: PathPatch, QuickLine: Line2D, QuickText: Text}


def _axes(dpi: float = 96):
    figure = Figure(figsize=(700 / dpi, 500 / dpi), dpi=dpi)
    FigureCanvasAgg(figure)
    return figure.add_axes((0.05, 0.1, 0.9, 0.85))


def _pixels(axes, over=()) -> np.ndarray:
    """A whole draw, and over it the artists a whole draw leaves out."""
    axes.figure.canvas.draw()
    for artist in over:
        artist.draw(axes.figure.canvas.get_renderer())
    return np.asarray(axes.figure.canvas.buffer_rgba()).copy()


def _as_matplotlib_draws(axes, monkeypatch, over=()) -> np.ndarray:
    with monkeypatch.context() as patched:
        for quick, parent in PARENTS.items():
            patched.setattr(quick, "draw", parent.draw)
        return _pixels(axes, over)


@pytest.mark.parametrize("palette", palette_names())
@pytest.mark.parametrize("name", SCENES)
@pytest.mark.parametrize("dpi", [96, 192, 137.5])
def test_a_scene_is_drawn_as_matplotlib_draws_it(name, palette, dpi, monkeypatch):
    axes, scene = _axes(dpi), SCENES[name](crowded(), looking_at(29, chosen="1"))
    painter = Painter(axes, palette)
    painter.fit(scene)
    painter.lay(scene)
    first, again = _pixels(axes), _pixels(axes)
    assert np.array_equal(first, _as_matplotlib_draws(axes, monkeypatch))
    assert np.array_equal(again, first)


def test_what_moves_in_a_drag_is_drawn_as_matplotlib_draws_it(monkeypatch):
    session, axes, view = Session(crowded().job), _axes(), looking_at(29, chosen="1")
    moving = frozenset({key_of(session.assessment.mark("1"))})
    painter = Painter(axes)
    laid = SCENES["strip"](session.assessment, view)
    painter.fit(laid)
    over = painter.lay(laid, moving)
    seen = [_pixels(axes, over)]
    for step in range(1, 8):
        tried = session.preview(move_injury(session.job, "1", across_mm=-40 + 9.3 * step, around_deg=20 + 2.7 * step))
        over = painter.lay_moving(SCENES["strip"](tried, replace(view, while_dragging=True)), moving)
        seen.append(_pixels(axes, over))
        assert np.array_equal(seen[-1], _as_matplotlib_draws(axes, monkeypatch, over))
        assert not np.array_equal(seen[-1], seen[-2])


@pytest.mark.parametrize("turn", [0.0, 31.0, 90.0, -77.5])
@pytest.mark.parametrize("anchor", ["center", "left", "right", "above", "below"])
def test_words_at_any_place_and_turn_are_drawn_as_matplotlib_draws_them(turn, anchor, monkeypatch):
    axes = _axes()
    marks = tuple(
        Label(*place, words, style, anchor=anchor, turn=turn)
        for place, words, style in (
            ((-31.23, 11.7), "12.4 mm", "label_mark"), ((20.41, -17.3), "two\nlines g", "label"),
            ((47.9, 40.02), "12.4 mm", "dimension_shown"), ((-60.0, -40.0), "cut at the edge", "title"),
        )
    )
    values = tuple(
        DimensionLine((x, -20.0), (x + 30.0, -20.0 + turn), "7.7 mm", offset=2.0, outside=outside)
        for x, outside in ((-40.0, False), (10.0, True))
    )
    scene = Scene("strip", (*marks, *values), (-60, -45, 60, 45))
    painter = Painter(axes)
    painter.fit(scene)
    painter.lay(scene)
    assert np.array_equal(_pixels(axes), _as_matplotlib_draws(axes, monkeypatch))


def test_a_drawing_that_is_zoomed_or_drawn_finer_is_drawn_anew(monkeypatch):
    axes, scene = _axes(), SCENES["section"](crowded(), looking_at(29, chosen="1"))
    painter = Painter(axes)
    painter.fit(scene)
    painter.lay(scene)
    before = _pixels(axes)
    axes.set_xlim(-20, 40)
    zoomed = _pixels(axes)
    assert not np.array_equal(zoomed, before)
    assert np.array_equal(zoomed, _as_matplotlib_draws(axes, monkeypatch))
    axes.figure.set_dpi(150)
    finer = _pixels(axes)
    assert finer.shape != zoomed.shape
    assert np.array_equal(finer, _as_matplotlib_draws(axes, monkeypatch))


def test_the_transform_of_a_drawing_follows_its_axes():
    axes = _axes()
    to_dots = ToDots(axes)
    for low, high in ((0, 1), (-30, 17), (5, 6)):
        axes.set(xlim=(low, high), ylim=(low - 3, high))
        assert np.array_equal(to_dots.transform((low, high)), axes.transData.transform((low, high)))
        assert np.array_equal(to_dots.get_matrix(), axes.transData.get_matrix())
