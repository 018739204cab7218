"""The sign of the one field to fill in next: an arrow and the word "next", never color alone."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPaintEvent, QPalette, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from tiremap.ui.language import marked, told, tr

NEXT = "next"
"""The property of a widget that carries the sign."""
_SMALLER = 0.82
"""Size of the word, of the field's own text."""
_DESCRIPTION = marked("Next to measure.")


def next_words() -> str:
    """The sign as text, where nothing can be drawn."""
    return tr("▸ next")


def mark_next(widget: QWidget, is_next: bool) -> None:
    """Tell a widget that draws the sign itself, and whoever listens to it, whether it is the next one."""
    changes = bool(widget.property(NEXT)) != is_next
    widget.setProperty(NEXT, is_next)
    description = told(_DESCRIPTION)
    said = widget.accessibleDescription().replace(description, "").strip()
    widget.setAccessibleDescription(f"{description} {said}".strip() if is_next else said)
    if changes:
        widget.update()


def is_next(widget: QWidget) -> bool:
    """Whether a widget carries the sign."""
    return bool(widget.property(NEXT))


def sign_width(widget: QWidget) -> int:
    """Room the sign with its word takes, px."""
    return _metrics(widget).horizontalAdvance(tr("next")) + 16


def paint_next(widget: QWidget, painter: QPainter, inner: QRectF, *, in_words: bool = True) -> None:
    """A frame along the widget's edge, and the sign at the right end of ``inner``: without its word where told."""
    accent = widget.palette().color(QPalette.ColorRole.Highlight)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(accent, 2))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRoundedRect(QRectF(widget.rect()).adjusted(1, 1, -1, -1), 3, 3)
    if in_words:
        _paint_sign(widget, painter, inner.adjusted(0, 2, 0, -2))
    else:
        _paint_flag(painter, QRectF(inner.right() - 9, inner.center().y() - 6, 9, 12), accent)


class _NextLabel(QWidget):
    """The sign by itself, beside what has no room for it."""

    def sizeHint(self) -> QSize:
        """As large as the sign."""
        return QSize(sign_width(self) + 2, _metrics(self).height() + 4)

    def paintEvent(self, event: QPaintEvent) -> None:
        """The flag and the word."""
        painter = QPainter(self)
        _paint_sign(self, painter, QRectF(self.rect()))
        painter.end()


def next_label() -> QWidget:
    """The sign as a widget of its own, hidden until it is needed."""
    label = _NextLabel()
    label.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
    label.setToolTip(told(_DESCRIPTION))
    label.hide()
    return label


def _paint_sign(widget: QWidget, painter: QPainter, inner: QRectF) -> None:
    """The flag with its word at the right end of ``inner``."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    wide, high = sign_width(widget), min(inner.height(), _metrics(widget).height() + 4)
    box = QRectF(inner.right() - wide, inner.center().y() - high / 2, wide, high)
    _paint_flag(painter, box, widget.palette().color(QPalette.ColorRole.Highlight))
    painter.setFont(_font(widget))
    painter.setPen(widget.palette().color(QPalette.ColorRole.HighlightedText))
    painter.drawText(box.adjusted(7, 0, 0, 0), Qt.AlignmentFlag.AlignCenter, tr("next"))


def _paint_flag(painter: QPainter, box: QRectF, color: QColor) -> None:
    """A flag that points to the left, where the entry is typed."""
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(color)
    middle = box.center().y()
    painter.drawPolygon(QPolygonF([
        QPointF(box.left(), middle), QPointF(box.left() + 8, box.top()), box.topRight(), box.bottomRight(),
        QPointF(box.left() + 8, box.bottom()),
    ]))


def _font(widget: QWidget) -> QFont:
    font = QFont(widget.font())
    font.setPointSizeF(max(7.0, font.pointSizeF() * _SMALLER))
    font.setBold(True)
    return font


def _metrics(widget: QWidget) -> QFontMetrics:
    return QFontMetrics(_font(widget))
