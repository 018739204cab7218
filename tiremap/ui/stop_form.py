"""The two stops of a repair: what was found is entered here, and the job is answered anew."""

from collections.abc import Callable
from datetime import datetime

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from tiremap.assessment import AssessedMark, Assessment
from tiremap.edits.steps import HOLE, HoleSeen, answer_hole, answer_liner
from tiremap.errors import TiremapError
from tiremap.model.job import Job
from tiremap.model.measures import Lean, Length
from tiremap.ui.language import marked, tr
from tiremap.ui.layouts import choice, fault, tell_fault
from tiremap.ui.wording import mm_as, number

_ASKED = (marked("choose…"), None)


class StopForm(QWidget):
    """The questions of one stop. Nothing is filled in beforehand.

    Signals: ``answered(object)`` a function of job and time that gives the changed job.
    """

    answered = Signal(object)

    def __init__(self, stop: str, assessment: Assessment, unit: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.stop = stop
        self.choices: dict[str, QComboBox] = {}
        self.leans: dict[str, QLineEdit] = {}
        self.fault = fault()
        self.answer = QPushButton(tr("Answer again"))
        self.answer.clicked.connect(self._answer)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(4)
        if stop == HOLE:
            for mark in assessment.injuries:
                if mark.answer != "not_repairable":
                    self._ask_about_hole(mark, assessment, unit)
        else:
            self._ask(
                "liner", tr("Is the buffed liner whole?"), [(tr("whole"), True), (tr("cut or worn through"), False)]
            )
            self._ask("cords", tr("Is a cord bare?"), [(tr("no cord"), False), (tr("a cord is bare"), True)])
        self._column.addWidget(self.fault)
        self._column.addWidget(self.answer)

    def _ask_about_hole(self, mark: AssessedMark, assessment: Assessment, unit: str) -> None:
        cutters = [(mm_as(each.stem_mm, unit), each.stem_mm) for each in assessment.stock.units]
        self._ask(f"cutter {mark.id}", tr("Cutter used at injury {id}", id=mark.id), cutters)
        cords = [(tr("no cord stands out"), False), (tr("cords stand out or are broken"), True)]
        self._ask(f"cords {mark.id}", tr("Cords at injury {id}", id=mark.id), cords)
        for part, words in (("across", tr("across, + outboard")), ("around", tr("around, + clockwise"))):
            name = f"{part} {mark.id}"
            field = QLineEdit()
            field.setAccessibleName(
                tr("Lean of injury {id} {way}, degrees, as the probe shows it now", id=mark.id, way=words)
            )
            field.setPlaceholderText(tr("as it was measured"))
            label = QLabel(tr("Lean {way}, degrees", way=words))
            label.setBuddy(field)
            self.leans[name] = field
            self._column.addWidget(label)
            self._column.addWidget(field)

    def _ask(self, name: str, question: str, options: list[tuple[str, object]]) -> None:
        box = choice(question, [_ASKED, *options])
        label = QLabel(question)
        label.setWordWrap(True)
        label.setBuddy(box)
        self.choices[name] = box
        self._column.addWidget(label)
        self._column.addWidget(box)

    def _answer(self) -> None:
        """Hand on what was entered; where something is missing or wrong, say so and lose nothing."""
        try:
            edit = self._edit()
        except TiremapError as error:
            tell_fault(self.fault, str(error))
            return
        tell_fault(self.fault, "")
        self.answered.emit(edit)

    def _edit(self) -> Callable[[Job, datetime], Job]:
        open_ = next((box for box in self.choices.values() if box.currentData() is None), None)
        if open_ is not None:
            open_.setFocus()
            raise TiremapError(tr("{what}: not answered yet.", what=open_.accessibleName()), tr("Choose one."))
        if self.stop != HOLE:
            whole, bare = self.choices["liner"].currentData(), self.choices["cords"].currentData()
            return lambda job, at: answer_liner(job, whole, bare, at)
        ids = [name.removeprefix("cutter ") for name in self.choices if name.startswith("cutter ")]
        seen = tuple(self._seen(id) for id in ids)
        return lambda job, at: answer_hole(job, seen, at)

    def _seen(self, id: str) -> HoleSeen:
        return HoleSeen(
            id, Length(value=self.choices[f"cutter {id}"].currentData(), how="exact"),
            self.choices[f"cords {id}"].currentData(), self._lean(f"across {id}"), self._lean(f"around {id}"),
        )

    def _lean(self, name: str) -> Lean | None:
        text = self.leans[name].text().strip().removesuffix("°").strip().replace(",", ".").replace("−", "-")
        if not text:
            return None
        try:
            value = float(text)
        except ValueError:
            value = float("nan")
        if not -90 < value < 90:
            self.leans[name].setFocus()
            raise TiremapError(
                tr("{typed} is no lean.", typed=self.leans[name].text()),
                tr("Degrees between −90 and 90, such as {example}.", example=number(-7.5)),
            )
        return Lean(value=value, how="probe")
