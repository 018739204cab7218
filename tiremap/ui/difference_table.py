"""Two versions of a job beside each other: only what differs, entry by entry."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem, QWidget

from tiremap.edits.difference import Difference
from tiremap.ui.language import tr


class DifferenceTable(QTableWidget):
    """One row for each entry that differs; ``first`` and ``second`` head the columns of the two versions."""

    def __init__(self, first: str, second: str, parent: QWidget | None = None) -> None:
        super().__init__(0, 3, parent)
        self.setAccessibleName(tr("What differs"))
        self.setHorizontalHeaderLabels([tr("Entry"), first, second])
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self.setWordWrap(True)
        self.setTabKeyNavigation(False)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)

    def show_differences(self, found: Sequence[Difference]) -> None:
        """Show these in the place of those before."""
        self.setRowCount(len(found))
        for row, difference in enumerate(found):
            for column, text in enumerate(difference):
                item = QTableWidgetItem(text)
                item.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
                self.setItem(row, column, item)
