"""A whole job through both desks, from the first screen to a signed job found in the register: by mouse, by keyboard.

By mouse the keys on the screen do the typing; the keyboard never touches the mouse.
"""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox

from tiremap.storage.job_file import read_job
from tiremap.ui import dialogs
from tiremap.ui.key_row import KeyRow
from tiremap.ui.sign_off import SignOff

Key = Qt.Key
LEFT, CTRL = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def shop(tmp_path, monkeypatch):
    """Where the job is saved, and the folder the register reads."""
    folder = tmp_path / "jobs"
    folder.mkdir()
    monkeypatch.setattr(dialogs, "ask_where_to_save", lambda parent, suggested: folder / "mended.json")
    monkeypatch.setattr(dialogs, "ask_folder_of_jobs", lambda parent, at: folder)
    return folder


class Hand:
    """A hand on the mouse, and one on the keyboard, at one window."""

    def __init__(self, qtbot, window) -> None:
        self.qtbot, self.window = qtbot, window

    def click(self, widget, at: QPoint | None = None) -> None:
        """A click on a widget that can be seen."""
        assert widget.isVisible() and widget.isEnabled()
        if at is None:
            at = QPoint(14, widget.height() // 2) if isinstance(widget, QCheckBox) else widget.rect().center()
        self.qtbot.mouseClick(widget, LEFT, pos=at)

    def tap(self, text: str, row: KeyRow | None = None) -> None:
        """Type with the keys on the screen, then their Enter."""
        row = row or self.window.keys
        for letter in text:
            if letter.isalpha() and not row.more.isChecked():
                self.click(row.more)
            self.click(row.keys[letter])
        self.click(row.enter)

    def press(self, key: Key, *modifiers: Qt.KeyboardModifier) -> None:
        """A key to whatever has the focus."""
        QTest.keyClick(QApplication.focusWidget(), key, *modifiers)

    def type(self, text: str) -> None:
        """Type into whatever has the focus, then Enter."""
        QTest.keyClicks(QApplication.focusWidget(), text)
        self.press(Key.Key_Return)

    def sign_off(self) -> SignOff:
        """The sign-off that stands open."""
        self.qtbot.waitUntil(lambda: any(each.isVisible() for each in self.window.findChildren(SignOff)))
        form = next(each for each in self.window.findChildren(SignOff) if each.isVisible())
        self.qtbot.waitUntil(form.isActiveWindow)
        return form

    def back(self) -> None:
        """At the window again, as a window manager puts it when a dialog closes."""
        self.window.activateWindow()
        self.qtbot.waitUntil(self.window.isActiveWindow)

    def register(self):
        """The register once it has read its folder."""
        panel = self.window.review.panel
        self.qtbot.waitUntil(lambda: not panel.reads, timeout=20000)
        return panel


def found_as_it_was_signed(hand, shop) -> None:
    """What must be true in the end, whichever way it was done."""
    panel = hand.register()
    assert [panel.jobs.index(row, 6).data() for row in range(panel.jobs.rowCount())] == ["Repairable"]
    job = read_job(shop / "mended.json")
    assert job == hand.window.session.job and not hand.window.session.unsaved
    assert [(each.decision, each.by, each.answer) for each in job.decisions] == [("repair", "12", "repairable")]
    [injury] = job.injuries
    assert injury.outside.origin == "outboard_edge" and injury.outside.value == 75


@pytest.mark.qt_log_ignore("This plugin does not support", extend=True)  # a list that drops down, offscreen
def test_the_whole_job_by_mouse(qtbot, open_window, shop):
    window = open_window()
    hand, desk = Hand(qtbot, window), window.desk
    window.actions_.key_row.trigger()  # its entry in the View menu
    hand.click(desk.start.size.code)
    hand.tap("205/55R16")
    rules = desk.form.rule_set
    rules.showPopup()
    row = rules.view().visualRect(rules.model().index(rules.findData("united_kingdom"), 0)).center()
    qtbot.mouseClick(rules.view().viewport(), LEFT, pos=row)
    assert window.session.job.rule_set == "united_kingdom"
    hand.click(desk.drawing.canvas, QPoint(*map(round, desk.drawing.picture.panels.strip.middle)))
    assert len(window.session.job.injuries) == 1
    for field, text in (("depth", "6"), ("width", "170"), ("edge", "75"), ("hole", "4")):
        hand.click(getattr(desk.quick, field).edit)
        hand.tap(text)
    hand.click(desk.quick.upright)
    hand.click(desk.quick.nothing)
    assert window.session.assessment.answer == "repairable"
    hand.click(desk.answer.sign)
    form = hand.sign_off()
    hand.click(form.choices["repair"], QPoint(12, form.choices["repair"].height() // 2))
    hand.click(form.sign)
    hand.tap("12", form.keys)  # Enter records
    hand.back()
    hand.click(window.tools.widgetForAction(window.actions_.save))
    hand.click(window.tools.widgetForAction(window.actions_.review_desk))
    hand.click(window.review.panel.begin)
    found_as_it_was_signed(hand, shop)
    table = window.review.panel.table
    first = table.visualRect(window.review.panel.jobs.index(0, 0)).center()
    hand.click(table.viewport(), first)
    qtbot.mouseDClick(table.viewport(), LEFT, pos=first)
    qtbot.waitUntil(lambda: window.desks.currentWidget() is desk)
    window.actions_.key_row.trigger()


def test_the_whole_job_by_keyboard(qtbot, open_window, shop):
    window = open_window()
    hand, desk = Hand(qtbot, window), window.desk
    hand.type("205/55R16")
    while window.session.job.rule_set != "united_kingdom":
        hand.press(Key.Key_Down)
    hand.press(Key.Key_F6)
    hand.press(Key.Key_Space)
    for text in ("6", "170", "75", "4 to 5", "upright"):
        hand.type(text)
    hand.press(Key.Key_Space)
    assert window.session.assessment.answer == "repairable"
    hand.press(Key.Key_D, CTRL)
    form = hand.sign_off()
    hand.press(Key.Key_Space)
    hand.press(Key.Key_Tab)
    assert form.sign.hasFocus()
    hand.type("12")
    hand.back()
    hand.press(Key.Key_S, CTRL)
    hand.press(Key.Key_2, CTRL)
    assert window.review.panel.begin.hasFocus()
    hand.press(Key.Key_Space)
    found_as_it_was_signed(hand, shop)
    panel = window.review.panel
    for _ in range(12):
        if panel.table.hasFocus():
            break
        hand.press(Key.Key_Tab)
    hand.press(Key.Key_Down)
    hand.press(Key.Key_Return)
    assert window.desks.currentWidget() is desk
