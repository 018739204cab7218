"""Clicks on the drawings land where they are aimed, at one and at two screen pixels to the logical one."""

import os
import subprocess
import sys
from math import radians
from pathlib import Path

import pytest

from tests.gui.drawing_desk import LEFT, Desk
from tiremap.drawing.sight import section_of

RATIO = int(os.environ.get("QT_SCALE_FACTOR", "1"))


@pytest.fixture
def desk(qtbot):
    return Desk(qtbot)


def test_the_screen_has_the_pixel_ratio_that_this_run_is_about(desk):
    assert desk.canvas.device_pixel_ratio == RATIO
    assert desk.canvas.figure.bbox.width == pytest.approx(desk.canvas.width() * RATIO)


@pytest.mark.parametrize(("across", "around"), [(0, 0), (-50, 9), (55, 357), (20, 351)])
def test_a_click_on_the_strip_asks_for_an_injury_where_it_was_aimed(desk, across, around):
    desk.click(desk.on_strip(across, around))
    [(heard_across, heard_around)] = desk.heard_of("injury_wanted")
    pixel = 1 / desk.picture.sight.scale
    assert heard_across == pytest.approx(across, abs=pixel)
    off = (heard_around - radians(around) + 3) % radians(360) - 3
    assert abs(off) * desk.picture.tread_radius < 1.1 * pixel


@pytest.mark.parametrize("across", [0, -60, 55, 75])
def test_a_click_on_the_section_asks_for_an_injury_there_and_nothing_around(desk, across):
    desk.click(desk.on_tread(across))
    [(heard_across, heard_around)] = desk.heard_of("injury_wanted")
    assert heard_across == pytest.approx(across, abs=1 / desk.picture.sight.scale)
    assert heard_around is None


def test_clicks_land_as_well_after_zooming_and_turning(desk):
    desk.wheel(desk.on_strip(40, 3), 4)
    desk.settle()
    desk.click(desk.on_strip(55, 2))
    [(across, around)] = desk.heard_of("injury_wanted")
    pixel = 1 / desk.picture.sight.scale
    assert across == pytest.approx(55, abs=pixel)
    assert around == pytest.approx(radians(2), abs=1.1 * pixel / desk.picture.tread_radius)


def test_a_click_seen_from_outside_is_mirrored(desk):
    desk.panel.set_seen_from_inside(False)
    desk.settle()
    aimed = desk.on_strip(-50, 3)
    desk.click(aimed)
    [(across, _)] = desk.heard_of("injury_wanted")
    assert across == pytest.approx(50, abs=1 / desk.picture.sight.scale)


def test_a_click_beside_the_tire_asks_for_nothing(desk):
    panels = desk.picture.panels
    for x, y in [(3, 3), (panels.section.left + 3, panels.section.top + panels.section.height - 3)]:
        desk.click(desk.canvas.rect().topLeft() + type(desk.on_tread(0))(round(x), round(y)))
    assert desk.heard == []


def test_a_place_in_the_section_is_straight_above_its_place_on_the_strip(desk):
    for across in (-60, 0, 45):
        above, below = desk.on_tread(across), desk.on_strip(across, 0)
        assert abs(above.x() - below.x()) <= 1 + desk.picture.sight.scale * 1.0


def test_a_click_on_a_mark_chooses_it_and_places_nothing(desk):
    desk.click(desk.on_strip(30, 6))
    assert desk.heard == [("mark_chosen", "1")]


def test_a_double_click_on_a_mark_opens_it_for_typing(desk, qtbot):
    qtbot.mouseDClick(desk.canvas, LEFT, pos=desk.on_strip(30, 6))
    assert desk.heard_of("mark_edit_wanted") == [["1"]]
    assert desk.heard_of("injury_wanted") == []


@pytest.mark.skipif(RATIO != 1, reason="runs the others on the other screen")
def test_clicks_land_on_a_screen_with_two_pixels_to_the_logical_one():
    environment = {**os.environ, "QT_SCALE_FACTOR": "2", "QT_QPA_PLATFORM": "offscreen"}
    run = subprocess.run(
        [
            sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "-n", "0",
            "-k", "ratio or strip_asks or after_zooming", str(Path(__file__)),
        ],
        env=environment, capture_output=True, text=True, timeout=300, cwd=Path(__file__).parents[2],
    )
    assert run.returncode == 0, run.stdout[-3000:]
    assert "passed" in run.stdout


@pytest.mark.parametrize("size", [(626, 575), (420, 300), (1256, 870)])
@pytest.mark.parametrize("palette", ["light", "projector"])
def test_the_tire_keeps_its_room_whatever_is_written_over_it(desk, size, palette):
    desk.panel.set_palette_name(palette)
    desk.panel.resize(*size)
    desk.settle()
    picture = desk.picture
    low = picture.sight.section_frame[1]
    tall = (picture.tread_radius - low) * picture.sight.scale
    assert tall >= 0.39 * picture.panels.section.height
    assert picture.sight.limits("section", picture.panels)[1] <= low + 1e-6


def test_in_a_window_of_1280_by_800_the_tire_fills_the_width_of_its_part(desk):
    desk.panel.resize(626, 591)
    desk.settle()
    picture = desk.picture
    wide = 2 * section_of(picture.assessment).widest_half_width * picture.sight.scale
    assert wide >= 0.65 * picture.panels.section.width
