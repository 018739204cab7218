"""The reasons in order of weight, and under them what is still to be measured, as one line."""

from html import escape

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QSize, Qt, Signal
from PySide6.QtGui import QAbstractTextDocumentLayout, QIcon, QPainter, QPalette, QTextDocument
from PySide6.QtWidgets import (
    QAbstractItemView,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)

from tiremap.assessment import Assessment
from tiremap.drawing.bench_order import still_to_measure
from tiremap.model.measures import LengthUnit
from tiremap.rules.reasons import Level, Reason
from tiremap.ui import reason_words
from tiremap.ui.answer_symbol import level_icon
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import heading
from tiremap.ui.palettes import Theme

_LEVEL_WORDS = {
    "refuse": marked("Refused"),
    "measure": marked("Measure"),
    "caution": marked("Caution"),
    "note": marked("Passed"),
}
_REASON = Qt.ItemDataRole.UserRole
_HTML = Qt.ItemDataRole.UserRole + 1


class ReasonsList(QWidget):
    """Every reason but those that only wait for something never entered: these are one line below.

    Signals: ``reason_shown(object)`` the reason to show on the drawing, or ``None``;
    ``field_wanted(str)`` the field that settles a chosen one, or the entry to check where it is refused.
    """

    reason_shown = Signal(object)
    field_wanted = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._icons: dict[tuple[Level, Theme], QIcon] = {}
        self.list = QListWidget()
        self.list.setAccessibleName(tr("Reasons, in order of weight"))
        self.list.setItemDelegate(_ReasonDelegate(self.list))
        self.list.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.list.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.still = QLabel()
        self.still.setAccessibleName(tr("Still to measure"))
        self.still.setObjectName("links")
        self.still.setWordWrap(True)
        self.still.setTextFormat(Qt.TextFormat.RichText)
        self.still.setTextInteractionFlags(
            Qt.TextInteractionFlag.LinksAccessibleByMouse | Qt.TextInteractionFlag.LinksAccessibleByKeyboard
        )
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(heading(tr("Reasons")))
        column.addWidget(self.list, 1)
        column.addWidget(self.still)
        self.list.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)  # its coming would wrap text anew
        self.list.currentItemChanged.connect(self._show_current)
        self.list.itemClicked.connect(self._want_field)
        self.list.itemActivated.connect(self._want_field)
        self.still.linkActivated.connect(self.field_wanted)

    def show_assessment(self, assessment: Assessment, unit: LengthUnit, theme: Theme) -> None:
        """Show the reasons; the one that was chosen stays chosen while it is there."""
        kept, before = self.shown, self._reasons
        self.list.blockSignals(True)
        self.list.clear()
        told: set[tuple[str, str]] = set()
        for reason in assessment.all_reasons:
            what = (reason.code, reason.says)  # what blocks every injury alike is told once
            if what not in told and (reason.level != "measure" or not reason.asks):
                told.add(what)
                self._add(reason, assessment, unit, theme)
        current = -1 if kept is None else _same_row(kept, before, self._reasons)
        self.list.setCurrentRow(current)
        self.list.blockSignals(False)
        if kept is not None and current < 0:
            self.reason_shown.emit(None)
        self._show_still(assessment, theme)

    @property
    def shown(self) -> Reason | None:
        """The chosen reason, or ``None``."""
        item = self.list.currentItem()
        return None if item is None else item.data(_REASON)

    @property
    def _reasons(self) -> list[Reason]:
        """The reasons in the list, from the top."""
        return [self.list.item(row).data(_REASON) for row in range(self.list.count())]

    def _add(self, reason: Reason, assessment: Assessment, unit: LengthUnit, theme: Theme) -> None:
        figures = reason_words.figures(reason, unit)
        source = reason_words.source(reason, assessment)
        level, says = told(_LEVEL_WORDS[reason.level]), reason_words.says(reason, unit)
        if (reason.level, theme) not in self._icons:
            self._icons[reason.level, theme] = level_icon(reason.level, theme)
        item = QListWidgetItem(self._icons[reason.level, theme], f"{level}: {says}\n{figures}\n{source}")
        item.setData(_REASON, reason)
        rest = "".join(f"<br>{escape(line)}" for line in (figures, source) if line)
        item.setData(_HTML, f"{escape(says)}<span style='color:{theme.faint}'>{rest}</span>")
        item.setToolTip(source)
        self.list.addItem(item)

    def _show_still(self, assessment: Assessment, theme: Theme) -> None:
        needed = still_to_measure(assessment)
        self.still.setVisible(bool(needed))
        links = " · ".join(
            f'<a href="{escape(each.field)}" style="color:{theme.accent}">{escape(each.words)}</a>' for each in needed
        )  # a link keeps the color of the palette it was first laid out in
        self.still.setText(tr("<b>Still to measure ({count})</b><br>{links}", count=len(needed), links=links))
        self.still.setAccessibleDescription(", ".join(each.words for each in needed))

    def _show_current(self, item: QListWidgetItem | None) -> None:
        self.reason_shown.emit(None if item is None else item.data(_REASON))

    def _want_field(self, item: QListWidgetItem) -> None:
        field = item.data(_REASON).leads_to
        if field is not None:
            self.field_wanted.emit(field)


class _ReasonDelegate(QStyledItemDelegate):
    """A reason as wrapped text beside its symbol."""

    _LEFT, _PAD = 30, 5
    _MOST_KEPT = 200

    def __init__(self, view: QAbstractItemView) -> None:
        super().__init__(view)
        self._kept: dict[tuple[str, str, int], QTextDocument] = {}
        """Documents by text, font and width: most reasons stay from one answer to the next."""

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        """Symbol, sentence, figures and source."""
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        painter.save()
        if chosen:
            painter.fillRect(option.rect, option.palette.color(QPalette.ColorRole.AlternateBase))
            painter.fillRect(
                option.rect.left(), option.rect.top(), 3, option.rect.height(),
                option.palette.color(QPalette.ColorRole.Highlight),
            )
        icon = index.data(Qt.ItemDataRole.DecorationRole)
        icon.paint(painter, option.rect.left() + 8, option.rect.top() + self._PAD, 18, 18)
        document = self._document(option, index)
        painter.translate(option.rect.left() + self._LEFT, option.rect.top() + self._PAD)
        context = QAbstractTextDocumentLayout.PaintContext()
        context.palette.setColor(QPalette.ColorRole.Text, option.palette.color(QPalette.ColorRole.Text))
        document.documentLayout().draw(painter, context)
        painter.restore()

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        """As high as the wrapped text."""
        document = self._document(option, index)
        return QSize(int(document.idealWidth()), int(document.size().height()) + 2 * self._PAD)

    def _document(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QTextDocument:
        text, wide = index.data(_HTML), self.parent().viewport().width() - self._LEFT - 6
        key = text, option.font.key(), wide
        if key not in self._kept:
            if len(self._kept) >= self._MOST_KEPT:
                self._kept.clear()
            document = self._kept[key] = QTextDocument()
            document.setDocumentMargin(0)
            document.setDefaultFont(option.font)
            document.setHtml(text)
            document.setTextWidth(wide)
        return self._kept[key]


def _same_row(kept: Reason, before: list[Reason], now: list[Reason]) -> int:
    """The row on which a reason stands now, or -1.

    Its sentence may have changed with a measurement; where several share code and subject, only the sentence tells
    them apart.
    """
    alike = [row for row, reason in enumerate(now) if _key(reason) == _key(kept)]
    exact = [row for row in alike if now[row].says == kept.says]
    was_alone = sum(_key(reason) == _key(kept) for reason in before) == 1
    return next(iter(exact or (alike if was_alone else [])), -1)


def _key(reason: Reason) -> tuple[str, tuple[str, ...]]:
    return reason.code, reason.subject
