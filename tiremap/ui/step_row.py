"""One step in the list: its tick, and, while it is the one to do, all that belongs to it."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QFrame, QHBoxLayout, QLabel, QPushButton, QToolButton, QVBoxLayout, QWidget

from tiremap.drawing.said import said_in
from tiremap.model.job import StepDone
from tiremap.repair_steps import Step
from tiremap.ui.language import told, tr
from tiremap.ui.layouts import faint
from tiremap.ui.wording import ANSWER_WORDS


class StepRow(QFrame):
    """A step with its tick. ``open`` shows it whole.

    Signals: ``ticked(str, bool)`` the step's id and whether it was ticked; ``opened(str)`` it is to be shown whole;
    ``wait_wanted(str)`` its waiting time begins.
    """

    ticked = Signal(str, bool)
    opened = Signal(str)
    wait_wanted = Signal(str)

    def __init__(
        self, step: Step, done: StepDone | None, is_next: bool, open_: bool, unit: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.step = step
        self.is_next = is_next
        self.setObjectName("next_step" if is_next else "step")
        self.check = QCheckBox(f"{step.number}", self)  # its parent before it is shown
        self.check.setAccessibleName(tr("Step {number}: {title}", number=step.number, title=step.title))
        self.check.setAccessibleDescription(step.says)
        self.check.setChecked(done is not None)
        self.check.setObjectName("step_check")
        self.check.setVisible(not step.stop or done is not None)
        self.check.clicked.connect(self._clicked)
        self.title = _plain(step.title)
        self.title.setProperty("role", "heading")
        self.whole = QToolButton()
        self.whole.setObjectName("fold_step")
        self.whole.setCheckable(True)
        self.whole.setChecked(open_)
        self.whole.setArrowType(Qt.ArrowType.DownArrow if open_ else Qt.ArrowType.RightArrow)
        self.whole.setAccessibleName(tr("Show step {number} whole: {title}", number=step.number, title=step.title))
        self.whole.clicked.connect(self._opened)
        self.inside = QVBoxLayout()
        self.inside.setSpacing(4)
        self.wait: QPushButton | None = None
        self.waits = faint()
        self.waits.setAccessibleName(tr("Waiting time"))
        self.waits.hide()
        self._lay_out()
        if open_:
            self._show_whole(unit)
        if done is not None:
            self.inside.addWidget(faint(_done_says(done)))

    def show_wait(self, text: str, over: bool) -> None:
        """Show how long is left, or that it is over."""
        self.waits.setText(text)
        self.waits.setProperty("role", "heading" if over else "faint")
        self.waits.style().polish(self.waits)
        self.waits.setVisible(bool(text))

    def add(self, widget: QWidget) -> None:
        """Put something that belongs to this step under its text."""
        self.inside.addWidget(widget)

    def _show_whole(self, unit: str) -> None:
        step = self.step
        self.inside.addWidget(_plain(step.text))
        for each in step.details:
            line = _plain(said_in(each, unit))
            line.setProperty("role", "heading")
            self.inside.addWidget(line)
        if step.must_not:
            line = _plain(f"✗ {step.must_not}")
            line.setProperty("role", "fault")
            self.inside.addWidget(line)
        for each in step.cautions:
            self.inside.addWidget(_plain(f"! {each}"))
        if step.wait is not None:
            wait = step.wait
            least, most = wait.least_s // 60, wait.greatest_s // 60
            self.wait = QPushButton(tr("Wait {least} to {most} min", least=least, most=most))
            self.wait.setAccessibleName(
                tr("Start waiting {least} to {most} minutes: {what}", least=least, most=most, what=wait.what)
            )
            self.wait.setToolTip(f"{wait.what}. {wait.source}")
            self.wait.clicked.connect(self._wait)
            self.inside.addWidget(self.wait)

    def _clicked(self, checked: bool) -> None:
        self.check.setChecked(not checked)  # as the job has it, until it changes
        self.ticked.emit(self.step.id, checked)

    def _opened(self) -> None:
        self.opened.emit(self.step.id)

    def _wait(self) -> None:
        self.wait_wanted.emit(self.step.id)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(6, 2, 4, 4)
        column.setSpacing(2)
        head = QHBoxLayout()
        head.setSpacing(4)
        head.addWidget(self.check)
        head.addWidget(self.title, 1)
        head.addWidget(self.whole)
        column.addLayout(head)
        column.addLayout(self.inside)
        column.addWidget(self.waits)


def _plain(text: str) -> QLabel:
    label = QLabel(text)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label


def _done_says(done: StepDone) -> str:
    at = f"{done.at:%Y-%m-%d %H:%M}"
    return (
        tr("Done {at}.", at=at)
        if done.answer is None
        else tr("Answered {at}: {answer}.", at=at, answer=told(ANSWER_WORDS[done.answer]))
    )
