"""The Review desk: the shop's jobs at the left, the story of the chosen tire at the right."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QSplitter, QVBoxLayout, QWidget

from tiremap.storage.register import RegisterRow
from tiremap.ui.editor import Editor
from tiremap.ui.preferences import Preferences
from tiremap.ui.register_panel import RegisterPanel
from tiremap.ui.story_panel import StoryPanel


class ReviewDesk(QWidget):
    """The register beside a tire's story.

    Signals: ``open_wanted(Path)`` a job file to work on at the Mark desk; ``sign_wanted(Path)`` one to sign.
    """

    open_wanted = Signal(object)
    sign_wanted = Signal(object)

    def __init__(self, editor: Editor, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.panel = RegisterPanel(editor, preferences)
        self.panel.open_wanted.connect(self.open_wanted)
        self.story = StoryPanel(editor, preferences)
        self.story.sign_wanted.connect(self.sign_wanted)
        self.panel.tire_chosen.connect(self._tell)
        self.beside = QSplitter(Qt.Orientation.Horizontal)
        self.beside.setObjectName("review")
        self.beside.addWidget(self.panel)
        self.beside.addWidget(self.story)
        self.beside.setSizes([760, 520])
        self.beside.setChildrenCollapsible(False)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 4)
        column.addWidget(self.beside)

    def _tell(self, row: RegisterRow | None) -> None:
        self.story.show_row(row, self.panel.register)
