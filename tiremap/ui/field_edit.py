"""A line to type in that leaves Undo to the window once nothing typed is left to take back."""

from PySide6.QtCore import QEvent, QRectF
from PySide6.QtGui import QColor, QKeyEvent, QKeySequence, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QLineEdit, QWidget

from tiremap.ui.next_sign import is_next, paint_next, sign_width


class FieldEdit(QLineEdit):
    """A line edit that can show a fault, and where in the text it lies."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self._fault_at: int | None = None

    @property
    def is_faulty(self) -> bool:
        """Whether the text shown could not be used."""
        return bool(self.property("faulty"))

    def set_fault(self, faulty: bool, at: int | None = None) -> None:
        """Frame the field, and underline the text from character ``at``; also said by a word beside the field."""
        self._fault_at = at if faulty else None
        if self.is_faulty != faulty:
            self.setProperty("faulty", faulty)
            restyle(self)
        self.update()

    def set_needed(self, needed: bool) -> None:
        """Grey the field where it cannot change the answer; it can still be typed in."""
        if self.property("needed") != needed:
            self.setProperty("needed", needed)
            restyle(self)

    def event(self, event: QEvent) -> bool:
        """Undo and redo go to the window while this line has nothing of its own to undo."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            undo, redo = QKeySequence.StandardKey.Undo, QKeySequence.StandardKey.Redo
            if (event.matches(undo) and not self.isUndoAvailable()) or (
                event.matches(redo) and not self.isRedoAvailable()
            ):
                event.ignore()
                return False
        return super().event(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """The line, and under the faulty character a thick stroke."""
        super().paintEvent(event)
        if is_next(self):
            self._paint_next()
        if self._fault_at is None:
            return
        metrics, cursor = self.fontMetrics(), self.cursorRect()
        start = cursor.center().x() - metrics.horizontalAdvance(self.text()[: self.cursorPosition()])
        left = start + metrics.horizontalAdvance(self.text()[: self._fault_at])
        wide = max(6, metrics.horizontalAdvance(self.text()[self._fault_at : self._fault_at + 1]))
        painter = QPainter(self)
        painter.setPen(QPen(QColor("#d55e00"), 3))
        painter.drawLine(left, cursor.bottom(), left + wide, cursor.bottom())
        painter.end()

    def _paint_next(self) -> None:
        """The sign that this is the next one, where the text leaves it room; else its frame alone."""
        shown = self.text() or self.placeholderText()
        room = self.width() - self.fontMetrics().horizontalAdvance(shown) - 16
        painter = QPainter(self)
        paint_next(self, painter, QRectF(self.rect()).adjusted(0, 0, -5, 0), in_words=room >= sign_width(self))
        painter.end()


def restyle(widget: QWidget) -> None:
    """Let the style sheet look at the widget's properties again."""
    widget.style().unpolish(widget)
    widget.style().polish(widget)
