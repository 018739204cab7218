"""The bands every rule set allows, one under another across the same tread, with the injuries through all of them.

Drawn from the tread's center plane, + outboard to the right, all on one scale. Half-widths are as drawn, never for an
answer.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from tiremap.drawing.edges import Edge, refused_beyond, tread_edge, zone_edge
from tiremap.drawing.wording import length
from tiremap.model.measures import LengthUnit
from tiremap.ui.answer_symbol import paint_answer
from tiremap.ui.compare_rows import Compared
from tiremap.ui.language import tr
from tiremap.ui.palettes import Theme

_PAD = 12.0
_SYMBOL = 16.0


@dataclass(frozen=True)
class Stripe:
    """Where an injury's hole lies across, tread coordinate, and how wide it is; mm."""

    name: str
    s: float
    wide: float
    is_inside: bool


class CompareBands(QWidget):
    """One lane for each rule set: its name and answer, its band as a bracket, its half-width in words."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Crown zones of all guidance, one under another"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.MinimumExpanding)
        self.rows: Sequence[Compared] = ()
        self._chosen: str | None = None
        self._unit: LengthUnit = "mm"
        self._theme: Theme | None = None

    def show_rows(self, rows: Sequence[Compared], chosen: str | None, unit: LengthUnit, theme: Theme) -> None:
        """Show the bands of these rule sets; ``chosen`` names the one to set off."""
        self.rows, self._chosen, self._unit, self._theme = rows, chosen, unit, theme
        self.setAccessibleDescription(" ".join(f"{row.title}: {band_says(row, unit)}." for row in rows))
        self.setMinimumHeight(self.sizeHint().height())
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """A lane for each rule set, and room for the words over and under them."""
        lines = max(1, len(_levels(self._stripes(), self._across(600.0), self._words)))
        return QSize(640, round(self._head + len(self.rows) * self._lane + (lines + 0.5) * self._line))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Tread, lanes, injuries."""
        if self._theme is None or not self.rows:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self.rows[0].assessment.facts is None:
            painter.setPen(QColor(self._theme.text))
            says = tr("Enter the tire's size to see the bands.")
            painter.drawText(QRectF(self.rect()), Qt.AlignmentFlag.AlignCenter, says)
        else:
            across = self._across(self.width())
            self._paint_tread(painter, across)
            self._paint_stripes(painter, across)
            for number, row in enumerate(self.rows):
                self._paint_lane(painter, across, row, self._head + number * self._lane)
        painter.end()

    @property
    def _line(self) -> float:
        return QFontMetricsF(self.font()).height()

    @property
    def _lane(self) -> float:
        return max(26.0, 1.7 * self._line)

    @property
    def _head(self) -> float:
        return 2.6 * self._line

    def _words(self, text: str) -> float:
        return QFontMetricsF(self._bold()).horizontalAdvance(text)

    def _bold(self) -> QFont:
        font = QFont(self.font())
        font.setBold(True)
        return font

    def _across(self, width: float) -> "_Across":
        """The scale: names at the left, half-widths in words at the right, the tread between them."""
        left = max((self._words(_title(row)) for row in self.rows), default=0.0) + _SYMBOL + 2.5 * _PAD
        left = min(left, 0.38 * width)
        right = max((self._words(band_says(row, self._unit)) for row in self.rows), default=0.0) + 2 * _PAD
        right = min(right, 0.38 * width)
        holes = [abs(stripe.s) + stripe.wide for stripe in self._stripes()]
        reach = max([*_half_widths(self.rows), *holes], default=1.0)
        room = max(80.0, width - left - right)
        return _Across(left + room / 2, room / 2 / (1.06 * reach), left + room + _PAD)

    def _stripes(self) -> list[Stripe]:
        return stripes(self.rows[0]) if self.rows else []

    def _paint_tread(self, painter: QPainter, across: "_Across") -> None:
        """Both tread edges, the center plane, and their words."""
        theme, facts = self._theme, self.rows[0].assessment.facts
        edge = tread_edge(facts)
        top, bottom = self._head - 0.2 * self._line, self._head + len(self.rows) * self._lane
        named = tr("tread edge, estimated") if edge.estimated else tr("tread edge")
        taken = self._words(tr("outboard {named}", named=named)) + self._words(tr("center"))
        if edge.drawn * across.scale < taken / 2:
            named = tr("edge")  # no room for more
        for s, words in (
            (-edge.drawn, tr("inboard {named}", named=named)),
            (0.0, tr("center")),
            (edge.drawn, tr("outboard {named}", named=named)),
        ):
            pen = QPen(QColor(theme.text if s else theme.faint), 2.0 if s else 1.0)
            pen.setStyle(Qt.PenStyle.DashLine if s and edge.estimated else Qt.PenStyle.SolidLine)
            if not s:
                pen.setStyle(Qt.PenStyle.DashDotLine)
            painter.setPen(pen)
            painter.drawLine(QPointF(across.x(s), top), QPointF(across.x(s), bottom))
            painter.setPen(QColor(theme.text))
            figure = length(abs(s), self._unit) if s else ""
            for number, text in enumerate((words, figure)):
                box = QRectF(across.x(s) - 120, (0.1 + number) * self._line, 240, self._line)
                painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)

    def _paint_stripes(self, painter: QPainter, across: "_Across") -> None:
        """Each injury as a stripe as wide as its hole through all lanes, named underneath."""
        theme, bottom = self._theme, self._head + len(self.rows) * self._lane
        named: list[tuple[QRectF, str]] = []
        for level, on_it in enumerate(_levels(self._stripes(), across, self._words)):
            for stripe in on_it:
                x, half = across.x(stripe.s), max(1.0, stripe.wide * across.scale / 2)
                fill = QColor(theme.text)
                fill.setAlpha(26)
                painter.fillRect(QRectF(x - half, self._head, 2 * half, bottom - self._head), fill)
                pen = QPen(QColor(theme.text), 1.4)
                pen.setStyle(Qt.PenStyle.DotLine if stripe.is_inside else Qt.PenStyle.SolidLine)
                painter.setPen(pen)
                end = bottom + (0.3 + level) * self._line
                painter.drawLine(QPointF(x, self._head), QPointF(x, end))
                wide = self._words(stripe.name)
                named.append((QRectF(x - wide / 2, end, wide, self._line), stripe.name))
        painter.setPen(QColor(theme.text))
        for box, name in named:  # last, on a ground of their own: a name must not be struck out by a line
            painter.fillRect(box, self.palette().window())
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, name)

    def _paint_lane(self, painter: QPainter, across: "_Across", row: Compared, top: float) -> None:
        theme, middle = self._theme, top + self._lane / 2
        if row.rule_set.name == self._chosen:
            wash = QColor(theme.accent)
            wash.setAlpha(28)
            painter.fillRect(QRectF(0, top, self.width(), self._lane), wash)
        symbol = QRectF(_PAD / 2, middle - _SYMBOL / 2, _SYMBOL, _SYMBOL)
        paint_answer(painter, symbol, row.assessment.answer, theme)
        painter.setFont(self._bold() if row.own else self.font())
        painter.setPen(QColor(theme.text))
        where = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
        metrics, says = QFontMetricsF(painter.font()), band_says(row, self._unit)
        title = metrics.elidedText(_title(row), Qt.TextElideMode.ElideRight, 0.38 * self.width() - _SYMBOL - 2 * _PAD)
        painter.drawText(QRectF(_PAD + _SYMBOL, top, across.middle, self._lane), where, title)
        says = metrics.elidedText(says, Qt.TextElideMode.ElideRight, self.width() - across.right)
        painter.drawText(QRectF(across.right, top, self.width() - across.right, self._lane), where, says)
        inner, outer = zone_edge(row.assessment), refused_beyond(row.assessment)
        if inner is not None:
            _paint_bracket(painter, across, middle, inner, outer, QColor(theme.accent), row.own)


@dataclass(frozen=True)
class _Across:
    """Where a place across lies in the widget, pixels; ``scale`` is pixels for each mm."""

    middle: float
    scale: float
    right: float

    def x(self, s: float) -> float:
        return self.middle + s * self.scale


def stripes(row: Compared) -> list[Stripe]:
    """The injuries across: where each enters and, if it leans, where it comes out inside."""
    found = []
    for injury in row.assessment.injuries:
        wide = injury.facts.channel.stated or 0.0
        leans = abs(injury.inside - injury.outside) > 0.5 * max(1.0, wide)
        found.append(Stripe(tr("{id} outside", id=injury.id) if leans else injury.id, injury.outside, wide, False))
        if leans:
            found.append(Stripe(tr("{id} inside", id=injury.id), injury.inside, wide, True))
    return found


def band_says(row: Compared, unit: LengthUnit) -> str:
    """The half-width of a rule set's band in words, and how far the maker's word reaches where it has two edges."""
    inner, outer = zone_edge(row.assessment), refused_beyond(row.assessment)
    if inner is None:
        return tr("no band") if row.assessment.facts is None else tr("no word on this class")
    if outer is None or outer.drawn <= inner.drawn:
        return _half_says(inner, unit)
    return tr("{inner}, by the maker to {outer}", inner=_half_says(inner, unit), outer=_half_says(outer, unit))


def _half_says(edge: Edge, unit: LengthUnit) -> str:
    says = length(edge.drawn, unit)
    return tr("about {says}", says=says) if edge.estimated else says


def _title(row: Compared) -> str:
    return tr("{title} (this job)", title=row.rule_set.title) if row.own else row.rule_set.title


def _half_widths(rows: Sequence[Compared]) -> list[float]:
    """Every half-width there is to draw, mm."""
    facts = rows[0].assessment.facts if rows else None
    edges = [] if facts is None else [tread_edge(facts)]
    for row in rows if facts is not None else ():
        edges += [edge for edge in (zone_edge(row.assessment), refused_beyond(row.assessment)) if edge is not None]
    return [edge.drawn for edge in edges]


def _levels(found: Sequence[Stripe], across: _Across, words) -> list[list[Stripe]]:
    """Stripes by the line their name stands on, so that no two names on one line touch."""
    levels: list[list[Stripe]] = []
    ends: list[float] = []
    for stripe in sorted(found, key=lambda each: each.s):
        half = words(stripe.name) / 2 + 3
        left, right = across.x(stripe.s) - half, across.x(stripe.s) + half
        level = next((number for number, end in enumerate(ends) if end <= left), len(ends))
        if level == len(ends):
            levels.append([])
            ends.append(right)
        levels[level].append(stripe)
        ends[level] = right
    return levels


def _paint_bracket(
    painter: QPainter, across: _Across, y: float, inner: Edge, outer: Edge | None, color: QColor, own: bool
) -> None:
    """The band as a line with its ends turned down; dashed from the inner to the outer edge where it has two."""
    thick, tick = (3.6, 8.0) if own else (2.0, 6.0)
    pen = QPen(color, thick)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    painter.setPen(pen)
    painter.drawLine(QPointF(across.x(-inner.drawn), y), QPointF(across.x(inner.drawn), y))
    for side in (-1, 1):
        x = across.x(side * inner.drawn)
        painter.drawLine(QPointF(x, y - tick), QPointF(x, y + tick))
    if outer is None or outer.drawn <= inner.drawn:
        return
    dashed = QPen(color, thick * 0.7)
    dashed.setDashPattern([4, 3])
    dashed.setCapStyle(Qt.PenCapStyle.FlatCap)
    for side in (-1, 1):
        x, end = across.x(side * inner.drawn), across.x(side * outer.drawn)
        painter.setPen(dashed)
        painter.drawLine(QPointF(x, y), QPointF(end, y))
        painter.setPen(QPen(color, thick * 0.7))
        painter.drawLine(QPointF(end, y - tick * 0.7), QPointF(end, y + tick * 0.7))
