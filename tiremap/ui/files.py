"""New, open, save: the job and its file. Unsaved work is never lost without asking."""

import os
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from PySide6.QtCore import QEvent, QObject, QTimer, Signal
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget

from tiremap.edits.job_card import choose_rule_set
from tiremap.errors import TiremapError
from tiremap.model.job import Job
from tiremap.session import Session
from tiremap.storage.job_file import ChangedOnDisk, changed_meanwhile, read_job, write_job
from tiremap.storage.recovery import keep_bytes, keep_copy
from tiremap.storage.unsaved_work import Work
from tiremap.ui import dialogs
from tiremap.ui.language import tr
from tiremap.ui.preferences import Preferences


class JobFiles(QObject):
    """The file actions of one window.

    Signals: ``opened()`` after another job stands in the window; ``told(str)`` which file was written, or where a
    version that gave way is kept.
    """

    opened = Signal()
    told = Signal(str)

    def __init__(self, session: Session, preferences: Preferences, window: QWidget) -> None:
        super().__init__(window)
        self._session = session
        self._preferences = preferences
        self._window = window
        self._seen: tuple[Path, int, int] | None = None
        window.installEventFilter(self)

    @property
    def name(self) -> str:
        """What the job is called in the title: its file, else its number, else new."""
        if self._session.path is not None:
            return self._session.path.name
        return self._session.job.job_number or tr("New job")

    def new(self) -> None:
        """A fresh job, by the guidance the shop once chose."""
        if self.may_leave():
            self._session.load(fresh_job(self._preferences), None)
            self.opened.emit()

    def open(self) -> None:
        """Ask for a job file and open it."""
        if not self.may_leave():
            return
        path = dialogs.ask_job_to_open(self._window, self._folder())
        if path is not None:
            self._load(path)

    def open_path(self, path: Path) -> None:
        """Open a job file, after asking about unsaved work."""
        if self.may_leave():
            self._load(path)

    def open_sample(self, path: Path) -> None:
        """Open a sample as a job without a file, so that saving never overwrites the sample."""
        if self.may_leave():
            self._load(path, as_sample=True)

    def save(self) -> bool:
        """Save to the job's file, asking for one if it has none; whether it is saved now."""
        self._finish_typing()
        if self._session.path is None:
            return self.save_as()
        return self._write(self._session.path)

    def save_as(self) -> bool:
        """Ask where to save, and save there; whether it is saved now."""
        self._finish_typing()
        number = self._session.job.job_number or "job"
        suggested = str(self._session.path or Path(self._folder()) / f"{number}.json")
        path = dialogs.ask_where_to_save(self._window, suggested)
        return path is not None and self._write(path)

    def write_sheet(self) -> None:
        """Ask where to write the job sheet, and write it."""
        from tiremap.render.sheet import write_sheet  # loads matplotlib

        self._write_as_sheet(write_sheet, tr("Job sheet"), "job sheet", "")

    def write_measuring_sheet(self) -> None:
        """Ask where to write the sheet that says what is still to measure, and write it."""
        from tiremap.render.measuring_sheet import write_measuring_sheet  # loads matplotlib

        self._write_as_sheet(write_measuring_sheet, tr("Measuring sheet"), "measuring sheet", " to measure")

    def write_template(self) -> None:
        """Ask where to write the template at true scale, and write it."""
        from tiremap.render.template import write_template  # loads matplotlib

        ask = dialogs.ask_where_to_write_template
        self._write_as_sheet(write_template, tr("Template"), "template", " template", ask)

    def show_preview(self) -> None:
        """Show the job sheet as it will print, in a window of its own."""
        from tiremap.render.sheet import sheet_pages  # loads matplotlib
        from tiremap.ui.print_preview import PrintPreview

        self._finish_typing()
        paper = self._preferences.paper
        pages = sheet_pages(self._session.assessment, unit=self._preferences.settings.units, page=paper)
        preview = PrintPreview(pages, paper, self._window)
        preview.pdf_wanted.connect(self.write_sheet)
        self.told.connect(preview.said.setText)  # it stands before the window's message line
        preview.show()

    def _write_as_sheet(
        self, write: Callable[..., None], what: str, name: str, ending: str,
        ask: Callable[[QWidget, str], Path | None] | None = None,
    ) -> None:
        self._finish_typing()
        stem = f"{self._session.path.stem}{ending}" if self._session.path else name
        ask = ask or dialogs.ask_where_to_write_sheet
        path = ask(self._window, str(Path(self._folder()) / f"{stem}.pdf"))
        if path is None:
            return
        try:
            write(self._session.assessment, path, unit=self._preferences.settings.units, page=self._preferences.paper)
        except TiremapError as error:
            dialogs.tell_file_error(self._window, str(error))
        else:
            self.told.emit(tr("{what} written to {path}", what=what, path=path))

    def may_leave(self) -> bool:
        """Whether the present job may be left: saved, or the user said so."""
        self._finish_typing()
        if not self._session.unsaved:
            return True
        answer = dialogs.ask_about_unsaved(self._window, self.name)
        return self.save() if answer == "save" else answer == "discard"

    def _finish_typing(self) -> None:
        """What is typed in the field with the focus goes into the job first: a key for Save does not leave a field."""
        field = self._window.focusWidget()
        if isinstance(field, QLineEdit):
            field.clearFocus()
            if field.isVisible():
                field.setFocus()

    def _load(self, path: Path, as_sample: bool = False) -> None:
        try:
            self._session.load(read_job(path), None if as_sample else path)
        except TiremapError as error:
            dialogs.tell_file_error(self._window, str(error))
            return
        if not as_sample:
            self._preferences.keep_recent(path)
        self.opened.emit()

    def _write(self, path: Path) -> bool:
        try:
            write_job(path, self._session.job, self._session.saved_job if self._is_open(path) else None)
        except ChangedOnDisk as changed:
            return self._settle(changed)
        except TiremapError as error:
            dialogs.tell_file_error(self._window, str(error))
            return False
        self._saved(path)
        self.told.emit(tr("Saved in {path}", path=path))
        return True

    def _saved(self, path: Path) -> None:
        self._seen = _stamp(path)
        self._session.saved(path)
        self._preferences.keep_recent(path)

    def _is_open(self, path: Path) -> bool:
        """Whether it is the file of the job in the window, by whatever name."""
        return self._session.path is not None and os.path.realpath(path) == os.path.realpath(self._session.path)

    def look(self) -> None:
        """Look whether another program has changed the job's file; ask which version is to stand if it has.

        Where nothing was written since the last look this costs one question to the file system.
        """
        path = self._session.path
        if path is None or QApplication.activeModalWidget() is not None:
            return
        stamp = _stamp(path)
        if stamp == self._seen:
            return
        self._seen = stamp
        try:
            changed = changed_meanwhile(path, self._session.saved_job)
        except TiremapError:  # out of reach just now: saving says so, and asks again
            return
        if changed is not None:
            self._finish_typing()
            self._settle(changed)

    def _settle(self, changed: ChangedOnDisk) -> bool:
        """Let the user choose between two versions of the job; whether what stands in the window is saved now."""
        answer = dialogs.ask_which_version(self._window, changed, self._session.job, self._session.unsaved)
        if answer == "other_name":
            return self.save_as()
        if answer == "later":
            return False
        try:
            return self._keep_mine(changed) if answer == "mine" else self._take_theirs(changed)
        except ChangedOnDisk as again:  # it was written once more while the question stood
            return self._settle(again)
        except TiremapError as error:
            dialogs.tell_file_error(self._window, str(error))
            return False

    def _keep_mine(self, changed: ChangedOnDisk) -> bool:
        kept = keep_bytes(changed.data, datetime.now())
        write_job(changed.path, self._session.job, changed.theirs)
        self._saved(changed.path)
        self.told.emit(tr("Saved in {path}. What it held before is kept in {kept}", path=changed.path, kept=kept))
        return True

    def _take_theirs(self, changed: ChangedOnDisk) -> bool:
        kept = keep_copy(self._session.job, datetime.now())
        self._session.load(changed.theirs, changed.path)
        self.opened.emit()
        self.told.emit(tr("The version that stood here is kept in {path}", path=kept))
        return True

    def take_up(self, work: Work) -> bool:
        """Go on with work that was left unsaved: its file stays as it is until it is saved; whether it stands here."""
        if not self.may_leave():
            return False
        self._session.load(work.opened_as, None if work.file is None else Path(work.file))
        self._session.apply(tr("Work taken up again"), work.job)
        self.opened.emit()
        return True

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """When the window gets the focus, another program may have been at work."""
        if event.type() == QEvent.Type.WindowActivate:
            QTimer.singleShot(0, self.look)
        return super().eventFilter(watched, event)

    def _folder(self) -> str:
        if self._session.path is not None:
            return str(self._session.path.parent)
        recent = self._preferences.settings.recent_files
        return str(Path(recent[0]).parent) if recent else str(Path.home())


def fresh_job(preferences: Preferences) -> Job:
    """A job of which nothing is known; its guidance is the shop's own choice, if it ever made one."""
    try:
        return choose_rule_set(Job(), preferences.settings.rule_set)
    except TiremapError:  # a rule set that is no longer there
        return Job()


def _stamp(path: Path) -> tuple[Path, int, int] | None:
    """A file, when it was last written, ns, and its size; ``None`` where that cannot be told."""
    try:
        stands = path.stat()
    except (OSError, ValueError):
        return None
    return path, stands.st_mtime_ns, stands.st_size
