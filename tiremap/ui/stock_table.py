"""The units of a stock as a table to type in, in the unit shown. Nothing typed is lost to an error."""

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QBrush, QColor, QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QHeaderView,
    QLineEdit,
    QStyleOptionViewItem,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)

from tiremap.errors import TiremapError
from tiremap.model.measures import LengthUnit
from tiremap.model.stock import RepairUnit
from tiremap.ui.language import marked, told, tr
from tiremap.ui.roomy_cells import RoomyCells
from tiremap.ui.stock_entries import mass_entry, size_entry, units_in_order
from tiremap.ui.wording import mm_as, number

COLUMNS = {
    "stem_mm": (marked("Stem"), marked("Diameter of the stem; the cutter is as large")),
    "head_length_mm": (marked("Head"), marked("Diameter of a round head, or the longer side")),
    "head_width_mm": (marked("Head width"), marked("The shorter side; empty for a round head")),
    "head_along": (marked("Long side"), marked("Which way the longer side lies in the tire")),
    "stem_length_mm": (
        marked("Stem length"),
        marked("As it comes, before it is pulled in and cut; empty while unknown"),
    ),
    "mass_g": (marked("Mass, g"), marked("Of the whole unit; empty while unknown")),
}
_FIELDS = tuple(COLUMNS)
_NEEDED = ("stem_mm", "head_length_mm")
_ALONG = {"around": marked("around the tire"), "across": marked("across the tire")}
_ALONG_COLUMN = _FIELDS.index("head_along")
_DECIMALS = 3
"""A stem of 3/8 in is 9.525 mm."""
_VALUE, _FAULT = Qt.ItemDataRole.UserRole, Qt.ItemDataRole.UserRole + 1


class StockTable(QTableWidget):
    """Cells are typed in; Enter or a double click edits, Insert adds a row, Delete removes the row.

    Signals: ``edited()`` after anything was typed, added or removed by hand.
    """

    edited = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(0, len(_FIELDS), parent)
        self._unit: LengthUnit = "mm"
        self._color = QColor("#a33b00")
        self._removed: list[tuple[int, list[QTableWidgetItem]]] = []
        self.setAccessibleName(tr("Repair units in stock"))
        for column, (title, tip) in enumerate(COLUMNS.values()):
            head = QTableWidgetItem(told(title))
            head.setToolTip(told(tip))
            self.setHorizontalHeaderItem(column, head)
        self.setItemDelegate(_Cells(self))
        self.setTabKeyNavigation(False)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        trigger = QAbstractItemView.EditTrigger
        self.setEditTriggers(
            trigger.DoubleClicked | trigger.SelectedClicked | trigger.EditKeyPressed | trigger.AnyKeyPressed
        )
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.verticalHeader().hide()
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        self.horizontalHeader().setHighlightSections(False)
        self.itemChanged.connect(self._typed)

    @property
    def can_put_back(self) -> bool:
        """Whether a row was removed since the units were shown."""
        return bool(self._removed)

    @property
    def fault(self) -> str:
        """What is wrong with the first cell that cannot be used, and where it is."""
        return next((f"{self._where(item)}: {item.data(_FAULT)}" for item in self._items() if item.data(_FAULT)), "")

    def show_units(self, units: tuple[RepairUnit, ...]) -> None:
        """Show a stock's units in place of whatever stood there."""
        self.blockSignals(True)
        self._removed.clear()
        self.setRowCount(0)
        for row, unit in enumerate(units):
            self._insert(row)
            for column, field in enumerate(_FIELDS):
                round_ = field == "head_along" and unit.head_width_mm is None
                self.item(row, column).setData(_VALUE, None if round_ else getattr(unit, field))
        self.blockSignals(False)
        self._write_all()
        if units:
            self.setCurrentCell(0, 0)

    def show_in(self, unit: LengthUnit, row_height: int, fault_color: str) -> None:
        """Lengths in that unit, rows of that height (px); text that could not be used stays as it was typed."""
        self._unit, self._color = unit, QColor(fault_color)
        self.verticalHeader().setDefaultSectionSize(row_height)
        self._write_all()

    def units(self) -> tuple[RepairUnit, ...]:
        """The stock's units by growing stem; rows left wholly empty do not count.

        Raises `TiremapError` that names the cell, and goes there.
        """
        for item in self._items():
            if item.data(_FAULT):
                self.setCurrentItem(item)
                raise TiremapError(f"{self._where(item)}: {item.data(_FAULT)}")
        rows = [row for row in range(self.rowCount()) if not self._is_empty(row)]
        return units_in_order([self._read(row) for row in rows], self._unit)

    def add_row(self) -> None:
        """An empty row at the end, its first cell open to type in."""
        row = self.rowCount()
        self._insert(row)
        self.setCurrentCell(row, 0)
        self.setFocus()
        self.editItem(self.item(row, 0))
        self.edited.emit()

    def remove_row(self) -> None:
        """Take the row of the current cell away; `put_back` brings it back."""
        row = self.currentRow()
        if row < 0:
            return
        self._removed.append((row, [self.takeItem(row, column) for column in range(len(_FIELDS))]))
        self.removeRow(row)
        self.setCurrentCell(min(row, self.rowCount() - 1), 0)
        self.edited.emit()

    def put_back(self) -> None:
        """Bring back the row removed last, where it stood."""
        if not self._removed:
            return
        row, items = self._removed.pop()
        row = min(row, self.rowCount())
        self.blockSignals(True)
        self.insertRow(row)
        for column, item in enumerate(items):
            self.setItem(row, column, item)
        self.blockSignals(False)
        self._write_all()
        self.setCurrentCell(row, 0)
        self.edited.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter edits, Insert adds, Delete removes."""
        match event.key():
            case Qt.Key.Key_Return | Qt.Key.Key_Enter if self.currentItem() is not None:
                self.editItem(self.currentItem())
            case Qt.Key.Key_Insert:
                self.add_row()
            case Qt.Key.Key_Delete:
                self.remove_row()
            case _:
                super().keyPressEvent(event)

    def _insert(self, row: int) -> None:
        was_blocked = self.blockSignals(True)
        self.insertRow(row)
        for column in range(len(_FIELDS)):
            item = QTableWidgetItem("")
            item.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
            self.setItem(row, column, item)
        self.blockSignals(was_blocked)

    def _items(self) -> list[QTableWidgetItem]:
        return [self.item(row, column) for row in range(self.rowCount()) for column in range(len(_FIELDS))]

    def _is_empty(self, row: int) -> bool:
        return not any(self.item(row, column).text().strip() for column in range(len(_FIELDS)))

    def _typed(self, item: QTableWidgetItem) -> None:
        """Read what was typed in a cell; text that cannot be used stays, marked, with its reason."""
        text, fault, value = item.text().strip(), "", None
        try:
            value = self._value(_FIELDS[item.column()], text) if text else None
        except TiremapError as error:
            fault = str(error)
        self.blockSignals(True)
        item.setData(_VALUE, value)
        item.setData(_FAULT, fault)
        self.blockSignals(False)
        self._write(item)
        self.edited.emit()

    def _value(self, field: str, text: str) -> float | str:
        if field == "mass_g":
            return mass_entry(text)
        if field == "head_along":
            found = next((each for each, words in _ALONG.items() if told(words).lower().startswith(text.lower())), None)
            if found is None:
                raise TiremapError(
                    tr('"{typed}" is no way to lie.', typed=text), tr("Right ones: around the tire, across the tire.")
                )
            return found
        return size_entry(text, self._unit, RepairUnit, field)

    def _write_all(self) -> None:
        for item in self._items():
            self._write(item)

    def _write(self, item: QTableWidgetItem) -> None:
        """Show a cell's value in the present unit, or its faulty text as it was typed."""
        fault, value = item.data(_FAULT), item.data(_VALUE)
        self.blockSignals(True)
        item.setForeground(QBrush(self._color) if fault else QBrush())
        item.setToolTip(fault or told(COLUMNS[_FIELDS[item.column()]][1]))
        font = item.font()
        font.setUnderline(bool(fault))
        item.setFont(font)
        if not fault:
            item.setText(self._text(_FIELDS[item.column()], value))
        self.blockSignals(False)
        self.viewport().update()

    def _text(self, field: str, value: float | str | None) -> str:
        if value is None:
            return ""
        if field == "head_along":
            return told(_ALONG[value])
        return number(value, 3) if field == "mass_g" else mm_as(value, self._unit, _DECIMALS)

    def _read(self, row: int) -> RepairUnit:
        """A row as a unit. Raises `TiremapError` for what is missing or does not go together."""
        values = {field: self.item(row, column).data(_VALUE) for column, field in enumerate(_FIELDS)}
        for column, field in enumerate(_FIELDS):
            if field in _NEEDED and values[field] is None:
                self.setCurrentCell(row, column)
                where = self._where(self.item(row, column))
                raise TiremapError(tr("{where}: it is empty.", where=where), tr("Each unit has a stem and a head."))
        if (values["head_width_mm"] or 0.0) > values["head_length_mm"]:
            item = self.item(row, _FIELDS.index("head_width_mm"))
            self.setCurrentItem(item)
            raise TiremapError(
                tr("{where}: it is more than the head's longer side.", where=self._where(item)), tr("Exchange the two.")
            )
        return RepairUnit(**{field: value for field, value in values.items() if value is not None})

    def _where(self, item: QTableWidgetItem) -> str:
        return tr("Row {row}, {column}", row=item.row() + 1, column=told(COLUMNS[_FIELDS[item.column()]][0]))


class _Cells(RoomyCells):
    """Cells with air; the way the longer side lies is chosen, all others are typed."""

    def createEditor(
        self, parent: QWidget, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QWidget:
        """A line to type in, or a box to choose from, that says which cell it is."""
        editor: QWidget
        if index.column() == _ALONG_COLUMN:
            editor = QComboBox(parent)
            editor.addItems(["", *map(told, _ALONG.values())])
        else:
            editor = QLineEdit(parent)
        editor.setAccessibleName(
            tr("Row {row}, {column}", row=index.row() + 1, column=told(COLUMNS[_FIELDS[index.column()]][0]))
        )
        return editor
