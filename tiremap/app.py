"""Starts the window."""

import sys
from pathlib import Path

from PySide6.QtWidgets import QApplication

from tiremap.errors import TiremapError
from tiremap.session import Session
from tiremap.storage.job_file import read_job
from tiremap.ui.crash import CrashHook
from tiremap.ui.files import fresh_job
from tiremap.ui.main_window import MainWindow
from tiremap.ui.preferences import Preferences


def run(path: Path | None) -> int:
    """Open the window, with the job in a file if one is given, and stay until it is closed.

    A file that cannot be opened is told in the window, which then holds a fresh job. Returns Qt's exit code.
    """
    app = QApplication.instance() or QApplication(sys.argv[:1])
    app.setStyle("Fusion")
    app.setApplicationName("tiremap")
    hook = CrashHook()
    hook.install()
    preferences = Preferences()
    window, message = _window(path, preferences)
    hook.session = window.session
    if path is None:
        window.show_last_desk()
    window.show()
    if message:
        window.message.show_text(message)
    return app.exec()


def _window(path: Path | None, preferences: Preferences) -> tuple[MainWindow, str]:
    """The window, and what to tell about the file."""
    fresh = fresh_job(preferences)
    if path is None:
        return MainWindow(Session(fresh), preferences), ""
    try:
        session = Session(read_job(path), path)
    except TiremapError as error:
        return MainWindow(Session(fresh), preferences), str(error)
    preferences.keep_recent(path)
    return MainWindow(session, preferences), ""
