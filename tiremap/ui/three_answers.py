"""A check's answers side by side: one is always chosen, and each is told by a sign and a word."""

from collections.abc import Sequence
from typing import Literal

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPaintEvent, QPalette, QPen
from PySide6.QtWidgets import QAbstractButton, QHBoxLayout, QSizePolicy, QWidget

from tiremap.ui.language import told

Sign = Literal["tick", "cross", "ring"]
_SIGN = 10
"""px, width of a sign."""
_GAP = 3
_AIR = 6
"""px, left and right of sign and word together."""


class ThreeAnswers(QWidget):
    """Options ``(words, value, sign)`` in one row: arrows go along them, Space answers, Tab goes on to the next check.

    Arrows answer nothing, or one that refuses would be given in passing. The words are those of a table or finished.
    Signals: ``answered(object)`` the value the user chose.
    """

    answered = Signal(object)

    def __init__(
        self, name: str, options: Sequence[tuple[str, str | None, Sign]], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self._value: str | None = None
        self._segments = [_Segment(name, told(words), value, sign) for words, value, sign in options]
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        for segment in self._segments:
            row.addWidget(segment, segment.sizeHint().width())
            segment.clicked.connect(self._clicked)
            segment.stepped.connect(self._step)
        self.show_value(None)

    @property
    def value(self) -> str | None:
        """The answer shown."""
        return self._value

    @property
    def buttons(self) -> dict[str | None, QAbstractButton]:
        """Its buttons by the value each stands for."""
        return {segment.value: segment for segment in self._segments}

    def show_value(self, value: str | None) -> None:
        """Show that answer without telling anyone; Tab leads to its button only."""
        self._value = value
        for segment in self._segments:
            segment.setChecked(segment.value == value)
            segment.setFocusPolicy(Qt.FocusPolicy.StrongFocus if segment.isChecked() else Qt.FocusPolicy.ClickFocus)
            if segment.isChecked():
                self.setFocusProxy(segment)

    def _clicked(self) -> None:
        self._answer(next(each for each in self._segments if each is self.sender()))

    def _step(self, by: int) -> None:
        present = next(place for place, each in enumerate(self._segments) if each is self.sender())
        wanted = self._segments[max(0, min(len(self._segments) - 1, present + by))]
        wanted.setFocus(Qt.FocusReason.OtherFocusReason)

    def _answer(self, segment: "_Segment") -> None:
        before = self._value
        self.show_value(segment.value)
        if segment.value != before:
            self.answered.emit(segment.value)


class _Segment(QAbstractButton):
    """One answer. Signals: ``stepped(int)`` an arrow key goes to the one before or after."""

    stepped = Signal(int)

    def __init__(self, of: str, words: str, value: str | None, sign: Sign) -> None:
        super().__init__()
        self.value = value
        self._sign = sign
        self.setText(words)
        self.setAccessibleName(f"{of}: {words}")
        self.setCheckable(True)
        self.setObjectName("segment")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        """Its sign and word, as high as the style sheet makes a button."""
        wide = _SIGN + _GAP + self.fontMetrics().horizontalAdvance(self.text()) + _AIR
        return QSize(max(wide, self.minimumHeight()), max(24, self.minimumHeight()))

    def minimumSizeHint(self) -> QSize:
        """It is never cut off."""
        return self.sizeHint()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows go to the answers beside; Space takes this one."""
        steps = {Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1, Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1}
        if event.key() in steps:
            self.stepped.emit(steps[event.key()])
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """The answer in force filled and bold-framed; the others quiet."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        palette = self.palette()
        role, chosen = QPalette.ColorRole, self.isChecked()
        answered = chosen and self.value is not None
        fill = palette.color(role.Highlight if answered else role.Button if chosen else role.Base)
        ink = palette.color(role.HighlightedText if answered else role.ButtonText)
        box = QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)
        painter.setPen(QPen(palette.color(role.Mid), 1))
        painter.setBrush(fill)
        painter.drawRect(box)
        if self.hasFocus():
            painter.setPen(QPen(palette.color(role.WindowText), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(box.adjusted(1.5, 1.5, -1.5, -1.5))
        wide = _SIGN + _GAP + self.fontMetrics().horizontalAdvance(self.text())
        left = (self.width() - wide) / 2
        _paint_sign(painter, QRectF(left, self.height() / 2 - _SIGN / 2, _SIGN, _SIGN), self._sign, ink)
        painter.setPen(ink)
        words = QRectF(left + _SIGN + _GAP, 0, self.width(), self.height())
        painter.drawText(words, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, self.text())
        painter.end()


def _paint_sign(painter: QPainter, box: QRectF, sign: Sign, ink: QColor) -> None:
    def at(x: float, y: float) -> QPointF:
        return QPointF(box.left() + x * box.width(), box.top() + y * box.height())

    pen = QPen(ink, 2)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    if sign == "tick":
        painter.drawPolyline([at(0.05, 0.55), at(0.38, 0.88), at(0.95, 0.15)])
    elif sign == "cross":
        painter.drawLine(at(0.1, 0.1), at(0.9, 0.9))
        painter.drawLine(at(0.9, 0.1), at(0.1, 0.9))
    else:
        painter.setPen(QPen(ink, 1.6, Qt.PenStyle.DotLine))
        painter.drawEllipse(box.adjusted(1, 1, -1, -1))
