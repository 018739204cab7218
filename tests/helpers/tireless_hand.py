"""A hand that works a window without rest: one thing at a time, drawn by a random generator.

It does what a user can do: it presses what is in sight and enabled, in the window that has the screen, and answers
every question at random.
"""

from collections.abc import Callable
from pathlib import Path
from random import Random
from typing import Any

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QAction, QKeyEvent, QMouseEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QApplication,
    QCalendarWidget,
    QComboBox,
    QDialog,
    QLineEdit,
    QWidget,
)

from tests.helpers.random_measures import SIZES, WORDS
from tests.helpers.widget_walk import interactive
from tiremap.resources import resource_path, sample_jobs_folder
from tiremap.ui import dialogs, measure_field, print_preview, stock_page
from tiremap.ui.main_window import MainWindow
from tiremap.ui.marks_columns import COLUMNS

Key = Qt.Key
CTRL, SHIFT, NONE = (
    Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.NoModifier
)
LEFT, MIDDLE = Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton
TYPED = (
    *SIZES, *WORDS, "6", "170", "35", "4 to 5", "4.5", "1 3/8 in", "0", "-5", "1e9", "abc", "35 from outboard", "U",
    "10.9", "220 kPa", "32 psi", "90", "12", "½", "nan", "9" * 300,
)
DRAWING_KEYS = (
    Key.Key_N, Key.Key_P, Key.Key_Left, Key.Key_Right, Key.Key_Up, Key.Key_Down, Key.Key_Delete, Key.Key_Return,
    Key.Key_Escape, Key.Key_Home, Key.Key_Plus, Key.Key_Minus, Key.Key_PageUp, Key.Key_PageDown, Key.Key_Tab,
    Key.Key_Space,
)
SLOW = ("sheet", "measuring_sheet", "preview", "template", "compare")
"""Actions that lay out whole pages or answer by every guidance: drawn a tenth as often."""
MOST_DIALOGS = 2


class Hand:
    """Works one window, with a folder of its own for files. ``told`` are the errors of files it was told of."""

    def __init__(self, window: MainWindow, folder: Path, patch: Any) -> None:
        self.window, self.folder = window, folder
        self.draw = Random(0)
        self.told: list[str] = []
        self._answer_questions(patch)
        (folder / "broken.json").write_text("{", encoding="utf-8")
        (folder / "a folder.json").mkdir()

    def step(self, draw: Random) -> str:
        """One thing; what it was."""
        self.draw = draw
        if self.window.large.isVisible():
            return self._away_with_the_large_answer()
        modal = QApplication.activeModalWidget()
        if modal is not None:
            return self._at(modal)
        other = [each for each in self.window.findChildren(QDialog) if each.isVisible()]
        if len(other) > MOST_DIALOGS:
            other[0].close()
            return f"close {type(other[0]).__name__}"
        if other and draw.randrange(3) == 0:
            return self._at(draw.choice(other))
        acts = (
            self.act, self.press, self.type, self.type, self.type_a_field, self.choose, self.on_the_drawing,
            self.on_the_drawing, self.edit_a_cell, self.take_a_reason, self.follow_a_link, self.go_back, self.rest,
        )
        return draw.choice(acts)(self.window)

    def _at(self, dialog: QWidget) -> str:
        """One thing in a dialog, or away with it."""
        if self.draw.randrange(3) == 0:
            dialog.close()
            return f"close {type(dialog).__name__}"
        return f"in {type(dialog).__name__}: {self.draw.choice((self.press, self.type, self.choose))(dialog)}"

    def act(self, window: QWidget) -> str:
        """Trigger an action that is offered just now."""
        a = self.window.actions_
        slow = {getattr(a, name) for name in SLOW} if self.draw.randrange(10) else set()
        offered = [each for each in window.findChildren(QAction) if each.isEnabled() and each.text()]
        action = self.draw.choice([each for each in offered if each not in slow])
        words = f"action {action.text()}"
        action.trigger()
        return words

    def press(self, window: QWidget) -> str:
        """Click a button in sight."""
        buttons = [each for each in interactive(window) if isinstance(each, QAbstractButton) and each.isEnabled()]
        if not buttons:
            return "no button"
        button = self.draw.choice(buttons)
        words = button.accessibleName() or button.text()
        QTest.mouseClick(button, LEFT, NONE, QPoint(min(14, button.width() // 2), button.height() // 2))
        return f"press {words!r}"

    def type(self, window: QWidget) -> str:
        """Type into a line in sight, and leave it or not."""
        lines = [each for each in window.findChildren(QLineEdit) if _in_sight(each, window) and not each.isReadOnly()]
        if not lines:
            return "no line"
        return self._type_into(self.draw.choice(lines))

    def type_a_field(self, window: QWidget) -> str:
        """Type into one of the fields an answer hangs on, as far as they are in sight."""
        desk = self.window.desk
        fields = [*desk.form.lengths.values(), *desk.quick.fields.values()]
        lines = [each.edit for each in fields if each.edit.isVisible() and each.edit.isEnabled()]
        return self._type_into(self.draw.choice(lines)) if lines else "no field"

    def _type_into(self, line: QLineEdit) -> str:
        text, after = self.draw.choice(TYPED), self.draw.choice((Key.Key_Return, Key.Key_Return, Key.Key_Tab, None))
        line.setFocus()
        line.selectAll()
        for letter in text:
            _key(line, 0, letter)
        if after is not None:
            QTest.keyClick(line, after)
        return f"type {text!r} into {line.accessibleName()!r}, then {after and after.name}"

    def choose(self, window: QWidget) -> str:
        """Choose another entry of a box in sight."""
        boxes = [each for each in window.findChildren(QComboBox) if _in_sight(each, window) and each.count()]
        if not boxes:
            return "no box"
        box = self.draw.choice(boxes)
        for _ in range(self.draw.randrange(1, 4)):
            QTest.keyClick(box, self.draw.choice((Key.Key_Down, Key.Key_Up)))
        return f"choose {box.currentText()!r} in {box.accessibleName()!r}"

    def on_the_drawing(self, window: QWidget) -> str:
        """Click, drag, wheel or press a key on the drawing."""
        drawing = self.window.desk.drawing
        if drawing is None or not drawing.isVisible():
            return "no drawing"
        canvas = drawing.canvas
        canvas.setFocus()
        way = self.draw.choice(("click", "click", "drag", "key", "key", "wheel", "two clicks"))
        if way == "key":
            key, held = self.draw.choice(DRAWING_KEYS), self.draw.choice((NONE, NONE, SHIFT))
            QTest.keyClick(canvas, key, held)
            return f"key {key.name} on the drawing"
        at, held = self._place(canvas), self.draw.choice((NONE, NONE, SHIFT, CTRL))
        if way == "wheel":
            _wheel(canvas, at, self.draw.choice((-120, 120)), held)
        elif way == "two clicks":
            QTest.mouseDClick(canvas, LEFT, held, at)
        else:
            button = self.draw.choice((LEFT, LEFT, LEFT, MIDDLE))
            QTest.mousePress(canvas, button, held, at)
            for _ in range(3 if way == "drag" else 0):
                at = at + QPoint(self.draw.randrange(-40, 41), self.draw.randrange(-40, 41))
                _move(canvas, at, held)
                QApplication.processEvents()
            QTest.mouseRelease(canvas, button, held, at)
        return f"{way} on the drawing at {at.x()}, {at.y()}"

    def _place(self, canvas: QWidget) -> QPoint:
        """A pixel of a drawing: mostly near a mark, so that something is taken hold of."""
        picture = self.window.desk.drawing.picture
        marks = [] if picture.shown is None else [each for each in picture.shown.marks if each.inside_place]
        near = None
        if marks and self.draw.randrange(3):
            picture.chosen, kept = self.draw.choice(marks).id, picture.chosen
            near = picture.chosen_on_screen()
            picture.chosen = kept
        if near is None:
            return QPoint(self.draw.randrange(canvas.width()), self.draw.randrange(canvas.height()))
        return QPoint(round(near[0]), round(near[1])) + QPoint(self.draw.randrange(-4, 5), self.draw.randrange(-4, 5))

    def edit_a_cell(self, window: QWidget) -> str:
        """Write into a cell of the table of marks as its editor does, or choose its row."""
        table = self.window.desk.table
        if not table.isVisible() or not table.model.rowCount():
            return "no cell"
        index = table.model.index(self.draw.randrange(table.model.rowCount()), self.draw.randrange(len(COLUMNS)))
        table.view.setCurrentIndex(index)
        if not table.model.flags(index) & Qt.ItemFlag.ItemIsEditable:
            return f"choose row {index.row()}"
        text = self.draw.choice(TYPED)
        table.model.setData(index, text)
        return f"write {text!r} under {COLUMNS[index.column()].title!r}"

    def take_a_reason(self, window: QWidget) -> str:
        """Click a reason: it is shown, and leads to its field."""
        reasons = self.window.desk.reasons
        if not reasons.isVisible() or not reasons.list.count():
            return "no reason"
        item = reasons.list.item(self.draw.randrange(reasons.list.count()))
        reasons.list.setCurrentItem(item)
        reasons.list.itemClicked.emit(item)
        return "take a reason"

    def follow_a_link(self, window: QWidget) -> str:
        """Follow one of the links to what is still to be measured."""
        reasons, needed = self.window.desk.reasons, self.window.session.assessment.needed
        if not reasons.isVisible() or not needed:
            return "no link"
        field = self.draw.choice(needed).field
        reasons.still.linkActivated.emit(field)
        return f"link to {field}"

    def go_back(self, window: QWidget) -> str:
        """Undo or redo a few steps."""
        action = self.draw.choice((self.window.actions_.undo, self.window.actions_.redo))
        for _ in range(self.draw.randrange(1, 4)):
            action.trigger()
        return action.iconText()

    def rest(self, window: QWidget) -> str:
        """Let everything that waits be done."""
        for _ in range(3):
            QApplication.processEvents()
        return "rest"

    def _away_with_the_large_answer(self) -> str:
        QTest.keyClick(self.window.large, Key.Key_Escape)
        return "put the large answer away"

    def _answer_questions(self, patch: Any) -> None:
        """Every question a native dialog or a message box would ask is answered at random."""
        one, other = self.folder / "one.json", self.folder / "other.json"
        broken, nowhere = self.folder / "broken.json", self.folder / "no"
        samples = sorted(sample_jobs_folder().glob("*.json"))
        lessons = sorted(resource_path("lessons").glob("*.toml"))
        answers: dict[str, Callable[[], tuple[Any, ...]]] = {
            "ask_job_to_open": lambda: (None, one, other, broken, nowhere / "x.json", *samples),
            "ask_where_to_save": lambda: (None, one, other, self.folder / "a folder.json", nowhere / "x.json"),
            "ask_where_to_write_sheet": lambda: (None, None, self.folder / "sheet.png", nowhere / "sheet.pdf"),
            "ask_where_to_write_template": lambda: (None, self.folder / "template.pdf"),
            "ask_folder_of_jobs": lambda: (None, self.folder),
            "ask_where_to_write_csv": lambda: (None, self.folder / "jobs.csv"),
            "ask_guidance_to_take": lambda: (None, broken),
            "ask_where_to_share": lambda: (None, self.folder / "shared.toml"),
            "ask_about_unsaved": lambda: ("save", "discard", "stay"),
            "ask_which_version": lambda: ("mine", "theirs", "other_name", "later"),
            "ask_to_throw_away": lambda: (True, False),
            "ask_lesson_to_open": lambda: (None, *lessons, broken),
            "ask_class_picture": lambda: (None, broken),
        }
        for name, offered in answers.items():
            patch.setattr(dialogs, name, lambda *_, offered=offered: self.draw.choice(offered()))
        patch.setattr(dialogs, "tell_file_error", lambda parent, text: self.told.append(text))
        patch.setattr(stock_page, "ask_to_put_away", lambda parent: self.draw.choice((True, False)))
        patch.setattr(measure_field, "ask_tolerance", lambda *_: self.draw.choice((None, (0.5, 1.0), (None, None))))
        patch.setattr(print_preview, "ask_printer", lambda parent: None)
        patch.setattr(self.window, "close", lambda: self.window.files.may_leave())


def _in_sight(widget: QWidget, window: QWidget) -> bool:
    """Whether the user can type or choose there now; parts of spin boxes and cells are worked otherwise."""
    if not widget.isVisible() or not widget.isEnabled() or widget.window() is not window:
        return False
    parent = widget.parentWidget()
    while parent is not None and parent is not window:
        if isinstance(parent, QAbstractItemView | QAbstractSpinBox | QComboBox | QCalendarWidget):
            return False
        parent = parent.parentWidget()
    return True


def _key(widget: QWidget, key: int, text: str) -> None:
    for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
        QApplication.sendEvent(widget, QKeyEvent(kind, key, NONE, text))


def _move(widget: QWidget, at: QPoint, held: Qt.KeyboardModifier) -> None:
    place = QPointF(at)
    event = QMouseEvent(
        QEvent.Type.MouseMove, place, QPointF(widget.mapToGlobal(at)), Qt.MouseButton.NoButton, LEFT, held
    )
    QApplication.sendEvent(widget, event)


def _wheel(widget: QWidget, at: QPoint, turned: int, held: Qt.KeyboardModifier) -> None:
    event = QWheelEvent(
        QPointF(at), QPointF(widget.mapToGlobal(at)), QPoint(), QPoint(0, turned), Qt.MouseButton.NoButton, held,
        Qt.ScrollPhase.NoScrollPhase, False,
    )
    QApplication.sendEvent(widget, event)
