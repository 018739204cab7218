import warnings

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.text import Text
from shapely import Point

from tests.helpers.jobs import crown_injury
from tests.unit.drawing.scenes_of import SCENES, assessed, crowded, looking_at
from tiremap.drawing.labels import Lettering, text_shape
from tiremap.drawing.scene import Area, Label, Line, Scene, Symbol
from tiremap.drawing.section_scene import section_scene
from tiremap.drawing.strip_scene import strip_scene
from tiremap.errors import TiremapError
from tiremap.render.artists import MM_PER_INCH
from tiremap.render.painter import Painter, length_in_paper_mm
from tiremap.render.palettes import palette_names

WORDS = (
    "seen from inside the tire", "27.6 mm inside", "heads share 1054 mm²", "crown zone, North America", "datum:\nvalve",
    "205/55R16 91V", "TREAD EDGE, WWWW", "Inspect inside and out, off the rim.\nThe stricter word decides.",
)


def _axes(width_px: int = 900, height_px: int = 700, dpi: int = 100):
    figure = Figure(figsize=(width_px / dpi, height_px / dpi), dpi=dpi)
    FigureCanvasAgg(figure)
    return figure.add_axes((0, 0, 1, 1))


def _pixels(axes) -> np.ndarray:
    axes.figure.canvas.draw()
    return np.asarray(axes.figure.canvas.buffer_rgba()).copy()


@pytest.mark.parametrize("anchor", ["center", "left", "right", "above", "below"])
@pytest.mark.parametrize("style", ["label", "label_mark", "title", "caution"])
@pytest.mark.parametrize("text", WORDS)
def test_words_fit_the_box_their_place_was_chosen_by(text, style, anchor):
    axes = _axes()
    label = Label(0.0, 0.0, text, style, anchor=anchor)
    scene = Scene("strip", (label,), (-150, -110, 150, 110))
    painter = Painter(axes)
    scale = painter.fit(scene)
    painter.lay(scene)
    (written,) = (artist for artist in axes.get_children() if isinstance(artist, Text) and artist.get_text() == text)
    ink = Text.get_window_extent(written, axes.figure.canvas.get_renderer())
    box = text_shape(label, Lettering(scale, "screen")).bounds
    (x_low, y_low), (x_high, y_high) = axes.transData.inverted().transform(ink.corners()[[0, 3]])
    spare = 0.25 * scale
    assert box[0] - spare <= x_low and x_high <= box[2] + spare
    assert box[1] - spare <= y_low and y_high <= box[3] + spare


def test_fit_shows_the_whole_frame_on_equal_scales():
    axes = _axes(1000, 400)
    scene = section_scene(assessed(crown_injury()), looking_at(40))
    scale = Painter(axes).fit(scene)
    x_low, x_high, y_low, y_high = *axes.get_xlim(), *axes.get_ylim()
    assert x_low <= scene.frame[0] and scene.frame[2] <= x_high
    assert y_low <= scene.frame[1] + 1e-9 and scene.frame[3] <= y_high + 1e-9
    assert (x_high - x_low) / 1000 == pytest.approx((y_high - y_low) / 400)
    assert length_in_paper_mm(axes, 50.0) == pytest.approx(50.0 / scale)


def test_line_weights_and_letters_do_not_grow_with_zoom():
    axes = _axes()
    scene = Scene("strip", (Label(0, 0, "word", "label"),), (-100, -100, 100, 100))
    painter = Painter(axes)
    painter.fit(scene)
    painter.lay(scene)
    (written,) = (artist for artist in axes.get_children() if getattr(artist, "get_text", str)() == "word")
    before = Text.get_window_extent(written, axes.figure.canvas.get_renderer()).width
    axes.set_xlim(-10, 10)
    axes.set_ylim(-10, 10)
    assert Text.get_window_extent(written, axes.figure.canvas.get_renderer()).width == before


def test_letters_on_screen_are_two_and_a_half_millimeters_tall():
    axes = _axes(dpi=254)
    scene = Scene("strip", (Label(0, 0, "H", "sentence"),), (-100, -100, 100, 100))
    painter = Painter(axes)
    painter.fit(scene)
    painter.lay(scene)
    rows = np.flatnonzero((_pixels(axes)[:, :, :3].min(axis=2) < 128).any(axis=1))
    assert (rows[-1] - rows[0] + 1) / 254 * MM_PER_INCH == pytest.approx(2.5, abs=0.2)


def test_what_moves_is_animated_and_left_out_of_the_full_draw():
    axes = _axes()
    assessment, view = assessed(crown_injury("1", 20.0, 40.0), crown_injury("2", -20.0, 50.0)), looking_at(40)
    scene = strip_scene(assessment, view)
    painter = Painter(axes)
    painter.fit(scene)
    moving = painter.lay(scene, moving=frozenset({"injury.1"}))
    assert moving and all(artist.get_animated() for artist in moving)
    still = sum(not artist.get_animated() for artist in axes.get_children())
    assert painter.lay(scene) == []
    assert sum(not artist.get_animated() for artist in axes.get_children()) == still + len(moving)


def test_a_drag_frame_over_the_kept_background_shows_what_a_full_draw_shows():
    axes = _axes()
    view = looking_at(40, while_dragging=True)
    before, after = (strip_scene(assessed(crown_injury("1", x, 40.0)), view) for x in (20.0, -30.0))
    painter, moving = Painter(axes), frozenset({"injury.1"})
    painter.fit(before)
    painter.lay(before, moving)
    axes.figure.canvas.draw()
    kept = axes.figure.canvas.copy_from_bbox(axes.bbox)
    artists = painter.lay_moving(after, moving)
    axes.figure.canvas.restore_region(kept)
    for artist in artists:
        axes.draw_artist(artist)
    dragged = np.asarray(axes.figure.canvas.buffer_rgba()).copy()
    painter.lay(after)
    whole = _pixels(axes)
    differing = (np.abs(dragged.astype(int) - whole.astype(int)).max(axis=2) > 40).mean()
    assert differing < 0.002


def test_laying_again_takes_off_what_was_laid_before():
    axes = _axes()
    scene = section_scene(assessed(crown_injury()), looking_at(40))
    painter = Painter(axes)
    painter.lay(scene)
    once = len(axes.get_children())
    painter.lay(scene)
    assert len(axes.get_children()) == once
    painter.clear()
    assert len(axes.get_children()) < once / 2


@pytest.mark.parametrize("name", SCENES)
@pytest.mark.parametrize("palette", palette_names())
def test_every_mark_of_a_crowded_job_is_laid_in_every_palette(name, palette):
    axes = _axes()
    scene = SCENES[name](crowded(), looking_at(40, chosen="3"))
    painter = Painter(axes, palette)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        painter.fit(scene)
        painter.lay(scene)
        _pixels(axes)
    drawn = [artist for artist in axes.get_children() if isinstance(artist, Text) and artist.get_text()]
    labels = [mark for mark in scene.marks if getattr(mark, "text", "")]
    assert len(drawn) == len(labels)


def test_the_three_answers_differ_in_shape_without_color():
    pictures = []
    for kind in ("repairable", "measure_first", "not_repairable"):
        axes = _axes(120, 120, dpi=500)
        scene = Scene("strip", (Symbol(0, 0, kind),), (-4, -4, 4, 4))
        painter = Painter(axes)
        painter.fit(scene)
        painter.lay(scene)
        grey = _pixels(axes)[:, :, :3].mean(axis=2)
        pictures.append(grey < 0.9 * grey.max())
    for one, other in ((0, 1), (0, 2), (1, 2)):
        assert (pictures[one] != pictures[other]).mean() > 0.01


def test_a_palette_that_does_not_exist_is_refused_with_those_that_do():
    with pytest.raises(TiremapError, match="light"):
        Painter(_axes(), "sepia")


def test_an_area_with_a_hole_is_not_filled_in():
    axes = _axes(200, 200)
    ring = Point(0, 0).buffer(40).difference(Point(0, 0).buffer(20))
    scene = Scene("ring", (Area(ring, "tread"), Line(np.array([(-50, 49), (50, 49)]), "tick")), (-50, -50, 50, 50))
    painter = Painter(axes)
    painter.fit(scene)
    painter.lay(scene)
    picture = _pixels(axes)[:, :, :3].mean(axis=2)
    assert picture[100, 100] == 255 and picture[100, 40] < 128


def test_a_scene_laid_over_another_looks_as_laid_on_empty_axes():
    axes, fresh = _axes(), _axes()
    view = looking_at(40, chosen="1")
    one, other = assessed(crown_injury("1", 20.0, 40.0)), crowded()
    doubled = strip_scene(one, view)
    doubled = Scene("strip", doubled.marks * 2, doubled.frame)  # the very same marks twice, then once
    first, second = strip_scene(one, view), strip_scene(other, view)
    scenes = [first, second, doubled, first, second]
    painter, moving = Painter(axes), frozenset({"injury.1"})
    painter.fit(scenes[0])
    for number, scene in enumerate(scenes):
        laid_before = len(axes.get_children())
        painter.lay(scene, moving if number % 2 else frozenset())
        painter.lay(scene)
        alone = Painter(fresh)
        alone.fit(scenes[0])
        alone.lay(scene)
        assert np.array_equal(_pixels(axes), _pixels(fresh))
        assert len(axes.get_children()) == len(fresh.get_children()), laid_before
        alone.clear()
