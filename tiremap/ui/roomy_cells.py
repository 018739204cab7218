"""Cells of a table to be read: air over and under their text."""

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QSize
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem


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
