"""The Teach desk: a lesson before a class, in large type and a projector's colors.

Words above, drawings in the middle, below them the answer, the reason that is told and the presenter's controls.
It works on a job of its own (`Presentation`); the shop's stays as it is.
"""

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QComboBox, QDoubleSpinBox, QHBoxLayout, QLabel, QPushButton, QSlider, QVBoxLayout, QWidget

from tiremap.drawing.bending_scene import assumed_words, widest_words
from tiremap.drawing.scene import View
from tiremap.drawing.shown_reason import told_to_a_class
from tiremap.errors import TiremapError
from tiremap.lesson_check import refuse_broken
from tiremap.model.cautions import short_caution
from tiremap.model.lesson import Lesson
from tiremap.model.units import MM_PER_INCH
from tiremap.storage.lesson_file import lesson_paths, read_lesson
from tiremap.ui.answer_symbol import AnswerSymbol
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import Beside, ChoiceBox
from tiremap.ui.palettes import CLASS_POINTS, theme_of
from tiremap.ui.preferences import Preferences
from tiremap.ui.presentation import Presentation
from tiremap.ui.wording import ANSWER_WORDS

if TYPE_CHECKING:
    from tiremap.render.class_picture import ClassPicture

BESIDE_WORDS = {
    "nothing": marked("Section alone"),
    "bending": marked("Loaded tire"),
    "guidance": marked("All guidance"),
    "strip": marked("Liner strip"),
}
"""What can stand beside the section."""
_TENTHS = 10
"""Slider steps in a millimeter."""
_SYMBOL = 64
_THEME = "projector"


class TeachDesk(QWidget):
    """Shows a lesson step by step.

    Signals: ``failed(str)`` where a lesson could not be opened.
    """

    failed = Signal(str)

    def __init__(self, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._preferences = preferences
        self.presentation = Presentation(read_lesson(lesson_paths()[0]))
        self.canvas: Any = None
        self.words = _large(1.1)
        self.words.setAccessibleName(tr("What the step says"))
        self.symbol = AnswerSymbol()
        self.symbol.setFixedSize(_SYMBOL, _SYMBOL)
        _keep_room(self.symbol)
        self.answer = _large(1.5, bold=True)
        self.answer.setWordWrap(False)
        self.reason = _large()
        self.reason.setMinimumHeight(_SYMBOL)  # two lines: while a hole is dragged nothing moves under the hand
        self.bends = _large()
        self.assumed = _large()
        self.caution = _large()
        self.caution.setText(short_caution())
        self.place = QLabel()
        self.back, self.on = QPushButton(tr("Back")), QPushButton(tr("Next"))
        self.hide_answer = QPushButton()
        self.next_reason = QPushButton(tr("Next reason"))
        self.reset = QPushButton(tr("Reset"))
        self.beside = ChoiceBox()
        self.load = QSlider(Qt.Orientation.Horizontal)
        self.across = QDoubleSpinBox()
        self._dress()
        self._lay_out()
        self._connect()
        self._show()

    def build_drawing(self) -> None:
        """Make the drawings, for which matplotlib is loaded. A second call does nothing."""
        if self.canvas is not None:
            return
        from tiremap.ui.teach_canvas import TeachCanvas

        self.canvas = TeachCanvas(self.presentation)
        self._middle.addWidget(self.canvas)
        QWidget.setTabOrder(self.canvas, self.back)
        self.canvas.dragged.connect(self._show_words)
        self.canvas.moved.connect(self._show)
        self.canvas.setFocus()

    # --- what the presenter does ----------------------------------------------------------------------------------

    def open_lesson(self, path: str | Path) -> bool:
        """Show the lesson in a file from its first step; one that is broken is told and what is shown stays."""
        path = Path(path)
        try:
            lesson = read_lesson(path)
            refuse_broken(lesson, path.name)
        except TiremapError as error:
            self.failed.emit(str(error))
            return False
        self.show_lesson(lesson)
        return True

    def show_lesson(self, lesson: Lesson) -> None:
        """Show a lesson that was read and found right."""
        self.presentation.open(lesson)
        self._show()

    def go_on(self) -> None:
        """The next step."""
        self._try(partial(self.presentation.go, 1))

    def go_back(self) -> None:
        """The step before."""
        self._try(partial(self.presentation.go, -1))

    def begin_again(self) -> None:
        """The step as the lesson has it."""
        self._try(self.presentation.begin)

    def switch_answer(self) -> None:
        """Hide the answer until the class has guessed, or show it."""
        self.presentation.hidden = not self.presentation.hidden
        self._show()

    def tell_next_reason(self) -> None:
        """The next of the reasons."""
        self.presentation.tell_next()
        self._show()

    def take_preferences(self) -> None:
        """Take over the unit."""
        self.presentation.unit = self._preferences.settings.units
        self._show()

    def picture(self) -> "ClassPicture":
        """The step as it stands, as a picture to write."""
        from tiremap.render.class_picture import ClassPicture

        shown = self.presentation
        reason = None if shown.hidden else shown.reason
        return ClassPicture(shown.shown(), shown.step.says, self.place.text(), reason)

    # --- showing --------------------------------------------------------------------------------------------------

    def _show(self) -> None:
        """Show the step as it stands, words and drawings."""
        shown = self.presentation
        self.words.setText(shown.step.says)
        steps = len(shown.lesson.steps)
        self.place.setText(tr("{number} of {steps}", number=shown.number + 1, steps=steps))
        self.back.setEnabled(shown.number > 0)
        self.on.setEnabled(shown.number + 1 < steps)
        self.hide_answer.setText(tr("Show answer") if shown.hidden else tr("Hide answer"))
        self._show_controls()
        self._show_words()
        if self.canvas is not None:
            self.canvas.draw_idle()

    def _show_controls(self) -> None:
        shown, inches = self.presentation, self.presentation.unit == "in"
        for control in (self.beside, self.load, self.across):
            control.blockSignals(True)
        self.beside.setCurrentIndex(self.beside.findData(shown.beside))
        self.load.setVisible(shown.beside == "bending")
        self._load_name.setVisible(shown.beside == "bending")
        self.load.setRange(0, int(shown.greatest_load * _TENTHS))
        self.load.setValue(round(shown.load * _TENTHS))
        per = MM_PER_INCH if inches else 1.0
        self.across.setSuffix(" in" if inches else " mm")
        self.across.setDecimals(2 if inches else 1)
        self.across.setSingleStep(0.05 if inches else 1.0)
        self.across.setRange(-shown.farthest / per, shown.farthest / per)
        self.across.setEnabled(shown.across is not None)
        self.across.setValue((shown.across or 0.0) / per)
        for control in (self.beside, self.load, self.across):
            control.blockSignals(False)

    def _show_words(self) -> None:
        """The answer, the reason told and how hard the head is bent: what follows a drag at every frame."""
        shown = self.presentation
        answer = shown.assessment.answer
        self.symbol.setVisible(not shown.hidden)
        self.symbol.show_answer(answer, theme_of(_THEME))
        self.answer.setText(tr("What is your answer?") if shown.hidden else told(ANSWER_WORDS[answer]))
        self.reason.setText("" if shown.hidden or shown.reason is None else self._reason_words())
        self.next_reason.setEnabled(not shown.hidden and len(shown.reasons) > 1)
        self.bends.setText(shown.bends())
        self.bends.setVisible(shown.loaded is not None)
        loaded = shown.loaded
        self.bends.setToolTip("" if loaded is None else widest_words(loaded, shown.unit))
        self.assumed.setText(assumed_words(shown.unit))
        self.assumed.setVisible(loaded is not None)
        if self.canvas is not None:
            self.canvas.say("" if shown.hidden else f"{told(ANSWER_WORDS[answer])}. {self.reason.text()}")

    def _reason_words(self) -> str:
        shown = self.presentation
        words = told_to_a_class(shown.reason, View(chosen=shown.chosen, unit=shown.unit))
        which = tr("{number} of {count}", number=shown.told + 1, count=len(shown.reasons))
        return f"{words} ({which})"

    # --- hands ----------------------------------------------------------------------------------------------------

    def _put_beside(self) -> None:
        self.presentation.put_beside(self.beside.currentData())
        self._show()

    def _let_down(self, tenths: int) -> None:
        self.presentation.let_down(tenths / _TENTHS)
        self._show()

    def _put_across(self, value: float) -> None:
        self._try(partial(self.presentation.move, value * (MM_PER_INCH if self.presentation.unit == "in" else 1.0)))

    def _try(self, change: Callable[[], object]) -> None:
        """Change what is shown. A step's guidance that was broken meanwhile is told, and nothing changes."""
        try:
            change()
        except TiremapError as error:
            self.failed.emit(str(error))
        self._show()

    # --- making ---------------------------------------------------------------------------------------------------

    def _dress(self) -> None:
        """Large type, whatever the theme of the window says."""
        self.setObjectName("teach")
        self.setStyleSheet(f"""
            QWidget {{ font-size: {CLASS_POINTS}pt; }}
            QPushButton, QComboBox, QDoubleSpinBox {{ min-height: 44px; }}
            QDoubleSpinBox {{ min-width: {5 * CLASS_POINTS}px; max-width: {8 * CLASS_POINTS}px; }}
            QSlider {{ min-height: 44px; min-width: 90px; }}
            QSlider::groove:horizontal {{ height: 6px; background: {theme_of(_THEME).line}; border-radius: 3px; }}
            QSlider::handle:horizontal {{
                background: {theme_of(_THEME).accent}; width: 26px; margin: -14px 0; border-radius: 6px;
            }}
        """)

    def _lay_out(self) -> None:
        for value, words in BESIDE_WORDS.items():
            self.beside.addItem(told(words), value)
        self.beside.setAccessibleName(tr("Beside the section"))
        self.beside.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
        self.load.setAccessibleName(tr("Load: how far the belt edge comes down"))
        self.load.setPageStep(5 * _TENTHS)
        self._load_name = QLabel(tr("Load"))
        self.across.setAccessibleName(tr("The hole, from the center"))
        self.across.setButtonSymbols(QDoubleSpinBox.ButtonSymbols.NoButtons)
        self.across.setKeyboardTracking(False)
        self.reset.setToolTip(tr("The step as the lesson has it"))
        said = QHBoxLayout()
        said.setSpacing(14)
        said.addWidget(self.symbol)
        said.addWidget(self.answer)
        said.addWidget(self.reason, 1)
        steps = _row(self.back, self.place, self.on, self.hide_answer, self.next_reason)
        controls = _row(self.beside, self._load_name, self.load, self.across, self.reset)
        self._middle = QVBoxLayout()
        self._middle.setContentsMargins(0, 0, 0, 0)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 6, 14, 8)
        column.setSpacing(4)
        column.addWidget(self.words)
        column.addLayout(self._middle, 1)
        column.addLayout(said)
        column.addWidget(self.bends)
        column.addWidget(self.assumed)
        column.addWidget(self.caution)
        column.addWidget(Beside(steps, controls))

    def _connect(self) -> None:
        self.back.clicked.connect(self.go_back)
        self.on.clicked.connect(self.go_on)
        self.hide_answer.clicked.connect(self.switch_answer)
        self.next_reason.clicked.connect(self.tell_next_reason)
        self.reset.clicked.connect(self.begin_again)
        self.beside.activated.connect(self._put_beside)
        self.load.valueChanged.connect(self._let_down)
        self.across.valueChanged.connect(self._put_across)


def _keep_room(widget: QWidget) -> None:
    """It keeps its room while it is hidden."""
    policy = widget.sizePolicy()
    policy.setRetainSizeWhenHidden(True)
    widget.setSizePolicy(policy)


def _large(times: float = 1.0, *, bold: bool = False) -> QLabel:
    """A line that wraps, so many times as large as the class's type."""
    label = QLabel()
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    weight = " font-weight: 700;" if bold else ""
    label.setStyleSheet(f"font-size: {CLASS_POINTS * times:.1f}pt;{weight}")
    return label


def _row(*widgets: QWidget) -> QWidget:
    """Controls beside each other."""
    whole = QWidget()
    row = QHBoxLayout(whole)
    row.setContentsMargins(0, 0, 0, 0)
    row.setSpacing(8)
    for widget in widgets:
        row.addWidget(widget)
    return whole
