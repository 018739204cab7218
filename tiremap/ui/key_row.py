"""A row of keys on the screen, for a pen or a glove: it types into the field of its window that has the focus."""

from functools import partial

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QGridLayout, QLineEdit, QPushButton, QSizePolicy, QWidget

from tiremap.ui.language import marked, told, tr

_NUMBERS = (*"1234567890", ".", "/", "-", " ", " to ", " in")
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_SPOKEN = {
    " ": marked("Space"),
    ".": marked("Point"),
    "/": marked("Slash"),
    "-": marked("Hyphen"),
    " to ": marked("to, between two gauges"),
    " in": marked("inches"),
}
_SHOWN = {" ": marked("space"), " to ": "to", " in": "in"}
_LETTERS_IN_A_ROW = 13
_WIDE_FROM = 3
"""Letters on a key from which it is wide."""


class KeyRow(QWidget):
    """Numbers in one row, letters under it on request. It never takes the focus itself.

    Everything it does a keyboard does as well, so Tab passes it by.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Keys on the screen"))
        texts = (*_NUMBERS, *_LETTERS)
        self.keys = {text: self._key(told(_SHOWN.get(text, text)), told(_SPOKEN.get(text, text))) for text in texts}
        self.back = self._key("⌫", tr("Erase the sign before"))
        self.enter = self._key(tr("Enter"), tr("Enter"))
        self.more = self._key(tr("ABC"), tr("Letters"))
        self.more.setCheckable(True)
        for text, key in self.keys.items():
            key.clicked.connect(partial(self._type, text))
        self.back.clicked.connect(partial(self._press, Qt.Key.Key_Backspace))
        self.enter.clicked.connect(partial(self._press, Qt.Key.Key_Return))
        self.more.toggled.connect(self._show_letters)
        self._lay_out()
        self._show_letters(False)

    def _type(self, text: str) -> None:
        for letter in text:
            self._send(0, letter)

    def _press(self, key: Qt.Key) -> None:
        self._send(key, "\r" if key == Qt.Key.Key_Return else "")

    def _send(self, key: int, text: str) -> None:
        """A key to the line of this window that has the focus; to nothing else, for there a key may remove a mark."""
        field = QApplication.focusWidget()
        if not isinstance(field, QLineEdit) or field.window() is not self.window():
            return
        for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
            QApplication.sendEvent(field, QKeyEvent(kind, key, Qt.KeyboardModifier.NoModifier, text))

    def _show_letters(self, shown: bool) -> None:
        for letter in _LETTERS:
            self.keys[letter].setVisible(shown)

    def _key(self, shown: str, spoken: str) -> QPushButton:
        key = QPushButton(shown, self)
        key.setAccessibleName(spoken)
        key.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        key.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        key.setObjectName("key" if len(shown) < _WIDE_FROM else "wide_key")
        key.setAutoDefault(False)
        return key

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(8, 4, 8, 4)
        grid.setSpacing(4)
        row = [*(self.keys[text] for text in _NUMBERS), self.back, self.enter, self.more]
        for column, key in enumerate(row):
            grid.addWidget(key, 0, column)
        for number, letter in enumerate(_LETTERS):
            grid.addWidget(self.keys[letter], 1 + number // _LETTERS_IN_A_ROW, number % _LETTERS_IN_A_ROW)
