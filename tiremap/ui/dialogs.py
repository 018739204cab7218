"""The questions the window asks before it goes on: files, and what to do with unsaved work."""

import re
from pathlib import Path
from typing import Literal

from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

from tiremap.model.job import Job
from tiremap.storage.job_file import ChangedOnDisk
from tiremap.storage.unsaved_work import WorkFound
from tiremap.ui.language import marked, told, tr
from tiremap.ui.left_work import LeftWork, Wish
from tiremap.ui.two_versions import TwoVersions, Version

Leave = Literal["save", "discard", "stay"]

_JOBS = marked("Job files (*.json)")
_GUIDANCE = marked("Guidance (*.toml)")
_TABLES = marked("Table for a spreadsheet (*.csv)")
_LESSONS = marked("Lessons (*.toml)")
_PICTURES = marked("Picture (*.png);;PDF (*.pdf);;Drawing (*.svg)")
_TEMPLATES = marked("PDF (*.pdf)")
_SHEETS = marked("PDF (*.pdf);;Picture (*.png);;Drawing (*.svg)")


def ask_job_to_open(parent: QWidget, folder: str) -> Path | None:
    """The job file to open, or ``None``."""
    return _one_to_open(parent, tr("Open job"), folder, _JOBS)


def ask_where_to_save(parent: QWidget, suggested: str) -> Path | None:
    """Where to save the job, with its ending, or ``None``."""
    return _where_to_write(parent, tr("Save job as"), suggested, _JOBS)


def ask_where_to_write_sheet(parent: QWidget, suggested: str) -> Path | None:
    """Where to write the job sheet, with its ending, or ``None``."""
    return _where_to_write(parent, tr("Write job sheet"), suggested, _SHEETS)


def ask_where_to_write_template(parent: QWidget, suggested: str) -> Path | None:
    """Where to write a template, with its ending, or ``None``."""
    return _where_to_write(parent, tr("Write template"), suggested, _TEMPLATES)


def ask_folder_of_jobs(parent: QWidget, folder: str) -> Path | None:
    """The folder whose job files make the register, or ``None``."""
    chosen = QFileDialog.getExistingDirectory(parent, tr("Folder of jobs"), folder)
    return Path(chosen) if chosen else None


def ask_where_to_write_csv(parent: QWidget, suggested: str) -> Path | None:
    """Where to write the table of jobs, with its ending, or ``None``.

    It does not ask about writing over a file: nothing is ever written over one.
    """
    return _where_to_write(parent, tr("Write the jobs as a table"), suggested, _TABLES, over_a_file=False)


def ask_lesson_to_open(parent: QWidget) -> Path | None:
    """The lesson to open, or ``None``."""
    return _one_to_open(parent, tr("Open a lesson"), "", _LESSONS)


def ask_class_picture(parent: QWidget) -> Path | None:
    """Where to write a step of a lesson as a picture, with its ending, or ``None``."""
    return _where_to_write(parent, tr("Write the step as a picture"), "", _PICTURES)


def ask_guidance_to_take(parent: QWidget, folder: str) -> Path | None:
    """The file of a guidance another shop shared, or ``None``."""
    return _one_to_open(parent, tr("Take over a guidance"), folder, _GUIDANCE)


def ask_where_to_share(parent: QWidget, suggested: str) -> Path | None:
    """Where to write a copy of the shop's own guidance, with its ending, or ``None``.

    It does not ask about writing over a file: nothing is ever written over one.
    """
    return _where_to_write(parent, tr("Share the guidance"), suggested, _GUIDANCE, over_a_file=False)


def ask_about_unsaved(parent: QWidget, name: str) -> Leave:
    """What to do with the changes to a job before it is left."""
    buttons = QMessageBox.StandardButton
    box = QMessageBox(parent)
    box.setIcon(QMessageBox.Icon.Question)
    box.setWindowTitle(tr("Unsaved work"))
    box.setText(tr("{name} has changes that were not saved.", name=name))
    box.setInformativeText(tr("Save them before going on?"))
    box.setStandardButtons(buttons.Save | buttons.Discard | buttons.Cancel)
    box.setDefaultButton(buttons.Save)
    answers: dict[int, Leave] = {buttons.Save: "save", buttons.Discard: "discard"}
    return answers.get(box.exec(), "stay")


def ask_which_version(parent: QWidget, changed: ChangedOnDisk, mine: Job, unsaved: bool) -> Version:
    """Which of two versions of a job its file is to hold."""
    dialog = TwoVersions(changed, mine, unsaved, parent)
    dialog.exec()
    dialog.deleteLater()
    return dialog.answer


def ask_about_left_work(parent: QWidget, found: tuple[WorkFound, ...]) -> tuple[Wish, WorkFound]:
    """What to do with which of the works a stopped program left."""
    dialog = LeftWork(found, parent)
    dialog.exec()
    dialog.deleteLater()
    return dialog.wish, dialog.chosen


def ask_to_throw_away(parent: QWidget, name: str) -> bool:
    """Whether unsaved work is really not wanted."""
    buttons = QMessageBox.StandardButton
    box = QMessageBox(parent)
    box.setIcon(QMessageBox.Icon.Question)
    box.setWindowTitle(tr("Throw unsaved work away"))
    box.setText(tr("Throw the unsaved work on {name} away?", name=name))
    box.setInformativeText(tr("It cannot be brought back. Its file, if it has one, stays as it is."))
    box.setStandardButtons(buttons.Discard | buttons.Cancel)
    box.setDefaultButton(buttons.Cancel)
    return box.exec() == buttons.Discard


def tell_file_error(parent: QWidget, text: str) -> None:
    """A file could not be opened or written: nothing was lost, and here is why."""
    box = QMessageBox(QMessageBox.Icon.Warning, "Tiremap", text, QMessageBox.StandardButton.Ok, parent)
    box.exec()


def _one_to_open(parent: QWidget, title: str, folder: str, kinds: str) -> Path | None:
    chosen, _ = QFileDialog.getOpenFileName(parent, title, folder, told(kinds))
    return Path(chosen) if chosen else None


def _where_to_write(
    parent: QWidget, title: str, suggested: str, kinds: str, *, over_a_file: bool = True
) -> Path | None:
    """The chosen path; one without an ending of these kinds gets the first of them."""
    option = QFileDialog.Option(0) if over_a_file else QFileDialog.Option.DontConfirmOverwrite
    chosen, _ = QFileDialog.getSaveFileName(parent, title, suggested, told(kinds), options=option)
    if not chosen:
        return None
    path, endings = Path(chosen), re.findall(r"\*(\.\w+)", kinds)
    return path if path.suffix.lower() in endings else path.with_name(path.name + endings[0])
