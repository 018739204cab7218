"""Windows for tests: opened on a job with their drawing, and really gone afterwards."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager

from PySide6.QtCore import QCoreApplication, QEvent

from tiremap.model.job import Job
from tiremap.session import Session
from tiremap.ui.main_window import MainWindow
from tiremap.ui.preferences import Preferences


@contextmanager
def windows_put_away(qtbot) -> Iterator[Callable[..., MainWindow]]:
    """A function that opens a window on a job; at the end all are closed."""
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
