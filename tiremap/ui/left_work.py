"""Work that a stopped program left unsaved: offered at the next start, removed only on the user's word."""

from pathlib import Path
from typing import Literal

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from tiremap.edits.difference import Difference, differences
from tiremap.errors import TiremapError
from tiremap.storage.job_file import read_job
from tiremap.storage.unsaved_work import Work, WorkFound
from tiremap.ui.difference_table import DifferenceTable
from tiremap.ui.help_here import give_help_key
from tiremap.ui.language import tr
from tiremap.ui.layouts import heading

Wish = Literal["open", "throw_away", "later"]
_LIST_HEIGHT = 110
"""Greatest height of the list, px: about four jobs; more scroll."""


class LeftWork(QDialog):
    """Lists what was left, with what differs from its file; ``wish`` is "later" until something is chosen."""

    def __init__(self, found: tuple[WorkFound, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.wish: Wish = "later"
        self.found = found
        self.setWindowTitle(tr("Unsaved work was kept"))
        self.resize(720, 520)
        give_help_key(self)
        self.jobs = QListWidget()
        self.jobs.setAccessibleName(tr("Jobs with unsaved work"))
        self.jobs.setMaximumHeight(_LIST_HEIGHT)
        self.says = QLabel()
        self.says.setWordWrap(True)
        self.says.setTextFormat(Qt.TextFormat.PlainText)
        self.table = DifferenceTable(tr("Saved"), tr("Unsaved"))
        self.open_it = self._button(tr("&Open it"), "open")
        self.throw_away = self._button(tr("&Throw it away…"), "throw_away")
        self._lay_out()
        for each in found:
            self.jobs.addItem(QListWidgetItem(_named(each)))
        self.jobs.currentRowChanged.connect(self._show)
        self.jobs.setCurrentRow(0)
        self.open_it.setDefault(True)

    @property
    def chosen(self) -> WorkFound:
        """The one the wish is about."""
        return self.found[self.jobs.currentRow()]

    def _show(self, row: int) -> None:
        found = self.found[row]
        self.open_it.setEnabled(found.work is not None)
        says, differing = (found.why, ()) if found.work is None else _compared(found.work)
        self.says.setText(says)
        self.table.show_differences(differing)

    def _button(self, text: str, wish: Wish) -> QPushButton:
        button = QPushButton(text)
        button.setProperty("wish", wish)
        button.clicked.connect(self._choose)
        return button

    def _choose(self) -> None:
        self.wish = self.sender().property("wish")
        self.accept()

    def _lay_out(self) -> None:
        buttons = QDialogButtonBox()
        for button in (self.open_it, self.throw_away):
            buttons.addButton(button, QDialogButtonBox.ButtonRole.ActionRole)
        self.later = buttons.addButton(tr("&Not now"), QDialogButtonBox.ButtonRole.RejectRole)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.addWidget(heading(tr("Tiremap was stopped before this work was saved")))
        column.addWidget(self.jobs)
        column.addWidget(self.says)
        column.addWidget(self.table, 1)
        column.addWidget(buttons)


def _named(found: WorkFound) -> str:
    """What job, and when it was kept."""
    if found.work is None:
        return tr("{file}: cannot be read", file=found.path.name)
    at = found.work.kept.astimezone()
    return tr("{job}, last worked on {when}", job=name_of_found(found), when=f"{at:%Y-%m-%d %H:%M:%S}")


def name_of_found(found: WorkFound) -> str:
    """What the job is called: its file, else its number, else new; what cannot be read by what it is kept in."""
    if found.work is None:
        return found.path.name
    return Path(found.work.file).name if found.work.file else found.work.job.job_number or tr("New job")


def _compared(work: Work) -> tuple[str, tuple[Difference, ...]]:
    """What the work is compared with, and what differs."""
    if work.file is None:
        says = tr("It was never saved to a file. This was entered:")
        return says, differences(work.opened_as, work.job)
    try:
        stands = read_job(Path(work.file))
    except TiremapError as error:
        says = tr("{why} This differs from the job as it was opened:", why=error)
        return says, differences(work.opened_as, work.job)
    return tr("This differs from {file} as it stands now:", file=work.file), differences(stands, work.job)
