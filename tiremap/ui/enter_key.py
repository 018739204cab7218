"""Enter presses the focused button of the window, as Space does; Qt lets it do so in dialogs alone."""

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QMainWindow, QPushButton, QToolButton, QWidget

_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class EnterKey(QObject):
    """Watches the buttons that take the focus. Ticks and answers of checks are left to Space: they are statements.

    An Enter that was typed in a field never presses the button the field handed the focus to, however long it is held.
    """

    def __init__(self, window: QMainWindow) -> None:
        super().__init__(window)
        self._window = window
        QApplication.instance().focusChanged.connect(self._focus_went)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Press the button."""
        if event.type() != QEvent.Type.KeyPress or not isinstance(event, QKeyEvent) or event.key() not in _ENTER:
            return False
        if not event.isAutoRepeat():
            watched.click()
        return True

    def _focus_went(self, _: QWidget | None, now: QWidget | None) -> None:
        if isinstance(now, QPushButton | QToolButton) and now.window() is self._window:
            now.installEventFilter(self)
