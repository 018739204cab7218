"""The Review desk: the shop's jobs at the left, the story of the chosen tire at the right."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QSplitter, QVBoxLayout, QWidget

from tiremap.ui.editor import Editor
from tiremap.ui.preferences import Preferences


class ReviewDesk(QWidget):
    """The register beside a tire's story.

    Signals: ``open_wanted(Path)`` a job file to work on at the Mark desk.
    """

    open_wanted = Signal(object)

    def __init__(self, editor: Editor, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.beside = QSplitter(Qt.Orientation.Horizontal)
        self.beside.addWidget(QLabel("The shop's jobs"))
        self.beside.addWidget(QLabel("Choose a job: what was done to its tire stands here."))
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 4)
        column.addWidget(self.beside)
