"""Weather cracks measured: how deep the deepest is and whether they are joined up. Shown where cracks were found."""

from typing import Any

from PySide6.QtWidgets import QGridLayout, QLabel, QWidget

from tiremap.assessment import Assessment
from tiremap.edits.tire import set_tire
from tiremap.model.measures import LengthUnit
from tiremap.rules.cracks import DEPTH, JOINED
from tiremap.ui import measure_kinds as kinds
from tiremap.ui.editor import Editor
from tiremap.ui.language import marked, tr
from tiremap.ui.layouts import choice, show_choice
from tiremap.ui.measure_field import MeasureField

_JOINED = ((marked("not known"), None), (marked("no"), False), (marked("yes"), True))
_INDENT = 14
"""px, to stand under the check they belong to."""


class CrackDetails(QWidget):
    """Depth and joined up, in two rows. They stay in sight while either is entered, whatever the check says."""

    def __init__(self, editor: Editor, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._editor = editor
        self.depth = MeasureField(kinds.CRACK_DEPTH, tr("Depth of the deepest weather crack"), self._set_depth)
        self.joined = choice(tr("Weather cracks joined up"), _JOINED)
        self.joined.activated.connect(self._joined_chosen)
        grid = QGridLayout(self)
        grid.setContentsMargins(_INDENT, 0, 0, 0)
        grid.setVerticalSpacing(5)
        grid.setColumnStretch(1, 1)
        for row, (text, widget) in enumerate(((tr("Depth"), self.depth), (tr("Joined up"), self.joined))):
            label = QLabel(text)
            label.setBuddy(widget)
            grid.addWidget(label, 2 * row, 0)
            grid.addWidget(widget, 2 * row, 1)
        grid.addWidget(self.depth.error, 1, 0, 1, 2)

    def show_assessment(self, assessment: Assessment, unit: LengthUnit) -> None:
        """Show what the job holds of weather cracks."""
        tire, finding = assessment.job.tire, assessment.job.checks.cracks
        self.depth.show_record(tire.crack_depth, unit)
        show_choice(self.joined, tire.cracks_joined)
        entered = tire.crack_depth is not None or tire.cracks_joined is not None
        self.setVisible(entered or (finding is not None and finding.state == "found"))

    @property
    def fields(self) -> dict[str, QWidget]:
        """Its widgets by the fields reasons name."""
        return {DEPTH: self.depth, JOINED: self.joined}

    @property
    def next_widgets(self) -> dict[str, QWidget]:
        """What draws the sign of the next one, by the fields reasons name."""
        return {DEPTH: self.depth.edit, JOINED: self.joined}

    def _set_depth(self, record: Any) -> None:
        self._editor.change(tr("Crack depth"), set_tire, crack_depth=record)

    def _joined_chosen(self, index: int) -> None:
        self._editor.try_change(tr("Cracks joined up"), set_tire, cracks_joined=self.joined.itemData(index))
