"""Reads a register's folder in the background, so that the window stays at hand."""

import threading
from pathlib import Path

from PySide6.QtCore import QObject, QThread, Signal

from tiremap.errors import TiremapError
from tiremap.storage.register import Register


class RegisterRefresh(QThread):
    """One look through a folder; `stop` keeps what was read.

    Signals: ``progress(int, int)`` files done and files in all; ``failed(str)`` why the folder could not be read. Qt's
    own ``finished`` comes after either end.
    """

    progress = Signal(int, int)
    failed = Signal(str)

    def __init__(self, folder: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._register = Register(folder)
        self._stop = threading.Event()

    @property
    def stopped(self) -> bool:
        """Whether it was told to stop."""
        return self._stop.is_set()

    def stop(self) -> None:
        """Stop after the files being read just now."""
        self._stop.set()

    def run(self) -> None:
        """In a thread of its own."""
        try:
            self._register.refresh(self.progress.emit, self._stop.is_set)
        except TiremapError as error:
            self.failed.emit(str(error))
