"""Figures of the register: counts of answers and reasons, where across injuries lie, repairs by month."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from tiremap.model.job import Answer
from tiremap.storage.register import Register
from tiremap.ui.answer_symbol import answer_icon, level_icon
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import faint, heading
from tiremap.ui.palettes import Theme
from tiremap.ui.register_pictures import AcrossPicture, MonthsPicture
from tiremap.ui.wording import ANSWER_WORDS

_SYMBOL = 16
_REASONS = 8
"""As many as are looked at; the others are counted in one line."""


def code_says(code: str) -> str:
    """A reason's code in words: ``repair_count`` as ``Repair count``."""
    return code.replace("_", " ").capitalize()


class RegisterFigures(QScrollArea):
    """Of every job in the folder, whatever is sought."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Figures"))
        self.setWidgetResizable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.across = AcrossPicture()
        self.months = MonthsPicture()
        self.counts_what = faint("")
        self._answers, self._deciding = QGridLayout(), QGridLayout()
        self._lay_out()

    def show_register(self, register: Register, theme: Theme) -> None:
        """Count anew. Raises `TiremapError` where the index cannot be read."""
        answers, deciding = register.answers(), register.deciding()
        files = sum(answers.values())
        words = tr("the 1 file") if files == 1 else tr("all {files:,} files", files=files)
        self.counts_what.setText(tr("The figures count {files} in the folder, whatever is sought above.", files=words))
        self.across.show_counts(register.across(), register.across_edges(), theme)
        self.months.show_counts(register.per_month(), theme)
        self._show_answers(answers, theme)
        _empty(self._deciding)
        for row, (code, says, jobs) in enumerate(deciding[:_REASONS]):
            _line(self._deciding, row, code_says(code), jobs).setToolTip(tr("Most often: {says}", says=says))
        rest = sum(jobs for *_, jobs in deciding[_REASONS:])
        if rest:
            _line(self._deciding, _REASONS, tr("{count} others", count=len(deciding) - _REASONS), rest)
        if not deciding:
            self._deciding.addWidget(faint(tr("Nothing was refused or open.")), 0, 1)

    def _show_answers(self, answers: dict[Answer | None, int], theme: Theme) -> None:
        _empty(self._answers)
        for row, (answer, words) in enumerate((*ANSWER_WORDS.items(), (None, marked("Not read or answered")))):
            icon = level_icon("caution", theme, _SYMBOL) if answer is None else answer_icon(answer, theme, _SYMBOL)
            label = _line(self._answers, row, told(words), answers.get(answer, 0))
            symbol = QLabel()
            symbol.setPixmap(icon.pixmap(_SYMBOL, _SYMBOL))
            symbol.setAccessibleName(label.text())
            self._answers.addWidget(symbol, row, 0)

    def _lay_out(self) -> None:
        inner = QWidget()
        whole = QVBoxLayout(inner)
        whole.setContentsMargins(0, 4, 0, 4)
        self.counts_what.setWordWrap(True)
        whole.addWidget(self.counts_what)
        row = QHBoxLayout()
        row.setSpacing(18)
        whole.addLayout(row, 1)
        for title, counts in ((tr("Answers"), self._answers), (tr("What decides"), self._deciding)):
            counts.setVerticalSpacing(3)
            counts.setHorizontalSpacing(8)
            column = QVBoxLayout()
            column.addWidget(_heading(title))
            column.addLayout(counts)
            column.addStretch(1)
            row.addLayout(column)
        for title, picture in ((tr("Injuries across the tread"), self.across), (tr("Repairs by month"), self.months)):
            column = QVBoxLayout()
            column.addWidget(_heading(title))
            column.addWidget(picture, 1)
            row.addLayout(column, 1)
        self.setWidget(inner)


def _line(grid: QGridLayout, row: int, words: str, jobs: int) -> QLabel:
    label, number = QLabel(words), QLabel(str(jobs))
    number.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
    number.setAccessibleName(f"{words}: {jobs}")
    grid.addWidget(label, row, 1)
    grid.addWidget(number, row, 2)
    grid.setColumnStretch(1, 1)
    return label


def _heading(title: str) -> QLabel:
    """A heading that begins where the lines under it do."""
    label = heading(title)
    label.setIndent(0)
    return label


def _empty(grid: QGridLayout) -> None:
    while (item := grid.takeAt(0)) is not None:
        item.widget().hide()
        item.widget().deleteLater()
