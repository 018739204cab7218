"""A line that reads one quantity as people write it; what cannot be read stays, with its fault told."""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from tiremap.errors import TiremapError
from tiremap.ui.field_edit import FieldEdit
from tiremap.ui.layouts import fault, tell_fault


class TypedField(FieldEdit):
    """``read`` gives the value of a text and ``show`` the text of a value; ``fault`` is laid out by its owner.

    Signals: ``entered(object)`` a new value that was read, ``None`` for an emptied line.
    """

    entered = Signal(object)

    def __init__(
        self, name: str, read: Callable[[str], Any], show: Callable[[Any], str], parent: QWidget | None = None
    ) -> None:
        super().__init__(name, parent)
        self._read = read
        self._show = show
        self._shown = ""
        self.fault = fault()
        self.editingFinished.connect(self.commit)

    def show_value(self, value: Any) -> None:
        """Show what is stored; a text being typed, or not usable, stays while what is stored is the same."""
        text = "" if value is None else self._show(value)
        if text == self._shown and (self.is_faulty or self.text() != self._shown):
            return
        self._shown = text
        self.setText(text)
        self.setCursorPosition(0)
        self._tell("")

    def commit(self) -> None:
        """Read the text, and hand on what is new in it."""
        text = self.text().strip()
        if text == self._shown:
            self._tell("")
            return
        try:
            value = self._read(text) if text else None
        except TiremapError as error:
            self._tell(str(error))
            return
        self._tell("")
        self._shown = "" if value is None else self._show(value)
        self.setText(self._shown)
        self.entered.emit(value)

    def _tell(self, error: str) -> None:
        self.set_fault(bool(error))
        self.setAccessibleDescription(error)
        tell_fault(self.fault, error)
