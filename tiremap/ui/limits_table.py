"""The limits of one rule set as a table: what each asks, of which tires, on whose word, and how its parent asks."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QHeaderView, QTableWidget, QTableWidgetItem, QWidget

from tiremap.model.limit_against_parent import against_parent, parents_value
from tiremap.model.limit_values import limit_at
from tiremap.model.rule_set import RuleSet
from tiremap.model.rule_set_file import rule_set_named
from tiremap.model.rule_set_words import LimitLine, limit_lines
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import WRAPPED, wrap_heads
from tiremap.ui.palettes import Theme
from tiremap.ui.roomy_cells import make_readable

_COLUMNS = (marked("Limit and its tires"), marked("Asks"), marked("Its parent"), marked("Grade and source"))
_SHARES = (25, 26, 18, 31)
"""Of the width."""
_BESIDE = 2
_TIGHTER = {"less": marked("\nless is tighter"), "more": marked("\nmore is tighter"), "neither": ""}
_AGAINST = {
    "same": marked("the same"), "looser": marked("looser"), "tighter": marked("tighter"), "other": marked("changed"),
}
_AGAINST_VALUE = {
    "looser": marked("looser than {value}"), "tighter": marked("tighter than {value}"),
    "other": marked("changed from {value}"),
}


class LimitsTable(QTableWidget):
    """One row for each limit; a looser one is marked by word and color."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(0, len(_COLUMNS), parent)
        self.lines: tuple[LimitLine, ...] = ()
        self._last = ""
        make_readable(self, tr("Limits of the chosen guidance"), [told(each) for each in _COLUMNS])
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        header = self.horizontalHeader()
        header.setDefaultAlignment(WRAPPED)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)

    @property
    def chosen(self) -> LimitLine | None:
        """The limit of the chosen row."""
        row = self.currentRow()
        return self.lines[row] if self.selectedItems() and 0 <= row < len(self.lines) else None

    def show_rule_set(self, rule_set: RuleSet | None, theme: Theme) -> None:
        """Show the limits, or none; the chosen one stays chosen, also when the limits were gone for a while."""
        self._last = self._last if self.chosen is None else self.chosen.key
        self.blockSignals(True)
        self.lines = () if rule_set is None else limit_lines(rule_set)
        self.setRowCount(len(self.lines))
        self.setColumnHidden(_BESIDE, rule_set is None or rule_set.parent is None)
        for row, line in enumerate(self.lines):
            self._fill(row, line, rule_set, theme)
        self.clearSelection()
        keys = [line.key for line in self.lines]
        if keys:
            self.selectRow(keys.index(self._last) if self._last in keys else 0)
        self.blockSignals(False)
        self.fit()

    def fit(self) -> None:
        """Columns by their shares of the width, rows as high as their wrapped text."""
        shown = [column for column in range(len(_COLUMNS)) if not self.isColumnHidden(column)]
        whole = sum(_SHARES[column] for column in shown)
        room = self.viewport().width()
        for column in shown:
            self.setColumnWidth(column, room * _SHARES[column] // whole)
        wrap_heads(self)
        self.resizeRowsToContents()
        self.scrollTo(self.currentIndex())

    def resizeEvent(self, event) -> None:
        """Wrap the words anew."""
        super().resizeEvent(event)
        self.fit()

    def _fill(self, row: int, line: LimitLine, rule_set: RuleSet, theme: Theme) -> None:
        beside, is_looser = "", False
        if rule_set.parent is not None:
            parent = rule_set_named(rule_set.parent)
            against = against_parent(rule_set, parent, line.key)
            is_looser = against == "looser"
            value = "" if against == "same" else parents_value(rule_set, parent, line.key)
            beside = told(_AGAINST_VALUE[against], value=value) if value else told(_AGAINST[against])
        tighter = told(_TIGHTER[limit_at(rule_set, line.key).tighter])
        words = (f"{line.about}\n{line.tires}", f"{line.asks}{tighter}", beside, line.on_whose_word)
        for column, text in enumerate(words):
            item = QTableWidgetItem(text)
            item.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
            item.setToolTip(f"{line.key}\n{text}")
            if is_looser and column in (0, _BESIDE):
                item.setForeground(QColor(theme.fault))
                font = item.font()
                font.setBold(True)
                item.setFont(font)
            self.setItem(row, column, item)
