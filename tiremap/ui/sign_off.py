"""Signing off: what is decided about the tire, under the answer as it stands, by number or initials."""

from collections.abc import Callable
from datetime import datetime

from PySide6.QtCore import QSize, Qt, QTimer
from PySide6.QtWidgets import (
    QButtonGroup,
    QDialog,
    QFormLayout,
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QPushButton,
    QRadioButton,
    QVBoxLayout,
    QWidget,
)

from tiremap.drawing.decision_words import CHOICE_WORDS, decision_told, guidance_title
from tiremap.edits.decisions import LONGEST_SIGN, sign
from tiremap.errors import TiremapError
from tiremap.model.job import Choice, is_against
from tiremap.session import Session
from tiremap.ui.answer_symbol import AnswerSymbol
from tiremap.ui.editor import Editor
from tiremap.ui.help_here import give_help_key
from tiremap.ui.key_row import KeyRow
from tiremap.ui.language import told, tr
from tiremap.ui.layouts import faint, fault, heading, tell_fault
from tiremap.ui.palettes import theme_of
from tiremap.ui.preferences import Preferences
from tiremap.ui.wording import ANSWER_WORDS

CHOICES: tuple[Choice, ...] = ("repair", "do_not_repair", "measure")
_TICK_MS = 1000
_EARLIER_HEIGHT = 96
"""Greatest height of the list of earlier decisions, px: about three of them; more scroll."""


def now() -> datetime:
    """The present moment in the zone of this computer, to the second."""
    return datetime.now().astimezone().replace(microsecond=0)


class SignOff(QDialog):
    """Records one decision as one undo step. Decisions made before are shown and cannot be changed.

    A decision against the answer is asked about once more; nothing is recorded before that.
    """

    def __init__(
        self, editor: Editor, preferences: Preferences, parent: QWidget | None = None,
        clock: Callable[[], datetime] = now,
    ) -> None:
        super().__init__(parent)
        self._editor = editor
        self._clock = clock
        self.keys = KeyRow(self) if preferences.settings.keys_on_screen else None
        self.setWindowTitle(tr("Record the decision"))
        self.setWindowModality(Qt.WindowModality.WindowModal)
        give_help_key(self)
        assessment = editor.session.assessment
        self.symbol = AnswerSymbol()
        self.symbol.show_answer(assessment.answer, theme_of(preferences.settings.theme))
        self.answer = QLabel(told(ANSWER_WORDS[assessment.answer]))
        self.answer.setProperty("role", "answer")
        self.answer.setAccessibleName(tr("The answer it is recorded under"))
        self.by_whom = faint(tr("By: {title}", title=guidance_title(assessment.job.rule_set)))
        self.job = faint(_job_said(editor.session))
        self.job.setAccessibleName(tr("The job it is recorded in"))
        self.group = QButtonGroup(self)
        self.choices = {each: QRadioButton(told(CHOICE_WORDS[each])) for each in CHOICES}
        for each, button in self.choices.items():
            button.setAccessibleName(tr("Decision: {choice}", choice=told(CHOICE_WORDS[each])))
            self.group.addButton(button)
        self.date = QLabel()
        self.date.setAccessibleName(tr("Date of the decision"))
        self.sign = _field(tr("Number or initials"), tr("such as 12 or KM, no name"))
        self.sign.setMaxLength(LONGEST_SIGN)
        self.note = _field(tr("Note"), "")
        self.fault = fault()
        self.fault.setAccessibleName(tr("What is missing"))
        self.asked = QFrame()
        self.asked_words = QLabel()
        self.asked_words.setWordWrap(True)
        self.asked_words.setProperty("role", "fault")
        self.asked_words.setAccessibleName(tr("Against the answer"))
        self.against = QPushButton(tr("Record it &against the answer"))
        self.back = QPushButton(tr("&Go back"))
        self.record = QPushButton(tr("&Record"))
        self.shut = QPushButton(tr("&Cancel"))
        self._lay_out()
        self._connect()
        self._show_time()
        self._timer = QTimer(self, interval=_TICK_MS)
        self._timer.timeout.connect(self._show_time)
        self._timer.start()
        self.choices["repair"].setFocus()

    @property
    def chosen(self) -> Choice | None:
        """The decision chosen, or ``None``: nothing is chosen beforehand."""
        return next((each for each, button in self.choices.items() if button.isChecked()), None)

    def _try_record(self) -> None:
        """Record the decision, or say what is missing, or ask once more where it is against the answer."""
        if self.chosen is None:
            tell_fault(self.fault, tr("Choose what is decided."))
            self.choices["repair"].setFocus()
        elif not self.sign.text().strip():
            tell_fault(self.fault, tr("Enter your number or initials."))
            self.sign.setFocus()
        elif is_against(self.chosen, self._editor.session.assessment.answer):
            tell_fault(self.fault, "")
            self._ask()
        else:
            self._record()

    def _ask(self) -> None:
        answer = told(ANSWER_WORDS[self._editor.session.assessment.answer])
        self.asked_words.setText(tr(
            "The answer is {answer}. To repair is against it. It is kept with your sign for good, printed on the sheet "
            "and shown as against the answer. Record it all the same?",
            answer=answer,
        ))
        self._show_question(True)
        self.back.setFocus()

    def _go_back(self) -> None:
        self._show_question(False)
        self.choices["repair"].setFocus()

    def _show_question(self, asking: bool) -> None:
        """The question stands in place of the buttons; what it is about cannot be changed meanwhile."""
        self.asked.setVisible(asking)
        for widget in (self.record, self.shut):
            widget.setVisible(not asking)
        for widget in (*self.choices.values(), self.sign, self.note):
            widget.setEnabled(not asking)
        self.record.setDefault(not asking)
        self.back.setDefault(asking)
        self.adjustSize()

    def _record(self) -> None:
        assessment = self._editor.session.assessment
        try:
            self._editor.change(
                tr("Record the decision"),
                sign,
                assessment,
                self.chosen,
                self._clock(),
                self.sign.text(),
                self.note.text(),
            )
        except TiremapError as error:
            self._show_question(False)
            tell_fault(self.fault, str(error))
            return
        self.accept()

    def _show_time(self) -> None:
        self.date.setText(f"{self._clock():%Y-%m-%d %H:%M}")

    def _connect(self) -> None:
        self.record.clicked.connect(self._try_record)
        self.shut.clicked.connect(self.reject)
        self.against.clicked.connect(self._record)
        self.back.clicked.connect(self._go_back)

    def _lay_out(self) -> None:
        answer = QVBoxLayout()
        answer.setSpacing(1)
        answer.addWidget(self.answer)
        answer.addWidget(self.by_whom)
        answer.addWidget(self.job)
        head = QHBoxLayout()
        head.setSpacing(12)
        head.addWidget(self.symbol)
        head.addLayout(answer, 1)
        choices = QHBoxLayout()
        for button in self.choices.values():
            choices.addWidget(button)
        choices.addStretch(1)
        form = QFormLayout()
        form.addRow(tr("Date"), self.date)
        form.addRow(tr("Number or &initials"), self.sign)
        form.addRow(tr("&Note"), self.note)
        asked = QVBoxLayout(self.asked)
        asked.setContentsMargins(0, 0, 0, 0)
        asked.addWidget(self.asked_words)
        asked.addLayout(_buttons(self.against, self.back))
        self.asked.hide()
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.setSpacing(8)
        column.addLayout(head)
        column.addWidget(heading(tr("Decided")))
        column.addLayout(choices)
        column.addLayout(form)
        column.addWidget(self.fault)
        column.addWidget(self.asked)
        column.addLayout(_buttons(self.record, self.shut))
        self._add_earlier(column)
        self.record.setDefault(True)
        if self.keys is not None:
            column.addWidget(self.keys)  # as wide as they need
        else:
            self.setMinimumWidth(min(560, self.screen().availableGeometry().width() - 40))

    def _add_earlier(self, column: QVBoxLayout) -> None:
        """The decisions made before, the newest first, to read only."""
        decisions = self._editor.job.decisions
        self.earlier = QListWidget()
        self.earlier.setAccessibleName(tr("Earlier decisions"))
        self.earlier.setWordWrap(True)
        self.earlier.setMaximumHeight(_EARLIER_HEIGHT)
        self.earlier.setMinimumSize(QSize(0, 48))
        self.earlier.addItems([decision_told(each) for each in reversed(decisions)])
        title = heading(tr("Decided before: stays as it is"))
        column.addWidget(title)
        column.addWidget(self.earlier)
        title.setVisible(bool(decisions))
        self.earlier.setVisible(bool(decisions))


def _job_said(session: Session) -> str:
    """Which job is being signed: its number, tire and file."""
    job = session.job
    parts = [tr("Job {number}", number=job.job_number) if job.job_number else tr("Job number not given")]
    parts += [each for each in (job.tire.number, job.tire.size_code) if each]
    parts += [session.path.name] if session.path is not None else []
    return " · ".join(parts)


def _field(name: str, hint: str) -> QLineEdit:
    field = QLineEdit()
    field.setAccessibleName(name)
    field.setPlaceholderText(hint)
    return field


def _buttons(*buttons: QPushButton) -> QHBoxLayout:
    row = QHBoxLayout()
    row.addStretch(1)
    for button in buttons:
        button.setAutoDefault(False)
        row.addWidget(button)
    return row
