"""A window of the test's own, as the tests of the window have it."""

import pytest
from PySide6.QtCore import QCoreApplication, QEvent

from tiremap.model.job import Job
from tiremap.session import Session
from tiremap.ui import dialogs
from tiremap.ui.main_window import MainWindow
from tiremap.ui.preferences import Preferences


@pytest.fixture
def open_window(qtbot, qapp, monkeypatch):
    """Opens a window on a job, with its drawing; after the test it is closed without questions and really gone."""
    qapp.setStyle("Fusion")
    monkeypatch.setattr(dialogs, "ask_about_unsaved", lambda parent, name: "discard")
    windows: list[MainWindow] = []

    def opened(job: Job | None = None, size: tuple[int, int] = (1280, 800)) -> MainWindow:
        window = MainWindow(Session(job), Preferences())
        windows.append(window)
        window.resize(*size)
        with qtbot.waitActive(window):
            window.show()
            window.activateWindow()
        window.desk.build_drawing()
        return window

    yield opened
    for window in windows:
        put_away(window)


def put_away(window: MainWindow) -> None:
    """Close it, and let Qt take it away at once."""
    type(window).close(window)
    window.deleteLater()
    QCoreApplication.sendPostedEvents(window, QEvent.Type.DeferredDelete)


def pytest_collection_modifyitems(items):
    """The offscreen platform warns about every window with a least size; real platforms do not."""
    for item in items:
        if "tests/state/" in item.path.as_posix():
            item.add_marker(pytest.mark.qt_log_ignore("does not support propagateSizeHints", extend=True))
