"""Asking for a measurement's own tolerance, in the measurement's own unit."""

from typing import Any

from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFormLayout, QLabel, QWidget

from tiremap.errors import TiremapError
from tiremap.model.measures import Taken
from tiremap.model.typed_measures import read_angle, read_length
from tiremap.ui import wording
from tiremap.ui.field_edit import FieldEdit
from tiremap.ui.help_here import give_help_key
from tiremap.ui.language import tr

Ends = tuple[float | None, float | None]


class ToleranceDialog(QDialog):
    """How far the true value may lie below and above the reading; empty is the bench's usual figure."""

    def __init__(self, parent: QWidget | None, record: Taken) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Own tolerance"))
        self._unit: Any = getattr(record, "unit", "deg")
        self.minus = FieldEdit(tr("How far it may lie below"))
        self.plus = FieldEdit(tr("How far it may lie above"))
        for edit, end in ((self.minus, record.minus), (self.plus, record.plus)):
            edit.setText("" if end is None else wording.number(end, 4))
            edit.setPlaceholderText(tr("the usual"))
        self.error = QLabel()
        self.error.setProperty("role", "fault")
        self.error.setWordWrap(True)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel)
        buttons.accepted.connect(self._take)
        buttons.rejected.connect(self.reject)
        give_help_key(self)
        form = QFormLayout(self)
        unit = {"deg": tr("degrees"), "h": tr("hours"), "in": tr("inches")}.get(self._unit, self._unit)
        form.addRow(tr("Below ({unit})", unit=unit), self.minus)
        form.addRow(tr("Above ({unit})", unit=unit), self.plus)
        form.addRow(self.error)
        form.addRow(buttons)
        self.ends: Ends = (record.minus, record.plus)

    def _take(self) -> None:
        try:
            self.ends = (self._end(self.minus), self._end(self.plus))
        except TiremapError as error:
            self.error.setText(str(error))
            return
        self.accept()

    def _end(self, edit: FieldEdit) -> float | None:
        text = edit.text().strip()
        if not text:
            return None
        if self._unit in ("mm", "in"):
            taken = read_length(text, self._unit)
            if taken.unit != self._unit:
                raise TiremapError(
                    tr('"{typed}": the tolerance is in {unit}, as the reading is.', typed=text, unit=self._unit)
                )
            return taken.value
        return abs(read_angle(text))


def ask_tolerance(parent: QWidget, record: Taken) -> Ends | None:
    """The tolerance the user gives, or ``None`` if the question was left."""
    dialog = ToleranceDialog(parent, record)
    return dialog.ends if dialog.exec() == QDialog.DialogCode.Accepted else None
