"""Where the window stood and how it was parted, from one day to the next; brought back onto the screen if need be."""

from typing import Literal

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QMainWindow, QSplitter, QWidget

from tiremap.storage.settings import Settings
from tiremap.ui.preferences import Preferences

_USUAL = QSize(1280, 800)
_FRAME = QSize(8, 40)
"""What a window manager draws around a window, px; where it draws less, nothing is lost."""
_GRIP = 120
"""So much of the title must lie on a screen for a mouse to catch the window, px."""


def put_back(window: QMainWindow, settings: Settings) -> None:
    """Size, place and parting as they were kept; 1280 x 800, or what the screen has room for, where nothing was.

    A screen may have gone or become smaller since: the window is never larger than the screen it lies on, and a title
    that could not be reached brings it to the middle of the first screen.
    """
    if settings.window is None:
        window.resize(_USUAL.boundedTo(window.screen().availableGeometry().size() - _FRAME))
    else:
        screens = [screen.availableGeometry() for screen in QGuiApplication.screens()]
        window.setGeometry(on_a_screen(QRect(*settings.window), screens))
    if settings.maximized:
        window.setWindowState(window.windowState() | Qt.WindowState.WindowMaximized)
    put_splitters_back(window, settings)


def put_splitters_back(part: QWidget, settings: Settings) -> None:
    """Part every named splitter inside a widget as it was kept."""
    for splitter in part.findChildren(QSplitter):
        sizes = settings.splitters.get(splitter.objectName(), ())
        if len(sizes) == splitter.count() and sum(sizes) > 0:
            splitter.setSizes(list(sizes))


def keep(window: QMainWindow, preferences: Preferences, desk: Literal["mark", "review"]) -> None:
    """Keep the window's place, its parting and the desk it was left at. A part never shown keeps what it had."""
    box = window.normalGeometry()
    shown = {
        splitter.objectName(): tuple(splitter.sizes())
        for splitter in window.findChildren(QSplitter)
        if splitter.objectName() and sum(splitter.sizes()) > 0
    }
    preferences.keep_quietly(
        window=(box.x(), box.y(), box.width(), box.height()),
        maximized=window.isMaximized(),
        splitters={**preferences.settings.splitters, **shown},
        last_desk=desk,
    )


def on_a_screen(box: QRect, screens: list[QRect]) -> QRect:
    """The box, no larger than a screen, and in the middle of the first one if its title cannot be caught."""
    title = QRect(box.left(), box.top() - _FRAME.height(), box.width(), _FRAME.height())
    for screen in screens:
        caught = screen.intersected(title)
        if caught.width() >= min(_GRIP, box.width()) and caught.height() >= _FRAME.height() // 2:
            return QRect(box.topLeft(), box.size().boundedTo(screen.size() - _FRAME))
    size = box.size().boundedTo(screens[0].size() - _FRAME)
    spare = screens[0].size() - size
    return QRect(screens[0].topLeft() + QPoint(spare.width() // 2, spare.height() // 2), size)
