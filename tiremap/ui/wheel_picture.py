"""The wheel from outside with its nuts numbered, and the order they are tightened in as lines with arrows."""

from itertools import pairwise
from math import cos, hypot, pi, sin

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPalette, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from tiremap.ui.language import tr
from tiremap.workshop.tightening_order import TighteningOrder

_LARGEST, _LEAST = 236, 120
"""Width and height of the picture, px: as large as the column allows, never too small to read."""
_WHEEL, _CIRCLE, _HUB = 0.49, 0.345, 0.07
"""Radii of rim, bolt circle and hub, shares of the picture."""
_NUT = {4: 0.085, 5: 0.082, 6: 0.08, 8: 0.073, 10: 0.066}
"""Radius of a nut by how many there are."""


class WheelPicture(QWidget):
    """Numbers run clockwise from the top. The first nut has a double ring, the pass around is the dashed arc outside.

    It says nothing the written order beside it does not.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._order: TighteningOrder | None = None
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setSizePolicy(policy)
        self.setAccessibleName(tr("Wheel with the tightening order"))

    def show_order(self, order: TighteningOrder | None) -> None:
        """Show that order; nothing without one."""
        self._order = order
        self.setVisible(order is not None)
        if order is not None:
            self.setAccessibleDescription(", then ".join(str(each) for each in order.order))
        self.update()

    def sizeHint(self) -> QSize:
        """A square."""
        return QSize(_LARGEST, _LARGEST)

    def minimumSizeHint(self) -> QSize:
        """Small enough for the column."""
        return QSize(_LEAST, _LEAST)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Rim, hub, the lines of the first pass, the arc of the second, and the nuts over all."""
        if self._order is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        side = min(self.width(), self.height())
        box = QRectF((self.width() - side) / 2, (self.height() - side) / 2, side, side)
        ink = self.palette().color(QPalette.ColorRole.WindowText)
        quiet = self.palette().color(QPalette.ColorRole.Mid)
        painter.setPen(QPen(quiet, 2))
        painter.setBrush(self.palette().color(QPalette.ColorRole.Base))
        for share in (_WHEEL, _HUB):
            painter.drawEllipse(box.center(), share * side, share * side)
        places = {nut: _place(box, nut, self._order.nuts) for nut in self._order.second_pass}
        radius = _NUT[self._order.nuts] * side
        self._paint_around(painter, box, radius, ink)
        self._paint_lines(painter, places, radius, ink)
        self._paint_nuts(painter, places, radius, ink)
        painter.end()

    def _paint_lines(self, painter: QPainter, places: dict[int, QPointF], radius: float, ink) -> None:
        """Each step from rim to rim of two nuts, an arrow a third of the way in: there fewest lines cross."""
        order = self._order.order
        painter.setBrush(ink)
        for one, other in pairwise(order):
            start, way = places[one], places[other] - places[one]
            along = way / hypot(way.x(), way.y())
            painter.setPen(QPen(ink, max(1.5, radius / 9)))
            painter.drawLine(start + along * radius, places[other] - along * radius)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.drawPolygon(_arrow(places[other] - along * radius, along, radius * 0.62))

    def _paint_around(self, painter: QPainter, box: QRectF, radius: float, ink) -> None:
        """The second pass: a dashed arc outside the nuts, nearly all around, its arrow at the end."""
        reach = (_CIRCLE * box.width()) + radius + box.width() * 0.035
        arc = QRectF(box.center().x() - reach, box.center().y() - reach, 2 * reach, 2 * reach)
        pen = QPen(ink, max(1.2, radius / 12))
        pen.setDashPattern([4, 3])
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawArc(arc, 90 * 16, -_ARC_DEG * 16)
        angle = _ARC_DEG * pi / 180
        end = box.center() + QPointF(sin(angle), -cos(angle)) * reach
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ink)
        along = QPointF(cos(angle), sin(angle))
        painter.drawPolygon(_arrow(end + along * radius * 0.5, along, radius * 0.55))

    def _paint_nuts(self, painter: QPainter, places: dict[int, QPointF], radius: float, ink) -> None:
        font = painter.font()
        font.setPixelSize(max(9, round(radius * 1.15)))
        font.setBold(True)
        painter.setFont(font)
        for nut, place in places.items():
            painter.setPen(QPen(ink, max(1.5, radius / 8)))
            painter.setBrush(self.palette().color(QPalette.ColorRole.Window))
            painter.drawEllipse(place, radius, radius)
            if nut == self._order.order[0]:
                painter.drawEllipse(place, radius * 0.76, radius * 0.76)
            painter.drawText(
                QRectF(place.x() - radius, place.y() - radius, 2 * radius, 2 * radius),
                Qt.AlignmentFlag.AlignCenter, str(nut),
            )


_ARC_DEG = 340


def _place(box: QRectF, nut: int, nuts: int) -> QPointF:
    angle = 2 * pi * (nut - 1) / nuts
    return box.center() + QPointF(sin(angle), -cos(angle)) * (_CIRCLE * box.width())


def _arrow(tip: QPointF, along: QPointF, size: float) -> QPolygonF:
    """An arrow's head with its tip there, pointing along."""
    back, side = tip - along * size, QPointF(-along.y(), along.x()) * size * 0.38
    return QPolygonF([tip, back + side, back - side])
