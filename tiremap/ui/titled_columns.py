"""A table's model that has as many columns as titles, and no titles of rows."""

from collections.abc import Sequence
from typing import Any, Protocol

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from tiremap.ui.language import told

Index = QModelIndex | QPersistentModelIndex


class Titled(Protocol):
    """A column: ``title`` is what stands over it, before it is translated."""

    @property
    def title(self) -> str: ...


class TitledColumns(QAbstractTableModel):
    """Rows are told by who makes it."""

    def __init__(self, columns: Sequence[Titled], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._columns = columns

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        """One for each title; none under a cell."""
        return 0 if parent.isValid() else len(self._columns)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Titles of the columns; rows need none."""
        if role == Qt.ItemDataRole.DisplayRole and orientation == Qt.Orientation.Horizontal:
            return told(self._columns[section].title)
        return None
