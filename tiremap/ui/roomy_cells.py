"""Tables to be read: lines that wrap, air over and under their text."""

from collections.abc import Sequence

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QSize, Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableWidget,
)


class RoomyCells(QStyledItemDelegate):
    """Cells with air, and no frame around the one cell of a chosen row."""

    _AIR = 10

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        """The cell; the row tells what is chosen."""
        option.state &= ~QStyle.StateFlag.State_HasFocus
        super().paint(painter, option, index)

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        """As high as the wrapped text and the air."""
        return super().sizeHint(option, index) + QSize(6, self._AIR)


def make_readable(table: QTableWidget, name: str, titles: Sequence[str]) -> None:
    """Nothing can be typed into it; a row is chosen as a whole, and Tab leads on."""
    table.setAccessibleName(name)
    table.setHorizontalHeaderLabels(titles)
    table.setItemDelegate(RoomyCells(table))
    table.verticalHeader().hide()
    table.setShowGrid(False)
    table.setWordWrap(True)
    table.setTabKeyNavigation(False)
    table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
    table.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
    header = table.horizontalHeader()
    header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
    header.setHighlightSections(False)


def stretch_column(table: QTableWidget, stretched: int) -> None:
    """That column takes the room; the others are as wide as their words."""
    for column in range(table.columnCount()):
        mode = QHeaderView.ResizeMode.Stretch if column == stretched else QHeaderView.ResizeMode.ResizeToContents
        table.horizontalHeader().setSectionResizeMode(column, mode)
