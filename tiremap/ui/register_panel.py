"""The register: a folder's jobs to seek through, with their figures, read in the background."""

from pathlib import Path

from PySide6.QtCore import QElapsedTimer, QEvent, Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut, QShowEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QProgressBar,
    QPushButton,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from tiremap.errors import TiremapError
from tiremap.resources import sample_jobs_folder
from tiremap.storage.register import Register, RegisterRow
from tiremap.ui import dialogs
from tiremap.ui.editor import Editor
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import fault, heading, tell_fault
from tiremap.ui.palettes import CONTROL_HEIGHTS, theme_of
from tiremap.ui.preferences import Preferences
from tiremap.ui.register_figures import RegisterFigures, code_says
from tiremap.ui.register_filters import RegisterFilters, Sought
from tiremap.ui.register_model import RegisterModel
from tiremap.ui.register_refresh import RegisterRefresh
from tiremap.ui.register_table import RegisterTable

_SHOW_EVERY_MS = 2000
"""While a folder is read, what was read so far is shown as often as this."""
_ABOUT = marked(
    "The register lists the jobs of a shop: every job file (*.json) in a folder and in the folders inside it.\n\n"
    "It finds a tire by its size, date code, tire, job or fleet number, shows how each job is answered and what "
    "decides it, and counts. Nothing is written among the jobs, and a file that cannot be read is listed with the "
    "reason."
)


class RegisterPanel(QWidget):
    """Follows the folder: it is read again when the window comes back, and by F5.

    Signals: ``tire_chosen(RegisterRow | None)`` the job chosen in the table; ``open_wanted(Path)`` a job to work on.
    """

    tire_chosen = Signal(object)
    open_wanted = Signal(object)

    def __init__(self, editor: Editor, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._tell = editor.tell
        self._preferences = preferences
        self._reading: RegisterRefresh | None = None
        self._all = 0
        self._shown = QElapsedTimer()
        self.register: Register | None = None
        self.jobs = RegisterModel()
        self.table = RegisterTable(self.jobs)
        self.filters = RegisterFilters()
        self.figures = RegisterFigures()
        self.folder = QLabel()
        self.choose, self.again = QPushButton(tr("Choose the f&older…")), QPushButton(tr("Read again (F5)"))
        self.begin, self.samples = QPushButton(tr("Choose the folder of jobs…")), QPushButton(tr("Look at the samples"))
        self.progress, self.stop = QProgressBar(), QPushButton(tr("&Stop"))
        self.trouble = fault()
        self.count = QLabel()
        self.every = QPushButton(tr("Show every &job"))
        self.unfold = QPushButton(tr("Show figu&res"))
        self.csv, self.open = QPushButton(tr("Write &CSV…")), QPushButton(tr("Open at the &Mark desk"))
        self._pages = QStackedWidget()
        self._lay_out()
        self._connect()
        self.show_looks()
        kept = preferences.settings.register_folder
        if kept is not None:
            self.show_folder(Path(kept))

    @property
    def reads(self) -> bool:
        """Whether the folder is being read just now."""
        return self._reading is not None

    def show_folder(self, folder: Path) -> None:
        """Show the jobs of a folder, and read it."""
        self.end_reading()
        self.register = Register(folder)
        self.folder.setToolTip(str(folder))
        self._show_folder_name()
        self._pages.setCurrentIndex(1)
        self.filters.words.setFocus()
        self.filters.clear()
        self.refresh()
        self._show_found()

    def refresh(self) -> None:
        """Read what changed in the folder, in the background; nothing while that is being done."""
        if self.register is None or self._reading is not None:
            return
        tell_fault(self.trouble, "")
        self._reading = RegisterRefresh(self.register.folder, self)
        self._reading.progress.connect(self._show_progress)
        self._reading.failed.connect(self._show_trouble)
        self._reading.finished.connect(self._have_read)
        self._reading.start()

    def end_reading(self) -> None:
        """Stop reading, keeping what was read, and wait for it: before another folder, or the window's end."""
        if self._reading is not None:
            reading, self._reading = self._reading, None
            reading.finished.disconnect(self._have_read)
            reading.stop()
            reading.wait()
            self._show_reading(False)

    def show_looks(self) -> None:
        """Take over theme, density and unit."""
        settings = self._preferences.settings
        self.jobs.show_looks(theme_of(settings.theme), settings.units)
        self.table.fit(CONTROL_HEIGHTS[settings.density])
        self._show_figures()

    def showEvent(self, event: QShowEvent) -> None:
        """Catch up with what was saved meanwhile."""
        super().showEvent(event)
        self.refresh()

    def changeEvent(self, event: QEvent) -> None:
        """Catch up when the window comes back."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.isVisible() and self.isActiveWindow():
            self.refresh()

    def _choose_folder(self) -> None:
        at = self._preferences.settings.register_folder or str(Path.home())
        folder = dialogs.ask_folder_of_jobs(self, at)
        if folder is not None:
            self._preferences.keep(register_folder=str(folder))
            self.show_folder(folder)

    def _show_samples(self) -> None:
        """Look at the samples this once: the shop's own folder stays the one remembered."""
        self.show_folder(sample_jobs_folder())

    def _show_progress(self, done: int, of: int) -> None:
        """Show how far it is, unless it is only a look at what did not change."""
        if done < of or self.progress.isVisible():
            self._show_reading(True)
            self.progress.setMaximum(max(1, of))
            self.progress.setValue(done)
            if self._shown.elapsed() > _SHOW_EVERY_MS:
                self._show_found()

    def _show_reading(self, reads: bool) -> None:
        self.progress.setVisible(reads)
        self.stop.setVisible(reads)
        self.again.setVisible(not reads)

    def _stop(self) -> None:
        if self._reading is not None:
            self._reading.stop()

    def _show_trouble(self, text: str) -> None:
        tell_fault(self.trouble, text)

    def _have_read(self) -> None:
        if self._reading.stopped:
            self._show_trouble(tr("Stopped: not every file was read. Read again to go on."))
        self._reading.deleteLater()
        self._reading = None
        had_focus = self.stop.hasFocus()
        self._show_reading(False)
        if had_focus:
            self.again.setFocus()
        self._show_found()

    def _show_found(self) -> None:
        """Show the jobs sought as the index stands; the chosen one stays chosen."""
        kept, near = self.table.chosen, self.table.currentIndex().row()
        self.table.blockSignals(True)
        self.jobs.show_jobs(self.register, self.filters.sought)
        if kept is not None:
            self.table.choose(kept.path, near)
        self.table.blockSignals(False)
        self.table.tell()
        self._show_counts()
        self._show_figures()
        self._shown.start()

    def _show_counts(self) -> None:
        found = self.jobs.rowCount()
        try:
            self._all, faulty = self.register.count(), self.register.count(faulty=True)
            self.filters.offer_reasons([(code, code_says(code), jobs) for code, _, jobs in self.register.deciding()])
        except TiremapError as error:
            self._show_trouble(str(error))
            return
        is_every = self.filters.sought == Sought()
        files = tr("1 file") if self._all == 1 else tr("{count:,} files", count=self._all)
        words = files if is_every else tr("{found:,} of {files}", found=found, files=files)
        if not self._all:
            words = tr("No job file (*.json) in this folder.") if self._reading is None else tr("Reading the folder…")
        elif faulty:
            words = tr("{words}; {faulty:,} cannot be read or answered", words=words, faulty=faulty)
        self.count.setText(words)
        self.every.setVisible(not is_every)
        self.csv.setEnabled(found > 0)

    def _fold(self, shown: bool) -> None:
        self.unfold.setText(tr("Hide figu&res") if shown else tr("Show figu&res"))
        self._show_figures()

    def _show_figures(self) -> None:
        self.figures.setVisible(self.unfold.isChecked())
        if self.register is None or not self.unfold.isChecked():
            return
        try:
            self.figures.show_register(self.register, theme_of(self._preferences.settings.theme))
        except TiremapError as error:
            self._show_trouble(str(error))

    def _row_chosen(self, row: RegisterRow | None) -> None:
        self.open.setEnabled(row is not None)
        self.tire_chosen.emit(row)

    def _open(self, row: RegisterRow) -> None:
        self.open_wanted.emit(self.register.folder / row.path)

    def _write_csv(self) -> None:
        path = dialogs.ask_where_to_write_csv(self, str(Path.home() / "register.csv"))
        if path is None:
            return
        try:
            rows = self.register.find(**self.filters.sought.asked(), limit=self.jobs.rowCount())
            self.register.write_csv(path, rows)
        except TiremapError as error:
            self._tell(str(error))

    def _show_folder_name(self) -> None:
        text = str(self.register.folder)
        room = max(60, self.folder.width())
        self.folder.setText(self.folder.fontMetrics().elidedText(text, Qt.TextElideMode.ElideMiddle, room))
        self.folder.setAccessibleName(tr("Folder: {folder}", folder=text))

    def resizeEvent(self, event) -> None:
        """Show as much of the folder's name as there is room for."""
        super().resizeEvent(event)
        if self.register is not None:
            self._show_folder_name()

    def _connect(self) -> None:
        for button in (self.choose, self.begin):
            button.clicked.connect(self._choose_folder)
        self.samples.clicked.connect(self._show_samples)
        self.again.clicked.connect(self.refresh)
        self.stop.clicked.connect(self._stop)
        self.every.clicked.connect(self.filters.clear)
        self.unfold.toggled.connect(self._fold)
        self.csv.clicked.connect(self._write_csv)
        self.open.clicked.connect(self.table.open_chosen)
        self.filters.changed.connect(self._show_found)
        self.jobs.failed.connect(self._show_trouble)
        self.table.row_chosen.connect(self._row_chosen)
        self.table.open_wanted.connect(self._open)
        self._preferences.changed.connect(self.show_looks)

    def _lay_out(self) -> None:
        self.unfold.setCheckable(True)
        QShortcut(QKeySequence("F5"), self).activated.connect(self.refresh)
        self.open.setEnabled(False)
        self.figures.hide()
        self.progress.setAccessibleName(tr("Files read"))
        self.progress.setMinimumWidth(150)
        self.progress.setFormat(tr("%v of %m files"))
        self.count.setAccessibleName(tr("How many jobs"))
        self.folder.setMinimumWidth(60)
        head = QHBoxLayout()
        head.addWidget(self.folder, 1)
        for widget in (self.progress, self.stop, self.again, self.choose):
            head.addWidget(widget)
        self._below = QSplitter(Qt.Orientation.Vertical)
        self._below.addWidget(self.table)
        self._below.addWidget(self.figures)
        self._below.setChildrenCollapsible(False)
        self._below.setSizes([400, 260])
        self.count.setWordWrap(True)
        foot = QHBoxLayout()  # the count stands above: beside four buttons it would have no room
        foot.addStretch(1)
        for button in (self.every, self.unfold, self.csv, self.open):
            foot.addWidget(button)
        whole = QWidget()
        column = QVBoxLayout(whole)
        column.setContentsMargins(0, 0, 6, 0)
        column.addLayout(head)
        column.addWidget(self.filters)
        column.addWidget(self.trouble)
        column.addWidget(self._below, 1)
        column.addWidget(self.count)
        column.addLayout(foot)
        self._pages.addWidget(self._empty_page())
        self._pages.addWidget(whole)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addWidget(self._pages)
        self._show_reading(False)  # only now: a widget without a place would be shown as a window

    def _empty_page(self) -> QWidget:
        page = QWidget()
        about = QLabel(told(_ABOUT))
        about.setWordWrap(True)
        buttons = QHBoxLayout()
        buttons.addWidget(self.begin)
        buttons.addWidget(self.samples)
        buttons.addStretch(1)
        column = QVBoxLayout(page)
        column.setContentsMargins(24, 24, 40, 24)
        column.setSpacing(14)
        title = heading(tr("The register"))
        title.setIndent(0)
        column.addWidget(title)
        column.addWidget(about)
        column.addLayout(buttons)
        column.addStretch(1)
        return page
