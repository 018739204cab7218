"""A tire's story at the Review desk: its strip, where one more repair could go, the timeline, and the sign-off."""

from pathlib import Path

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QHeaderView,
    QPushButton,
    QSplitter,
    QTableWidget,
    QTableWidgetItem,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.drawing.decision_words import overtaken_said
from tiremap.drawing.said import said_in
from tiremap.edits.decisions import overtaken_decision
from tiremap.errors import TiremapError
from tiremap.model.job import Answer, Job
from tiremap.resources import sample_jobs_folder
from tiremap.storage.job_file import read_job
from tiremap.storage.register import Register, RegisterRow
from tiremap.storage.tire_story import TireStory, story_of, with_every_repair
from tiremap.ui import story_rows
from tiremap.ui.answer_symbol import answer_icon
from tiremap.ui.compare_rows import compared
from tiremap.ui.editor import Editor
from tiremap.ui.free_places_bar import FreePlacesBar
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import faint, fault, heading, tell_fault
from tiremap.ui.palettes import theme_of
from tiremap.ui.preferences import Preferences
from tiremap.ui.roomy_cells import make_readable, stretch_column
from tiremap.ui.story_strip import StoryStrip
from tiremap.ui.wording import ANSWER_WORDS

_NOTHING = marked("Choose a job: what was done to its tire stands here.")
_MOST_FILES = 40
"""Job files of one tire that are told: each is assessed, and the panel must follow the arrow keys."""
_REST_MS = 60
"""How long a choice must rest before its story is gathered, so that a held arrow key does not."""
_STORY = (marked("No."), marked("Date"), marked("What, and where"), marked("Answer"))
_GUIDANCE = (marked("Guidance"), marked("Answer"), marked("What decides"))


class StoryPanel(QWidget):
    """Follows the chosen row of the register, and the open job where that is the one chosen. It changes no job.

    Signals: ``sign_wanted(Path)`` a decision is to be recorded in that job file.
    """

    sign_wanted = Signal(object)

    def __init__(self, editor: Editor, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._tell_user = editor.session, editor.tell
        self._preferences = preferences
        self._row: RegisterRow | None = None
        self._register: Register | None = None
        self._job: Job | None = None
        self._assessment: Assessment | None = None
        self.story: TireStory | None = None
        self.title = heading(told(_NOTHING))
        self.title.setAccessibleName(tr("The tire"))
        self.title.setWordWrap(True)
        self.faults = fault()
        self.faults.setAccessibleName(tr("What cannot be told"))
        self.sign = QPushButton(tr("Record the &decision…"))
        self.sign.setToolTip(tr("Open this job and sign what is decided"))
        self.strip = StoryStrip()
        self.free = FreePlacesBar()
        self.timeline = _table(tr("Story of the tire"), _STORY, stretched=2)
        self.guidance = _table(tr("The job by every guidance"), _GUIDANCE, stretched=2)
        self.remarks = faint()
        self.remarks.setAccessibleName(tr("Beside the story"))
        self.tabs = QTabWidget()
        self._rest = QTimer(self, singleShot=True, interval=_REST_MS)
        self._lay_out()
        self._rest.timeout.connect(self._gather)
        self.sign.clicked.connect(self.ask_to_sign)
        self.tabs.currentChanged.connect(self._compare)
        self.free.unit_chosen.connect(self._show_free)
        self._session.listen(self._session_changed)
        preferences.changed.connect(self._gather_soon)
        self._show_nothing(told(_NOTHING))

    @property
    def path(self) -> Path | None:
        """The chosen job file."""
        return None if self._row is None or self._register is None else self._register.folder / self._row.path

    def show_row(self, row: RegisterRow | None, register: Register) -> None:
        """Tell the story of the tire of that row, from every file of the register with its tire number."""
        self._row, self._register = row, register
        self._gather_soon()

    def ask_to_sign(self) -> None:
        """Ask for the chosen job's decision to be recorded; no sample is signed."""
        if self._job is None:
            self._tell_user(tr("Choose a job to record its decision."))
        elif self.path.parent == sample_jobs_folder():
            self._tell_user(tr("A sample is not signed. Open it and save it as a job of your own."))
        else:
            self.sign_wanted.emit(self.path)

    def showEvent(self, event: QShowEvent) -> None:
        """Catch up with what was chosen or edited meanwhile."""
        super().showEvent(event)
        self._gather_soon()

    def _session_changed(self) -> None:
        if self.path is not None and self._session.path == self.path:
            self._gather_soon()

    def _gather_soon(self) -> None:
        if self.isVisible():
            self._rest.start()

    def _gather(self) -> None:
        """Read every job of the tire and show what they tell together."""
        row, path = self._row, self.path
        if row is None or path is None:
            self._show_nothing(told(_NOTHING))
            return
        try:
            self._job = self._read(path)
            rows = self._register.of_tire(row.tire_number) if row.tire_number else [row]
        except TiremapError as error:
            self._show_nothing(str(error))
            return
        gathered, faults = [], []
        for each in rows[:_MOST_FILES]:
            place = self._register.folder / each.path
            try:
                gathered.append((place, self._job if place == path else self._read(place)))
            except TiremapError as error:
                faults.append(str(error))
        if path not in [place for place, _ in gathered]:  # the index is older than the file
            gathered.append((path, self._job))
        self.story = story_of(gathered)
        self._show(path, faults, _MOST_FILES if len(rows) > _MOST_FILES else None)

    def _read(self, path: Path) -> Job:
        return self._session.job if self._session.path == path else read_job(path)

    def _show(self, path: Path, faults: list[str], most_files: int | None) -> None:
        drawn, left_out = with_every_repair(self._job, path, self.story)
        own = assess(self._job, advise=False)
        tire = self._job.tire
        number = (
            tr("Tire {number}", number=tire.number)
            if tire.number
            else tr("A tire without a number: this job alone tells of it")
        )
        self.title.setText(" · ".join(part for part in (number, tire.size_code, path.name) if part))
        overtaken = overtaken_decision(own)
        faults = [*faults, *([overtaken_said(overtaken)] if overtaken is not None else [])]
        tell_fault(self.faults, " ".join(faults))
        self.remarks.setText(" ".join(story_rows.remarks(self.story, left_out, most_files)))
        self.remarks.setVisible(bool(self.remarks.text()))
        self._tell()
        for widget in self._parts:
            widget.setVisible(True)
        self._assessment = own if drawn is self._job else assess(drawn, advise=False)
        self.free.show_assessment(self._assessment, None, self._preferences.settings.units)
        self._show_free()
        self._compare()

    def _show_nothing(self, why: str) -> None:
        self._job = self.story = None
        self.title.setText(why)
        tell_fault(self.faults, "")
        for widget in self._parts:
            widget.setVisible(False)

    def _tell(self) -> None:
        unit = self._preferences.settings.units
        self.timeline.setRowCount(len(self.story.entries))
        for line, entry in enumerate(self.story.entries):
            words = (
                str(entry.number), story_rows.date_said(entry), story_rows.what_said(entry, unit),
                story_rows.answer_said(entry),
            )
            self._fill(self.timeline, line, words, 3, entry.answer, strong=entry.against_answer)

    def _compare(self) -> None:
        """The rule sets side by side, worked out only where they are looked at."""
        if self._job is None or self.tabs.currentWidget() is not self.guidance:
            return
        rows, unit = compared(self._job), self._preferences.settings.units
        self.guidance.setRowCount(len(rows))
        for line, row in enumerate(rows):
            answer = row.assessment.answer
            title = tr("{title}\n(this job follows it)", title=row.title_lines) if row.own else row.title_lines
            self._fill(
                self.guidance, line, (title, told(ANSWER_WORDS[answer]), said_in(row.decides_says, unit)), 1, answer,
                strong=row.own,
            )

    def _fill(
        self, table: QTableWidget, line: int, words: tuple[str, ...], at: int, answer: Answer | None, strong: bool
    ) -> None:
        """One line of a table, with the answer's symbol in the column ``at``."""
        for column, text in enumerate(words):
            item = QTableWidgetItem(text)
            item.setToolTip(text)
            item.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
            if strong:
                font = item.font()
                font.setBold(True)
                item.setFont(font)
            if column == at and answer is not None:
                item.setIcon(answer_icon(answer, theme_of(self._preferences.settings.theme)))
            table.setItem(line, column, item)

    def _show_free(self) -> None:
        """The strip with what is free on it. It is whole in view, so there is nothing to turn it to."""
        self.free.turn_there.hide()
        self.strip.show_assessment(self._assessment, self.free.places, theme_of(self._preferences.settings.theme))

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.addWidget(self.title, 1)
        head.addWidget(self.sign, 0, Qt.AlignmentFlag.AlignTop)
        upper = QWidget()
        drawn = QVBoxLayout(upper)
        drawn.setContentsMargins(0, 0, 0, 0)
        drawn.addWidget(self.strip, 1)
        drawn.addWidget(self.free)
        self.free.show()  # it starts hidden; shown before it has a parent, it would be a window
        self.tabs.addTab(self.timeline, tr("S&tory"))
        self.tabs.addTab(self.guidance, tr("By every gu&idance"))
        self.tabs.setAccessibleName(tr("Story or guidance"))
        parts = QSplitter(Qt.Orientation.Vertical)
        parts.addWidget(upper)
        parts.addWidget(self.tabs)
        parts.setChildrenCollapsible(False)
        parts.setSizes([380, 260])
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 0, 0, 0)
        column.addLayout(head)
        column.addWidget(self.faults)
        column.addWidget(parts, 1)
        column.addWidget(self.remarks)
        column.addStretch(0)
        self._parts = (self.sign, parts)


def _table(name: str, columns: tuple[str, ...], stretched: int) -> QTableWidget:
    table = QTableWidget(0, len(columns))
    make_readable(table, name, [told(each) for each in columns])
    table.verticalHeader().setMinimumSectionSize(30)
    table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
    stretch_column(table, stretched)
    return table
