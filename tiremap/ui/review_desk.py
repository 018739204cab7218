"""The Review desk: the shop's jobs at the left, the story of the chosen tire at the right."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QSplitter, QVBoxLayout, QWidget

from tiremap.ui.editor import Editor
from tiremap.ui.preferences import Preferences
from tiremap.ui.register_panel import RegisterPanel


class ReviewDesk(QWidget):
    """The register beside a tire's story.

    Signals: ``open_wanted(Path)`` a job file to work on at the Mark desk.
    """

    open_wanted = Signal(object)

    def __init__(self, editor: Editor, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.panel = RegisterPanel(editor, preferences)
        self.panel.open_wanted.connect(self.open_wanted)
        self.beside = QSplitter(Qt.Orientation.Horizontal)
        self.beside.setObjectName("review")
        self.beside.addWidget(self.panel)
        self.beside.addWidget(QLabel("Choose a job: what was done to its tire stands here."))
        self.beside.setSizes([820, 460])
        self.beside.setChildrenCollapsible(False)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 4)
        column.addWidget(self.beside)
