"""A job file that was changed by another program or window while it was open here: both versions, and four ways on."""

from typing import Literal

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QLabel, QPushButton, QVBoxLayout, QWidget

from tiremap.edits.difference import differences
from tiremap.model.job import Job
from tiremap.storage.job_file import ChangedOnDisk, first_decision_lost
from tiremap.ui.difference_table import DifferenceTable
from tiremap.ui.help_here import give_help_key
from tiremap.ui.language import tr
from tiremap.ui.layouts import Beside, faint, heading

Version = Literal["mine", "theirs", "other_name", "later"]


class TwoVersions(QDialog):
    """Shows what differs and asks which version the file is to hold; ``answer`` is "later" until one is chosen."""

    def __init__(self, changed: ChangedOnDisk, mine: Job, unsaved: bool, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.answer: Version = "later"
        self.setWindowTitle(tr("Changed by another program or window"))
        self.resize(720, 480)
        give_help_key(self)
        self.says = QLabel(_says(changed, mine, unsaved))
        self.says.setWordWrap(True)
        self.says.setTextFormat(Qt.TextFormat.PlainText)
        self.table = DifferenceTable(tr("Here"), tr("In the file"))
        self.table.show_differences(differences(mine, changed.theirs) if changed.theirs is not None else ())
        self.table.setVisible(changed.theirs is not None)
        self.keep = self._button(tr("&Keep mine"), "mine")
        self.keep.setEnabled(changed.theirs is None or first_decision_lost(changed.theirs, mine) is None)
        self.take = self._button(tr("&Take theirs"), "theirs")
        self.take.setEnabled(changed.theirs is not None)
        self.other = self._button(tr("&Save mine under another name…"), "other_name")
        self._lay_out()
        (self.other if unsaved or changed.theirs is None else self.take).setDefault(True)

    def _button(self, text: str, answer: Version) -> QPushButton:
        button = QPushButton(text)
        button.setProperty("version", answer)
        button.clicked.connect(self._choose)
        return button

    def _choose(self) -> None:
        self.answer = self.sender().property("version")
        self.accept()

    def _lay_out(self) -> None:
        self.later = QPushButton(tr("&Decide later"))
        self.later.clicked.connect(self.reject)
        column = QVBoxLayout(self)
        column.addWidget(heading(tr("Two versions of one job")))
        column.addWidget(self.says)
        column.addWidget(self.table, 1)
        column.addWidget(faint(tr("A copy of the version that gives way is kept in any case.")))
        column.addWidget(Beside(self.keep, self.take, self.other, self.later))


def _says(changed: ChangedOnDisk, mine: Job, unsaved: bool) -> str:
    """What happened, and why something is not offered."""
    says = tr("{path} was changed by another program or window since it was opened here.", path=changed.path)
    if unsaved:
        says += " " + tr("Here there are changes that were not saved.")
    if changed.theirs is None:
        return says + " " + tr("What it holds now cannot be opened: {why}", why=changed.why)
    if first_decision_lost(changed.theirs, mine) is not None:
        says += " " + tr("It holds a decision that is not in the job here, so it is not replaced by it.")
    return says
