"""The tire as a short form: guidance, size, tread, datum, and the condition checks."""

from functools import partial
from typing import Any

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QScrollArea,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from tiremap.assessment import Assessment
from tiremap.edits.job_card import choose_rule_set, set_job_card, set_note
from tiremap.edits.tire import set_tire
from tiremap.errors import TiremapError
from tiremap.model.measures import LengthUnit
from tiremap.model.rule_set_file import rule_set_or_why, usable_rule_sets
from tiremap.model.rule_set_titles import shown_title
from tiremap.model.tire_dimensions import rim_warning
from tiremap.model.typed_measures import read_length
from tiremap.model.units import inches_from_mm
from tiremap.ui import measure_kinds as kinds
from tiremap.ui import wording
from tiremap.ui.check_list import CheckList
from tiremap.ui.check_pictures import CheckPicture
from tiremap.ui.editor import Editor
from tiremap.ui.field_edit import FieldEdit, restyle
from tiremap.ui.language import marked, told, tr
from tiremap.ui.layouts import choice, faint, fault, heading, show_choice, tell_fault, widen_list
from tiremap.ui.maker_word_field import MakerWordField
from tiremap.ui.measure_field import MeasureField
from tiremap.ui.next_sign import mark_next, next_label
from tiremap.ui.preferences import Preferences
from tiremap.ui.size_field import SizeField

_WIDE = 32
"""Least width of the form in characters."""
_DATUM = ((marked("not chosen"), None), (marked("valve"), "valve"), (marked("date code"), "date_code"))
_OUTBOARD = (
    (marked("not known"), "unknown"),
    (marked("known"), "known"),
    (marked("number side"), "identification_number"),
)
_CLASSES = (
    (marked("as the code says"), None),
    (marked("passenger"), "passenger"),
    (marked("light truck"), "light_truck"),
    (marked("truck"), "truck"),
    (marked("temporary spare"), "temporary_spare"),
)
_BUILT = (
    (marked("not known"), None), (marked("standard"), "standard"), (marked("self-supporting"), "self_supporting"),
    (marked("foam-lined"), "foam_lined"), (marked("sealant-lined"), "sealant_lined"),
)
_SEALANT = ((marked("not known"), None), (marked("not used"), False), (marked("used"), True))
_AXLE = ((marked("not known"), None), (marked("front"), "front"), (marked("rear"), "rear"))
_CHOICES = {
    "datum": (marked("Datum"), marked("Datum: from where angles around are measured"), _DATUM),
    "outboard_by": (marked("Outboard by"), marked("How the outboard side is known"), _OUTBOARD),
    "tire_class": (marked("Class"), marked("Class of tire"), _CLASSES),
    "built": (marked("Built"), marked("How the tire is built"), _BUILT),
    "sealant_used": (marked("Liquid sealant"), marked("Whether liquid sealant was used"), _SEALANT),
    "axle": (marked("Axle"), marked("Axle the tire runs on"), _AXLE),
}
"""What is chosen of the tire: its label, its name for a screen reader, its options."""
_LENGTHS = {
    "tread_width": (marked("Tread width"), kinds.TREAD_WIDTH),
    "tread_depth": (marked("Tread depth"), kinds.TREAD_DEPTH),
    "tread_depth_outboard": (marked("Depth outboard"), kinds.TREAD_DEPTH),
    "tread_depth_central": (marked("Depth central"), kinds.TREAD_DEPTH),
    "tread_depth_inboard": (marked("Depth inboard"), kinds.TREAD_DEPTH),
    "between_outer_grooves": (marked("Between grooves"), kinds.BETWEEN_OUTER_GROOVES),
    "under_grooves": (marked("Under grooves"), kinds.UNDER_GROOVES),
    "belt_width": (marked("Belt width"), kinds.BELT_WIDTH),
}
_UNFOLDED = ("tread_width", "tread_depth")
"""Lengths that always show; the others stand under *More about the tire*."""
_PLACES = ("tread_depth_outboard", "tread_depth_central", "tread_depth_inboard")
"""Depths at a place, which stand under a line of their own."""
_LABELS = {
    "tread_depth_outboard": marked("Outboard"),
    "tread_depth_central": marked("Central"),
    "tread_depth_inboard": marked("Inboard"),
    "between_outer_grooves": marked("Grooves apart"),
}
"""Labels shorter than the name, where a longer one would take the width from the fields."""
_EDGE_PICTURE = QSize(240, 84)
_EDGE_WORDS = marked(
    "Where the running surface turns down into the shoulder: lay a straightedge across the tread and chalk where it "
    "lifts off. Tape over the crown from chalk to chalk. Common practice; no standard says how."
)
_CARD = {"job_number": marked("Job number"), "fleet_number": marked("Fleet number"), "date": marked("Date")}


class TireForm(QScrollArea):
    """The form at the left of the Mark desk. It holds no facts: what is shown comes from the assessment."""

    def __init__(self, editor: Editor, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._editor = editor
        self._preferences = preferences
        self._rim_shown = ""
        self.setAccessibleName(tr("Tire form"))
        self.setWidgetResizable(True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._make_fields()
        self._lay_out()
        self._connect()

    def show_assessment(self, assessment: Assessment, unit: LengthUnit) -> None:
        """Show the tire, the checks and the job card as the job holds them."""
        job = assessment.job
        for name, edit in self.card.items():
            _show_text(edit, getattr(job, name) or "")
        show_choice(self.rule_set, job.rule_set)
        self.rule_set.setToolTip(self.rule_set.currentText())
        self._ask_for_guidance(job.rule_set)
        self.size.show_assessment(assessment, unit)
        self._show_rim(assessment)
        for name, field in self.lengths.items():
            field.show_record(getattr(job.tire, name), unit)
        for name, box in self.choices.items():
            show_choice(box, getattr(job.tire, name))
        _show_text(self.number, job.tire.number or "")
        _show_text(self.date_code, job.tire.date_code or "")
        _show_text(self.note, job.note)
        self.maker_word.show_assessment(assessment, unit)
        self.checks.show_assessment(assessment, unit)

    def show_next(self, field: str) -> None:
        """Put the sign of what comes next at that field, or at none; one that is folded away shows at the fold."""
        name = field.removeprefix("tire.")
        for each, widget in self._next_widgets().items():
            mark_next(widget, each == name)
        folded = any(each == name and self.folded.isAncestorOf(widget) for each, widget in self._next_widgets().items())
        self.folded_next.setVisible(folded and not self.more.isChecked())
        self.checks.show_next(field)

    def choose_guidance(self, name: str) -> None:
        """Follow that guidance, as if it were chosen in its box."""
        self._rule_set_chosen(self.rule_set.findData(name))

    def list_guidance(self) -> None:
        """Offer every guidance that can be used: the published ones, then the shop's own with their parents."""
        box, chosen = self.rule_set, self.rule_set.currentData()
        box.blockSignals(True)
        box.clear()
        for rule_set in usable_rule_sets():
            box.addItem(shown_title(rule_set), rule_set.name)
        box.blockSignals(False)
        widen_list(box)
        show_choice(box, chosen)

    def fit_width(self) -> None:
        """As wide as its fields need in the present font."""
        self.ensurePolished()
        usual = _WIDE * self.fontMetrics().horizontalAdvance("0")
        least = self.widget().minimumSizeHint().width() + self.verticalScrollBar().sizeHint().width()
        self.setMinimumWidth(max(usual, least))

    def focus_field(self, field: str) -> bool:
        """Put the focus on a field by its name, such as ``tire.tread_width``; whether there is one here."""
        of_the_checks = self.checks.focus_field(field)
        if of_the_checks is not None:
            self.ensureWidgetVisible(of_the_checks)
            return True
        name = field.removeprefix("tire.")
        widget = self._next_widgets().get(name)
        if widget is None:
            return False
        if not widget.isVisibleTo(self):
            self.more.setChecked(True)
        widget.setFocus()
        self.ensureWidgetVisible(widget)
        return True

    def _next_widgets(self) -> dict[str, QWidget]:
        """What takes the focus and shows the sign of the next one, by the fields reasons name."""
        lengths = {name: field.edit for name, field in self.lengths.items()}
        return {
            "rule_set": self.rule_set, "size_code": self.size.code, "typed_dimensions": self.size.code,
            "maker_word": self.maker_word.source, "date_code": self.date_code, **lengths, **self.choices,
        }

    def _make_fields(self) -> None:
        self.card = {name: FieldEdit(told(words)) for name, words in _CARD.items()}
        self.rule_set = choice(tr("Guidance the shop follows"), [])
        self.list_guidance()
        self.ask = fault()
        self.size = SizeField(self._editor)
        self.rim = FieldEdit(tr("Rim width"))
        self.rim_says = fault()
        self.lengths = {
            name: MeasureField(kind, told(words), partial(self._set_length, name))
            for name, (words, kind) in _LENGTHS.items()
        }
        self.choices = {name: choice(told(words), options) for name, (_, words, options) in _CHOICES.items()}
        self.number = FieldEdit(tr("Tire identification number"))
        self.date_code = FieldEdit(tr("Date code"))
        self.date_code.setPlaceholderText(tr("as 2324"))
        self.note = FieldEdit(tr("Note on the job"))
        self.maker_word = MakerWordField(self._editor)
        self.checks = CheckList(self._editor)
        self.more = QToolButton()
        self.more.setObjectName("fold")
        self.more.setText(tr("More about the tire"))
        self.more.setCheckable(True)
        self.more.setArrowType(Qt.ArrowType.RightArrow)
        self.more.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.folded_next = next_label()
        self.edge = QToolButton()
        self.edge.setObjectName("fold")
        self.edge.setText(tr("Where is the tread edge?"))
        self.edge.setCheckable(True)
        self.edge.setArrowType(Qt.ArrowType.RightArrow)
        self.edge.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.edge_shown = QWidget()
        self.edge_shown.hide()
        self.folded = QWidget()
        self.folded.hide()

    def _connect(self) -> None:
        for name, edit in self.card.items():
            edit.editingFinished.connect(partial(self._set_card, name))
        self.note.editingFinished.connect(self._set_note)
        self.rule_set.activated.connect(self._rule_set_chosen)
        self.rim.editingFinished.connect(self._commit_rim)
        for name, box in self.choices.items():
            box.activated.connect(partial(self._set_choice, name))
        for edit, name, words in (
            (self.number, "number", tr("Tire number")),
            (self.date_code, "date_code", tr("Date code")),
        ):
            edit.editingFinished.connect(partial(self._set_text, edit, name, words))
        self.more.toggled.connect(self._unfold)
        self.edge.toggled.connect(self._show_edge)

    def _set_length(self, name: str, record: Any) -> None:
        self._editor.change(told(_LENGTHS[name][0]), set_tire, **{name: record})

    def _set_card(self, name: str) -> None:
        self._editor.try_change(told(_CARD[name]), set_job_card, **{name: self.card[name].text()})

    def _set_note(self) -> None:
        self._editor.try_change(tr("Note"), set_note, self.note.text())

    def _set_choice(self, name: str, index: int) -> None:
        self._editor.try_change(told(_CHOICES[name][0]), set_tire, **{name: self.choices[name].itemData(index)})

    def _set_text(self, edit: FieldEdit, name: str, words: str) -> None:
        self._editor.try_change(words, set_tire, **{name: edit.text()})

    def _rule_set_chosen(self, index: int) -> None:
        """The shop's own choice: only from now on it is offered for new jobs."""
        name = self.rule_set.itemData(index)
        if self._editor.try_change(tr("Guidance"), choose_rule_set, name):
            self._preferences.keep(rule_set=name)

    def _ask_for_guidance(self, chosen: str | None) -> None:
        """Ask for a guidance where none is chosen, or where the one chosen cannot be read."""
        unreadable = chosen is not None and rule_set_or_why(chosen)[0] is None
        asked = chosen is None or unreadable
        says = tr("Which guidance does the shop follow? Nothing is answered before.")
        if unreadable:
            says = tr(
                "{guidance} cannot be read, so nothing is answered. Choose another, or see Guidance in the menu.",
                guidance=chosen,
            )
        self.rule_set.setPlaceholderText(tr("cannot be read") if unreadable else tr("choose…"))
        if self.rule_set.property("asked") != asked:
            self.rule_set.setProperty("asked", asked)
            restyle(self.rule_set)
        tell_fault(self.ask, says if asked else "")

    def _show_rim(self, assessment: Assessment) -> None:
        width = assessment.job.tire.rim_width_in
        self._rim_shown = "" if width is None else wording.length(width, "in", "in")
        if not self.rim.is_faulty and not (self.rim.hasFocus() and self.rim.isModified()):
            self.rim.setText(self._rim_shown)
            tell_fault(self.rim_says, self._rim_warning(assessment))
        facts = assessment.facts
        measuring = None if facts is None else facts.dimensions.measuring_rim_width_in
        self.rim.setPlaceholderText("" if measuring is None else tr("measuring rim {width:g} in", width=measuring))
        self.rim.setEnabled(assessment.job.tire.typed_dimensions is None)

    def _rim_warning(self, assessment: Assessment) -> str:
        width, facts = assessment.job.tire.rim_width_in, assessment.facts
        if width is None or facts is None or facts.size is None:
            return ""
        return rim_warning(facts.size, width) or ""

    def _commit_rim(self) -> None:
        text = self.rim.text().strip()
        if text == self._rim_shown:
            self.rim.set_fault(False)
            tell_fault(self.rim_says, self._rim_warning(self._editor.session.assessment))
            return
        try:
            width = None
            if text:
                taken = read_length(text, "in")
                width = taken.value if taken.unit == "in" else inches_from_mm(taken.value)
            self._editor.change(tr("Rim width"), set_tire, rim_width_in=width)
        except TiremapError as error:
            self.rim.set_fault(True)
            tell_fault(self.rim_says, str(error))
            return
        self.rim.set_fault(False)
        self.rim.setModified(False)
        self._show_rim(self._editor.session.assessment)

    def _unfold(self, open_: bool) -> None:
        self.folded.setVisible(open_)
        self.more.setArrowType(Qt.ArrowType.DownArrow if open_ else Qt.ArrowType.RightArrow)

    def _show_edge(self, open_: bool) -> None:
        self.edge_shown.setVisible(open_)
        self.edge.setArrowType(Qt.ArrowType.DownArrow if open_ else Qt.ArrowType.RightArrow)

    def _lay_out(self) -> None:
        whole = QWidget()
        column = QVBoxLayout(whole)
        column.setContentsMargins(12, 8, 10, 12)
        column.setSpacing(6)
        column.addLayout(_rows([(tr("Guidance"), self.rule_set)]))
        column.addWidget(self.ask)
        column.addWidget(heading(tr("Tire")))
        column.addWidget(self.size)
        column.addLayout(_rows([(tr("Rim width"), self.rim)]))
        column.addWidget(self.rim_says)
        column.addLayout(_rows([(told(_LENGTHS[name][0]), self.lengths[name]) for name in _UNFOLDED]))
        self._lay_out_edge()
        column.addWidget(self.edge)
        column.addWidget(self.edge_shown)
        column.addLayout(_rows(self._chosen_rows("datum", "outboard_by")))
        fold = QHBoxLayout()
        fold.addWidget(self.more)
        fold.addWidget(self.folded_next)
        fold.addStretch(1)
        column.addLayout(fold)
        self._lay_out_folded()
        column.addWidget(self.folded)
        column.addWidget(self.checks)
        column.addStretch(1)
        self.setWidget(whole)

    def _chosen_rows(self, *names: str) -> list[tuple[str, QWidget]]:
        return [(told(_CHOICES[name][0]), self.choices[name]) for name in names]

    def _lay_out_edge(self) -> None:
        """The picture of the two tread edges, and how they are found."""
        column = QVBoxLayout(self.edge_shown)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(CheckPicture("tread_edge", _EDGE_PICTURE), 0, Qt.AlignmentFlag.AlignHCenter)
        column.addWidget(faint(told(_EDGE_WORDS)))

    def _lay_out_folded(self) -> None:
        column = QVBoxLayout(self.folded)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(faint(tr("Tread depth by place")))
        column.addLayout(_rows([(told(_LABELS[name]), self.lengths[name]) for name in _PLACES]))
        apart = (*_UNFOLDED, *_PLACES)
        more = [(told(_LABELS.get(n, words)), self.lengths[n]) for n, (words, _) in _LENGTHS.items() if n not in apart]
        card = [(told(_CARD[name]), edit) for name, edit in self.card.items()]
        chosen = self._chosen_rows("tire_class", "built", "sealant_used", "axle")
        numbers = [(tr("Tire number"), self.number), (tr("Date code"), self.date_code)]
        column.addLayout(_rows([*more, *chosen, *numbers, *card, (tr("Note"), self.note)]))
        column.addWidget(heading(tr("Maker's word")))
        column.addWidget(faint(tr("Settles what the guidance leaves to the maker.")))
        column.addWidget(self.maker_word)


def _rows(pairs: list[tuple[str, QWidget]]) -> QGridLayout:
    grid = QGridLayout()
    grid.setVerticalSpacing(5)
    grid.setColumnStretch(1, 1)
    grid.setColumnMinimumWidth(0, 78)
    for row, (text, widget) in enumerate(pairs):
        label = QLabel(text)
        label.setBuddy(widget)
        grid.addWidget(label, 2 * row, 0)
        grid.addWidget(widget, 2 * row, 1)
        if isinstance(widget, MeasureField):
            grid.addWidget(widget.error, 2 * row + 1, 0, 1, 2)
    return grid


def _show_text(edit: FieldEdit, text: str) -> None:
    if not (edit.hasFocus() and edit.isModified()):
        edit.setText(text)
