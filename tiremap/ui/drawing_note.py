"""A line of words over the drawings: where a dragged mark is, and that a click reached more than one."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QWidget

from tiremap.ui.language import tr

_MARGIN_PX = 6


class DrawingNote(QLabel):
    """Stands in the lower left corner of its parent, over it; hidden while it says nothing, never in the way."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("At the pointer"))
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setAutoFillBackground(True)
        self.setMargin(_MARGIN_PX)
        self.hide()

    def say(self, words: str) -> None:
        """Say something, or nothing with an empty text."""
        if words:
            # The window's palette: matplotlib gives the canvas a white one of its own.
            self.setPalette(self.window().palette())
            self.setText(words)
            self.resize(self.sizeHint().boundedTo(self.parentWidget().size()))
            self.move(_MARGIN_PX, self.parentWidget().height() - self.height() - _MARGIN_PX)
        self.setVisible(bool(words))
