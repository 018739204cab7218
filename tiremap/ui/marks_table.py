"""The table twin of the drawing: every injury and earlier repair in a row, editable."""

from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QHBoxLayout, QPushButton, QTableView, QVBoxLayout, QWidget

from tiremap.assessment import Assessment
from tiremap.errors import TiremapError
from tiremap.model.job import Injury
from tiremap.model.measures import LengthUnit
from tiremap.ui.answer_symbol import answer_icon
from tiremap.ui.editor import Editor
from tiremap.ui.layouts import fault, heading, tell_fault
from tiremap.ui.marks_columns import BY_EYE, COLUMNS, Mark, change_of, marks_of, words_for
from tiremap.ui.palettes import THEMES, Theme

Index = QModelIndex | QPersistentModelIndex


class MarksModel(QAbstractTableModel):
    """Marks as rows. Text that could not be used stays in its cell until something is stored there.

    Signals: ``refused(str)`` the error of a text, empty once all is well.
    """

    refused = Signal(str)

    def __init__(self, editor: Editor, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._editor = editor
        self._assessment: Assessment | None = None
        self._unit: LengthUnit = "mm"
        self._theme: Theme = THEMES["light"]
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

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        """As many as `COLUMNS`."""
        return 0 if parent.isValid() else len(COLUMNS)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Titles of the columns; rows need none."""
        if role == Qt.ItemDataRole.DisplayRole and orientation == Qt.Orientation.Horizontal:
            return COLUMNS[section].title
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Editable where the column edits a measurement of this kind of mark."""
        flags = super().flags(index)
        if index.isValid() and COLUMNS[index.column()].field_of(self.mark(index.row())):
            flags |= Qt.ItemFlag.ItemIsEditable
        return flags

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
                return column.text(mark, self._assessment.mark(mark.id), self._unit) or self._bare(column, mark)
            case Qt.ItemDataRole.ToolTipRole:
                text = self.data(index, Qt.ItemDataRole.DisplayRole)
                return rejected[1] if rejected else f"{text} (by eye)" if text.startswith(BY_EYE) else text
            case Qt.ItemDataRole.ForegroundRole if rejected:
                return QColor(self._theme.fault)
            case Qt.ItemDataRole.DecorationRole if index.column() == 0:
                assessed = self._assessment.mark(mark.id)
                answer = "measure_first" if assessed is None and isinstance(mark, Injury) else None
                return answer_icon(assessed.answer if assessed else answer, self._theme)
            case Qt.ItemDataRole.AccessibleTextRole:
                return f"{words_for(mark)}, {column.title}: {self.data(index, Qt.ItemDataRole.DisplayRole)}"
        return None

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
            self._editor.change(f"{column.title} of {words_for(mark)}", change_of, mark, field, record)
        except TiremapError as error:
            self._rejected[key] = (text, str(error))
            self.refused.emit(str(error))
            self.dataChanged.emit(index, index)
            return False
        self.refused.emit("")
        return True

    @staticmethod
    def _bare(column: Any, mark: Mark) -> str:
        """The mark's id even where nothing could be assessed."""
        return mark.id if column is COLUMNS[0] else ""


class MarksTable(QWidget):
    """The table with its buttons.

    Signals: ``chosen(str)`` the mark of the current row; ``injury_wanted()``, ``repair_wanted()``,
    ``removed(str)``, ``details_wanted(str)``, ``confirmed(str)`` what a button or key asks for.
    """

    chosen = Signal(str)
    injury_wanted = Signal()
    repair_wanted = Signal()
    removed = Signal(str)
    details_wanted = Signal(str)
    confirmed = Signal(str)

    def __init__(self, editor: Editor, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.model = MarksModel(editor, self)
        self.view = _MarksView()
        self.view.setModel(self.model)
        self.fault = fault()
        self._showing = False
        self.add_injury = self._button("+ Injury", "Add an injury whose place is not yet known")
        self.add_repair = self._button("+ Repair", "Add an earlier repair")
        self.confirm = self._button("As taped", "Take the place set by eye as measured where it stands")
        self.details = self._button("Details…", "Every measurement of the chosen mark")
        self.remove = self._button("Remove", "Take the chosen mark off the tire")
        self._lay_out()
        self.view.selectionModel().currentRowChanged.connect(self._row_changed)
        self.view.remove_wanted.connect(self._remove)
        self.model.refused.connect(self._tell)
        self.add_injury.clicked.connect(self.injury_wanted)
        self.add_repair.clicked.connect(self.repair_wanted)
        self.remove.clicked.connect(self._remove)
        self.details.clicked.connect(self._details)
        self.confirm.clicked.connect(self._confirm)

    def show_assessment(self, assessment: Assessment, chosen: str | None, unit: LengthUnit, theme: Theme) -> None:
        """Show the marks, with the chosen one's row current."""
        column = max(0, self.view.currentIndex().column())
        self._showing = True
        self.model.show_assessment(assessment, unit, theme)
        self._showing = False
        self.choose(chosen, column)
        for button in (self.remove, self.details):
            button.setEnabled(self.model.row_of(chosen) >= 0)
        self.confirm.setEnabled(_is_by_eye(self.model, chosen))

    def set_row_height(self, height: int) -> None:
        """Rows as high as the controls of the density, px; columns as wide as their usual text."""
        self.view.verticalHeader().setDefaultSectionSize(height)
        self.view.fit_columns()

    def choose(self, mark_id: str | None, column: int = 0) -> None:
        """Make the row of that mark the current one, without telling anyone."""
        row = self.model.row_of(mark_id)
        if row == self.view.currentIndex().row():
            return
        self._showing = True
        if row >= 0:
            self.view.setCurrentIndex(self.model.index(row, column))
        else:
            self.view.clearSelection()
            self.view.setCurrentIndex(QModelIndex())
        self._showing = False

    def edit_field(self, mark_id: str, field: str) -> bool:
        """Open the cell of a field, such as ``around``; whether the table has it."""
        row = self.model.row_of(mark_id)
        if row < 0:
            return False
        for number, column in enumerate(COLUMNS):
            if column.field_of(self.model.mark(row)) == field:
                index = self.model.index(row, number)
                self.view.setFocus()
                self.view.setCurrentIndex(index)
                self.view.edit(index)
                return True
        return False

    @property
    def current_id(self) -> str:
        """The mark of the current row, or empty."""
        index = self.view.currentIndex()
        return self.model.mark(index.row()).id if index.isValid() else ""

    def _row_changed(self) -> None:
        if not self._showing:
            self.chosen.emit(self.current_id)

    def _remove(self) -> None:
        if self.current_id:
            self.removed.emit(self.current_id)

    def _details(self) -> None:
        if self.current_id:
            self.details_wanted.emit(self.current_id)

    def _confirm(self) -> None:
        if self.current_id:
            self.confirmed.emit(self.current_id)

    def _tell(self, text: str) -> None:
        tell_fault(self.fault, text)

    @staticmethod
    def _button(text: str, tip: str) -> QPushButton:
        button = QPushButton(text)
        button.setToolTip(tip)
        button.setAccessibleDescription(tip)
        return button

    def _lay_out(self) -> None:
        adding, changing = QHBoxLayout(), QHBoxLayout()
        for button in (self.add_injury, self.add_repair):
            adding.addWidget(button)
        for button in (self.details, self.confirm, self.remove):
            changing.addWidget(button)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        head = QHBoxLayout()
        head.addWidget(heading("Injuries and repairs"), 1)
        head.addLayout(adding)
        column.addLayout(head)
        column.addWidget(self.view, 1)
        column.addWidget(self.fault)
        column.addLayout(changing)


class _MarksView(QTableView):
    """The view: Enter and double click edit, Delete removes.

    Signals: ``remove_wanted()``.
    """

    remove_wanted = Signal()
    _CHARACTERS = (6, 20, 8, 10, 12, 12, 14, 14, 9)
    """Usual length of each column's text."""

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName("Injuries and repairs")
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(
            QAbstractItemView.EditTrigger.DoubleClicked | QAbstractItemView.EditTrigger.EditKeyPressed
            | QAbstractItemView.EditTrigger.AnyKeyPressed
        )
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setTabKeyNavigation(False)
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(28)
        self.setShowGrid(False)
        self.setWordWrap(False)

    def fit_columns(self) -> None:
        """Columns as wide as their usual text in the present font."""
        self.ensurePolished()
        character = self.fontMetrics().horizontalAdvance("0")
        for column, characters in enumerate(self._CHARACTERS):
            self.setColumnWidth(column, characters * character)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Delete asks to remove; Enter edits the cell, in every style."""
        index = self.currentIndex()
        if self.state() == QAbstractItemView.State.EditingState:
            super().keyPressEvent(event)
        elif event.key() == Qt.Key.Key_Delete:
            self.remove_wanted.emit()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and index.isValid() and self.model().flags(
            index
        ) & Qt.ItemFlag.ItemIsEditable:
            self.edit(index)
        else:
            super().keyPressEvent(event)


def _is_by_eye(model: MarksModel, mark_id: str | None) -> bool:
    row = model.row_of(mark_id)
    if row < 0:
        return False
    mark = model.mark(row)
    return any(
        getattr(getattr(mark, name, None), "how", None) == "eye" for name in ("outside", "inside", "around")
    )
