"""The shop's own stock of repair units: entered, changed, kept as a file, and put away again."""

from typing import Any

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QMessageBox,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from tiremap.errors import TiremapError
from tiremap.model.stock import BeyondTheHead, Stock
from tiremap.resources import shop_stock_path
from tiremap.storage.shop_stock import put_away_stock, write_stock
from tiremap.ui import dialogs
from tiremap.ui.field_edit import FieldEdit
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import faint, fault, heading, tell_fault
from tiremap.ui.palettes import CONTROL_HEIGHTS, theme_of
from tiremap.ui.preferences import Preferences
from tiremap.ui.stock_entries import size_entry
from tiremap.ui.stock_table import StockTable
from tiremap.ui.wording import mm_as
from tiremap.workshop.stock import house_stock, shop_stock, stock_in_use

PLACEHOLDER = marked("A placeholder, assumed: enter the shop's own units.")
_HOW = marked(
    "Enter or a double click edits a cell, Insert adds a unit, Delete removes it. The order of the rows is free."
)
_BEYOND = {
    "border": (marked("Buffed beyond the head"), marked("How far the buffed area reaches beyond the head")),
    "pre_cleaned": (
        marked("Pre-cleaned beyond the head"),
        marked("How far the liner is cleaned beyond the head before it is buffed"),
    ),
    "sealed": (marked("Sealed beyond the buffed edge"), marked("How far the sealer reaches beyond the buffed edge")),
}
_KINDS = {"one_piece": marked("Stem and head in one piece"), "stem_and_patch": marked("Stem and patch apart")}
_OWN_GRADE = "the shop's own"


def ask_to_put_away(parent: QWidget) -> bool:
    """Whether the shop's own stock is to be put away."""
    buttons = QMessageBox.StandardButton
    box = QMessageBox(parent)
    box.setIcon(QMessageBox.Icon.Question)
    box.setWindowTitle(tr("Back to the placeholder stock"))
    box.setText(tr("Put the shop's own stock away, and answer by the placeholder again?"))
    box.setInformativeText(tr("The file stays beside its place as {file}~.", file=shop_stock_path().name))
    box.setStandardButtons(buttons.Yes | buttons.Cancel)
    box.setDefaultButton(buttons.Cancel)
    return box.exec() == buttons.Yes


class StockPage(QDialog):
    """One table and a few fields. Nothing is written before *Keep*, and what is typed is never lost to an error.

    Signals: ``changed()`` after a stock was written or put away.
    """

    changed = Signal()

    def __init__(self, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._preferences = preferences
        self._stock = house_stock()
        self._beyond_shown: dict[str, str] = {}
        self._is_edited = False
        self.setWindowTitle(tr("The shop's stock of repair units"))
        self.resize(QSize(860, 740).boundedTo(self.screen().availableGeometry().size() - QSize(8, 40)))
        self._make_widgets()
        self._lay_out()
        self._connect()
        self.read_again()

    @property
    def is_edited(self) -> bool:
        """Whether something typed has not been kept yet."""
        return self._is_edited

    def read_again(self) -> None:
        """Show the stock as its file has it; what was typed and not kept is dropped."""
        self._stock, wrong = stock_in_use()
        own = not wrong and shop_stock() is not None
        if wrong:
            words = tr(
                "{wrong} Until it is put right or put away nothing is answered. The placeholder is shown below.",
                wrong=wrong,
            )
            tell_fault(self.state, words)
        else:
            tell_fault(self.state, "" if own else told(PLACEHOLDER))
        self.about.setText(tr("The shop's own stock. File: {path}", path=shop_stock_path()) if own else "")
        self.about.setVisible(own)
        self.back.setText(tr("Put the &broken file away…") if wrong else tr("&Back to the placeholder stock…"))
        self.back.setEnabled(own or bool(wrong))
        self.table.show_units(self._stock.units)
        for name, box in self.kinds.items():
            box.setChecked(name in self._stock.made)
        self.source.setText(self._stock.source if own else "")
        self.ground_source.setText(self._stock.beyond_the_head.source)
        for edit in (self.source, self.ground_source):
            edit.setCursorPosition(0)
        tell_fault(self.error, "")
        self._beyond_shown = {}
        self._take_preferences()
        self._set_edited(False)

    def keep(self) -> bool:
        """Write what is entered as the shop's own stock; whether that went through. A refusal says why."""
        self.table.setFocus()  # a cell still open is taken as it stands
        try:
            write_stock(self._entered())
        except TiremapError as error:
            tell_fault(self.error, str(error))
            return False
        self.read_again()
        self.done_.setText(tr("Written: {path}", path=shop_stock_path()))
        self.changed.emit()
        return True

    def showEvent(self, event: QShowEvent) -> None:
        """The file as it stands by now, unless something was typed and not kept."""
        if not event.spontaneous() and not self._is_edited:
            self.read_again()
        super().showEvent(event)

    def reject(self) -> None:
        """Close, by whichever way, after a question about what was not kept."""
        if self.may_leave():
            super().reject()

    def may_leave(self) -> bool:
        """Whether the window may be closed: what was not kept is asked about, kept or dropped."""
        if not self._is_edited or not self.isVisible():
            return True
        answer = dialogs.ask_about_unsaved(self, tr("The stock"))
        if answer == "save":
            return self.keep()
        if answer == "discard":
            self.read_again()
            return True
        return False

    def _entered(self) -> Stock:
        """The stock as it is entered. Raises `TiremapError` for what cannot be used, and goes there."""
        units = self.table.units()
        made = tuple(name for name, box in self.kinds.items() if box.isChecked())
        if not made:
            next(iter(self.kinds.values())).setFocus()
            raise TiremapError(tr("No kind of unit is in stock."), tr("Tick at least one."))
        source = self._said(self.source, tr("the units"))
        return Stock(
            cutter=self._stock.cutter, source=source, grade=_OWN_GRADE, made=made, units=units,
            beyond_the_head=self._beyond_entered(),
        )

    def _beyond_entered(self) -> BeyondTheHead:
        before, found = self._stock.beyond_the_head, {}
        for name, edit in self.beyond.items():
            found[name] = self._beyond_value(name)
            edit.set_fault(False)
        source = self._said(self.ground_source, tr("the ground worked"))
        same = all(found[name] == getattr(before, name) for name in found) and source == before.source
        return BeyondTheHead(**found, source=source, grade=before.grade if same else _OWN_GRADE)

    def _beyond_value(self, name: str) -> float:
        """As it was where the field was left alone: what is shown is rounded."""
        text, edit = self.beyond[name].text().strip(), self.beyond[name]
        if text == self._beyond_shown[name]:
            return getattr(self._stock.beyond_the_head, name)
        try:
            return size_entry(text, self._preferences.settings.units, BeyondTheHead, name)
        except TiremapError as error:
            edit.set_fault(True)
            edit.setFocus()
            raise TiremapError(f"{told(_BEYOND[name][0])}: {error}") from None

    def _said(self, edit: FieldEdit, what: str) -> str:
        text = " ".join(edit.text().split())
        edit.set_fault(not text)
        if not text:
            edit.setFocus()
            right = tr("Name the chart or the person, such as: the repair-material maker's chart.")
            raise TiremapError(tr("On whose word are {what}?", what=what), right)
        return text

    def _put_away(self) -> None:
        if not ask_to_put_away(self):
            return
        try:
            put_away_stock()
        except TiremapError as error:
            tell_fault(self.error, str(error))
            return
        self.read_again()
        self.done_.setText(tr("The shop's own stock was put away."))
        self.changed.emit()

    def _take_preferences(self) -> None:
        """Lengths in the unit shown; a field typed in and not kept stays as it was typed."""
        settings = self._preferences.settings
        unit = settings.units
        self.table.show_in(unit, CONTROL_HEIGHTS[settings.density] + 2, theme_of(settings.theme).fault)
        for name, edit in self.beyond.items():
            if name not in self._beyond_shown or edit.text().strip() == self._beyond_shown[name]:
                self._beyond_shown[name] = mm_as(getattr(self._stock.beyond_the_head, name), unit)
                edit.setText(self._beyond_shown[name])
                edit.set_fault(False)

    def _table_edited(self) -> None:
        tell_fault(self.error, self.table.fault)
        self._set_edited(True)

    def _field_edited(self, *_: Any) -> None:
        self._set_edited(True)

    def _set_edited(self, edited: bool) -> None:
        self._is_edited = edited
        self.keep_.setEnabled(edited)
        self.put_back.setEnabled(self.table.can_put_back)
        if edited:
            self.done_.setText("")

    def _make_widgets(self) -> None:
        self.state = fault()
        self.about = faint()
        self.about.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.table = StockTable()
        self.add = QPushButton(tr("&Add a unit"))
        self.remove = QPushButton(tr("&Remove the unit"))
        self.put_back = QPushButton(tr("&Put it back"))
        self.put_back.setToolTip(tr("Brings back the unit removed last."))
        self.beyond = {name: FieldEdit(told(words)) for name, (words, _) in _BEYOND.items()}
        for name, edit in self.beyond.items():
            edit.setToolTip(told(_BEYOND[name][1]))
        self.kinds = {name: QCheckBox(told(words)) for name, words in _KINDS.items()}
        self.source = FieldEdit(tr("On whose word the units are"))
        self.source.setPlaceholderText(tr("who says so, or which document"))
        self.ground_source = FieldEdit(tr("On whose word the ground beyond the head is"))
        self.ground_source.setPlaceholderText(tr("who says so, or which document"))
        self.error = fault()
        self.done_ = faint()
        self.done_.setAccessibleName(tr("What was written"))
        self.back = QPushButton()
        self.keep_ = QPushButton(tr("&Keep as the shop's stock"))
        self.shut = QPushButton(tr("&Close"))
        for button in (self.add, self.remove, self.put_back, self.back, self.keep_, self.shut):
            button.setAutoDefault(False)  # Enter in a field or the table must not press one

    def _connect(self) -> None:
        self.table.edited.connect(self._table_edited)
        self.add.clicked.connect(self.table.add_row)
        self.remove.clicked.connect(self.table.remove_row)
        self.put_back.clicked.connect(self.table.put_back)
        for edit in (*self.beyond.values(), self.source, self.ground_source):
            edit.textEdited.connect(self._field_edited)
        for box in self.kinds.values():
            box.clicked.connect(self._field_edited)
        self.back.clicked.connect(self._put_away)
        self.keep_.clicked.connect(self.keep)
        self.shut.clicked.connect(self.close)
        self._preferences.changed.connect(self._take_preferences)

    def _lay_out(self) -> None:
        rows = QHBoxLayout()
        for button in (self.add, self.remove, self.put_back):
            rows.addWidget(button)
        rows.addStretch(1)
        fields = QGridLayout()
        fields.setVerticalSpacing(5)
        ground = QGridLayout()
        ground.setHorizontalSpacing(14)
        for column, (name, edit) in enumerate(self.beyond.items()):
            label = QLabel(told(_BEYOND[name][0]))
            label.setBuddy(edit)
            ground.addWidget(label, 0, column)
            ground.addWidget(edit, 1, column)
        _labeled(fields, 0, tr("On whose &word, the ground"), self.ground_source)
        _labeled(fields, 1, tr("On whose w&ord, the units"), self.source)
        kinds = QHBoxLayout()
        for box in self.kinds.values():
            kinds.addWidget(box)
        kinds.addStretch(1)
        buttons = QHBoxLayout()
        buttons.addWidget(self.back)
        buttons.addStretch(1)
        buttons.addWidget(self.keep_)
        buttons.addWidget(self.shut)
        whole = QVBoxLayout(self)
        whole.setSpacing(6)
        for part in (self.state, self.about, faint(told(_HOW))):
            whole.addWidget(part)
        whole.addWidget(self.table, 1)
        whole.addLayout(rows)
        whole.addWidget(heading(tr("Kinds in stock")))
        whole.addLayout(kinds)
        whole.addWidget(heading(tr("Ground and sources")))
        whole.addLayout(ground)
        whole.addLayout(fields)
        whole.addWidget(self.error)
        whole.addWidget(self.done_)
        whole.addLayout(buttons)


def _labeled(grid: QGridLayout, row: int, words: str, field: QWidget) -> None:
    label = QLabel(words)
    label.setBuddy(field)
    grid.addWidget(label, row, 0)
    grid.addWidget(field, row, 1)
