"""The drawings by keyboard and by ear, and errors that must be seen."""

from math import degrees, floor

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from tests.gui.drawing_desk import CTRL, NONE, SHIFT, Desk
from tests.helpers.jobs import bench_job, crown_injury
from tiremap.assess import assess

Key = Qt.Key


@pytest.fixture
def desk(qtbot):
    return Desk(qtbot)


@pytest.fixture
def chosen(desk):
    desk.panel.show_assessment(assess(desk.job), "1", None)
    desk.settle()
    return desk


def test_tab_goes_through_every_mark_and_back(desk):
    for key in [Key.Key_Tab] * 4 + [Key.Key_Backtab]:
        desk.key(key)
    assert [id for [id] in desk.heard_of("mark_chosen")] == ["1", "2", "3", "R1", "3"]


def test_the_keyboard_chooses_a_mark_that_lies_under_another(qtbot):
    desk = Desk(qtbot, bench_job(crown_injury("1", 10, 5), crown_injury("2", 10, 5)))
    desk.key(Key.Key_Tab)
    desk.key(Key.Key_Tab)
    assert desk.picture.chosen == "2"


def test_tab_past_the_last_mark_lets_the_focus_go_on(qtbot):
    desk = Desk(qtbot, bench_job(crown_injury("1")))
    window, after = QWidget(), QLineEdit()
    qtbot.addWidget(window)
    layout = QVBoxLayout(window)
    layout.addWidget(desk.panel)
    layout.addWidget(after)
    window.show()
    window.activateWindow()
    desk.canvas.setFocus()
    qtbot.waitUntil(desk.canvas.hasFocus)
    desk.key(Key.Key_Tab)
    assert desk.canvas.hasFocus()
    desk.key(Key.Key_Tab)
    assert after.hasFocus()
    desk.panel.setParent(None)


@pytest.mark.parametrize(("held", "step"), [(NONE, 1.0), (SHIFT, 10.0), (CTRL, 0.1)])
def test_arrows_nudge_across_and_by_as_much_along_the_tread(chosen, held, step):
    for key in (Key.Key_Right, Key.Key_Left, Key.Key_Down, Key.Key_Up):
        chosen.key(key, held)
    along = degrees(step / 316)  # 205/55R16 is 632 mm across
    nudges = chosen.heard_of("mark_nudged")
    assert [nudge[0] for nudge in nudges] == ["1"] * 4
    assert [nudge[1] for nudge in nudges] == pytest.approx([step, -step, 0, 0])
    assert [nudge[2] for nudge in nudges] == pytest.approx([0, 0, along, -along])


def test_arrows_point_as_on_the_screen_when_seen_from_outside(chosen):
    chosen.panel.set_seen_from_inside(False)
    chosen.key(Key.Key_Right)
    assert chosen.heard_of("mark_nudged") == [["1", -1.0, 0.0]]


def test_delete_removes_enter_edits_and_escape_lets_go(chosen):
    for key in (Key.Key_Delete, Key.Key_Return, Key.Key_Escape):
        chosen.key(key)
    assert chosen.heard == [("mark_removed", "1"), ("mark_edit_wanted", "1"), ("mark_chosen", "")]


def test_keys_do_nothing_to_marks_while_none_is_chosen(desk):
    for key in (Key.Key_Delete, Key.Key_Return, Key.Key_Escape, Key.Key_Left):
        desk.key(key)
    assert desk.heard == []


def test_keys_zoom_turn_and_fit(desk):
    fitted = desk.picture.sight
    desk.key(Key.Key_Plus)
    assert desk.picture.sight.scale > fitted.scale
    desk.key(Key.Key_Minus)
    assert desk.picture.sight.scale == pytest.approx(fitted.scale)
    desk.key(Key.Key_PageDown)
    half_a_window = desk.picture.sight.strip_length(desk.picture.panels) / 2
    assert desk.picture.sight.turn * desk.picture.assessment.strip.R0 == pytest.approx(half_a_window)
    desk.key(Key.Key_PageUp)
    assert desk.picture.sight.turn == pytest.approx(0)
    desk.key(Key.Key_Plus)
    desk.key(Key.Key_Home)
    assert desk.picture.sight.scale == pytest.approx(fitted.scale, rel=1e-3)


def test_the_plus_key_zooms_about_the_chosen_mark(chosen):
    before = chosen.on_strip(30, 6)
    for _ in range(4):
        chosen.key(Key.Key_Plus)
    chosen.settle()
    assert (chosen.on_strip(30, 6) - before).manhattanLength() <= 2


def test_larger_type_takes_room_from_the_strip_and_keeps_a_zoomed_sight(desk):
    rooms = sum(desk.picture.sight.strip_rooms)
    desk.key(Key.Key_Plus)
    zoomed = desk.picture.sight.scale
    desk.panel.set_palette_name("projector")
    assert sum(desk.picture.sight.strip_rooms) > rooms
    assert desk.picture.sight.scale == zoomed


def test_the_drawings_take_the_focus_and_have_a_name(desk):
    assert desk.canvas.focusPolicy() == Qt.FocusPolicy.StrongFocus
    assert desk.canvas.accessibleName().startswith("Tire drawings")


def test_the_drawings_show_that_they_have_the_focus(desk, qtbot):
    desk.canvas.clearFocus()
    before = desk.canvas.grab().toImage()
    desk.panel.activateWindow()
    desk.canvas.setFocus()
    qtbot.waitUntil(desk.canvas.hasFocus)
    assert desk.canvas.grab().toImage() != before


def test_the_chosen_mark_is_said_in_words(chosen):
    """The margin right behind the place, and never larger than it is: 39.75 mm is said as 39.7."""
    said = chosen.canvas.accessibleDescription()
    margin = floor(chosen.picture.assessment.mark("1").margin_mm * 10) / 10
    assert said == f"injury 1, 30 mm outboard of center, {margin:.1f} mm inside the limit, 6° around, Repairable."


def test_nothing_chosen_is_said_by_what_there_is(desk):
    assert desk.canvas.accessibleDescription() == "3 injuries, 1 repair; none chosen."


def test_an_error_while_a_drag_is_tried_is_not_swallowed(chosen, qtbot):
    def broken(*_):
        raise RuntimeError("broken preview")

    chosen.panel.set_preview(broken)
    start = chosen.on_strip(30, 6)
    with qtbot.captureExceptions() as errors:
        chosen.press(start)
        chosen.move(start * 1.1)
        qtbot.waitUntil(lambda: bool(errors))
        chosen.key(Key.Key_Escape)
    assert "broken preview" in str(errors[0][1])


def test_an_error_while_drawing_is_not_swallowed(desk, qtbot, monkeypatch):
    def broken(*_):
        raise RuntimeError("broken scene")

    monkeypatch.setattr(desk.picture, "scenes", broken)
    with qtbot.captureExceptions() as errors:
        desk.panel.fit()
        qtbot.waitUntil(lambda: bool(errors))
    assert "broken scene" in str(errors[0][1])


def test_an_error_in_a_matplotlib_callback_is_not_swallowed(desk):
    def broken(_):
        raise RuntimeError("broken callback")

    desk.canvas.mpl_connect("draw_event", broken)
    with pytest.raises(RuntimeError, match="broken callback"):
        desk.canvas.draw()


@pytest.mark.parametrize("name", ["light", "dark", "projector"])
def test_each_palette_paints_its_own_paper(desk, name):
    from tiremap.render.palettes import palette

    desk.panel.set_palette_name(name)
    desk.settle()
    within_focus_frame = desk.canvas.grab().toImage().pixelColor(5, 5)
    assert within_focus_frame.name() == palette(name)["paper"]
