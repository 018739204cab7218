"""The view of the marks table: keys and the widths of its columns."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QTableView

from tiremap.ui.language import tr


class MarksView(QTableView):
    """The view: Enter and double click edit, Delete removes.

    Signals: ``remove_wanted()``.
    """

    remove_wanted = Signal()
    _CHARACTERS = (6, 20, 8, 10, 12, 12, 14, 14, 9)
    """Usual length of each column's text."""

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName(tr("Injuries and repairs"))
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
        """Columns as wide as their usual text in the present font, and as their head."""
        self.ensurePolished()
        character = self.fontMetrics().horizontalAdvance("0")
        for column, characters in enumerate(self._CHARACTERS):
            head = self.horizontalHeader().sectionSizeHint(column)
            self.setColumnWidth(column, max(characters * character, head))

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
