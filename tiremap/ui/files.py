"""New, open, save: the job and its file. Unsaved work is never lost without asking."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from tiremap.edits.job_card import choose_rule_set
from tiremap.errors import TiremapError
from tiremap.model.job import Job
from tiremap.session import Session
from tiremap.storage.job_file import read_job, write_job
from tiremap.ui import dialogs
from tiremap.ui.language import tr
from tiremap.ui.preferences import Preferences


class JobFiles(QObject):
    """The file actions of one window.

    Signals: ``opened()`` after another job stands in the window.
    """

    opened = Signal()

    def __init__(self, session: Session, preferences: Preferences, window: QWidget) -> None:
        super().__init__(window)
        self._session = session
        self._preferences = preferences
        self._window = window

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

        self._write_as_sheet(write_sheet, "job sheet", "")

    def write_measuring_sheet(self) -> None:
        """Ask where to write the sheet that says what is still to measure, and write it."""
        from tiremap.render.measuring_sheet import write_measuring_sheet  # loads matplotlib

        self._write_as_sheet(write_measuring_sheet, "measuring sheet", " to measure")

    def write_template(self) -> None:
        """Ask where to write the template at true scale, and write it."""
        from tiremap.render.template import write_template  # loads matplotlib

        self._write_as_sheet(write_template, "template", " template", dialogs.ask_where_to_write_template)

    def show_preview(self) -> None:
        """Show the job sheet as it will print, in a window of its own."""
        from tiremap.render.sheet import sheet_pages  # loads matplotlib
        from tiremap.ui.print_preview import PrintPreview

        self._finish_typing()
        paper = self._preferences.paper
        pages = sheet_pages(self._session.assessment, unit=self._preferences.settings.units, page=paper)
        preview = PrintPreview(pages, paper, self._window)
        preview.pdf_wanted.connect(self.write_sheet)
        preview.show()

    def _write_as_sheet(
        self, write: Callable[..., None], name: str, ending: str,
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
            write_job(path, self._session.job)
        except TiremapError as error:
            dialogs.tell_file_error(self._window, str(error))
            return False
        self._session.saved(path)
        self._preferences.keep_recent(path)
        return True

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
