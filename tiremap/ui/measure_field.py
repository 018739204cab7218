"""A measurement as people write it, with how it was taken and its tolerance beside it."""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QBoxLayout, QLabel, QVBoxLayout, QWidget

from tiremap.edits.change import changed
from tiremap.errors import TiremapError
from tiremap.model.measures import How, LengthUnit, Taken
from tiremap.ui import wording
from tiremap.ui.field_edit import FieldEdit
from tiremap.ui.language import told, tr
from tiremap.ui.layouts import choice, widen_list
from tiremap.ui.measure_kinds import Kind, Typed
from tiremap.ui.tolerance_dialog import ask_tolerance

_OWN = "own"


class MeasureField(QWidget):
    """One measurement. Text that cannot be read stays, its error stands under it, and the job is left alone.

    ``apply`` is called with the new record, or ``None`` for an emptied field; it may raise `TiremapError`.

    Signals: ``went_on()`` after Enter on a text that was taken.
    """

    went_on = Signal()

    def __init__(
        self, kind: Kind, name: str, apply: Callable[[Any], None], *, stacked: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.kind = kind
        self._apply = apply
        self._unit: LengthUnit = "mm"
        self._record: Any = None
        self._shown = ""
        self._showing = False
        self.edit = FieldEdit(name)
        self.edit.setToolTip(f"{name}: {told(kind.example)}")
        self.how = choice(tr("How was it measured: {name}", name=name), ())
        self.how.setObjectName("how")
        self.origin = choice(
            tr("From where: {name}", name=name), [(told(words), each) for each, words in wording.ORIGIN_WORDS.items()],
            self,  # before it is made visible, or it is a window for a moment
        )
        self.origin.setVisible(kind.has_origin)
        self.error = QLabel()
        self.error.setProperty("role", "fault")
        self.error.setWordWrap(True)
        self.error.hide()
        self._lay_out(stacked)
        self._fill_hows()
        self.edit.returnPressed.connect(self._enter)
        self.edit.editingFinished.connect(self.commit)
        self.how.activated.connect(self._how_chosen)
        self.origin.activated.connect(self._origin_chosen)
        self.setFocusProxy(self.edit)

    def fit_height(self) -> None:
        """Take over the height of another density: the form it stands in would keep the one before."""
        self.layout().invalidate()
        self.layout().activate()  # the row inside keeps its own height until then
        self.updateGeometry()

    def show_record(self, record: Taken | None, unit: LengthUnit, hint: str = "") -> None:
        """Show what is stored; while that is the same, the field stays as it is, whatever is being typed."""
        same = record == self._record and unit == self._unit
        self._record, self._unit = record, unit
        self.edit.setPlaceholderText(hint)
        if not same:
            self._write()

    def commit(self) -> bool:
        """Read the text and hand it on; whether the field now shows what is stored."""
        text = self.edit.text().strip()
        if self._showing:
            return True
        if text == self._shown:
            self._clear_fault()
            return True
        try:
            record = self._read(text) if text else None
            self._apply(record)
        except TiremapError as error:
            self._show_fault(str(error))
            return False
        self._record = record
        self._write()
        return True

    def _write(self) -> None:
        """Show the record, whatever stood in the field."""
        self._showing = True
        self._shown = self._text_of(self._record)
        self.edit.setText(self._shown)
        self.edit.setCursorPosition(0)
        self._clear_fault()
        if self.kind.has_origin and getattr(self._record, "origin", None) is not None:
            self.origin.setCurrentIndex(self.origin.findData(self._record.origin))
        self._fill_hows()
        self._showing = False

    def forget(self) -> None:
        """Drop what was typed and not taken, and show what is stored."""
        self._showing = True
        self.edit.setText(self._shown)
        self._clear_fault()
        self._showing = False

    @property
    def rejected(self) -> tuple[str, str] | None:
        """The text that could not be used and its error, or ``None``."""
        return (self.edit.text(), self.error.text()) if self.edit.is_faulty else None

    def bring_back(self, rejected: tuple[str, str]) -> None:
        """Show a text again that could not be used, with its error."""
        self.edit.setText(rejected[0])
        self._show_fault(rejected[1])

    def _read(self, text: str) -> Taken:
        record = self.kind.read(Typed(text, self._unit, self._chosen_how(), self.origin.currentData()))
        kept = self._record
        if kept is not None and hasattr(kept, "minus") and record.how == kept.how and type(record) is type(kept):
            return changed(record, minus=kept.minus, plus=kept.plus)
        return record

    def _text_of(self, record: Any) -> str:
        if record is None:
            return ""
        text = self.kind.show(record, self._unit)
        # the origin stands in its own box; bead toes have no box and stay in the text
        return text.partition(" from ")[0] if self.kind.has_origin and hasattr(record, "origin") else text

    def _lay_out(self, stacked: bool) -> None:
        direction = QBoxLayout.Direction.TopToBottom if stacked else QBoxLayout.Direction.LeftToRight
        row = QBoxLayout(direction)
        row.setSpacing(3 if stacked else 2)
        if stacked:
            row.addWidget(self.edit)
            row.addWidget(self.how)
        else:
            row.addWidget(self.edit, 5)
            if self.kind.has_origin:
                row.addWidget(self.origin, 6)
            row.addWidget(self.how, 6)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(2)
        whole.addLayout(row)
        whole.addWidget(self.error)

    def _chosen_how(self) -> How:
        how = self.how.currentData()
        return how if how in self.kind.hows else self.kind.hows[0]

    def _fill_hows(self) -> None:
        """Every way of measuring with its tolerance, the one taken chosen; an own tolerance last."""
        record, kind = self._record, self.kind
        taken = getattr(record, "how", None)
        chosen = taken or self._chosen_how()
        ways = list(kind.hows) if taken is None or taken in kind.hows else [taken, *kind.hows]
        if kind.table == "around" and taken is not None:
            ways = [taken]  # the unit of the reading tells how it was taken
        self.how.clear()
        for how in ways:
            own = record if how == taken else None
            minus, plus = getattr(own, "minus", None), getattr(own, "plus", None)
            in_unit = getattr(own, "unit", "mm")
            table = "bead_toes" if hasattr(record, "from_outboard") else kind.table_for(how)
            words = wording.tolerance(table, how, minus, plus, in_unit, self._unit)
            self.how.addItem(tr("two gauges") if getattr(own, "stops", None) is not None else words, how)
        if record is not None and taken is not None:
            self.how.addItem(tr("own tolerance…"), _OWN)
        self.how.setCurrentIndex(max(0, self.how.findData(chosen)))
        self.how.setToolTip(tr("How it was measured, and how far it may be off: {how}", how=self.how.currentText()))
        widen_list(self.how)

    def _how_chosen(self, index: int) -> None:
        how, record = self.how.itemData(index), self._record
        if not isinstance(record, Taken):
            return
        if how == _OWN:
            self._fill_hows()
            ends = ask_tolerance(self, record)
            if ends is not None:
                self._change_record(minus=ends[0], plus=ends[1])
        elif how != record.how:
            self._change_record(how=how, minus=None, plus=None)

    def _origin_chosen(self) -> None:
        record = self._record
        if hasattr(record, "origin") and record.how != "eye" and record.origin != self.origin.currentData():
            self._change_record(origin=self.origin.currentData())

    def _change_record(self, **fields: Any) -> None:
        try:
            self._apply(changed(self._record, **fields))
        except TiremapError as error:
            self._show_fault(str(error))

    def _enter(self) -> None:
        if self.commit():
            self.went_on.emit()

    def _show_fault(self, error: str) -> None:
        self.edit.set_fault(True)
        self.error.setText(error)
        self.error.show()
        self.edit.setAccessibleDescription(error)

    def _clear_fault(self) -> None:
        self.edit.set_fault(False)
        self.error.hide()
        self.edit.setAccessibleDescription("")
