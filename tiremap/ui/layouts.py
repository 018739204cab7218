"""Small pieces of layout every panel uses: headings, faint text, choices with an unknown."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QEvent, QRect, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QBoxLayout, QComboBox, QLabel, QSizePolicy, QStyle, QTableView, QWidget

from tiremap.ui.language import told
from tiremap.ui.next_sign import is_next, paint_next


def heading(text: str) -> QLabel:
    """The heading of a group of fields."""
    label = QLabel(text)
    label.setProperty("role", "heading")
    return label


def faint(text: str = "") -> QLabel:
    """A line of quieter text that wraps."""
    label = QLabel(text)
    label.setProperty("role", "faint")
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    return label


def fault(text: str = "") -> QLabel:
    """A line that tells what could not be used; hidden while there is nothing to tell."""
    label = faint(text)
    label.setProperty("role", "fault")
    label.setVisible(bool(text))
    return label


def tell_fault(label: QLabel, text: str) -> None:
    """Show the sentence, or hide the line where there is none."""
    label.setText(text)
    label.setVisible(bool(text))


class WholeWords(QLabel):
    """Wrapped words that are never cut short: they keep the height they take, which a layout asks for but once."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWordWrap(True)

    def setText(self, text: str) -> None:
        """Show these words."""
        super().setText(text)
        self._keep_height()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another width, another height."""
        super().resizeEvent(event)
        self._keep_height()

    def _keep_height(self) -> None:
        self.setMinimumHeight(max(0, self.heightForWidth(self.width())))


class Beside(QWidget):
    """Widgets beside each other, or one under another where they have no room to show themselves whole."""

    def __init__(self, *widgets: QWidget) -> None:
        super().__init__()
        self._widgets = widgets
        self._row = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._row.setContentsMargins(0, 0, 0, 0)
        self._row.setSpacing(8)
        for widget in widgets:
            self._row.addWidget(widget)

    def event(self, event: QEvent) -> bool:
        """Lay them out anew for another width, and where one of them asks for more or less room."""
        if event.type() in (QEvent.Type.Resize, QEvent.Type.LayoutRequest):
            self._fold()
        return super().event(event)

    def _fold(self) -> None:
        """Each with the share it asks for, or one under another."""
        asked = [widget.sizeHint().width() for widget in self._widgets]
        fits = sum(asked) + self._row.spacing() * (len(asked) - 1) <= self.width()
        for place, wide in enumerate(asked):
            self._row.setStretch(place, wide if fits else 0)
        direction = QBoxLayout.Direction
        self._row.setDirection(direction.LeftToRight if fits else direction.TopToBottom)


class ChoiceBox(QComboBox):
    """A box to choose from that a turning wheel never changes: scrolling the form must not answer a check."""

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave the wheel to whatever scrolls."""
        event.ignore()

    def paintEvent(self, event: QPaintEvent) -> None:
        """The box, with the sign where it is the next one to answer."""
        super().paintEvent(event)
        if is_next(self):
            painter = QPainter(self)
            paint_next(self, painter, QRectF(self.rect()).adjusted(0, 0, -18, 0))
            painter.end()


def choice(name: str, options: Sequence[tuple[str, Any]], parent: QWidget | None = None) -> QComboBox:
    """A box to choose from ``(words, value)``, words of a table or finished; it shrinks with its column."""
    box = ChoiceBox(parent)
    box.setAccessibleName(name)
    for words, value in options:
        box.addItem(told(words), value)
    box.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
    widen_list(box)
    return box


WRAPPED = Qt.AlignmentFlag(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap.value)
"""How the heads of columns are set that wrap."""


def wrap_heads(table: QTableView) -> None:
    """Give the heads of a table the height their wrapped words take: Qt reckons with one line."""
    header = table.horizontalHeader()
    margin = header.style().pixelMetric(QStyle.PixelMetric.PM_HeaderMargin, None, header)
    highest = 0
    for column in filter(lambda each: not header.isSectionHidden(each), range(header.count())):
        words = str(table.model().headerData(column, Qt.Orientation.Horizontal))
        room = QRect(0, 0, header.sectionSize(column) - 2 * margin, header.maximumHeight())
        highest = max(highest, header.fontMetrics().boundingRect(room, WRAPPED.value, words).height())
    header.setFixedHeight(highest + 2 * margin + 2)


def widen_list(box: QComboBox) -> None:
    """Let the list that opens show its words whole, however narrow the box itself is."""
    widths = [box.fontMetrics().horizontalAdvance(box.itemText(row)) for row in range(box.count())]
    box.view().setMinimumWidth(max(widths, default=0) + 40)


def show_choice(box: QComboBox, value: Any) -> None:
    """Show the option of that value without telling anyone."""
    box.blockSignals(True)
    box.setCurrentIndex(box.findData(value))
    box.blockSignals(False)
