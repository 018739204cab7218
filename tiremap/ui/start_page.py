"""What stands in the middle of the Mark desk before a tire has a size: the size, the guidance, samples and files."""

from dataclasses import dataclass
from functools import partial
from pathlib import Path

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from tiremap.assessment import Assessment
from tiremap.model.job import Answer, Job
from tiremap.model.measures import LengthUnit
from tiremap.model.rule_set_file import usable_rule_sets
from tiremap.model.rule_set_titles import shown_title
from tiremap.resources import sample_jobs_folder
from tiremap.ui.answer_symbol import answer_icon
from tiremap.ui.editor import Editor
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import Beside, choice, faint, show_choice
from tiremap.ui.next_sign import mark_next
from tiremap.ui.palettes import Theme
from tiremap.ui.sidewall_picture import SidewallPicture
from tiremap.ui.size_field import SizeField
from tiremap.ui.wording import ANSWER_WORDS

_ICON = 28
"""px, side of the symbol on a sample's button."""
_RECENT = 4
"""How many recent files have room here; the File menu lists all."""


@dataclass(frozen=True)
class Sample:
    """A sample job offered on the page: its file, its answer and what it shows."""

    file: str
    answer: Answer
    shows: str


SAMPLES = (
    Sample("crown_hole.json", "repairable", marked("nail hole in the crown")),
    Sample("tread_width_not_measured.json", "measure_first", marked("tread width not taped")),
    Sample("shoulder.json", "not_repairable", marked("hole in the shoulder")),
)
"""One of each answer."""


def is_fresh(job: Job) -> bool:
    """Whether nothing is known that could be drawn: no size and no mark."""
    tire = job.tire
    return tire.size_code is None and tire.typed_dimensions is None and not job.injuries and not job.repairs


class StartPage(QScrollArea):
    """The page. It holds no facts; what is typed goes into the job as in the form.

    Signals: ``went_on()`` after Enter on a size that was taken; ``guidance_chosen(str)``; ``open_wanted()``;
    ``file_wanted(str)`` a recent file's path; ``sample_wanted(str)`` a sample's path.
    """

    went_on = Signal()
    guidance_chosen = Signal(str)
    open_wanted = Signal()
    file_wanted = Signal(str)
    sample_wanted = Signal(str)

    def __init__(self, editor: Editor, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._editor = editor
        self._recent: tuple[str, ...] = ()
        self.setAccessibleName(tr("Start"))
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.size = SizeField(editor)
        self.size.code.setObjectName("large")
        self.size.code.setAccessibleName(tr("Size code from the sidewall, to start"))
        self.rule_set = choice(tr("Guidance the shop follows, to start"), [])
        self.asked = QLabel(tr("Which guidance does the shop follow?"))
        self.asked.setBuddy(self.rule_set)
        self.chosen = faint(tr("It can be changed at any time, at the left."))
        self.samples = {sample.file: _sample_button(sample) for sample in SAMPLES}
        self.open = QPushButton(tr("Open a job…"))
        self.files: list[QPushButton] = []
        self._lay_out()
        self.size.code.returnPressed.connect(self._enter)
        self.rule_set.activated.connect(self._guidance_chosen)
        self.open.clicked.connect(self.open_wanted)
        for file, button in self.samples.items():
            button.clicked.connect(partial(self.sample_wanted.emit, str(sample_jobs_folder() / file)))

    def show_assessment(self, assessment: Assessment, unit: LengthUnit, theme: Theme) -> None:
        """Show the size typed so far and ask for the guidance where none is chosen."""
        self.size.show_assessment(assessment, unit)
        mark_next(self.size.code, True)
        self._show_guidance(assessment)
        for sample in SAMPLES:
            self.samples[sample.file].setIcon(answer_icon(sample.answer, theme, _ICON))

    def show_recent(self, paths: tuple[str, ...]) -> None:
        """Offer the files last opened."""
        if paths[:_RECENT] == self._recent:
            return
        self._recent = paths[:_RECENT]
        for button in self.files:
            button.deleteLater()
        self.files = [QPushButton(Path(path).name.replace("&", "&&")) for path in self._recent]
        for place, (path, button) in enumerate(zip(self._recent, self.files, strict=True)):
            button.setToolTip(path)
            button.setAccessibleName(tr("Open {file}", file=Path(path).name))
            button.clicked.connect(partial(self.file_wanted.emit, path))
            self._file_grid.addWidget(button, *divmod(place, 2))

    def _show_guidance(self, assessment: Assessment) -> None:
        names = [(shown_title(each), each.name) for each in usable_rule_sets()]
        if [self.rule_set.itemData(row) for row in range(self.rule_set.count())] != [name for _, name in names]:
            self.rule_set.clear()
            for words, name in names:
                self.rule_set.addItem(words, name)
            self.rule_set.setPlaceholderText(tr("choose…"))
        chosen = assessment.job.rule_set
        show_choice(self.rule_set, chosen)
        self.chosen.setVisible(chosen is not None)

    def _enter(self) -> None:
        self.size.commit()
        if not is_fresh(self._editor.job):
            self.went_on.emit()

    def _guidance_chosen(self, index: int) -> None:
        self.guidance_chosen.emit(self.rule_set.itemData(index))

    def _lay_out(self) -> None:
        whole = QWidget()
        whole.setMaximumWidth(720)
        column = QVBoxLayout(whole)
        column.setContentsMargins(14, 10, 14, 10)
        column.setSpacing(6)
        column.addWidget(_title(tr("1  The size, as it stands on the sidewall")))
        column.addWidget(SidewallPicture("205/55R16 91V"))
        column.addWidget(self.size)
        column.addWidget(_title(tr("2  The guidance")))
        column.addWidget(self.asked)
        column.addWidget(self.rule_set)
        column.addWidget(self.chosen)
        column.addWidget(_title(tr("Or look at a sample first")))
        column.addWidget(Beside(*self.samples.values()))
        column.addWidget(_title(tr("Or go on with a job")))
        files = QHBoxLayout()
        files.addWidget(self.open, 0, Qt.AlignmentFlag.AlignTop)
        self._file_grid = QGridLayout()
        files.addLayout(self._file_grid)
        files.addStretch(1)
        column.addLayout(files)
        column.addStretch(1)
        self.setWidget(whole)
        self.setAlignment(Qt.AlignmentFlag.AlignHCenter)


def _title(text: str) -> QLabel:
    label = QLabel(text)
    label.setProperty("role", "title")
    return label


def _sample_button(sample: Sample) -> QPushButton:
    button = QPushButton(f"{told(ANSWER_WORDS[sample.answer])}\n{told(sample.shows)}")
    button.setObjectName("sample")
    button.setIconSize(QSize(_ICON, _ICON))
    button.setAccessibleName(
        tr("Sample, {answer}: {shows}", answer=told(ANSWER_WORDS[sample.answer]), shows=told(sample.shows))
    )
    return button
