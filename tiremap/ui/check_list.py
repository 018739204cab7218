"""The condition checks: each answered by itself, or all the open ones at once with "nothing found"."""

from functools import partial
from typing import Any

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QCheckBox, QGridLayout, QLabel, QVBoxLayout, QWidget

from tiremap.assessment import Assessment
from tiremap.edits.change import changed
from tiremap.edits.checks import FINDINGS, nothing_found, set_check, set_earlier_repairs, set_inspected
from tiremap.model.job import Checks, Job
from tiremap.model.measures import LengthUnit
from tiremap.rules.condition import condition_checks
from tiremap.rules.cracks import CHECK as CRACKS
from tiremap.ui.check_pictures import CheckPicture
from tiremap.ui.crack_details import CrackDetails
from tiremap.ui.editor import Editor
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import faint, heading
from tiremap.ui.next_sign import mark_next, next_label
from tiremap.ui.three_answers import ThreeAnswers

WHAT_IT_MEANS = (
    marked("Tread, shoulders, both sidewalls and both beads: no bulge, crack, bare cord or other damage."),
    marked("The whole liner, all the way around: no run-flat ring, split, swelling or tube."),
    marked("No earlier repairs but those marked."),
)
"""What "nothing found" says, written out where it can be ticked."""

_OPEN = (marked("Not looked at"), None, "ring")
_FOUND = ((marked("Fine"), "fine", "tick"), (marked("Found"), "found", "cross"), _OPEN)
_INSPECTED = ((marked("Fine"), "fine", "tick"), (marked("Damage"), "found", "cross"), _OPEN)
_REPAIRS = ((marked("None"), "none", "tick"), (marked("Marked"), "all_marked", "tick"), _OPEN)
_TITLES = {"inspected": marked("Inspected, off the rim"), "earlier_repairs": marked("Earlier repairs")}
_PICTURE = QSize(40, 40)


class NothingFound(QCheckBox):
    """The tick that answers every check not yet answered; taking it off takes back what it answered."""

    def __init__(self, editor: Editor, text: str, parent: QWidget | None = None) -> None:
        super().__init__(text, parent)
        self._editor = editor
        self.setAccessibleName(tr("Looked at inside and out, off the rim: nothing found"))
        self.setAccessibleDescription(" ".join(map(told, WHAT_IT_MEANS)))
        self.setToolTip(
            "\n".join([tr("Looked at inside and out, off the rim: nothing found."), *map(told, WHAT_IT_MEANS)])
        )
        self.clicked.connect(self._clicked)

    def show_assessment(self, assessment: Assessment) -> None:
        """Ticked where every check is answered and nothing speaks against it."""
        self.setChecked(_nothing_speaks_against(assessment.job.checks))

    def _clicked(self, ticked: bool) -> None:
        if ticked:
            self._editor.try_change(tr("Nothing found"), nothing_found)
        else:
            self._editor.try_change(tr("Take back nothing found"), _take_back)
        self.setChecked(_nothing_speaks_against(self._editor.job.checks))


class CheckList(QWidget):
    """Every check with its picture and its answer, below the list of what "nothing found" means and its tick."""

    def __init__(self, editor: Editor, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._editor = editor
        self._unit: LengthUnit = "mm"
        self.inspected = ThreeAnswers(tr("Inspected inside and out, off the rim"), _INSPECTED)
        self.singles = {check.name: ThreeAnswers(check.title, _FOUND) for check in condition_checks()}
        self.crack_details = CrackDetails(editor)
        self.repairs = ThreeAnswers(tr("Earlier repairs"), _REPAIRS)
        self.nothing = NothingFound(editor, tr("Looked at inside and out,\noff the rim: nothing found"))
        self._signs: dict[str, QLabel] = {}
        self._lay_out()
        self.inspected.answered.connect(self._inspected_chosen)
        for name, answers in self.singles.items():
            answers.answered.connect(partial(self._single_chosen, name))
        self.repairs.answered.connect(self._repairs_chosen)

    @property
    def answers(self) -> dict[str, ThreeAnswers]:
        """Every check's answers by the field reasons name."""
        every = {"inspected": self.inspected, **self.singles, "earlier_repairs": self.repairs}
        return {f"checks.{name}": answers for name, answers in every.items()}

    def show_assessment(self, assessment: Assessment, unit: LengthUnit) -> None:
        """Show the answers the job holds."""
        self._unit = unit
        for field, answers in self.answers.items():
            finding = getattr(assessment.job.checks, field.removeprefix("checks."))
            answers.show_value(finding.state if finding else None)
        self.crack_details.show_assessment(assessment, unit)
        self.nothing.show_assessment(assessment)

    def show_next(self, field: str) -> None:
        """Put the sign of what comes next at the check of that field, or at none."""
        for name, answers in self.answers.items():
            mark_next(answers, name == field)
            self._signs[name].setVisible(name == field)
        for name, widget in self.crack_details.next_widgets.items():
            mark_next(widget, name == field)

    def focus_field(self, field: str) -> QWidget | None:
        """Put the focus on a field, such as ``checks.inspected`` or ``tire.crack_depth``; the widget, if it is here."""
        widget = {**self.answers, **self.crack_details.fields}.get(field)
        if widget is not None:
            widget.setFocus()
        return widget

    def _inspected_chosen(self, state: Any) -> None:
        self._editor.try_change(tr("Inspected"), set_inspected, state)
        self._show_again()

    def _single_chosen(self, name: str, state: Any) -> None:
        self._editor.try_change(self.singles[name].accessibleName(), set_check, name, state)
        self._show_again()

    def _repairs_chosen(self, state: Any) -> None:
        self._editor.try_change(tr("Earlier repairs"), set_earlier_repairs, state)
        self._show_again()

    def _show_again(self) -> None:
        self.show_assessment(self._editor.session.assessment, self._unit)

    def _lay_out(self) -> None:
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(5)
        whole.addWidget(heading(tr("Condition")))
        whole.addWidget(self.nothing)
        whole.addWidget(faint("\n".join(f"–  {told(line)}" for line in WHAT_IT_MEANS)))
        looked_at = {check.name: check for check in condition_checks()}
        for field, answers in self.answers.items():
            name = field.removeprefix("checks.")
            check = looked_at.get(name)
            title = check.title if check else told(_TITLES[name])
            whole.addLayout(self._row(field, name, title, check.look_at if check else "", answers))
            if name == CRACKS:
                whole.addWidget(self.crack_details)

    def _row(self, field: str, name: str, title: str, look_at: str, answers: ThreeAnswers) -> QGridLayout:
        """The picture, beside it the check's title over its answers."""
        picture, label = CheckPicture(name, _PICTURE), QLabel(title)
        label.setBuddy(answers)
        self._signs[field] = sign = next_label()
        for widget in (picture, label, answers):
            widget.setToolTip(look_at)
        answers.setAccessibleDescription(look_at)
        grid = QGridLayout()
        grid.setContentsMargins(0, 3, 0, 0)
        grid.setHorizontalSpacing(6)
        grid.setVerticalSpacing(1)
        grid.setColumnStretch(1, 1)
        grid.addWidget(picture, 0, 0, 2, 1, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(label, 0, 1)
        grid.addWidget(sign, 0, 2)
        grid.addWidget(answers, 1, 1, 1, 2)
        return grid


def _nothing_speaks_against(checks: Checks) -> bool:
    findings = [getattr(checks, name) for name in FINDINGS]
    return checks.earlier_repairs is not None and all(each is not None and each.state == "fine" for each in findings)


def _take_back(job: Job) -> Job:
    """The answers given together are not answered any more; single ones stay."""
    together = {
        name: None for name in (*FINDINGS, "earlier_repairs")
        if getattr(job.checks, name) is not None and getattr(job.checks, name).together
    }
    return changed(job, checks=changed(job.checks, **together))
