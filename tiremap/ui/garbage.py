"""Python's collection of cycles, kept to the thread of the window.

Left to itself it runs in whatever thread asks for memory next. A widget that is part of a cycle would then be
destroyed in a thread that only reads or writes files, and Qt comes down, at once or at the next look at its widgets.
"""

import gc

from PySide6.QtCore import QObject, QTimer

EVERY_MS = 200
"""Often enough that a collection takes a few milliseconds even in a drag."""
_held: set[int] = set()
"""Ids of the keepers at work: the last to end hands the collection back."""


class GarbageKeeper(QObject):
    """While it works cycles are collected in its thread alone, as often as Python's own thresholds ask for."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        _held.add(id(self))
        gc.disable()
        self._timer = QTimer(self)
        self._timer.timeout.connect(self.collect)
        self._timer.start(EVERY_MS)

    def collect(self) -> None:
        """Collect the oldest generation that is due."""
        due = [count > threshold > 0 for count, threshold in zip(gc.get_count(), gc.get_threshold(), strict=True)]
        if any(due):
            gc.collect(max(generation for generation, is_due in enumerate(due) if is_due))

    def end(self) -> None:
        """Its window is closed. A second call does nothing."""
        self._timer.stop()
        _held.discard(id(self))
        if not _held:
            gc.enable()
