"""Putting the wheel back: nuts, thread, torque and its source, the order as a picture, cautions and balance."""

from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from tiremap.assessment import Assessment
from tiremap.balance import REBALANCE, WHY_RANGES, added_weights
from tiremap.edits.refit import set_refit, take_tightening_back, tighten
from tiremap.errors import TiremapError
from tiremap.model.after_repair import Refit, Torque, TorqueUnit
from tiremap.model.job import Job
from tiremap.model.pressures import read_torque
from tiremap.ui.editor import Editor
from tiremap.ui.field_edit import FieldEdit
from tiremap.ui.language import tr
from tiremap.ui.layouts import choice, faint, fault, heading, show_choice, tell_fault
from tiremap.ui.preferences import Preferences
from tiremap.ui.sign_off import now
from tiremap.ui.wheel_picture import WheelPicture
from tiremap.workshop.preload import stud_classes
from tiremap.workshop.refit import RefitGuide, refit_guide
from tiremap.workshop.thread import read_thread
from tiremap.workshop.tightening_order import nut_counts

_TORQUE_EXAMPLE = "110 N.m, 80 ft-lb"


class RefitPage(QScrollArea):
    """Follows the job's refit. What was typed and could not be read stays in its field with the reason under it."""

    def __init__(self, editor: Editor, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._editor = editor
        self._preferences = preferences
        self._assessment: Assessment | None = None
        self._shown: Refit | None = None
        self._path = editor.session.path
        self.setAccessibleName(tr("Refit of the wheel"))
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        nuts = [(tr("not counted"), None), *((tr("{count} nuts", count=each), each) for each in nut_counts())]
        self.nuts = choice(tr("Nuts or bolts of the wheel"), nuts)
        self.thread_ = FieldEdit(tr("Thread of the studs"))
        self.thread_.setPlaceholderText(tr("such as M12x1.5"))
        self.stud_class = choice(
            tr("Property class of the studs"), [(tr("not known"), None), *((each, each) for each in stud_classes())]
        )
        self.torque = FieldEdit(tr("The vehicle's own torque"))
        self.torque.setPlaceholderText(_TORQUE_EXAMPLE)
        self.unit = choice(tr("Unit of the torque"), [(tr("unit…"), None), ("N.m", "N.m"), ("ft-lb", "ft-lb")])
        self.source = FieldEdit(tr("Where the torque was read"))
        self.source.setPlaceholderText(tr("manual, door label…"))
        self.faults = {name: fault() for name in ("thread", "torque", "tighten")}
        self.picture = WheelPicture()
        self.order, self.second_pass, self.order_source = heading(""), faint(), faint()
        self.torque_says, self.preload_says, self.thumb = _plain(), _plain(), faint()
        self.cautions, self.balance, self.balance_why = _plain(), _plain(), faint(WHY_RANGES)
        self.tightened = QPushButton(tr("Tightened now"))
        self.take_back = QPushButton(tr("Not tightened after all"))
        self.when = _plain()
        self._lay_out()
        self.nuts.activated.connect(self._nuts_chosen)
        self.stud_class.activated.connect(self._class_chosen)
        self.thread_.editingFinished.connect(self._commit_thread)
        self.torque.editingFinished.connect(self._commit_torque)
        self.unit.activated.connect(self._unit_chosen)
        self.source.editingFinished.connect(self._commit_source)
        self.tightened.clicked.connect(self._tighten)
        self.take_back.clicked.connect(self._take_back)

    def show_assessment(self, assessment: Assessment, chosen_id: str | None = None) -> None:
        """Show the refit of the job, and what its repairs weigh; what is not in sight waits until it is."""
        self._assessment = assessment
        if self.isVisible():
            self._show(assessment)

    def showEvent(self, event: QShowEvent) -> None:
        """Catch up with the job."""
        if self._assessment is not None:
            self._show(self._assessment)
        super().showEvent(event)

    def take_preferences(self) -> None:
        """Torque stands in both units, so nothing here hangs on the preferences."""

    def _show(self, assessment: Assessment) -> None:
        weights = added_weights(assessment)
        self.balance.setText("\n".join((*(each.says for each in weights), REBALANCE)))
        self.balance_why.setVisible(any(not each.weighed for each in weights))
        refit, session = assessment.job.refit or Refit(), self._editor.session
        if session.path != self._path and session.undo_name is None:
            self._shown = None  # another job was opened: what was typed for the one before goes with it
        self._path = session.path
        if refit != self._shown:
            self._show_fields(refit)
            self._show_guide(refit)
            self._shown = refit

    def _show_fields(self, refit: Refit) -> None:
        """The fields as stored; one whose own value did not change keeps what is being typed."""
        before = self._shown
        show_choice(self.nuts, refit.nuts)
        show_choice(self.stud_class, refit.stud_class)
        if before is None or before.thread != refit.thread:
            self.thread_.setText(refit.thread or "")
            self._tell("thread", self.thread_, "")
        if before is None or before.torque != refit.torque:
            self.torque.setText("" if refit.torque is None else f"{refit.torque.value:g}")
            show_choice(self.unit, None if refit.torque is None else refit.torque.unit)
            self._tell("torque", self.torque, "")
        if before is None or before.torque_source != refit.torque_source:
            self.source.setText(refit.torque_source)

    def _show_guide(self, refit: Refit) -> None:
        try:
            guide = refit_guide(refit)
        except TiremapError as error:  # from a job file written elsewhere
            tell_fault(self.faults["thread"], str(error))
            guide = refit_guide(Refit(nuts=refit.nuts, torque=refit.torque, torque_source=refit.torque_source))
        self._show_order(guide)
        self.torque_says.setText(guide.torque_says)
        self.preload_says.setText(guide.preload_says)
        tell_fault(self.thumb, guide.rule_of_thumb)
        others = (each for each in guide.cautions if each != guide.preload_says)  # that stands above already
        self.cautions.setText("\n".join(f"! {each}" for each in others))
        done = refit.tightened is not None
        self.tightened.setVisible(not done)
        self.take_back.setVisible(done)
        tell_fault(
            self.when,
            tr(
                "Tightened {tightened:%Y-%m-%d %H:%M}. {check_again}",
                tightened=refit.tightened,
                check_again=guide.check_again,
            )
            if done
            else "",
        )

    def _show_order(self, guide: RefitGuide) -> None:
        order = guide.order
        self.picture.show_order(order)
        if order is None:
            self.order.setText(tr("Choose how many nuts the wheel has."))
        else:
            self.order.setText(" – ".join(str(each) for each in order.order))
        self.order.setAccessibleName(tr("Tightening order: {order}", order=self.order.text()))
        tell_fault(self.second_pass, "" if order is None else tr("Then once around, as the dashed arrow goes."))
        tell_fault(self.order_source, "" if order is None else tr("Source: {source}.", source=order.source))

    def _nuts_chosen(self, index: int) -> None:
        self._editor.try_change(tr("Nuts"), set_refit, nuts=self.nuts.itemData(index))

    def _class_chosen(self, index: int) -> None:
        self._editor.try_change(tr("Property class"), set_refit, stud_class=self.stud_class.itemData(index))

    def _commit_thread(self) -> None:
        text = self.thread_.text().strip()
        try:
            name = read_thread(text).name if text else None
            if name != self._refit.thread:
                self._editor.change(tr("Thread"), set_refit, thread=name)
            self.thread_.setText(name or "")
        except TiremapError as error:
            self._tell("thread", self.thread_, str(error))
            return
        self._tell("thread", self.thread_, "")

    def _commit_torque(self) -> None:
        """A number alone has the unit chosen beside it, and waits while none is chosen."""
        text, unit = self.torque.text().strip(), self.unit.currentData()
        if text and unit is None and text.replace(".", "", 1).replace(",", "", 1).isdigit():
            self._tell("torque", self.torque, tr("{typed}: of which unit? Choose N.m or ft-lb beside it.", typed=text))
            return
        self._set_torque(text, unit)

    def _unit_chosen(self, index: int) -> None:
        unit, text = self.unit.itemData(index), self.torque.text().strip()
        if text and unit is not None:
            self._set_torque(text, unit)

    def _set_torque(self, text: str, unit: TorqueUnit | None) -> None:
        try:
            torque: Torque | None = read_torque(text, unit) if text else None
            if torque != self._refit.torque:
                self._editor.change(tr("Torque"), set_refit, torque=torque)
        except TiremapError as error:
            self._tell("torque", self.torque, str(error))
            return
        self.torque.setText("" if torque is None else f"{torque.value:g}")
        if torque is not None:
            show_choice(self.unit, torque.unit)
        self._tell("torque", self.torque, "")

    def _commit_source(self) -> None:
        text = self.source.text().strip()
        if text != self._refit.torque_source:
            self._editor.try_change(tr("Where the torque was read"), set_refit, torque_source=text)

    def _tighten(self) -> None:
        self._change(tr("Wheel tightened"), lambda job: tighten(job, now()))

    def _take_back(self) -> None:
        self._change(tr("Tightening taken back"), take_tightening_back)

    def _change(self, name: str, edit: Any) -> None:
        try:
            self._editor.change(name, edit)
        except TiremapError as error:
            tell_fault(self.faults["tighten"], str(error))
            return
        tell_fault(self.faults["tighten"], "")

    @property
    def _refit(self) -> Refit:
        job: Job = self._editor.job
        return job.refit or Refit()

    def _tell(self, name: str, field: FieldEdit, error: str) -> None:
        field.set_fault(bool(error))
        field.setAccessibleDescription(error)
        tell_fault(self.faults[name], error)

    def _lay_out(self) -> None:
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(8, 6, 8, 8)
        column.setSpacing(5)
        self.order.setAlignment(Qt.AlignmentFlag.AlignHCenter)
        torque = QHBoxLayout()
        torque.setSpacing(4)
        torque.addWidget(self.torque, 3)
        torque.addWidget(self.unit, 2)
        for words, widget in ((tr("Nuts"), self.nuts), (tr("Thread"), self.thread_)):
            column.addLayout(_row(words, widget))
        column.addWidget(self.faults["thread"])
        column.addLayout(_row(tr("Stud class"), self.stud_class))
        column.addWidget(_label(tr("The vehicle's own torque"), self.torque))
        column.addLayout(torque)
        column.addWidget(self.faults["torque"])
        column.addLayout(_row(tr("Read in"), self.source))
        for widget in (
            self.torque_says,
            self.thumb,
            self.preload_says,
            heading(tr("Order")),
            self.picture,
            self.order,
            self.second_pass,
            self.order_source,
            heading(tr("Mind")),
            self.cautions,
            heading(tr("Tightened")),
            self.tightened,
            self.when,
            self.take_back,
            self.faults["tighten"],
            heading(tr("Balance")),
            self.balance,
            self.balance_why,
        ):
            column.addWidget(widget)
        column.addStretch(1)
        self.order.setWordWrap(True)
        self.setWidget(inside)


def _plain() -> QLabel:
    label = QLabel()
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label


def _label(words: str, of: QWidget) -> QLabel:
    label = QLabel(words)
    label.setBuddy(of)
    return label


def _row(words: str, widget: QWidget) -> QHBoxLayout:
    row = QHBoxLayout()
    row.setSpacing(6)
    row.addWidget(_label(words, widget), 2)
    row.addWidget(widget, 4)
    return row
