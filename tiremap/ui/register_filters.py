"""What is sought in the register: words, an answer, what decides it, and a time."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from PySide6.QtCore import QDate, QTimer, Signal
from PySide6.QtWidgets import QDateEdit, QHBoxLayout, QLabel, QLineEdit, QSizePolicy, QVBoxLayout, QWidget

from tiremap.model.job import Answer
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import choice, show_choice, widen_list
from tiremap.ui.wording import ANSWER_WORDS

_AFTER_TYPING_MS = 100
_AGAINST, _FAULTY = "against", "faulty"
_OTHERS = ((marked("Not read or answered"), _FAULTY), (marked("Repaired against the answer"), _AGAINST))
_BETWEEN = "between"
_PERIODS = (
    (marked("Any date"), None),
    (marked("This month"), "month"),
    (marked("Last month"), "last_month"),
    (marked("This year"), "year"),
    (marked("Last year"), "last_year"),
    (marked("From … to …"), _BETWEEN),
)


@dataclass(frozen=True)
class Sought:
    """What a job must be to be listed; days as ``2026-01-31``, both counted in. Nothing sought is every job."""

    words: str = ""
    answer: Answer | None = None
    deciding: str | None = None
    since: str | None = None
    until: str | None = None
    against_answer: bool | None = None
    faulty: bool | None = None

    def asked(self) -> dict[str, Any]:
        """As the register is asked."""
        return dict(vars(self))


def period(name: str | None, today: date) -> tuple[str | None, str | None]:
    """First and last day of a period named as in the list; ``None`` where it has no end."""
    first = today.replace(day=1)
    match name:
        case "month":
            return first.isoformat(), None
        case "last_month":
            last = first - timedelta(days=1)
            return last.replace(day=1).isoformat(), last.isoformat()
        case "year":
            return f"{today.year}-01-01", None
        case "last_year":
            return f"{today.year - 1}-01-01", f"{today.year - 1}-12-31"
    return None, None


class RegisterFilters(QWidget):
    """Fields to seek by; they are followed as they are typed.

    Signals: ``changed()`` after what is sought changed.
    """

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.words = QLineEdit()
        self.words.setAccessibleName(tr("Words to seek"))
        self.words.setPlaceholderText(tr("Seek size, date code, tire, job or fleet number"))
        self.words.setClearButtonEnabled(True)
        answers = [(told(words), answer) for answer, words in ANSWER_WORDS.items()]
        self.answer = choice(tr("Answer"), [(tr("Any answer"), None), *answers, *_OTHERS])
        self.deciding = choice(tr("What decides"), [(tr("Any reason"), None)])
        self.period = choice(tr("Date"), _PERIODS)
        self.since, self.until = _day(tr("From this day"), -1), _day(tr("To this day"), 0)
        self._sought = Sought()
        self._typing = QTimer(self)
        self._typing.setSingleShot(True)
        self._typing.setInterval(_AFTER_TYPING_MS)
        self._lay_out()
        self._typing.timeout.connect(self._look)
        self.words.textChanged.connect(self._typed)
        for box in (self.answer, self.deciding, self.period):
            box.currentIndexChanged.connect(self._look)
        for day in (self.since, self.until):
            day.dateChanged.connect(self._typed)

    @property
    def sought(self) -> Sought:
        """What is sought as the fields stand."""
        answer, name = self.answer.currentData(), self.period.currentData()
        since, until = period(name, date.today())
        if name == _BETWEEN:
            since, until = _iso(self.since), _iso(self.until)
        return Sought(
            self.words.text().strip(), None if answer in (_AGAINST, _FAULTY) else answer, self.deciding.currentData(),
            since, until, answer == _AGAINST or None, answer == _FAULTY or None,
        )

    def offer_reasons(self, reasons: Sequence[tuple[str, str, int]]) -> None:
        """Offer these reasons to choose from, each ``(code, words, jobs)``; the chosen one stays chosen."""
        chosen, text = self.deciding.currentData(), self.deciding.currentText()
        self.deciding.blockSignals(True)
        self.deciding.clear()
        self.deciding.addItem(tr("Any reason"), None)
        for code, words, jobs in reasons:
            self.deciding.addItem(f"{words} ({jobs})", code)
        if chosen is not None and self.deciding.findData(chosen) < 0:
            self.deciding.addItem(text, chosen)
        self.deciding.blockSignals(False)
        show_choice(self.deciding, chosen)
        widen_list(self.deciding)

    def clear(self) -> None:
        """Seek nothing: every job."""
        for box in (self.answer, self.deciding, self.period):
            box.setCurrentIndex(0)
        self.words.clear()
        self._look()

    def _typed(self) -> None:
        self._typing.start()

    def _look(self) -> None:
        self._typing.stop()
        self._days.setVisible(self.period.currentData() == _BETWEEN)
        if self.sought != self._sought:
            self._sought = self.sought
            self.changed.emit()

    def _lay_out(self) -> None:
        self._days = QWidget()
        days = QHBoxLayout(self._days)
        days.setContentsMargins(0, 0, 0, 0)
        for words, field in ((tr("From"), self.since), (tr("to"), self.until)):
            label = QLabel(words)
            label.setBuddy(field)
            days.addWidget(label)
            days.addWidget(field)
        days.addStretch(1)
        self._days.hide()
        row = QHBoxLayout()
        row.addWidget(self.words, 5)
        row.addWidget(self.answer, 3)
        row.addWidget(self.deciding, 3)
        row.addWidget(self.period, 2)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(row)
        column.addWidget(self._days)


def _day(name: str, years: int) -> QDateEdit:
    """A field for a day, which starts so many years from today."""
    field = QDateEdit(QDate.currentDate().addYears(years))
    field.setAccessibleName(name)
    field.setDisplayFormat("yyyy-MM-dd")
    field.setCalendarPopup(True)
    field.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
    return field


def _iso(field: QDateEdit) -> str:
    return field.date().toString("yyyy-MM-dd")
