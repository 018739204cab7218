"""Where the size code stands: a piece of sidewall with the code along it, drawn by us."""

from math import cos, degrees, radians, sin

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPaintEvent, QPalette, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from tiremap.ui.language import tr

_HEIGHT = 104
_RADIUS = 520.0
"""px, of the arc the code stands along; the widget shows the top of the tire."""
_LETTERS = 17
_BANDS = ((26.0, 12), (-30.0, 6))
"""px from the arc outward: tread and bead, each with its width."""


class SidewallPicture(QWidget):
    """The top of a tire from the side, an example code on its sidewall."""

    def __init__(self, code: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._code = code
        self.setFixedHeight(_HEIGHT)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(tr("On the sidewall, for example {code}", code=code))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Tread, sidewall and bead as arcs; the code bold and framed, letter by letter along the arc."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        palette, role = self.palette(), QPalette.ColorRole
        center = QPointF(self.width() / 2, 52 + _RADIUS)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(palette.color(role.Button), 62, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap))
        painter.drawArc(_around(center, _RADIUS - 2), 60 * 16, 60 * 16)
        for outward, wide in _BANDS:
            painter.setPen(QPen(palette.color(role.Mid), wide, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap))
            painter.drawArc(_around(center, _RADIUS + outward), 60 * 16, 60 * 16)
        self._write(painter, center)
        painter.end()

    def _write(self, painter: QPainter, center: QPointF) -> None:
        font = QFont(self.font())
        font.setPixelSize(_LETTERS)
        font.setBold(True)
        font.setLetterSpacing(QFont.SpacingType.AbsoluteSpacing, 2)
        painter.setFont(font)
        metrics = QFontMetricsF(font)
        around = metrics.horizontalAdvance(self._code)
        half = degrees(around / 2 / _RADIUS)
        painter.setPen(QPen(self.palette().color(QPalette.ColorRole.Highlight), 2))
        for outward in (15.0, -15.0):
            painter.drawArc(
                _around(center, _RADIUS + outward), int((90 - half - 1.2) * 16), int((2 * half + 2.4) * 16)
            )
        painter.setPen(self.palette().color(QPalette.ColorRole.WindowText))
        for place, letter in enumerate(self._code):
            wide = metrics.horizontalAdvance(letter)
            along = metrics.horizontalAdvance(self._code[:place]) + wide / 2
            turned = (along / around - 0.5) * 2 * half
            painter.save()
            angle = radians(turned - 90)
            painter.translate(center.x() + _RADIUS * cos(angle), center.y() + _RADIUS * sin(angle))
            painter.rotate(turned)
            painter.drawText(QRectF(-20, -14, 40, 28), Qt.AlignmentFlag.AlignCenter, letter)
            painter.restore()


def _around(center: QPointF, radius: float) -> QRectF:
    return QRectF(center.x() - radius, center.y() - radius, 2 * radius, 2 * radius)
