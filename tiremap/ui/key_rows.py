"""Keys on the screen in every window that is typed in: each has its own, and one row at a time can be pressed."""

from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QApplication, QDialog, QFormLayout, QLineEdit, QMainWindow, QWidget

from tiremap.ui.key_row import KeyRow

_FRAME = 40
"""px of the screen a title and a frame may take."""
_USES = (QEvent.Type.MouseButtonPress, QEvent.Type.KeyPress)


class KeyRows(QObject):
    """Gives each dialog that is typed in its own row, and lets only the row of the window worked in be pressed.

    A tap on another window's keys would bring it to the front and its own field the focus. It is worked in as soon as a
    field there is clicked, typed in or reached by key.
    """

    def __init__(self, window: QMainWindow) -> None:
        super().__init__(window)
        self._window = window
        self._shown = False
        self._at: QWidget | None = None
        """The window that has the focus."""
        QApplication.instance().focusChanged.connect(self._focus_went)

    def show(self, shown: bool) -> None:
        """Show the keys, made when they are first wanted: here between the desk and the message line."""
        self._shown = shown
        if shown and self._window.keys is None:
            self._window.keys = KeyRow(self._window)
            self._window.centralWidget().layout().insertWidget(1, self._window.keys)
        for row in self._rows():
            row.setVisible(shown)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Whoever clicks or types into a field works in its window."""
        if event.type() in _USES:
            self._use(self._row_of(watched.window()))
        return False

    def _focus_went(self, _: QWidget | None, now: QWidget | None) -> None:
        before, self._at = self._at, None if now is None else now.window()
        if not self._shown or now is None or not self._is_ours(now.window()):
            return
        row = self._row_of(now.window())
        if row is None and isinstance(now, QLineEdit) and isinstance(now.window(), QDialog):
            row = _given_to(now.window())
        if row is None:
            return
        others = [each for each in self._rows() if each is not row and each.isVisible() and each.isEnabled()]
        if row.isEnabled() or before is now.window() or not others:
            self._use(row)
        else:
            now.installEventFilter(self)  # it came to the front, by whatever: it is used once it is clicked or typed in

    def _use(self, row: KeyRow | None) -> None:
        for each in self._rows() if row is not None else ():
            each.setEnabled(each is row)

    def _rows(self) -> list[KeyRow]:
        return self._window.findChildren(KeyRow)

    def _row_of(self, window: QWidget) -> KeyRow | None:
        return next((each for each in self._rows() if each.window() is window), None)

    def _is_ours(self, window: QWidget | None) -> bool:
        while window is not None and window is not self._window:
            window = window.parentWidget()
        return window is not None


def _given_to(dialog: QDialog) -> KeyRow:
    """A row of its own under all a dialog holds, which grows by it, in height as far as the screen has room."""
    row, layout = KeyRow(dialog), dialog.layout()
    if isinstance(layout, QFormLayout):
        layout.addRow(row)
    else:
        layout.addWidget(row)
    row.show()
    dialog.setMinimumWidth(max(dialog.minimumWidth(), dialog.minimumSizeHint().width()))
    room = dialog.screen().availableGeometry().height() - _FRAME
    dialog.resize(dialog.width(), max(dialog.height(), min(dialog.height() + row.sizeHint().height(), room)))
    return row
