"""What stands on the screen while the program is loaded: an empty window in its place and color, with one word.

Nothing heavy is imported here. Loading the rest takes several times as long as Qt itself, and whoever opened the
program should see at once that it comes.
"""

import json
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QRect, QSize, QTimer
from PySide6.QtGui import QColor, QGuiApplication, QPalette
from PySide6.QtWidgets import QHBoxLayout, QLabel, QMainWindow, QVBoxLayout, QWidget

from tiremap.resources import settings_folder
from tiremap.ui.language import tr
from tiremap.ui.palettes import theme_of

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent

_USUAL = QSize(1280, 800)
_FRAME = QSize(8, 40)
_LARGEST_SETTINGS = 1_000_000
"""Bytes; whatever is larger is looked at by the reader of settings alone."""
_AT_THE_LATEST_MS = 500
"""Where nothing is painted, as of a window that comes up behind others, the program is loaded all the same."""


class FirstWindow(QMainWindow):
    """Calls ``go_on`` once, when it was first painted."""

    def __init__(self, go_on: Callable[[], None]) -> None:
        super().__init__()
        self._go_on: Callable[[], None] | None = go_on
        kept = _kept_settings()
        self.setWindowTitle("Tiremap")
        self.setCentralWidget(_in_the_middle(QLabel(tr("Opening…"))))
        self._color(str(kept.get("theme")))
        self._place(kept.get("window"))
        QTimer.singleShot(_AT_THE_LATEST_MS, self._once)

    def paintEvent(self, event: "QPaintEvent") -> None:
        """Once it is seen, go on."""
        super().paintEvent(event)
        QTimer.singleShot(0, self._once)

    def _once(self) -> None:
        go_on, self._go_on = self._go_on, None
        if go_on is not None:
            go_on()

    def _color(self, theme_name: str) -> None:
        theme, palette = theme_of(theme_name), self.palette()
        palette.setColor(QPalette.ColorRole.Window, QColor(theme.window))
        palette.setColor(QPalette.ColorRole.WindowText, QColor(theme.text))
        self.setPalette(palette)

    def _place(self, window: Any) -> None:
        """Where the window stood, if that is on a screen still."""
        screens = [screen.availableGeometry() for screen in QGuiApplication.screens()]
        if isinstance(window, list) and len(window) == 4 and all(type(each) is int for each in window):
            there = QRect(*window)
            if any(screen.contains(there) for screen in screens):
                self.setGeometry(there)
                return
        self.resize(_USUAL.boundedTo(self.screen().availableGeometry().size() - _FRAME))


def _in_the_middle(word: QLabel) -> QWidget:
    """The word with room on all sides. By stretches: the name ``Qt`` alone takes 25 ms to be looked up first."""
    around = QWidget()
    rows, row = QVBoxLayout(around), QHBoxLayout()
    row.addStretch()
    row.addWidget(word)
    row.addStretch()
    rows.addStretch()
    rows.addLayout(row)
    rows.addStretch()
    return around


def _kept_settings() -> dict[str, Any]:
    """The settings as they stand in their file, unchecked; empty where they cannot be read."""
    try:
        with (settings_folder() / "settings.json").open("rb") as file:
            kept = json.loads(file.read(_LARGEST_SETTINGS))
    except (OSError, ValueError, RecursionError):
        return {}
    return kept if isinstance(kept, dict) else {}
