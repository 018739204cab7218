"""Marks close together are picked apart, drags fall on steps that a pixel can tell, and what is chosen is said."""

from math import degrees

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest

from tests.gui.drawing_desk import LEFT, Desk
from tests.helpers.jobs import bench_job, crown_injury
from tiremap.ui import layered_canvas

Key = Qt.Key


def close_marks(qtbot) -> Desk:
    """Two holes 2 mm apart, and a third under the second."""
    return Desk(qtbot, bench_job(crown_injury("1", 10, 3), crown_injury("2", 12, 3), crown_injury("3", 12, 3)))


def test_a_click_chooses_the_nearest_and_further_clicks_there_go_through_all_within_reach(qtbot):
    desk = close_marks(qtbot)
    at = desk.on_strip(9, 3)
    for chosen in ("1", "2", "3", "1"):
        desk.click(at)
        assert desk.picture.chosen == chosen
        assert "one of 3 marks here" in desk.canvas.note.text() and desk.canvas.note.isVisible()
    desk.click(desk.on_strip(13, 3))
    assert desk.picture.chosen == "2"  # elsewhere the nearest comes first again
    assert desk.heard_of("injury_wanted") == desk.heard_of("mark_moved") == []


def test_a_double_click_opens_the_mark_that_was_chosen_not_the_next(qtbot):
    desk = close_marks(qtbot)
    at = desk.on_strip(9, 3)
    for _ in range(3):  # the third is the first click of the double one: it goes on from 2 to 3
        desk.click(at)
    qtbot.mouseDClick(desk.canvas, LEFT, pos=at)
    assert desk.heard_of("mark_edit_wanted") == [["2"]]
    assert desk.picture.chosen == "2"


def test_a_press_shows_which_mark_a_drag_will_carry(qtbot):
    """The second press at a place holds the chosen mark; only a click there goes on to the next."""
    desk = close_marks(qtbot)
    at = desk.on_strip(9, 3)
    desk.click(at)
    desk.click(at)
    assert desk.picture.chosen == "2"
    desk.press(at)
    assert desk.picture.chosen == "2"
    desk.move(at + QPoint(40, 0))
    desk.release(at + QPoint(40, 0))
    assert [id for id, _, _ in desk.heard_of("mark_moved")] == ["2"]
    desk.move(desk.on_strip(13, 3))
    assert desk.picture.hovered == "3"  # left alone there, and nearest


def test_marks_one_behind_the_other_in_the_section_are_picked_apart_there(qtbot):
    desk = Desk(qtbot, bench_job(crown_injury("1", 10, 3), crown_injury("2", 10, 180)))
    at = desk.on_tread(10)
    picked = []
    for _ in range(3):
        desk.click(at)
        picked.append(desk.picture.chosen)
    assert picked == ["1", "2", "1"]


def test_n_and_p_go_through_all_marks_without_end(qtbot):
    desk = close_marks(qtbot)
    for key in (Key.Key_N, Key.Key_N, Key.Key_N, Key.Key_N, Key.Key_P):
        desk.key(key)
    assert [id for [id] in desk.heard_of("mark_chosen")] == ["1", "2", "3", "1", "3"]
    assert desk.canvas.hasFocus() or not desk.panel.isActiveWindow()


def test_a_drag_falls_on_the_largest_step_under_a_pixel_and_says_so(qtbot):
    desk = Desk(qtbot, size=(500, 380))
    for px_per_mm, step in ((0.9, 1.0), (1.9, 0.5), (4.0, 0.1)):
        desk.panel._look(desk.picture.sight.zoomed(px_per_mm / desk.picture.sight.scale, None, desk.picture.panels))
        desk.panel.turn_to(desk.picture.assessment.mark("1").around)
        desk.settle()
        assert desk.picture.sight.scale == pytest.approx(px_per_mm)
        desk.heard.clear()
        held = desk.picture.assessment.mark("1")
        start = desk.on_strip(held.outside, degrees(held.around))
        desk.press(start)
        desk.settle()
        desk.move(start + QPoint(-13, 11))
        QTest.qWait(40)
        note = desk.canvas.note.text()
        assert f"(steps of {step:g} mm)" in note and desk.canvas.note.isVisible()
        assert note.startswith(f"injury 1, {abs(desk.previews[-1][1]):g} mm ")
        desk.release(start + QPoint(-13, 11))
        [(_, across, around)] = desk.heard_of("mark_moved")
        assert across / step == pytest.approx(round(across / step))
        along = around * desk.picture.tread_radius / step
        assert along == pytest.approx(round(along), abs=1e-6)
        assert not desk.canvas.note.isVisible()


def test_the_chosen_mark_is_announced_to_who_works_at_the_drawing(qtbot, monkeypatch):
    desk = close_marks(qtbot)
    desk.panel.activateWindow()
    desk.canvas.setFocus()
    qtbot.waitUntil(desk.canvas.hasFocus)
    heard = []

    class Ears(QAccessible):
        @staticmethod
        def updateAccessibility(event):
            heard.append((event.type(), event.message() if hasattr(event, "message") else ""))

    monkeypatch.setattr(layered_canvas, "QAccessible", Ears)
    desk.key(Key.Key_N)
    says = desk.canvas.accessibleDescription()
    assert says.startswith("injury 1, 10 mm outboard of center, ")
    assert (QAccessible.Event.DescriptionChanged, "") in heard
    assert (QAccessible.Event.Announcement, says) in heard
