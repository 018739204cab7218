"""The marks of a job as rows and columns for a table view, with texts that could not be used kept in their cells."""

from dataclasses import replace
from typing import Any

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QWidget

from tiremap.assessment import AssessedMark, Assessment
from tiremap.errors import TiremapError
from tiremap.model.job import Injury
from tiremap.model.measures import LengthUnit
from tiremap.ui.answer_symbol import answer_icon
from tiremap.ui.editor import Editor
from tiremap.ui.language import told, tr
from tiremap.ui.marks_columns import ANSWER, BY_EYE, COLUMNS, Column, Mark, change_of, marks_of, words_for
from tiremap.ui.next_sign import next_words
from tiremap.ui.palettes import Theme, theme_of
from tiremap.ui.titled_columns import Index, TitledColumns
from tiremap.ui.wording import OWN_WORDS


class MarksModel(TitledColumns):
    """Marks as rows. Text that could not be used stays in its cell until something is stored there.

    Signals: ``refused(str)`` the error of a text, empty once all is well.
    """

    refused = Signal(str)

    def __init__(self, editor: Editor, parent: QWidget | None = None) -> None:
        super().__init__(COLUMNS, parent)
        self._editor = editor
        self._assessment: Assessment | None = None
        self._unit: LengthUnit = "mm"
        self._theme: Theme = theme_of("light")
        self._next: tuple[str, int] | None = None
        self._rejected: dict[tuple[str, int], tuple[str, str]] = {}

    def show_assessment(self, assessment: Assessment, unit: LengthUnit, theme: Theme) -> None:
        """Show the marks of an assessment; rows are kept while the same marks are there."""
        before = [] if self._assessment is None else [mark.id for mark in marks_of(self._assessment.job)]
        now = [mark.id for mark in marks_of(assessment.job)]
        same_rows = before == now
        if not same_rows:
            self.beginResetModel()
        self._assessment, self._unit, self._theme = assessment, unit, theme
        self._rejected = {key: value for key, value in self._rejected.items() if key[0] in now}
        if not same_rows:
            self.endResetModel()
        elif now:
            self.dataChanged.emit(self.index(0, 0), self.index(len(now) - 1, len(COLUMNS) - 1))

    def show_next(self, mark_id: str, field: str) -> bool:
        """Put the sign of what comes next in that cell, or in none; whether there is such a cell."""
        before, self._next = self._next, None
        row = self.row_of(mark_id)
        if row >= 0:
            fields = [each.field_of(self.mark(row)) for each in COLUMNS]
            columns = [number for number, each in enumerate(fields) if each is not None and each == field]
            self._next = (mark_id, columns[0]) if columns else None
        if before != self._next and self.rowCount():
            self.dataChanged.emit(self.index(0, 0), self.index(self.rowCount() - 1, len(COLUMNS) - 1))
        return self._next is not None

    def mark(self, row: int) -> Mark:
        """The mark of a row."""
        return self._marks[row]

    def row_of(self, mark_id: str | None) -> int:
        """The row of a mark, or -1."""
        return next((row for row, mark in enumerate(self._marks) if mark.id == mark_id), -1)

    @property
    def _marks(self) -> tuple[Mark, ...]:
        return () if self._assessment is None else marks_of(self._assessment.job)

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        """One row for each mark."""
        return 0 if parent.isValid() else len(self._marks)

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Editable where the column edits a measurement of this kind of mark."""
        flags = super().flags(index)
        if index.isValid() and COLUMNS[index.column()].field_of(self.mark(index.row())):
            flags |= Qt.ItemFlag.ItemIsEditable
        return flags

    def _assessed(self, mark_id: str) -> AssessedMark | None:
        """A mark with the answer it is shown with."""
        assessed = None if self._assessment is None else self._assessment.mark(mark_id)
        if assessed is None or assessed.answer is None:
            return assessed
        return replace(assessed, answer=self._assessment.answer_shown(assessed))

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Text, symbol of the answer, and the error of a text that could not be used."""
        if not index.isValid() or self._assessment is None:
            return None
        mark, column = self.mark(index.row()), COLUMNS[index.column()]
        rejected = self._rejected.get((mark.id, index.column()))
        match role:
            case Qt.ItemDataRole.DisplayRole | Qt.ItemDataRole.EditRole:
                if rejected:
                    return f"! {rejected[0]}" if role == Qt.ItemDataRole.DisplayRole else rejected[0]
                text = column.text(mark, self._assessed(mark.id), self._unit) or self._bare(column, mark)
                if role == Qt.ItemDataRole.DisplayRole and self._next == (mark.id, index.column()):
                    return f"{next_words()} {text}".strip()
                return text
            case Qt.ItemDataRole.ToolTipRole:
                text = self.data(index, Qt.ItemDataRole.DisplayRole) + self._by_itself(mark, column)
                return (
                    rejected[1] if rejected else tr("{words} (by eye)", words=text) if text.startswith(BY_EYE) else text
                )
            case Qt.ItemDataRole.ForegroundRole if rejected:
                return QColor(self._theme.fault)
            case Qt.ItemDataRole.DecorationRole if index.column() == 0:
                assessed = self._assessed(mark.id)
                answer = "measure_first" if assessed is None and isinstance(mark, Injury) else None
                return answer_icon(assessed.answer if assessed else answer, self._theme)
            case Qt.ItemDataRole.AccessibleTextRole:
                text = self.data(index, Qt.ItemDataRole.DisplayRole) + self._by_itself(mark, column)
                return f"{words_for(mark)}, {column.title}: {text}"
        return None

    def _by_itself(self, mark: Mark, column: Column) -> str:
        """Behind the answer, where it is its tire's: what the injury has by itself."""
        assessed = self._assessment.mark(mark.id)
        if column is not ANSWER or assessed is None or assessed.answer is None:
            return ""
        own = self._assessment.better_by_itself(assessed)
        return "" if own is None else f" ({told(OWN_WORDS[own])})"

    def setData(self, index: Index, value: Any, role: int = Qt.ItemDataRole.EditRole) -> bool:
        """Read the text and put it in the job; one that cannot be used stays in the cell."""
        mark, column = self.mark(index.row()), COLUMNS[index.column()]
        field = column.field_of(mark)
        if role != Qt.ItemDataRole.EditRole or field is None:
            return False
        key, text = (mark.id, index.column()), str(value).strip()
        if text == column.text(mark, None, self._unit) and key not in self._rejected:
            return True  # a place by eye left as it is stays by eye
        try:
            record = column.read(mark, text, self._unit)
            self._rejected.pop(key, None)
            self._editor.change(
                tr("{title} of {mark}", title=told(column.title), mark=words_for(mark)), change_of, mark, field, record
            )
        except TiremapError as error:
            self._rejected[key] = (text, str(error))
            self.refused.emit(str(error))
            self.dataChanged.emit(index, index)
            return False
        self.refused.emit("")
        return True

    @staticmethod
    def _bare(column: Column, mark: Mark) -> str:
        """The mark's id even where nothing could be assessed."""
        return mark.id if column is COLUMNS[0] else ""
