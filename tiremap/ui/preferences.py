"""The settings as the window keeps them: read once, written on every change."""

from pathlib import Path
from typing import Any

from PySide6.QtCore import QLocale, QObject, Signal

from tiremap.edits.change import changed
from tiremap.errors import TiremapError
from tiremap.storage.settings import Settings, read_settings, with_recent_file, write_settings


class Preferences(QObject):
    """Units, theme, density, paper, recent files and the guidance last chosen.

    Signals: ``changed()`` after any of them changed; ``failed(str)`` where they could not be written.
    """

    changed = Signal()
    failed = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.settings, self.first_message = read_settings()

    @property
    def paper(self) -> str:
        """What sheets are printed on: as chosen, else Letter where inches are usual in the United States, else A4."""
        if self.settings.paper is not None:
            return self.settings.paper
        letter = QLocale.system().measurementSystem() == QLocale.MeasurementSystem.ImperialUSSystem
        return "Letter" if letter else "A4"

    def keep(self, **fields: Any) -> None:
        """Set some settings and write them."""
        self._put(changed(self.settings, **fields))

    def keep_quietly(self, **fields: Any) -> None:
        """Set what nothing shown depends on, such as where the window stood, and write it."""
        self._put(changed(self.settings, **fields), tell=False)

    def keep_recent(self, path: Path) -> None:
        """Put a file at the head of the recent ones."""
        self._put(with_recent_file(self.settings, path))

    def _put(self, settings: Settings, *, tell: bool = True) -> None:
        if settings == self.settings:
            return
        self.settings = settings
        try:
            write_settings(settings)
        except TiremapError as error:
            self.failed.emit(str(error))
        if tell:
            self.changed.emit()
