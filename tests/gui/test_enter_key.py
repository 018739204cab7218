"""Enter presses the focused button of the window, and nothing else: not a tick, nor what a field hands the focus to."""

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication

Key = Qt.Key


@pytest.mark.parametrize("key", [Key.Key_Return, Key.Key_Enter])
def test_enter_presses_buttons_as_space_does(qtbot, sized_window, key):
    desk = sized_window.desk
    desk.table.add_injury.setFocus()
    qtbot.keyClick(desk.table.add_injury, key)
    assert len(sized_window.session.job.injuries) == 1
    desk.quick.upright.setFocus()
    qtbot.keyClick(desk.quick.upright, key)
    assert sized_window.session.job.injuries[0].lean_across.value == 0
    desk.form.more.setFocus()
    for open_ in (True, False):
        qtbot.keyClick(desk.form.more, key)
        assert desk.form.more.isChecked() is open_ and desk.form.folded.isVisible() is open_


def test_enter_in_a_field_presses_no_button_it_leads_to(qtbot, open_window):
    window = open_window()
    code = window.desk.start.size.code
    window.desk.form.choose_guidance("united_kingdom")
    qtbot.keyClicks(code, "205/55R16")
    qtbot.keyClick(code, Key.Key_Return)
    add = window.desk.table.add_injury
    qtbot.waitUntil(add.hasFocus)
    held = QKeyEvent(QEvent.Type.KeyPress, Key.Key_Return, Qt.KeyboardModifier.NoModifier, "\r", True)
    QApplication.sendEvent(add, held)
    assert window.session.job.injuries == ()
    qtbot.keyClick(add, Key.Key_Return)
    assert len(window.session.job.injuries) == 1


def test_enter_leaves_ticks_and_answers_of_checks_to_space(qtbot, sized_window):
    checks, before = sized_window.desk.form.checks, sized_window.session.job
    for widget in (checks.nothing, checks.inspected.buttons["fine"]):
        widget.setFocus()
        qtbot.keyClick(widget, Key.Key_Return)
        assert sized_window.session.job == before
