"""The condition checks: each answered by itself, or all the open ones at once with "nothing found"."""

from functools import partial

from PySide6.QtWidgets import QCheckBox, QGridLayout, QLabel, QVBoxLayout, QWidget

from tiremap.assessment import Assessment
from tiremap.edits.change import changed
from tiremap.edits.checks import FINDINGS, nothing_found, set_check, set_earlier_repairs, set_inspected
from tiremap.model.job import Checks, Job
from tiremap.model.measures import LengthUnit
from tiremap.rules.condition import condition_checks
from tiremap.rules.cracks import CHECK as CRACKS
from tiremap.ui.crack_details import CrackDetails
from tiremap.ui.editor import Editor
from tiremap.ui.layouts import choice, faint, heading, show_choice

WHAT_IT_MEANS = (
    "Tread, shoulders, both sidewalls and both beads: no bulge, crack, bare cord or other damage.",
    "The whole liner, all the way around: no run-flat ring, split, swelling or tube.",
    "No earlier repairs but those marked.",
)
"""What "nothing found" says, written out where it can be ticked."""

_INSPECTED = (("not looked at", None), ("fine", "fine"), ("damage found", "found"))
_REPAIRS = (("not looked at", None), ("none", "none"), ("all marked", "all_marked"))


class NothingFound(QCheckBox):
    """The tick that answers every check not yet answered; taking it off takes back what it answered."""

    def __init__(self, editor: Editor, text: str, parent: QWidget | None = None) -> None:
        super().__init__(text, parent)
        self._editor = editor
        self.setAccessibleName("Looked at inside and out, off the rim: nothing found")
        self.setAccessibleDescription(" ".join(WHAT_IT_MEANS))
        self.setToolTip("Looked at inside and out, off the rim: nothing found.\n" + "\n".join(WHAT_IT_MEANS))
        self.clicked.connect(self._clicked)

    def show_assessment(self, assessment: Assessment) -> None:
        """Ticked where every check is answered and nothing speaks against it."""
        self.setChecked(_nothing_speaks_against(assessment.job.checks))

    def _clicked(self, ticked: bool) -> None:
        if ticked:
            self._editor.try_change("Nothing found", nothing_found)
        else:
            self._editor.try_change("Take back nothing found", _take_back)
        self.setChecked(_nothing_speaks_against(self._editor.job.checks))


class CheckList(QWidget):
    """Inspected and earlier repairs, with the list of what "nothing found" means beside its tick."""

    def __init__(self, editor: Editor, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._editor = editor
        self._unit: LengthUnit = "mm"
        self.inspected = choice("Inspected inside and out, off the rim", _INSPECTED)
        self.singles = {check.name: choice(check.title, _INSPECTED) for check in condition_checks()}
        self.crack_details = CrackDetails(editor)
        self.repairs = choice("Earlier repairs", _REPAIRS)
        self.nothing = NothingFound(editor, "Looked at inside and out,\noff the rim: nothing found")
        self._lay_out()
        self.inspected.activated.connect(self._inspected_chosen)
        for name, box in self.singles.items():
            box.activated.connect(partial(self._single_chosen, name))
        self.repairs.activated.connect(self._repairs_chosen)

    def show_assessment(self, assessment: Assessment, unit: LengthUnit) -> None:
        """Show the answers the job holds."""
        self._unit = unit
        checks = assessment.job.checks
        show_choice(self.inspected, checks.inspected.state if checks.inspected else None)
        show_choice(self.repairs, checks.earlier_repairs.state if checks.earlier_repairs else None)
        for name, box in self.singles.items():
            finding = getattr(checks, name)
            show_choice(box, finding.state if finding else None)
        self.crack_details.show_assessment(assessment, unit)
        self.nothing.show_assessment(assessment)

    def focus_field(self, field: str) -> QWidget | None:
        """Put the focus on a field, such as ``checks.inspected`` or ``tire.crack_depth``; the widget, if it is here."""
        boxes = {"inspected": self.inspected, "earlier_repairs": self.repairs, **self.singles}
        fields = {**{f"checks.{name}": box for name, box in boxes.items()}, **self.crack_details.fields}
        widget = fields.get(field)
        if widget is not None:
            widget.setFocus()
        return widget

    def _inspected_chosen(self, index: int) -> None:
        self._editor.try_change("Inspected", set_inspected, self.inspected.itemData(index))
        self._show_again()

    def _single_chosen(self, name: str, index: int) -> None:
        title = self.singles[name].accessibleName()
        self._editor.try_change(title, set_check, name, self.singles[name].itemData(index))
        self._show_again()

    def _repairs_chosen(self, index: int) -> None:
        self._editor.try_change("Earlier repairs", set_earlier_repairs, self.repairs.itemData(index))
        self._show_again()

    def _show_again(self) -> None:
        self.show_assessment(self._editor.session.assessment, self._unit)

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setColumnStretch(1, 1)
        singles = [(check.title, self.singles[check.name], check.look_at) for check in condition_checks()]
        rows = [("Inspected", self.inspected, ""), *singles, ("Earlier repairs", self.repairs, "")]
        for row, (text, box, look_at) in enumerate(rows):
            label = QLabel(text)
            label.setBuddy(box)
            for widget in (label, box):
                widget.setToolTip(look_at)
            box.setAccessibleDescription(look_at)
            grid.addWidget(label, 2 * row, 0)
            grid.addWidget(box, 2 * row, 1)
            if box is self.singles[CRACKS]:
                grid.addWidget(self.crack_details, 2 * row + 1, 0, 1, 2)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(5)
        whole.addWidget(heading("Condition"))
        whole.addWidget(self.nothing)
        whole.addWidget(faint("\n".join(f"–  {line}" for line in WHAT_IT_MEANS)))
        whole.addLayout(grid)


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
