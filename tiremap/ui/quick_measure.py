"""Quick measure: one row in bench order for a fresh mark; Enter goes on, five entries and a tick to an answer."""

from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from tiremap.assessment import Assessment
from tiremap.edits.injuries import set_injury, set_upright
from tiremap.edits.tire import set_tire
from tiremap.model.job import Injury
from tiremap.model.measures import LengthUnit
from tiremap.ui import measure_kinds as kinds
from tiremap.ui import wording
from tiremap.ui.bench_order import nothing_asked_yet, open_fields
from tiremap.ui.check_list import NothingFound
from tiremap.ui.editor import Editor
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import faint
from tiremap.ui.measure_field import MeasureField
from tiremap.ui.next_sign import mark_next

NOT_NEEDED = marked("not needed")
"""Shown in a field that cannot change the answer here."""
_UPRIGHT = "upright"

_HINTS: dict[LengthUnit, str] = {
    "mm": marked("Enter goes on. In mm, or as 1 3/8 in."), "in": marked("Enter goes on. In inches, or as 35 mm."),
}
_TIRE_WORDS = {"tread_depth": marked("Tread depth"), "tread_width": marked("Tread width")}
_INJURY_WORDS = {"outside": marked("Place"), "size_outside": marked("Hole"), "lean_across": marked("Lean across")}


class QuickMeasure(QFrame):
    """The row. Nothing is filled in beforehand; a place set by eye counts as not yet measured.

    Enter goes on from field to field and ends at the tick, which only Space or a click gives: it is a statement.
    """

    def __init__(self, editor: Editor, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._editor = editor
        self._injury_id: str | None = None
        self._edge_offered_for: str | None = None
        self._anything_may_count = True
        self._refused = False
        self._put_by: dict[tuple[str, MeasureField], tuple[str, str]] = {}
        self.setAccessibleName(tr("Quick measure"))
        self.title = QLabel()
        self.title.setProperty("role", "heading")
        self.hint = faint()
        self.depth = MeasureField(
            kinds.TREAD_DEPTH, tr("Tread depth"), partial(self._tire, "tread_depth"), stacked=True
        )
        self.width = MeasureField(
            kinds.TREAD_WIDTH, tr("Tread width"), partial(self._tire, "tread_width"), stacked=True
        )
        self.edge = MeasureField(kinds.ACROSS, tr("From the edge"), partial(self._injury, "outside"), stacked=True)
        self.hole = MeasureField(kinds.HOLE, tr("Hole"), partial(self._injury, "size_outside"), stacked=True)
        self.probe = MeasureField(kinds.LEAN, tr("Probe"), self._lean, stacked=True)
        self.upright = QPushButton(tr("Upright"))
        self.upright.setToolTip(tr("The probe stood upright: both leans are 0 (in the probe's field: U, Enter)"))
        self.upright.setAccessibleName(tr("Probe upright: both leans are 0"))
        self.nothing = NothingFound(editor, tr("Nothing\nfound"))
        self.fields = {
            "tire.tread_depth": self.depth, "tire.tread_width": self.width, "outside": self.edge,
            "size_outside": self.hole, "lean_across": self.probe,
        }
        self._lay_out()
        self._connect()

    def show_assessment(self, assessment: Assessment, injury_id: str | None, unit: LengthUnit) -> None:
        """Show the row for that injury, or the tire's part alone where none is chosen."""
        injury = next((each for each in assessment.job.injuries if each.id == injury_id), None)
        before, self._injury_id = self._injury_id, injury.id if injury else None
        if before != self._injury_id:
            self._put_aside(before)
        self.hint.setText(told(_HINTS[unit]))
        self.title.setText(tr("Quick measure") if injury is None else tr("Quick measure: injury {id}", id=injury.id))
        open_ones = open_fields(assessment)
        self._refused = assessment.answer == "not_repairable"
        self._anything_may_count = nothing_asked_yet(assessment)
        self._show_field(self.depth, assessment.job.tire.tread_depth, "tire.tread_depth", open_ones, unit)
        self._show_field(self.width, assessment.job.tire.tread_width, "tire.tread_width", open_ones, unit)
        for widget in (self.edge, self.hole, self.probe, self.upright):
            widget.setEnabled(injury is not None)
        if injury is None:
            for field in (self.edge, self.hole, self.probe):
                field.show_record(None, unit)
                field.edit.set_needed(False)
        else:
            self._show_injury(assessment, injury, open_ones, unit)
        self.nothing.show_assessment(assessment)
        if before != self._injury_id:
            self._bring_back()
        self._fit_height()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another width, another height."""
        super().resizeEvent(event)
        self._fit_height()

    def fit_width(self) -> None:
        """Leave the words of the edge room in the present font."""
        self.edge.origin.ensurePolished()
        words = max(map(told, wording.ORIGIN_WORDS.values()), key=len)
        self.edge.origin.setMinimumWidth(self.edge.origin.fontMetrics().horizontalAdvance(words) + 24)

    def open(self) -> None:
        """Put the focus in the first empty field that can change the answer."""
        self._focus_next(-1)

    def focus_field(self, field: str) -> bool:
        """Put the focus on ``tire.tread_depth``, ``injury.1.outside`` and so on; whether it stands in this row."""
        widget = self._field_named(field)
        if widget is None:
            return False
        widget.edit.setFocus()
        widget.edit.selectAll()
        return True

    def show_next(self, field: str) -> bool:
        """Put the sign of what comes next at the field of that name; whether it stands in this row."""
        mine = self._field_named(field)
        for each in self.fields.values():
            mark_next(each.edit, each is mine)
        return mine is not None

    def is_needed(self, field: MeasureField) -> bool:
        """Whether a field is empty and can still change the answer."""
        return field.edit.property("needed") is not False and not field.edit.text()

    def _field_named(self, field: str) -> MeasureField | None:
        """The field of that name if it stands in this row."""
        if field in ("tire.tread_depth", "tire.tread_width"):
            return self.fields[field]
        at = f"injury.{self._injury_id}."
        name = field.removeprefix(at)
        return self.fields[name] if self._injury_id is not None and name in _INJURY_WORDS and name != field else None

    def _show_injury(
        self, assessment: Assessment, injury: Injury, open_ones: frozenset[str], unit: LengthUnit
    ) -> None:
        at = f"injury.{injury.id}"
        by_eye = injury.outside is not None and injury.outside.how == "eye"
        place = None if by_eye else injury.outside
        self._show_field(self.edge, place, f"{at}.outside", open_ones, unit)
        if by_eye:
            self._show_by_eye(assessment, injury, unit)
        self._show_field(self.hole, injury.size_outside, f"{at}.size_outside", open_ones, unit)
        leans = {f"{at}.lean_across", f"{at}.lean_around"}
        needed = f"{at}.lean_across" if leans & open_ones else ""
        self._show_field(self.probe, injury.lean_across, needed, open_ones | {f"{at}.lean_across"}, unit)

    def _show_field(
        self, field: MeasureField, record: Any, name: str, open_ones: frozenset[str], unit: LengthUnit
    ) -> None:
        needed = record is not None or self._anything_may_count or name in open_ones
        field.show_record(record, unit, "" if needed else told(NOT_NEEDED))
        field.edit.set_needed(needed)
        field.edit.setAccessibleDescription("" if needed else tr("Not needed here: no value could change the answer."))

    def _show_by_eye(self, assessment: Assessment, injury: Injury, unit: LengthUnit) -> None:
        """Where it was clicked, as a hint only, from the nearer tread edge."""
        mark = assessment.mark(injury.id)
        if mark is None or assessment.facts is None:
            return
        edge = "outboard_edge" if mark.outside >= 0 else "inboard_edge"
        if self._edge_offered_for != injury.id:  # only once: the user may have chosen the other edge since
            self._edge_offered_for = injury.id
            self.edge.origin.setCurrentIndex(self.edge.origin.findData(edge))
        reading = assessment.facts.drawn_tread_width / 2 - abs(mark.outside)
        if self.edge.edit.property("needed") is not False:
            self.edge.edit.setPlaceholderText(f"≈ {wording.mm_as(reading, unit, 0 if unit == 'mm' else 1)}")
        self.edge.edit.setToolTip(
            tr(
                "By eye about {reading} from the {edge}: tape it.",
                reading=wording.mm_as(reading, unit, 0 if unit == "mm" else 1),
                edge=told(wording.ORIGIN_WORDS[edge]),
            )
        )

    def _put_aside(self, injury_id: str | None) -> None:
        """Another injury: a text that could not be used for the one before is kept for when that is chosen again."""
        self._edge_offered_for = None
        for field in (self.edge, self.hole, self.probe):
            if injury_id is not None and field.rejected:
                self._put_by[injury_id, field] = field.rejected
            field.forget()

    def _bring_back(self) -> None:
        for field in (self.edge, self.hole, self.probe):
            rejected = self._put_by.pop((self._injury_id or "", field), None)
            if rejected:
                field.bring_back(rejected)

    def _tire(self, name: str, record: Any) -> None:
        self._editor.change(told(_TIRE_WORDS[name]), set_tire, **{name: record})

    def _injury(self, name: str, record: Any) -> None:
        if self._injury_id is not None:
            words = tr("{what} of injury {id}", what=told(_INJURY_WORDS[name]), id=self._injury_id)
            self._editor.change(words, set_injury, self._injury_id, **{name: record})

    def _lean(self, record: Any) -> None:
        """A lean by probe; typing ``upright`` answers both its parts."""
        if record is not None and self._injury_id is not None and self.probe.edit.text().strip().lower() == _UPRIGHT:
            self._editor.change(tr("Probe of injury {id}", id=self._injury_id), set_upright, self._injury_id)
        else:
            self._injury("lean_across", record)

    def _set_upright(self) -> None:
        if self._injury_id is not None:
            self.probe.forget()
            self._editor.try_change(tr("Probe of injury {id}", id=self._injury_id), set_upright, self._injury_id)
            self._focus_next(4)

    def _probe_edited(self, text: str) -> None:
        """One key, U, writes the whole word; Enter then goes on as from any field."""
        if text.lower() == "u":
            self.probe.edit.setText(_UPRIGHT)
            self.probe.edit.setSelection(1, len(_UPRIGHT) - 1)

    def _went_on(self, number: int) -> None:
        self._focus_next(number)

    def _focus_next(self, after: int) -> None:
        for field in list(self.fields.values())[after + 1 :]:
            if field.isEnabled() and self.is_needed(field):
                field.edit.setFocus(Qt.FocusReason.TabFocusReason)
                return
        if not self.nothing.isChecked() and not self._refused:
            self.nothing.setFocus(Qt.FocusReason.TabFocusReason)

    def _connect(self) -> None:
        for number, field in enumerate(self.fields.values()):
            field.went_on.connect(partial(self._went_on, number))
        self.upright.clicked.connect(self._set_upright)
        self.probe.edit.textEdited.connect(self._probe_edited)

    def _fit_height(self) -> None:
        """As high as its words take where they wrap: a splitter asks for no height of a width."""
        self.setMinimumHeight(max(0, self.layout().totalHeightForWidth(self.rect().width())))

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(5)
        grid.setVerticalSpacing(2)
        cells = (
            (tr("Tread depth"), self.depth, 6),
            (tr("Tread width"), self.width, 5),
            (tr("Distance from"), self.edge, 7),
            (tr("Hole"), self.hole, 9),
            (tr("Probe"), self.probe, 5),
        )
        faults = QVBoxLayout()
        for column, (text, field, share) in enumerate(cells):
            label = QLabel(text)
            label.setBuddy(field.edit)
            label.setWordWrap(True)
            if field is self.edge:
                from_where = QVBoxLayout()  # reads on: distance from, outboard edge
                from_where.setSpacing(1)
                from_where.addWidget(label)
                from_where.addWidget(self.edge.origin)
                grid.addLayout(from_where, 0, column, Qt.AlignmentFlag.AlignBottom)
            else:
                grid.addWidget(label, 0, column, Qt.AlignmentFlag.AlignBottom)
            grid.addWidget(field, 1, column)
            faults.addWidget(field.error)
            grid.setColumnStretch(column, share)
        grid.addLayout(faults, 2, 0, 1, len(cells) + 1)
        grid.setRowMinimumHeight(2, self.fontMetrics().height() + 2)  # a fault must not push the drawing up
        grid.addWidget(self.upright, 0, len(cells))
        grid.addWidget(self.nothing, 1, len(cells), Qt.AlignmentFlag.AlignTop)
        head = QHBoxLayout()
        head.addWidget(self.title)
        head.addWidget(self.hint, 1)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(8, 2, 8, 6)
        whole.setSpacing(2)
        whole.addLayout(head)
        whole.addLayout(grid)
