"""The whole liner strip at a glance: two rows of half a turn each, with every mark and where one more repair could go.

It is the strip as seen from inside, laid on its side: angles grow to the right, outboard is up. To look at only.
"""

from math import degrees, pi, tau

import shapely
from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetricsF, QPainter, QPainterPath, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget
from shapely import Geometry

from tiremap.assessment import AssessedMark, Assessment
from tiremap.free_places import FreePlaces
from tiremap.geometry.liner_strip import unrolled
from tiremap.ui.answer_symbol import paint_answer
from tiremap.ui.language import tr
from tiremap.ui.palettes import Theme

_ROWS = 2
_TICK_DEG = 45
_EDGE = 6.0
"""px around the rows."""
_SYMBOL = 16.0
"""px of a mark's symbol."""
_BEYOND_EDGES = 1.15
"""How far a row reaches across, in half tread widths: a head may lie over the edge."""


class StoryStrip(QWidget):
    """Shows the marks of an assessment and the free places in words to those who hear the screen, too."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.assessment: Assessment | None = None
        self.free: FreePlaces | None = None
        self._theme: Theme | None = None
        self.setAccessibleName(tr("The liner strip, whole, seen from inside"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def show_assessment(self, assessment: Assessment, free: FreePlaces | None, theme: Theme) -> None:
        """Show the tire of an assessment in the theme's colors."""
        self.assessment, self.free, self._theme = assessment, free, theme
        words = [_in_words(mark) for mark in assessment.marks]
        self.setAccessibleDescription("; ".join(words) or tr("no marks"))
        self.update()

    def sizeHint(self) -> QSize:
        """High enough for heads and their names."""
        return QSize(480, 260)

    def minimumSizeHint(self) -> QSize:
        """Below this names run into each other."""
        return QSize(320, 190)

    def paintEvent(self, event: QPaintEvent) -> None:
        """The rows, or why there are none."""
        if self.assessment is None or self._theme is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), QColor(self._theme.base))
        painter.setPen(QColor(self._theme.text))
        if self.assessment.strip is None:
            painter.drawText(
                self.rect(), Qt.AlignmentFlag.AlignCenter, tr("The liner strip is drawn once the size is known.")
            )
        else:
            for row in range(_ROWS):
                self._paint_row(painter, row)
            self._paint_foot(painter)
        painter.end()

    @property
    def _line(self) -> float:
        return QFontMetricsF(self.font()).height()

    def _room(self, row: int) -> QRectF:
        """Where a row is drawn, on one scale both ways, with a line of angles under it."""
        strip = self.assessment.strip
        half = _BEYOND_EDGES * self._half_width
        high = (self.height() - 2 * _EDGE - self._line) / _ROWS
        scale = min((self.width() - 2 * _EDGE) / (strip.circumference / _ROWS), (high - self._line) / (2 * half))
        wide, tall = scale * strip.circumference / _ROWS, scale * 2 * half
        left = (self.width() - wide) / 2
        return QRectF(left, _EDGE + row * high + (high - self._line - tall) / 2, wide, tall)

    @property
    def _half_width(self) -> float:
        """Half the tread width along the liner, mm."""
        return self.assessment.strip.liner_across(self.assessment.facts.drawn_tread_width / 2)

    def _paint_row(self, painter: QPainter, row: int) -> None:
        room, strip, theme = self._room(row), self.assessment.strip, self._theme
        start = row * strip.circumference / _ROWS
        end = start + strip.circumference / _ROWS
        scale, middle = room.width() / (end - start), room.center().y()

        def at(across: float, along: float) -> QPointF:
            return QPointF(room.left() + (along - start) * scale, middle - across * scale)

        def path_of(shape: Geometry) -> QPainterPath:
            path = QPainterPath()
            for part in shapely.get_parts(unrolled(strip, shape, start, end)):
                if part.geom_type == "Polygon":
                    for ring in (part.exterior, *part.interiors):
                        path.addPolygon([at(x, y) for x, y in ring.coords])
            return path

        painter.save()
        painter.setClipRect(room.adjusted(-1, -1, 1, 1))
        tread = QRectF(at(self._half_width, start), at(-self._half_width, end))
        painter.fillRect(tread, QColor(theme.raised))
        if self.free is not None:
            color = QColor(theme.accent)
            painter.fillPath(path_of(self.free.region), QBrush(color, Qt.BrushStyle.Dense6Pattern))
            painter.strokePath(path_of(self.free.region), QPen(color, 1.2))
        painter.setPen(QPen(QColor(theme.faint), 1.4))
        for side in (1, -1):
            painter.drawLine(at(side * self._half_width, start), at(side * self._half_width, end))
        if self.assessment.zone_half_width_mm is not None:
            painter.setPen(QPen(QColor(theme.text), 1.0, Qt.PenStyle.DashLine))
            for side in (1, -1):
                limit = side * strip.liner_across(self.assessment.zone_half_width_mm)
                painter.drawLine(at(limit, start), at(limit, end))
        for mark in self.assessment.marks:
            self._paint_head(painter, mark, path_of)
        painter.restore()
        for mark in self.assessment.marks:
            place = mark.inside_place
            if place is not None and start <= place.a % tau * strip.R0 < end:
                self._paint_symbol(painter, mark, at(strip.liner_across(place.s), place.a % tau * strip.R0), room)
        self._paint_angles(painter, row, room)

    def _paint_head(self, painter: QPainter, mark: AssessedMark, path_of) -> None:
        """The head: of an earlier repair hatched, of an injury the one that would be fitted, dashed."""
        if mark.ground is None:
            return
        path, is_repair = path_of(mark.ground.head), mark.answer is None
        color = QColor(self._theme.faint if is_repair else self._theme.ink)
        painter.fillPath(path, QColor(self._theme.base))
        if is_repair:
            painter.fillPath(path, QBrush(color, Qt.BrushStyle.BDiagPattern))
        painter.strokePath(path, QPen(color, 1.2, Qt.PenStyle.SolidLine if is_repair else Qt.PenStyle.DashLine))

    def _paint_symbol(self, painter: QPainter, mark: AssessedMark, at: QPointF, room: QRectF) -> None:
        """Its symbol and its name beside it, on a ground of its own so that it reads over anything."""
        box = QRectF(at.x() - _SYMBOL / 2, at.y() - _SYMBOL / 2, _SYMBOL, _SYMBOL)
        painter.save()
        answer = self.assessment.answer_shown(mark) if mark.facts.is_injury else None
        paint_answer(painter, box, answer, self._theme)
        painter.restore()
        wide = QFontMetricsF(self.font()).horizontalAdvance(mark.id) + 4
        left = box.right() + 2 if box.right() + 2 + wide < room.right() else box.left() - 2 - wide
        name = QRectF(left, at.y() - self._line / 2, wide, self._line)
        painter.fillRect(name, QColor(self._theme.base))
        painter.setPen(QColor(self._theme.text))
        painter.drawText(name, Qt.AlignmentFlag.AlignCenter, mark.id)

    def _paint_angles(self, painter: QPainter, row: int, room: QRectF) -> None:
        painter.setPen(QColor(self._theme.faint))
        for angle in range(0, 360 // _ROWS + 1, _TICK_DEG):
            x = room.left() + room.width() * angle / (360 / _ROWS)
            painter.drawLine(QPointF(x, room.bottom() - 3), QPointF(x, room.bottom() + 3))
            text = f"{angle + row * 360 // _ROWS}°"
            wide = QFontMetricsF(self.font()).horizontalAdvance(text) + 2
            left = min(max(1.0, x - wide / 2), self.width() - wide - 1)
            painter.drawText(QRectF(left, room.bottom() + 3, wide, self._line), Qt.AlignmentFlag.AlignCenter, text)

    def _paint_foot(self, painter: QPainter) -> None:
        """Which way up it is, and the marks that have no place on it."""
        unplaced = [mark.id for mark in self.assessment.marks if mark.inside_place is None]
        words = tr("seen from inside, outboard up, angles from the datum")
        if unplaced:
            words = tr("{words}; no place known: {unplaced}", words=words, unplaced=", ".join(unplaced))
        foot = QRectF(_EDGE, self.height() - self._line - 2, self.width() - 2 * _EDGE, self._line)
        painter.setPen(QColor(self._theme.faint))
        words = QFontMetricsF(self.font()).elidedText(words, Qt.TextElideMode.ElideRight, foot.width())
        painter.drawText(foot, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, words)


def _in_words(mark: AssessedMark) -> str:
    what = f"{mark.facts.title}"
    if mark.inside_place is None:
        return tr("{what}, no place known", what=what)
    side = tr("outboard") if mark.inside_place.s >= 0 else tr("inboard")
    angle = degrees(mark.inside_place.a % (2 * pi))
    return tr(
        "{what}, {distance:.0f} mm {side} of center at {angle:.0f}°",
        what=what,
        distance=abs(mark.inside_place.s),
        side=side,
        angle=angle,
    )
