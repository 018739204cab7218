"""The three answers and the kinds of reasons as drawn symbols: told by shape and hatch, never by color alone."""

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QIcon, QPainter, QPainterPath, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QSizePolicy, QWidget

from tiremap.model.job import Answer
from tiremap.rules.reasons import Level
from tiremap.ui.language import told, tr
from tiremap.ui.palettes import Theme
from tiremap.ui.wording import ANSWER_WORDS

_ANSWER_OF_LEVEL: dict[Level, Answer | None] = {
    "refuse": "not_repairable", "measure": "measure_first", "caution": None, "note": None,
}


class AnswerSymbol(QWidget):
    """The symbol of an answer, as large as the widget."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._answer: Answer | None = None
        self._theme: Theme | None = None
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setFixedSize(52, 52)

    def show_answer(self, answer: Answer, theme: Theme) -> None:
        """Show that answer in the theme's colors."""
        self._answer, self._theme = answer, theme
        self.setAccessibleName(tr("Answer: {answer}", answer=told(ANSWER_WORDS[answer])))
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """The symbol."""
        if self._answer is None or self._theme is None:
            return
        painter = QPainter(self)
        paint_answer(painter, QRectF(self.rect()).adjusted(2, 2, -2, -2), self._answer, self._theme)
        painter.end()


def answer_icon(answer: Answer | None, theme: Theme, size: int = 18) -> QIcon:
    """The symbol of an answer as an icon; of an earlier repair where there is none."""
    return _icon(size, lambda painter, box: paint_answer(painter, box, answer, theme))


def level_icon(level: Level, theme: Theme, size: int = 18) -> QIcon:
    """The symbol of a reason's level: cross, question mark, exclamation mark in a triangle, or a small tick."""
    answer = _ANSWER_OF_LEVEL[level]
    if answer is not None:
        return answer_icon(answer, theme, size)
    return _icon(size, lambda painter, box: _paint_quiet(painter, box, level, theme))


def paint_answer(painter: QPainter, box: QRectF, answer: Answer | None, theme: Theme) -> None:
    """Ring, hatch and sign of an answer inside a square box; a hatched grey ring for an earlier repair."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    thick = max(1.6, box.width() / 12)
    ring = box.adjusted(thick / 2, thick / 2, -thick / 2, -thick / 2)
    color = QColor(theme.faint if answer is None else getattr(theme, answer))
    fill = QColor(color)
    fill.setAlpha(255 if answer == "measure_first" else 40)
    painter.setBrush(fill)
    pen = QPen(QColor(theme.ink) if answer == "measure_first" else color, thick)
    if answer == "measure_first":
        pen.setDashPattern([2.2, 1.4])
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    painter.setPen(pen)
    painter.drawEllipse(ring)
    if answer in ("not_repairable", None):
        _hatch(painter, ring, color)
    _sign(painter, ring, answer, theme, thick)


def _hatch(painter: QPainter, ring: QRectF, color: QColor) -> None:
    path = QPainterPath()
    path.addEllipse(ring)
    faded = QColor(color)
    faded.setAlpha(110)
    painter.fillPath(path, QBrush(faded, Qt.BrushStyle.BDiagPattern))


def _sign(painter: QPainter, ring: QRectF, answer: Answer | None, theme: Theme, thick: float) -> None:
    def at(x: float, y: float) -> QPointF:
        return QPointF(ring.left() + x * ring.width(), ring.top() + y * ring.height())

    pen = QPen(QColor(theme.faint if answer is None else getattr(theme, answer)), thick * 1.5)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    painter.setPen(pen)
    if answer == "repairable":
        painter.drawPolyline([at(0.28, 0.53), at(0.44, 0.69), at(0.73, 0.34)])
    elif answer == "not_repairable":
        painter.drawLine(at(0.31, 0.31), at(0.69, 0.69))
        painter.drawLine(at(0.69, 0.31), at(0.31, 0.69))
    elif answer == "measure_first":
        font = painter.font()
        font.setPixelSize(max(8, int(ring.height() * 0.66)))
        font.setBold(True)
        painter.setFont(font)
        painter.setPen(QColor("#2b2724"))  # dark on yellow in every theme
        painter.drawText(ring, Qt.AlignmentFlag.AlignCenter, "?")


def _paint_quiet(painter: QPainter, box: QRectF, level: Level, theme: Theme) -> None:
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    pen = QPen(QColor(theme.ink if level == "caution" else theme.faint), 1.6)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)

    def at(x: float, y: float) -> QPointF:
        return QPointF(box.left() + x * box.width(), box.top() + y * box.height())

    if level == "caution":
        painter.drawPolygon([at(0.5, 0.12), at(0.92, 0.86), at(0.08, 0.86)])
        painter.drawLine(at(0.5, 0.38), at(0.5, 0.6))
        painter.drawPoint(at(0.5, 0.74))
    else:
        painter.drawPolyline([at(0.25, 0.53), at(0.43, 0.7), at(0.75, 0.32)])


def _icon(size: int, paint: Callable[[QPainter, QRectF], None]) -> QIcon:
    icon = QIcon()
    for scale in (1, 2):
        pixmap = QPixmap(QSize(size, size) * scale)
        pixmap.setDevicePixelRatio(scale)
        pixmap.fill(Qt.GlobalColor.transparent)
        painter = QPainter(pixmap)
        paint(painter, QRectF(1, 1, size - 2, size - 2))
        painter.end()
        for mode in (QIcon.Mode.Normal, QIcon.Mode.Selected):  # or a chosen row would tint it
            icon.addPixmap(pixmap, mode)
    return icon
