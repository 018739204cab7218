"""The Teach desk, by mouse alone and by keys alone: a lesson shown, a hole dragged, the answer hidden and guessed."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QLabel, QWidget

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.drawing import places
from tiremap.drawing.scene import View
from tiremap.edits.job_card import choose_rule_set
from tiremap.resources import shop_rule_sets_folder
from tiremap.storage.canonical import job_text
from tiremap.storage.lesson_file import lesson_paths
from tiremap.storage.shop_rule_sets import copy_rule_set
from tiremap.ui import dialogs
from tiremap.ui.palettes import CLASS_POINTS, THEMES
from tiremap.ui.preferences import Preferences

Key = Qt.Key


@pytest.fixture
def teach(open_window, qtbot):
    """The desk before a class, with its drawings laid, in a window on a job of the shop."""
    window = open_window(bench_job(crown_injury()))
    window.actions_.teach_desk.trigger()
    desk = window.teaching.desk
    qtbot.waitUntil(lambda: desk.canvas is not None and bool(desk.canvas.placed))
    qtbot.wait(20)
    return desk


def settle(qtbot, desk):
    qtbot.waitUntil(lambda: not desk.canvas.is_stale)


def on_screen(desk, across):
    """Where a tread coordinate lies on the section, px of the canvas."""
    return px(desk, "section", places.section_point(desk.presentation.assessment, View(), across))


def px(desk, drawing, point):
    """Where a point of a drawing lies on the canvas."""
    room, placed, (x, y) = desk.canvas.rooms[drawing], desk.canvas.placed[drawing], point
    x_low, _, _, y_high = placed.limits
    return QPoint(round(room.left + (x - x_low) / placed.scale), round(room.top + (y_high - y) / placed.scale))


def drag(qtbot, desk, start, *stops):
    qtbot.mousePress(desk.canvas, Qt.MouseButton.LeftButton, pos=start)
    for stop in stops:
        qtbot.mouseMove(desk.canvas, stop)
        qtbot.wait(40)
    qtbot.mouseRelease(desk.canvas, Qt.MouseButton.LeftButton, pos=stops[-1])
    settle(qtbot, desk)


def test_a_lesson_by_mouse_alone(teach, qtbot):
    desk, left = teach, Qt.MouseButton.LeftButton
    assert desk.words.text().startswith("A nail went in at the middle of the tread.")
    assert desk.answer.text() == "What is your answer?" and not desk.symbol.isVisible() and desk.reason.text() == ""
    qtbot.mouseClick(desk.hide_answer, left)
    assert desk.answer.text() == "Repairable" and desk.symbol.isVisible()
    assert desk.reason.text().startswith("Injury 1 lies inside the crown zone at every depth. 70.2 mm inside.")
    for _ in range(8):
        qtbot.mouseClick(desk.on, left)
    assert desk.place.text() == "9 of 9" and not desk.on.isEnabled()
    settle(qtbot, desk)
    drag(qtbot, desk, on_screen(desk, 40), on_screen(desk, 60), on_screen(desk, 90))
    assert desk.answer.text() == "Not repairable"
    assert desk.presentation.across == pytest.approx(90, abs=1.5)
    assert "times as hard as in the middle of the crown" in desk.bends.text()
    assert desk.across.value() == pytest.approx(desk.presentation.across, abs=0.05)
    qtbot.mouseClick(desk.next_reason, left)
    assert desk.reason.text().endswith(f"(2 of {len(desk.presentation.reasons)})")
    qtbot.mouseClick(desk.reset, left)
    assert desk.presentation.across == 40 and desk.answer.text() == "Repairable"
    qtbot.mouseClick(desk.back, left)
    assert desk.place.text() == "8 of 9"


def test_a_lesson_by_keys_alone(teach, qtbot):
    """The keys of a presenter's remote go on and back; H, R and Home do the rest."""
    desk = teach
    keys = desk.canvas
    keys.setFocus()
    qtbot.keyClick(keys, Key.Key_H)
    assert desk.answer.text() == "Repairable"
    for _ in range(3):
        qtbot.keyClick(keys, Key.Key_PageDown)
    assert desk.place.text() == "4 of 9" and desk.answer.text() == "Not repairable"
    qtbot.keyClick(keys, Key.Key_PageUp)
    assert desk.place.text() == "3 of 9" and desk.answer.text() == "What is your answer?"
    qtbot.keyClick(keys, Key.Key_PageDown)
    for _ in range(2):
        qtbot.keyClick(keys, Key.Key_Left, Qt.KeyboardModifier.ShiftModifier)
    assert desk.presentation.across == 60
    qtbot.keyClick(keys, Key.Key_Right)
    assert desk.presentation.across == 61
    qtbot.keyClick(keys, Key.Key_R)
    assert f"2 of {len(desk.presentation.reasons)}" in desk.reason.text()
    qtbot.keyClick(keys, Key.Key_Home)
    assert desk.presentation.across == 80
    desk.open_lesson(lesson_paths()[0])
    the_hole_is_typed_as_well_as_dragged_in_either_unit(desk, qtbot)


def the_hole_is_typed_as_well_as_dragged_in_either_unit(teach, qtbot):
    desk = teach
    desk.hide_answer.click()
    desk.across.setFocus()
    desk.across.selectAll()
    qtbot.keyClicks(desk.across, "80")
    qtbot.keyClick(desk.across, Key.Key_Return)
    assert desk.presentation.across == 80 and desk.answer.text() == "Not repairable"
    desk.window().actions_.inches.trigger()
    assert desk.across.value() == pytest.approx(80 / 25.4, abs=0.006) and desk.across.suffix() == " in"
    assert " in beyond" in desk.reason.text()


def test_the_whole_way_from_the_center_to_the_sidewall_at_every_frame(teach, qtbot):
    """Margin, head and bending follow: past the crown zone the answer turns once and does not turn back."""
    desk = teach
    for _ in range(8):
        desk.on.click()
    settle(qtbot, desk)
    seen = []

    def look():
        QApplication.processEvents()
        seen.append((desk.presentation.across, desk.answer.text(), desk.bends.text(), desk.canvas.height()))

    desk.canvas.dragged.connect(look)
    qtbot.mousePress(desk.canvas, Qt.MouseButton.LeftButton, pos=on_screen(desk, 40))
    for across in (0, 30, 60, 70, 80, 100, 130, 160):
        count = len(seen)
        qtbot.mouseMove(desk.canvas, on_screen(desk, across))
        qtbot.waitUntil(lambda count=count: len(seen) > count)
    assert len({height for *_, height in seen}) == 1  # words come and go; nothing moves under the hand
    qtbot.mouseRelease(desk.canvas, Qt.MouseButton.LeftButton, pos=on_screen(desk, 160))
    ways = [across for across, *_ in seen]
    assert ways == sorted(ways) and ways[0] == pytest.approx(0, abs=1) and ways[-1] == pytest.approx(160, abs=2)
    answers = [answer for _, answer, *_ in seen]
    assert answers == sorted(answers, key=["Repairable", "Measure first", "Not repairable"].index)
    assert answers[0] == "Repairable" and answers[-1] == "Not repairable"
    assert "as in the middle" in seen[0][2] and "times as hard" in seen[-1][2]


def test_the_load_and_what_stands_beside_are_the_presenters(teach, qtbot):
    desk = teach
    assert not desk.load.isVisible()
    desk.beside.setCurrentIndex(desk.beside.findData("bending"))
    desk.beside.activated.emit(desk.beside.currentIndex())
    settle(qtbot, desk)
    assert desk.load.isVisible() and desk.presentation.load == pytest.approx(0.2 * 113, abs=0.1)
    assert desk.assumed.isVisible() and set(desk.canvas.placed) == {"section", "loaded", "bending"}
    desk.load.setFocus()
    qtbot.keyClick(desk.load, Key.Key_Left)
    assert desk.presentation.load == pytest.approx(0.2 * 113 - 0.1, abs=0.1)
    qtbot.keyClick(desk.load, Key.Key_End)
    assert desk.presentation.load == pytest.approx(0.25 * 113, abs=0.1)
    settle(qtbot, desk)
    assert "28.2 mm lower" in " ".join(getattr(m, "text", "") for m in desk.canvas.placed["loaded"].scene.marks)
    for beside in ("guidance", "strip", "nothing"):
        desk.beside.setCurrentIndex(desk.beside.findData(beside))
        desk.beside.activated.emit(desk.beside.currentIndex())
        settle(qtbot, desk)
        assert set(desk.canvas.placed) == {"section"} | ({beside} - {"nothing"})


def test_on_the_strip_the_second_of_two_holes_is_dragged_clear_of_the_first(teach, qtbot):
    desk = teach
    assert desk.open_lesson(lesson_paths()[2])
    desk.on.click()
    settle(qtbot, desk)
    assert desk.answer.text() == "Not repairable" and desk.presentation.chosen == "2"
    placed, second = desk.canvas.placed["strip"], desk.presentation.assessment.mark("2").inside_place
    view = View(strip_middle=desk.presentation.shown().strip_middle)
    held = px(desk, "strip", places.strip_point(desk.presentation.assessment, view, second.s, second.a))
    drag(qtbot, desk, held, held + QPoint(0, round(60 / placed.scale)), held + QPoint(0, round(110 / placed.scale)))
    assert desk.presentation.chosen == "2" and desk.answer.text() == "Repairable"
    first, second = (desk.presentation.assessment.mark(name).inside_place for name in ("1", "2"))
    assert (second.a - first.a) * 300 == pytest.approx(18 * 300 / 316 + 110, abs=6)  # R0 of the liner is about 300 mm


def test_before_a_class_nothing_reaches_the_job_of_the_shop(teach, qtbot):
    window, before = teach.window(), job_text(teach.window().session.job)
    a = window.actions_
    for action in (a.undo, a.redo, a.save, a.sign, a.add_injury, a.template):
        assert not action.isEnabled()
    teach.hide_answer.click()
    qtbot.keyClick(teach.canvas, Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    for _ in range(5):
        teach.on.click()
    qtbot.keyClick(teach.canvas, Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert job_text(window.session.job) == before and not window.session.unsaved
    a.mark_desk.trigger()
    assert a.save.isEnabled() and a.add_injury.isEnabled() and not a.undo.isEnabled()
    window.editor.try_change("Guidance", choose_rule_set, "japan")
    assert a.undo.isEnabled()
    window.actions_.teach_desk.trigger()
    what_the_lesson_does_not_need_is_put_away_and_comes_back(teach)


def what_the_lesson_does_not_need_is_put_away_and_comes_back(teach):
    window = teach.window()
    assert not window.tools.isVisible() and not window.cautions.isVisible()
    assert teach.caution.text().startswith("Inspect inside and out")
    assert window.property("looks").startswith("projector")
    window.actions_.mark_desk.trigger()
    assert window.tools.isVisible() and window.cautions.isVisible()
    assert window.property("looks").startswith("light")
    assert Preferences().settings.theme == "light"


def test_a_lesson_of_ones_own_and_what_is_kept_of_it(teach, tmp_path, monkeypatch):
    every_word_before_the_class_has_eighteen_points_or_more(teach)
    a_broken_lesson_is_told_and_what_is_shown_stays(teach, tmp_path)
    the_menu_lists_the_lessons_and_any_step_is_written_as_a_picture(teach, tmp_path, monkeypatch)


def every_word_before_the_class_has_eighteen_points_or_more(teach):
    """The menu bar is the presenter's and stays as it is."""
    for beside in ("bending", "guidance"):
        teach.presentation.put_beside(beside)
        teach.take_preferences()
        for widget in teach.findChildren(QWidget):
            if widget.isVisible() and (not isinstance(widget, QLabel) or widget.text()) and widget is not teach.canvas:
                assert widget.font().pointSizeF() >= CLASS_POINTS, (type(widget).__name__, widget.accessibleName())
    assert THEMES["projector"].window == "#ffffff"


def a_broken_lesson_is_told_and_what_is_shown_stays(teach, tmp_path):
    path = tmp_path / "mine.toml"
    path.write_text('format = "tiremap-lesson"\nversion = 1\ntitle = "Mine"\n[[step]]\nsay = "Hello"\n')
    assert not teach.open_lesson(path)
    assert "mine.toml, step 1, line 5: a step has no 'say'" in teach.window().message.text
    assert teach.words.text().startswith("A nail went in")
    path.write_text('format = "tiremap-lesson"\nversion = 1\ntitle = "Mine"\n[[step]]\nsays = "Hello"\n')
    assert teach.open_lesson(path) and teach.words.text() == "Hello"


def the_menu_lists_the_lessons_and_any_step_is_written_as_a_picture(teach, tmp_path, monkeypatch):
    window = teach.window()
    titles = [action.text() for action in window.menus.lessons.actions()]
    assert titles[0] == "Why the shoulder is refused" and len(titles) == 4
    window.menus.lessons.actions()[1].trigger()
    assert teach.words.text().startswith("A screw entered 64 mm from the center.")
    for name in ("step.png", "step.pdf", "step.svg"):
        monkeypatch.setattr(dialogs, "ask_class_picture", lambda parent, name=name: tmp_path / name)
        window.actions_.lesson_picture.trigger()
        assert (tmp_path / name).stat().st_size > 5000
    monkeypatch.setattr(dialogs, "ask_class_picture", lambda parent: tmp_path / "none" / "step.png")
    window.actions_.lesson_picture.trigger()
    assert "was not written" in window.message.text


def test_a_lesson_from_a_file_is_asked_for_and_shown(open_window, qtbot, monkeypatch):
    window = open_window()
    monkeypatch.setattr(dialogs, "ask_lesson_to_open", lambda parent: lesson_paths()[3])
    window.actions_.open_lesson.trigger()
    desk = window.teaching.desk
    assert desk.isVisible() and desk.words.text().startswith("A nail, 52 mm from the center.")
    qtbot.waitUntil(lambda: desk.canvas is not None and bool(desk.canvas.placed))


def test_a_guidance_that_breaks_before_the_class_is_told_and_the_step_stays(teach, tmp_path):
    """A lesson may name the shop's own; its file can be broken while the lesson is shown."""
    copy_rule_set("japan", "our")
    path = tmp_path / "mine.toml"
    head = 'format = "tiremap-lesson"\nversion = 1\ntitle = "Mine"\n'
    path.write_text(f'{head}[[step]]\nsays = "First"\n[[step]]\nsays = "Second"\nguidance = "our"\n')
    assert teach.open_lesson(path)
    (shop_rule_sets_folder() / "our.toml").write_text("broken = ")
    teach.on.click()
    assert teach.words.text() == "First" and "our.toml" in teach.window().message.text
