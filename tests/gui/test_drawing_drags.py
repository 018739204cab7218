"""Dragging marks, the picture and the ring; zoom; and what stays where it was."""

from math import degrees, radians

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtTest import QTest

from tests.gui.drawing_desk import CTRL, MIDDLE, SHIFT, Desk
from tests.helpers.jobs import bench_job, crown_injury, measured_tire
from tiremap.assess import assess
from tiremap.edits.injuries import move_injury


@pytest.fixture
def desk(qtbot):
    return Desk(qtbot)


def test_a_drag_on_the_strip_moves_the_mark_once_to_where_it_is_let_go(desk):
    start, end = desk.on_strip(30, 6), desk.on_strip(50, 359)
    desk.drag(start, (start + end) / 2, end)
    [(id, across, around)] = desk.heard_of("mark_moved")
    pixel = 1 / desk.picture.sight.scale
    assert id == "1"
    assert across == pytest.approx(50, abs=2 * pixel)
    assert degrees(around) == pytest.approx(359, abs=degrees(2 * pixel / desk.picture.tread_radius))


def test_a_drag_on_the_section_moves_the_mark_across_only(desk):
    desk.panel.show_assessment(assess(desk.job), "1", None)
    desk.settle()
    desk.drag(desk.on_tread(30), desk.on_tread(20), desk.on_tread(-5))
    [(id, across, around)] = desk.heard_of("mark_moved")
    assert (id, around) == ("1", None)
    assert across == pytest.approx(-5, abs=2 / desk.picture.sight.scale)


def test_a_drag_shows_what_follows_from_each_place_on_the_way(desk):
    start = desk.on_strip(30, 6)
    stops = [start + QPoint(step, 0) for step in (10, 20, 30)]
    desk.press(start)
    desk.settle()
    for stop in stops:
        desk.move(stop)
        QTest.qWait(30)
    tried = desk.picture.tried
    assert [id for id, _, _ in desk.previews] == ["1"] * len(desk.previews)
    on_tread = desk.picture.assessment.strip.tread_across(30 / desk.picture.sight.scale)
    assert desk.previews[-1][1] == pytest.approx(30 + on_tread, abs=0.051)
    assert tried.mark("1").outside == desk.previews[-1][1]
    assert desk.heard_of("mark_moved") == []
    desk.release(stops[-1])
    assert len(desk.heard_of("mark_moved")) == 1


def test_many_moves_between_two_frames_ask_for_one_assessment(desk):
    start = desk.on_strip(30, 6)
    desk.press(start)
    desk.settle()
    for step in range(5, 45):
        desk.move(start + QPoint(step, 0))
    assert desk.previews == []
    QTest.qWait(40)
    assert len(desk.previews) == 1
    desk.release(start + QPoint(44, 0))


def test_a_drag_redraws_the_dragged_mark_and_not_the_whole(desk, monkeypatch):
    desk.panel.show_assessment(assess(desk.job), "1", None)
    desk.settle()
    start = desk.on_strip(30, 6)
    whole = []
    draw = desk.canvas.draw
    monkeypatch.setattr(desk.canvas, "draw", lambda: (whole.append(1), draw()))
    before = desk.canvas.grab().toImage()
    desk.press(start)
    desk.move(start + QPoint(60, 0))
    QTest.qWait(60)
    assert desk.previews
    assert desk.canvas.grab().toImage() != before
    assert whole == []
    desk.release(start)


def test_escape_gives_a_drag_up(desk):
    start = desk.on_strip(30, 6)
    desk.press(start)
    desk.move(start + QPoint(40, 0))
    QTest.qWait(40)
    desk.key(Qt.Key.Key_Escape)
    desk.release(start + QPoint(40, 0))
    assert desk.heard == [("mark_chosen", "1")]
    assert desk.picture.tried is None


def test_a_drag_with_shift_keeps_to_one_direction(desk):
    start = desk.on_strip(30, 6)
    desk.drag(start, start + QPoint(20, 60), held=SHIFT)
    [(_, across, around)] = desk.heard_of("mark_moved")
    assert across is None
    assert degrees(around) > 6


def test_a_mark_carried_around_keeps_its_place_across_as_it_was_taped(desk):
    start = desk.on_strip(30, 6)
    desk.drag(start, start + QPoint(2, 60))
    assert desk.heard_of("mark_moved")
    assert desk.job.injuries[0].outside.how == "tape"
    assert desk.job.injuries[0].around.how == "eye"


def test_a_click_with_ctrl_places_an_injury_on_a_head_that_lies_there(desk):
    desk.click(desk.on_strip(38, 6), held=CTRL)
    [(across, _)] = desk.heard_of("injury_wanted")
    assert across == pytest.approx(38, abs=1 / desk.picture.sight.scale)


def test_no_shortcut_of_a_menu_breaks_into_a_drag(desk, qtbot):
    undone = []
    shortcut = QShortcut(QKeySequence("Ctrl+Z"), desk.panel, activated=lambda: undone.append(1))
    desk.panel.activateWindow()  # on a bare screen without a window manager no window is active by itself
    qtbot.waitUntil(desk.panel.isActiveWindow)
    desk.canvas.setFocus()
    start = desk.on_strip(30, 6)
    desk.press(start)
    desk.move(start + QPoint(40, 0))
    desk.key(Qt.Key.Key_Z, CTRL)
    assert undone == []
    desk.release(start + QPoint(40, 0))
    desk.key(Qt.Key.Key_Z, CTRL)
    assert undone == [1]
    shortcut.setEnabled(False)


def test_a_move_that_nobody_grants_leaves_the_mark_where_it_was(desk):
    desk.panel.mark_moved.disconnect(desk._moved)
    start = desk.on_strip(30, 6)
    desk.drag(start, start + QPoint(40, 0))
    assert desk.picture.tried is None
    assert desk.picture.shown.mark("1").outside == 30


def test_the_pointer_over_a_mark_in_one_drawing_shows_it_in_all(desk):
    desk.move(desk.on_strip(-25, 352))
    assert desk.picture.hovered == "2"
    for scene in desk.picture.hovered_scenes().values():
        raised = {mark.key for mark in scene.marks if getattr(mark, "hovered", False)}
        assert raised == {"injury.2"}
    desk.move(desk.on_strip(0, 0))
    assert desk.picture.hovered == ""


def test_the_pointer_over_a_mark_changes_the_picture_and_leaving_it_changes_it_back(desk):
    before = desk.canvas.grab().toImage()
    desk.move(desk.on_strip(-25, 352))
    over = desk.canvas.grab().toImage()
    desk.move(desk.on_strip(0, 0))
    assert over != before
    assert desk.canvas.grab().toImage() == before


@pytest.mark.parametrize("notches", [3, -2])
def test_the_wheel_zooms_about_the_pointer_on_the_strip(desk, notches):
    pointer = desk.on_strip(40, 4)
    desk.wheel(pointer, notches)
    desk.settle()
    after = desk.on_strip(40, 4)
    assert abs(after.x() - pointer.x()) <= 1 and abs(after.y() - pointer.y()) <= 1


def test_the_wheel_zooms_section_and_strip_together(desk):
    pointer = desk.on_tread(40)
    desk.wheel(pointer, 3)
    desk.settle()
    assert (desk.on_tread(40) - pointer).manhattanLength() <= 2
    assert abs(desk.on_strip(40, 0).x() - pointer.x()) <= 1 + desk.picture.sight.scale
    section, strip = (desk.canvas.axes_of(name).get_xlim() for name in ("section", "strip"))
    assert section == pytest.approx(strip)


def test_every_drawing_keeps_a_millimeter_as_long_up_as_across(desk):
    desk.wheel(desk.on_tread(40), 3)
    desk.settle()
    for name in ("section", "strip", "ring"):
        axes = desk.canvas.axes_of(name)
        (x0, y0), (x1, y1) = axes.transData.transform([(0, 0), (1, 1)])
        assert x1 - x0 == pytest.approx(y1 - y0)


def test_zoom_and_turn_stay_when_an_injury_is_moved_or_added(desk):
    desk.wheel(desk.on_strip(30, 6), 3)
    desk.settle()
    sight = desk.picture.sight
    start = desk.on_strip(30, 6)
    desk.drag(start, start + QPoint(20, 5))
    job = bench_job(*desk.job.injuries, crown_injury("9", across_mm=0, around_deg=1), *desk.job.repairs)
    desk.panel.show_assessment(assess(job), "1", None)
    desk.settle()
    assert desk.heard_of("mark_moved")
    assert desk.picture.sight == sight


def test_another_tire_is_shown_whole_and_so_is_any_when_asked(desk):
    fitted = desk.picture.sight
    desk.wheel(desk.on_strip(0, 0), 5)
    desk.panel.fit()
    assert desk.picture.sight.scale == pytest.approx(fitted.scale, rel=1e-3)
    desk.wheel(desk.on_strip(0, 0), 5)
    zoomed = desk.picture.sight
    other = bench_job(crown_injury("1"), tire=measured_tire("225/45R17", 190))
    desk.panel.show_assessment(assess(other), None, None)
    assert desk.picture.sight.scale < zoomed.scale


def test_the_middle_button_and_space_carry_the_picture(desk):
    for carry in ("middle", "space"):
        before, start = desk.on_strip(0, 0), desk.on_strip(0, 0)
        if carry == "space":
            QTest.keyPress(desk.canvas, Qt.Key.Key_Space)
            desk.drag(start, start + QPoint(30, 20))
            QTest.keyRelease(desk.canvas, Qt.Key.Key_Space)
        else:
            desk.drag(start, start + QPoint(30, 20), button=MIDDLE)
        desk.settle()
        assert (desk.on_strip(0, 0) - before - QPoint(30, 20)).manhattanLength() <= 2
    assert desk.heard == []


def test_the_wheel_with_ctrl_turns_the_strip_and_leaves_the_scale(desk):
    sight = desk.picture.sight
    desk.wheel(desk.on_strip(0, 0), -1, held=CTRL)
    assert desk.picture.sight.scale == sight.scale
    assert desk.picture.sight.turn > sight.turn


def test_a_drag_on_the_ring_turns_the_strip_by_the_angle_swept(desk):
    def on_ring(angle):
        from tiremap.drawing.places import ring_point

        return desk.screen("ring", ring_point(desk.picture.view(), radians(angle), 280))

    turn = desk.picture.sight.turn
    desk.drag(on_ring(60), on_ring(80), on_ring(100))
    assert degrees(desk.picture.sight.turn - turn) == pytest.approx(40, abs=1.5)
    desk.click(on_ring(150))
    assert degrees(desk.picture.sight.turn) == pytest.approx(150, abs=1)
    assert desk.heard == []


def test_a_mark_chosen_elsewhere_is_brought_into_view_on_the_strip(desk):
    desk.panel.show_assessment(assess(desk.job), "3", None)
    assert degrees(desk.picture.sight.turn) == pytest.approx(120)


def test_a_larger_window_shows_the_whole_larger_until_the_user_has_zoomed(desk):
    scale = desk.picture.sight.scale
    desk.panel.resize(1300, 1000)
    desk.settle()
    assert desk.picture.sight.scale > scale
    desk.wheel(desk.on_strip(0, 0), 2)
    zoomed = desk.picture.sight.scale
    desk.panel.resize(1000, 760)
    desk.settle()
    assert desk.picture.sight.scale == zoomed


def test_a_tire_without_size_shows_a_sentence_and_places_nothing(qtbot):
    from tiremap.model.job import Job

    desk = Desk(qtbot, Job())
    desk.click(QPoint(200, 200))
    desk.move(QPoint(300, 500))
    desk.wheel(QPoint(200, 200), 1)
    desk.key(Qt.Key.Key_Left)
    desk.settle()
    assert desk.heard == []
    assert "size code" in desk.canvas.accessibleDescription()


def test_a_hole_dragged_to_where_it_is_refused_turns_the_symbols_of_all_others(desk):
    picture = desk.picture
    picture.chosen = "1"
    picture.tried = assess(move_injury(desk.job, "1", across_mm=100.0))
    picture.dragged_scenes()
    assert picture.tried.answer == "not_repairable"
    assert picture.symbol_keys == {"injury.2", "injury.3"}
