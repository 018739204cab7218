"""The table twin of the drawing: every injury and earlier repair in a row, editable, with its buttons."""

from PySide6.QtCore import QModelIndex, Signal
from PySide6.QtWidgets import QAbstractItemView, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from tiremap.assessment import Assessment
from tiremap.model.measures import LengthUnit
from tiremap.ui.editor import Editor
from tiremap.ui.language import tr
from tiremap.ui.layouts import fault, heading, tell_fault
from tiremap.ui.marks_columns import COLUMNS
from tiremap.ui.marks_model import MarksModel
from tiremap.ui.marks_view import MarksView
from tiremap.ui.next_sign import mark_next, next_words
from tiremap.ui.palettes import Theme


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
        self.view = MarksView()
        self.view.setModel(self.model)
        self.fault = fault()
        self._showing = False
        self.add_injury = self._button(tr("+ Injury"), tr("Add an injury whose place is not yet known"))
        self.add_repair = self._button(tr("+ Repair"), tr("Add an earlier repair"))
        self.confirm = self._button(tr("As taped"), tr("Take the place set by eye as measured where it stands"))
        self.details = self._button(tr("Details…"), tr("Every measurement of the chosen mark"))
        self.remove = self._button(tr("Remove"), tr("Take the chosen mark off the tire"))
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
        self._fit_width()

    def show_next(self, field: str) -> bool:
        """Put the sign of what comes next at a cell, at what adds an injury, or nowhere; whether it stands here."""
        _, mark_id, name = field.split(".", 2) if field.startswith(("injury.", "repair.")) else ("", "", "")
        in_cell = self.model.show_next(mark_id, name)
        mark_next(self.add_injury, field == "injuries")
        self.add_injury.setText(tr("{next} + Injury", next=next_words()) if field == "injuries" else tr("+ Injury"))
        in_details = bool(mark_id) and not in_cell
        mark_next(self.details, in_details)
        self.details.setText(tr("{next} Details…", next=next_words()) if in_details else tr("Details…"))
        self._fit_width()
        return in_cell or in_details or field == "injuries"

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
                if self.view.state() != QAbstractItemView.State.EditingState:  # it stays open behind another window
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

    def _fit_width(self) -> None:
        """Never narrower than its buttons: the style sheet's least width would let them be cut short."""
        above = (self.title.minimumSizeHint().width(), *_widths(self.add_injury, self.add_repair))
        below = _widths(self.details, self.confirm, self.remove)
        gap = self.layout().itemAt(0).spacing()
        self.setMinimumWidth(max(sum(row) + gap * len(row) for row in (above, below)))

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
        self.title = heading(tr("Injuries and repairs"))
        self.title.setWordWrap(True)
        head.addWidget(self.title, 1)
        head.addLayout(adding)
        column.addLayout(head)
        column.addWidget(self.view, 1)
        column.addWidget(self.fault)
        column.addLayout(changing)


def _widths(*buttons: QPushButton) -> tuple[int, ...]:
    return tuple(button.sizeHint().width() for button in buttons)


def _is_by_eye(model: MarksModel, mark_id: str | None) -> bool:
    row = model.row_of(mark_id)
    if row < 0:
        return False
    mark = model.mark(row)
    return any(
        getattr(getattr(mark, name, None), "how", None) == "eye" for name in ("outside", "inside", "around")
    )
