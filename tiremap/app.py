"""Starts the window: an empty one at once, and the program in its place as soon as it is loaded."""

import gc
import sys
from pathlib import Path

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QWidget

from tiremap.ui.first_window import FirstWindow

GIVE_WAY_MS = 400
"""How long the first window stays behind the program, for a window manager to hand the keyboard over."""


def run(path: Path | None) -> int:
    """Open the window, with the job in a file if one is given, and stay until it is closed.

    Returns Qt's exit code.
    """
    gc.disable()  # what is loaded stays: looking through it takes a fifth of loading; the window's keeper goes on
    app = QApplication.instance() or QApplication(sys.argv[:1])
    app.setStyle("Fusion")
    app.setApplicationName("tiremap")
    opened: list[QWidget] = []

    def open_behind() -> None:
        from tiremap.ui.opening import open_window

        try:
            if first.isVisible():  # closed meanwhile: nobody waits for it
                window = open_window(path)
                opened.append(window)
                gc.freeze()  # nor is it looked through again in the middle of a drag
                window.raise_()
                window.activateWindow()
        finally:
            # Not at once: the keyboard goes to the new window only while one of ours still has it.
            QTimer.singleShot(GIVE_WAY_MS, first.close)

    first = FirstWindow(open_behind)
    first.show()
    return app.exec()
