"""The steps of the repair as a list to tick: the one to do stands open, with dimensions, cautions and waiting time."""

import time
from collections.abc import Callable
from datetime import datetime
from functools import partial

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QApplication, QFrame, QPushButton, QScrollArea, QVBoxLayout, QWidget

from tiremap.assessment import Assessment
from tiremap.edits.record import RECORD, record_repair
from tiremap.edits.steps import tick, untick
from tiremap.errors import TiremapError
from tiremap.model.job import Job
from tiremap.repair_steps import Step, done, held_back_by, steps_of
from tiremap.ui.editor import Editor
from tiremap.ui.language import tr
from tiremap.ui.layouts import faint, fault, tell_fault
from tiremap.ui.preferences import Preferences
from tiremap.ui.sign_off import now
from tiremap.ui.step_row import StepRow
from tiremap.ui.stop_form import StopForm

_TICK_MS = 1000


class StepsPage(QScrollArea):
    """Follows the job: what is ticked, and when, stands in the job file. Waiting times run on while it is not in sight.

    Keys: Tab and Shift+Tab go through the steps, Space ticks.
    """

    def __init__(self, editor: Editor, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._editor = editor
        self._preferences = preferences
        self._shown: tuple | None = None
        self._open: str | None = None
        self._ends: dict[str, float] = {}
        self.rows: list[StepRow] = []
        self.setAccessibleName(tr("Steps of the repair"))
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.fault = fault()
        self._inside = QWidget()
        self._column = QVBoxLayout(self._inside)
        self._column.setContentsMargins(8, 6, 8, 6)
        self._column.setSpacing(2)
        self._column.addWidget(self.fault)
        self.source = faint()
        self._column.addWidget(self.source)
        self._column.addStretch(1)
        self.setWidget(self._inside)
        self._clock = QTimer(self)
        self._clock.setInterval(_TICK_MS)
        self._clock.timeout.connect(self._show_waits)

    @property
    def to_do(self) -> Step | None:
        """The first step that is not done."""
        return next((row.step for row in self.rows if row.is_next), None)

    def row(self, step_id: str) -> StepRow | None:
        """The row of a step."""
        return next((row for row in self.rows if row.step.id == step_id), None)

    def focus_next(self) -> None:
        """Put the focus on the step to do."""
        row = next((each for each in self.rows if each.is_next), None)
        if row is not None:
            (row.whole if row.check.isHidden() else row.check).setFocus(Qt.FocusReason.TabFocusReason)
            self.ensureWidgetVisible(row)

    def show_assessment(self, assessment: Assessment, chosen: str | None = None) -> None:
        """Show the steps of the job as it is answered."""
        steps, unit = steps_of(assessment), self._preferences.settings.units
        state = (steps, assessment.job.steps_done, unit, tuple(each.id for each in assessment.injuries), self._open)
        if state == self._shown:
            return
        self._shown = state
        self._show(assessment, steps, unit)

    def take_preferences(self) -> None:
        """Show lengths in the unit of the preferences."""
        self.show_assessment(self._editor.session.assessment)

    def _show(self, assessment: Assessment, steps: tuple[Step, ...], unit: str) -> None:
        job = assessment.job
        had_focus = self._inside.isAncestorOf(QApplication.focusWidget())
        for row in self.rows:
            row.hide()
            row.deleteLater()
        self.rows = []
        open_steps = (each for each in steps if done(job, each) is None)
        next_ = next((each for each in open_steps if held_back_by(job, steps, each) is None), None)
        for step in steps:
            is_next = next_ is not None and step.id == next_.id
            open_ = step.id == self._open or (is_next and self._open is None)
            row = StepRow(step, done(job, step), is_next, open_, unit, self._inside)
            row.ticked.connect(self._ticked)
            row.opened.connect(self._opened)
            row.wait_wanted.connect(self._wait)
            if open_:
                self._add_what_is_asked(row, assessment, unit)
            self._column.insertWidget(self._column.count() - 2, row)
            self.rows.append(row)
        self.source.setText(tr("Source: {parts}.", parts="; ".join(dict.fromkeys(each.source for each in steps))))
        self._show_waits()
        if had_focus and next_ is not None:
            QTimer.singleShot(0, self.focus_next)

    def _add_what_is_asked(self, row: StepRow, assessment: Assessment, unit: str) -> None:
        step = row.step
        if step.stop and done(assessment.job, step) is None:
            form = StopForm(step.id, assessment, unit)
            form.answered.connect(self._answered)
            row.add(form)
        if step.id == RECORD:
            for mark in assessment.injuries:
                button = QPushButton(tr("Record injury {id} as mended", id=mark.id))
                button.clicked.connect(partial(self._record, mark.id))
                row.add(button)

    def _ticked(self, step_id: str, checked: bool) -> None:
        row = self.row(step_id)
        if row is None:
            return
        self._open = None
        if checked:
            self._change(tr("Step {number}", number=row.step.number), lambda job: tick(job, step_id, now()))
        else:
            self._change(tr("Step {number} taken back", number=row.step.number), lambda job: untick(job, step_id))

    def _answered(self, edit: Callable[[Job, datetime], Job]) -> None:
        self._open = None
        self._change(tr("Stop answered"), lambda job: edit(job, now()))

    def _record(self, injury_id: str) -> None:
        assessment = self._editor.session.assessment
        self._open = None
        self._change(tr("Injury {id} mended", id=injury_id), lambda job: record_repair(assessment, injury_id, now()))

    def _change(self, name: str, edit: Callable[[Job], Job]) -> None:
        """One undo step; what is refused is told above the list, and nothing is lost."""
        try:
            self._editor.change(name, edit)
        except TiremapError as error:
            tell_fault(self.fault, str(error))
            self.ensureWidgetVisible(self.fault)
            return
        tell_fault(self.fault, "")

    def _opened(self, step_id: str) -> None:
        self._open = None if self._open == step_id else step_id
        self.show_assessment(self._editor.session.assessment)

    def _wait(self, step_id: str) -> None:
        row = self.row(step_id)
        if row is not None and row.step.wait is not None:
            self._ends[step_id] = time.monotonic() + row.step.wait.usual_s
            self._clock.start()
            self._show_waits()

    def _show_waits(self) -> None:
        running = False
        for step_id, end in self._ends.items():
            left, row = round(end - time.monotonic()), self.row(step_id)
            running = running or left > 0
            if row is not None:
                words = (
                    tr("{minutes}:{seconds:02} left", minutes=left // 60, seconds=left % 60)
                    if left > 0
                    else tr("The time is over: look now.")
                )
                row.show_wait(words, over=left <= 0)
        if not running:
            self._clock.stop()
