"""Pictures of the register: bars over the width of the tread, and over the months."""


from collections.abc import Sequence
from itertools import pairwise

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from tiremap.ui.language import marked, told, tr
from tiremap.ui.palettes import Theme

_MONTHS = 12
_NAMES = (
    marked("Jan"),
    marked("Feb"),
    marked("Mar"),
    marked("Apr"),
    marked("May"),
    marked("Jun"),
    marked("Jul"),
    marked("Aug"),
    marked("Sep"),
    marked("Oct"),
    marked("Nov"),
    marked("Dec"),
)
_PAD = 6.0


class _Bars(QWidget):
    """What both pictures share: room for a line of words over and two under the bars, and what to say without any."""

    def __init__(self, name: str, nothing: str) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.MinimumExpanding)
        self.counts: tuple[int, ...] = ()
        self._nothing = nothing
        self._theme: Theme | None = None

    def sizeHint(self) -> QSize:
        """High enough to tell bars apart."""
        return QSize(240, round(9 * self._line))

    def minimumSizeHint(self) -> QSize:
        """Below this the words under the bars run into each other."""
        return QSize(170, round(7 * self._line))

    def paintEvent(self, event: QPaintEvent) -> None:
        """The bars, or a sentence where there is nothing to draw."""
        if self._theme is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QColor(self._theme.text))
        if any(self.counts):
            top, bottom = 1.3 * self._line, self.height() - 2.4 * self._line
            self._paint(painter, QRectF(_PAD, top, self.width() - 2 * _PAD, bottom - top))
        else:
            painter.drawText(
                QRectF(self.rect()), Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap, self._nothing,
            )
        painter.end()

    @property
    def _line(self) -> float:
        return QFontMetricsF(self.font()).height()

    def _paint(self, painter: QPainter, room: QRectF) -> None:
        raise NotImplementedError

    def _bar(self, painter: QPainter, box: QRectF, hatched: bool) -> None:
        color = QColor(self._theme.not_repairable if hatched else self._theme.accent)
        soft = QColor(color)
        soft.setAlpha(60 if hatched else 150)
        painter.fillRect(box, soft)
        if hatched:
            painter.fillRect(box, QBrush(color, Qt.BrushStyle.BDiagPattern))
        painter.setPen(QPen(color, 1.0))
        painter.drawRect(box)

    def _words(self, painter: QPainter, x: float, y: float, text: str) -> None:
        """Text around ``x``, kept inside the picture."""
        wide = QFontMetricsF(self.font()).horizontalAdvance(text) + 2
        left = min(max(0.0, x - wide / 2), self.width() - wide)
        painter.setPen(QColor(self._theme.text))
        painter.drawText(QRectF(left, y, wide, self._line), Qt.AlignmentFlag.AlignCenter, text)


class AcrossPicture(_Bars):
    """Injuries over the width of the tread, inboard at the left; tread edges and center marked, beyond them hatched."""

    def __init__(self) -> None:
        super().__init__(tr("Injuries across the tread"), tr("No injury was measured across yet."))
        self._edges: tuple[float, ...] = ()

    def show_counts(self, counts: Sequence[int], edges: Sequence[float], theme: Theme) -> None:
        """Show counts in bins between ``edges``, shares of half the tread width, + outboard."""
        self.counts, self._edges, self._theme = tuple(counts), tuple(edges), theme
        self.setAccessibleDescription(across_says(self.counts, self._edges))
        self.setToolTip(self.accessibleDescription())
        self.update()

    def _paint(self, painter: QPainter, room: QRectF) -> None:
        low, high = self._edges[0], self._edges[-1]

        def at(share: float) -> float:
            return room.left() + (share - low) / (high - low) * room.width()

        most = max(self.counts)
        for count, (left, right) in zip(self.counts, pairwise(self._edges), strict=True):
            if count:
                tall = count / most * room.height()
                box = QRectF(at(left) + 1, room.bottom() - tall, at(right) - at(left) - 2, tall)
                self._bar(painter, box, hatched=abs(left + right) / 2 > 1)
        painter.setPen(QPen(QColor(self._theme.text), 1.2))
        painter.drawLine(room.bottomLeft(), room.bottomRight())
        widest = QFontMetricsF(self.font()).horizontalAdvance(f"{tr('outboard edge')} {tr('center')}")
        in_full = at(1.0) - at(0.0) > 0.75 * widest
        marks = (
            (-1.0, tr("inboard edge") if in_full else tr("inboard"), Qt.PenStyle.DashLine),
            (0.0, tr("center"), Qt.PenStyle.DashDotLine),
            (1.0, tr("outboard edge") if in_full else tr("outboard"), Qt.PenStyle.DashLine),
        )
        for share, words, style in marks:
            painter.setPen(QPen(QColor(self._theme.text), 1.2, style))
            painter.drawLine(QPointF(at(share), room.top() - 2), QPointF(at(share), room.bottom() + 4))
            self._words(painter, at(share), room.bottom() + 4, words)
        peak = self.counts.index(most)
        self._words(painter, at((self._edges[peak] + self._edges[peak + 1]) / 2), room.top() - 1.2 * self._line,
                    str(most))


class MonthsPicture(_Bars):
    """Repairs in each of the last twelve months there are any of, the newest at the right."""

    def __init__(self) -> None:
        super().__init__(tr("Repairs by month"), tr("No repair with a date was recorded yet."))
        self.months: tuple[str, ...] = ()

    def show_counts(self, per_month: Sequence[tuple[str, int]], theme: Theme) -> None:
        """Show ``(month, repairs)``, months as ``2026-03``; months without repairs between them are shown empty."""
        counts = dict(per_month)
        self.months = last_months(max(counts), _MONTHS) if counts else ()
        self.counts = tuple(counts.get(month, 0) for month in self.months)
        self._theme = theme
        shown = (f"{month}: {counts[month]}" for month in self.months if month in counts)
        self.setAccessibleDescription(", ".join(shown))
        self.setToolTip(self.accessibleDescription())
        self.update()

    def _paint(self, painter: QPainter, room: QRectF) -> None:
        most, wide = max(self.counts), room.width() / len(self.months)
        for number, (month, count) in enumerate(zip(self.months, self.counts, strict=True)):
            left, tall = room.left() + number * wide, count / most * room.height()
            year, of_year = month.split("-")
            if count:
                self._bar(painter, QRectF(left + 2, room.bottom() - tall, wide - 4, tall), hatched=False)
                self._words(painter, left + wide / 2, room.bottom() - tall - 1.1 * self._line, str(count))
            self._words(painter, left + wide / 2, room.bottom() + 2, told(_NAMES[int(of_year) - 1])[:1])
            if of_year == "01" or (number == 0 and of_year < "10"):  # the next year's needs the room else
                self._words(painter, left + wide / 2, room.bottom() + 2 + self._line, year)
        painter.setPen(QPen(QColor(self._theme.text), 1.2))
        painter.drawLine(room.bottomLeft(), room.bottomRight())


def last_months(newest: str, number: int) -> tuple[str, ...]:
    """So many months up to ``newest``, in order: ``2025-12``, ``2026-01``."""
    year, month = (int(part) for part in newest.split("-"))
    last = year * 12 + month - 1
    return tuple(f"{each // 12:04d}-{each % 12 + 1:02d}" for each in range(last - number + 1, last + 1))


def across_says(counts: Sequence[int], edges: Sequence[float]) -> str:
    """The picture in words: how many lie in the central half, nearer an edge, and beyond it."""
    middles = [(left + right) / 2 for left, right in pairwise(edges)]
    central = sum(count for count, middle in zip(counts, middles, strict=True) if abs(middle) <= 0.5)
    beyond = sum(count for count, middle in zip(counts, middles, strict=True) if abs(middle) > 1)
    return tr(
        "{all} injuries: {central} in the central half of the tread, {outer} between there and the tread edges, "
        "{beyond} beyond an edge.",
        all=sum(counts), central=central, outer=sum(counts) - central - beyond, beyond=beyond,
    )
