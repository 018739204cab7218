"""The Mark desk: the tire at the left, the drawing in the middle, marks, answer and reasons at the right."""

from typing import Any

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QLabel, QLineEdit, QSplitter, QVBoxLayout, QWidget

from tiremap.assessment import Assessment
from tiremap.edits.injuries import place_injury
from tiremap.edits.repairs import place_repair
from tiremap.ui import mark_wishes
from tiremap.ui.answer_panel import AnswerPanel
from tiremap.ui.bench_order import next_field
from tiremap.ui.editor import Editor
from tiremap.ui.free_places_bar import FreePlacesBar
from tiremap.ui.language import tr
from tiremap.ui.left_column import LeftColumn
from tiremap.ui.mark_editor import MarkEditor
from tiremap.ui.marks_columns import marks_of, words_for
from tiremap.ui.marks_table import MarksTable
from tiremap.ui.measure_field import MeasureField
from tiremap.ui.palettes import CONTROL_HEIGHTS, theme_of
from tiremap.ui.preferences import Preferences
from tiremap.ui.quick_measure import QuickMeasure
from tiremap.ui.reasons_list import ReasonsList
from tiremap.ui.sign_off import SignOff
from tiremap.ui.start_page import StartPage, is_fresh
from tiremap.ui.tire_form import TireForm


class MarkDesk(QWidget):
    """Shows the latest assessment in every panel, and passes on what the user wishes.

    The chosen mark and the shown reason are what the user looks at, not facts of the job.
    """

    def __init__(self, editor: Editor, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._editor = editor
        self._preferences = preferences
        self._chosen: str | None = None
        self._shown_reason: tuple[str, tuple[str, ...]] | None = None
        self._before: frozenset[str] | None = None
        """While a mark is being made, the ids of the others: it is chosen as soon as it is shown."""
        self._details: MarkEditor | None = None
        self.drawing: Any = None
        self.form = TireForm(editor, preferences)
        self.left = LeftColumn(self.form, editor, preferences)
        self.quick = QuickMeasure(editor)
        self.start = StartPage(editor)
        self.free = FreePlacesBar()
        self.table = MarksTable(editor)
        self.answer = AnswerPanel()
        self.reasons = ReasonsList()
        self._waiting = QLabel(tr("The drawing is being laid out…"))
        self._waiting.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self._waiting.setProperty("role", "faint")
        self._lay_out()
        self._connect()
        self.show_looks()

    @property
    def chosen(self) -> str | None:
        """The id of the chosen mark, or ``None``."""
        return self._chosen

    def build_drawing(self) -> None:
        """Make the drawing; it loads matplotlib, so the window is shown before. A second call does nothing."""
        if self.drawing is not None:
            return
        from tiremap.ui.drawing_panel import DrawingPanel

        self.drawing = DrawingPanel()
        self._drawn.replaceWidget(self._waiting, self.drawing)
        self._drawn.setStretchFactor(self.drawing, 1)
        self.drawing.setVisible(self.start.isHidden())
        self._drawn.activate()  # it is fitted to the room it has
        self._reach_drawing_after_form()
        self._waiting.deleteLater()
        self.drawing.set_preview(self._preview)
        self.drawing.injury_wanted.connect(self._place)
        self.drawing.mark_chosen.connect(self.choose)
        self.drawing.mark_moved.connect(self._move)
        self.drawing.mark_nudged.connect(self._nudge)
        self.drawing.mark_removed.connect(self._remove)
        self.drawing.mark_edit_wanted.connect(self.show_details)
        self.show_looks()
        self.show_assessment(self._editor.session.assessment)

    def show_assessment(self, assessment: Assessment) -> None:
        """Show an assessment in every panel."""
        if self._chosen is not None and mark_wishes.mark_in(assessment.job, self._chosen) is None:
            self._chosen = None
        self._chosen = self._made_in(assessment) or self._chosen
        unit = self._preferences.settings.units
        theme = theme_of(self._preferences.settings.theme)
        self.form.show_assessment(assessment, unit)
        self.quick.show_assessment(assessment, self._chosen, unit)
        self.free.show_assessment(assessment, self._chosen, unit)
        self.table.show_assessment(assessment, self._chosen, unit, theme)
        self.answer.show_assessment(assessment, self._chosen, unit, theme)
        self.reasons.show_assessment(assessment, unit, theme)
        self.left.show_assessment(assessment, self._chosen)
        self._show_start(assessment)
        self._show_next(_next_in(assessment))
        if self._details is not None:
            self._details.show_job(assessment.job, unit)
        if self.drawing is not None:
            self.drawing.show_assessment(assessment, self._chosen, self._shown_reason)
            self.drawing.show_free_places(self.free.places)

    def show_looks(self) -> None:
        """Take over theme, unit and density from the preferences."""
        self.form.fit_width()
        for field in self.findChildren(MeasureField):
            field.fit_height()
        self.quick.fit_width()
        self.quick.updateGeometry()
        self.left.take_preferences()
        self.table.set_row_height(CONTROL_HEIGHTS[self._preferences.settings.density])
        if self.drawing is not None:
            self.drawing.set_palette_name(self._preferences.settings.theme)
            self.drawing.set_unit(self._preferences.settings.units)

    def choose(self, mark_id: str) -> None:
        """Choose a mark, or none with an empty id."""
        chosen = mark_id or None
        if chosen != self._chosen:
            self._chosen = chosen
            self.show_assessment(self._editor.session.assessment)

    def choose_first(self) -> None:
        """Choose the first injury, or the first repair, of a job just opened; none where it has none."""
        job = self._editor.session.job
        self._chosen = next((mark.id for mark in (*job.injuries, *job.repairs)), None)
        self.show_assessment(self._editor.session.assessment)

    def focus_field(self, field: str) -> None:
        """Put the focus where a measurement is entered: ``tire.tread_width``, ``injury.1.outside``, ``injuries``."""
        if field == "injuries":
            self.table.add_injury.setFocus()
            return
        kind, _, rest = field.partition(".")
        if kind in ("injury", "repair"):
            mark_id, _, name = rest.rpartition(".")
            self.choose(mark_id)
            if not self.quick.focus_field(field) and not self.table.edit_field(mark_id, name):
                self.show_details(mark_id)
                if self._details is not None:
                    self._details.focus_field(name)
        else:
            if self.left.works:
                self.left.show_tire()
            self.form.focus_field(field)

    def focus_next(self) -> None:
        """Put the focus where the next measurement is entered; where none is asked for, nothing happens."""
        field = _next_in(self._editor.session.assessment)
        if not self.start.isHidden() and field == "tire.size_code":
            self.start.size.setFocus()
        elif field and not self.quick.focus_field(field):
            self.focus_field(field)

    def focus_first(self) -> None:
        """Go where a job begins: the size on the start page, else the guidance, else the size in the form."""
        if not self.start.isHidden():
            self.start.size.code.setFocus()
        else:
            self.form.focus_field("rule_set" if self._editor.job.rule_set is None else "tire.size_code")

    def show_details(self, mark_id: str) -> None:
        """Open the window with every measurement of a mark."""
        mark = mark_wishes.mark_in(self._editor.job, mark_id)
        if mark is None:
            return
        if self._details is not None:
            self._details.close()
        self._details = MarkEditor(self._editor, mark, self._preferences.settings.units, self)
        self._details.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._details.finished.connect(self._details_gone)
        self._details.show()

    def record_decision(self) -> None:
        """Open the sign-off under the answer as it stands; what is being typed goes into the job first."""
        field = self.window().focusWidget()
        if isinstance(field, QLineEdit):
            field.clearFocus()
        sign_off = SignOff(self._editor, self._preferences, self.window())
        sign_off.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        sign_off.open()

    def add_injury(self) -> None:
        """One more injury of which nothing is known yet."""
        self._add(place_injury, tr("Add injury"))

    def add_repair(self) -> None:
        """One more earlier repair of which nothing is known yet."""
        self._add(place_repair, tr("Add repair"))

    def show_free_places(self, wanted: bool) -> None:
        """Show where a repair could go, beside the drawing and on it, or no longer."""
        if wanted:
            self.free.open()
        else:
            self.free.close_up()
        self.show_assessment(self._editor.session.assessment)

    def _show_start(self, assessment: Assessment) -> None:
        """The start page in place of the drawing while there is nothing to draw."""
        fresh = is_fresh(assessment.job)
        settings = self._preferences.settings
        if fresh:
            self.start.show_assessment(assessment, settings.units, theme_of(settings.theme))
            self.start.show_recent(settings.recent_files)
        came = fresh == self.start.isHidden()
        if not fresh and self.start.isAncestorOf(self.window().focusWidget()):
            QTimer.singleShot(0, self.focus_next)  # the page goes, and what had the focus with it
        self.start.setVisible(fresh)
        self.quick.setVisible(not fresh)
        shown = self._waiting if self.drawing is None else self.drawing
        shown.setVisible(not fresh)
        if came and not fresh and self.drawing is not None:
            self._drawn.activate()
            self.drawing.fit()

    def _show_next(self, field: str) -> None:
        """The sign of what comes next, at one field alone: in the row, else in the form, else in the table."""
        in_row = self.quick.show_next(field)
        self.form.show_next("" if in_row or not self.start.isHidden() else field)
        self.table.show_next("" if in_row else field)

    def _reach_drawing_after_form(self) -> None:
        """Tab comes to the drawing where it stands, not last because it was built last."""
        last = self.form.size.code
        while self.form.isAncestorOf(after := _next_to_tab(last)):
            last = after
        QWidget.setTabOrder(last, self.drawing.canvas)

    def _show_unit(self) -> None:
        if self.drawing is not None:
            self.drawing.show_free_places(self.free.places)

    def _turn_to(self, angle: float) -> None:
        if self.drawing is not None:
            self.drawing.turn_to(angle)

    def _details_gone(self) -> None:
        self._details = None

    def _add(self, edit: Any, name: str) -> None:
        self._make(name, edit)

    def _place(self, across_mm: float, around_rad: float | None) -> None:
        self._make(tr("Place injury"), mark_wishes.placed, across_mm, around_rad)

    def _make(self, name: str, edit: Any, *args: Any) -> None:
        """Make a mark and choose it; at a fresh injury Quick measure opens."""
        self._before = before = frozenset(mark.id for mark in marks_of(self._editor.job))
        try:
            made = self._editor.try_change(name, edit, *args)
        finally:
            self._before = None
        mark = mark_wishes.mark_in(self._editor.job, self._chosen) if made and self._chosen else None
        if mark is None or mark.id in before:
            return
        if mark in self._editor.job.injuries:
            self.quick.open()
        else:
            self.show_details(mark.id)

    def _made_in(self, assessment: Assessment) -> str | None:
        """The id of the mark that is being made, once it is there."""
        if self._before is None:
            return None
        return next((mark.id for mark in marks_of(assessment.job) if mark.id not in self._before), None)

    def _move(self, mark_id: str, across_mm: float, around_rad: float | None) -> None:
        self._change_mark(tr("Move"), mark_id, mark_wishes.moved, mark_id, across_mm, around_rad)

    def _nudge(self, mark_id: str, across_mm: float, around_deg: float) -> None:
        assessment = self._editor.session.assessment
        self._change_mark(tr("Nudge"), mark_id, mark_wishes.nudged, assessment, mark_id, across_mm, around_deg)

    def _remove(self, mark_id: str) -> None:
        self._change_mark(tr("Remove"), mark_id, mark_wishes.removed, mark_id)

    def _confirm(self, mark_id: str) -> None:
        self._change_mark(tr("Confirm"), mark_id, mark_wishes.confirmed, mark_id)

    def _change_mark(self, verb: str, mark_id: str, edit: Any, *args: Any) -> None:
        mark = mark_wishes.mark_in(self._editor.job, mark_id)
        if mark is not None:
            self._editor.try_change(f"{verb} {words_for(mark)}", edit, *args)

    def _preview(self, mark_id: str, across_mm: float, around_rad: float | None) -> Assessment:
        return self._editor.session.preview(mark_wishes.moved(self._editor.job, mark_id, across_mm, around_rad))

    def _show_reason(self, reason: Any) -> None:
        self._shown_reason = None if reason is None else (reason.code, reason.subject)
        if self.drawing is not None:
            self.drawing.show_assessment(self._editor.session.assessment, self._chosen, self._shown_reason)

    def _connect(self) -> None:
        self.start.went_on.connect(self.focus_next)
        self.start.guidance_chosen.connect(self.form.choose_guidance)
        self.table.chosen.connect(self.choose)
        self.table.injury_wanted.connect(self.add_injury)
        self.table.repair_wanted.connect(self.add_repair)
        self.table.removed.connect(self._remove)
        self.table.details_wanted.connect(self.show_details)
        self.table.confirmed.connect(self._confirm)
        self.free.unit_chosen.connect(self._show_unit)
        self.free.gap_wanted.connect(self._turn_to)
        self.answer.sign_wanted.connect(self.record_decision)
        self.reasons.reason_shown.connect(self._show_reason)
        self.reasons.field_wanted.connect(self.focus_field)

    def _lay_out(self) -> None:
        self._middle = QSplitter(Qt.Orientation.Vertical)
        self._middle.setObjectName("mark.middle")
        upper = QWidget()
        self._drawn = QVBoxLayout(upper)
        self._drawn.setContentsMargins(0, 0, 0, 0)
        self._drawn.setSpacing(0)
        self._drawn.addWidget(self.start, 1)
        self._drawn.addWidget(self._waiting, 1)
        self._drawn.addWidget(self.free)
        self._middle.addWidget(upper)
        self._middle.addWidget(self.quick)
        self._middle.setStretchFactor(0, 1)
        self._middle.setChildrenCollapsible(False)
        self._middle.setSizes([1000, 100])
        right = QSplitter(Qt.Orientation.Vertical)
        right.setObjectName("mark.right")
        lower = QWidget()
        column = QVBoxLayout(lower)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.answer)
        column.addWidget(self.reasons, 1)
        right.addWidget(self.table)
        right.addWidget(lower)
        right.setChildrenCollapsible(False)
        right.setStretchFactor(1, 1)
        right.setSizes([210, 460])
        right.setContentsMargins(6, 4, 10, 6)
        whole = QSplitter(Qt.Orientation.Horizontal)
        whole.setObjectName("mark")
        for part in (self.left, self._middle, right):
            whole.addWidget(part)
        whole.setStretchFactor(1, 1)
        whole.setChildrenCollapsible(False)
        whole.setSizes([290, 634, 356])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(whole)


def _next_to_tab(widget: QWidget) -> QWidget:
    """The widget Tab may come to after this one, in sight or not."""
    after = widget.nextInFocusChain()
    while not after.focusPolicy() & Qt.FocusPolicy.TabFocus:
        after = after.nextInFocusChain()
    return after


def _next_in(assessment: Assessment) -> str:
    """The field to enter next; empty where no measurement is asked for."""
    return (next_field(assessment) or "") if assessment.answer == "measure_first" else ""
