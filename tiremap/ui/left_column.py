"""The left column of the Mark desk: the tire as a form, or the work of repairing it."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QPushButton, QStackedWidget, QVBoxLayout, QWidget
from shiboken6 import isValid

from tiremap.assessment import Assessment
from tiremap.ui.editor import Editor
from tiremap.ui.language import tr
from tiremap.ui.preferences import Preferences
from tiremap.ui.tire_form import TireForm


class LeftColumn(QWidget):
    """A switch between the two, and the one in sight. The repair work is made when it is first wanted.

    Signals: ``work_shown(bool)`` after the switch.
    """

    work_shown = Signal(bool)

    def __init__(
        self, form: TireForm, editor: Editor, preferences: Preferences, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.form = form
        self._editor = editor
        self._preferences = preferences
        self._chosen: str | None = None
        self.work = None
        self._left: QWidget | None = None
        """What had the focus before the repair work was shown."""
        self.to_tire, self.to_work = QPushButton(tr("Tire")), QPushButton(tr("Repair work"))
        self._group = QButtonGroup(self)
        row = QHBoxLayout()
        row.setContentsMargins(10, 4, 6, 0)
        row.setSpacing(4)
        for button in (self.to_tire, self.to_work):
            button.setCheckable(True)
            self._group.addButton(button)
            row.addWidget(button, 1)
        self.to_tire.setChecked(True)
        self.to_tire.clicked.connect(self.show_tire)
        self.to_work.clicked.connect(self._to_work)
        self.stack = QStackedWidget()
        self.stack.addWidget(form)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addLayout(row)
        column.addWidget(self.stack, 1)

    @property
    def works(self) -> bool:
        """Whether the repair work is in sight."""
        return self.work is not None and self.stack.currentWidget() is self.work

    def show_tire(self) -> None:
        """Show the form; the focus goes back where it was before the repair work."""
        at, was = self.window().focusWidget(), self.works
        self.to_tire.setChecked(True)
        self.stack.setCurrentWidget(self.form)
        here = at is None or self.isAncestorOf(at)
        if was and here and self._left is not None and isValid(self._left):  # a cell's editor may be gone
            self._left.setFocus(Qt.FocusReason.OtherFocusReason)
        self.work_shown.emit(False)

    def show_work(self, page: str | None = None) -> None:
        """Show the repair work, on that page or where it was left, and put the focus in it."""
        if not self.works:
            self._left = self.window().focusWidget()
        if self.work is None:
            from tiremap.ui.repair_work import RepairWork

            self.work = RepairWork(self._editor, self._preferences)
            self.work.show_assessment(self._editor.session.assessment, self._chosen)
            self.stack.addWidget(self.work)
        self.to_work.setChecked(True)
        self.stack.setCurrentWidget(self.work)
        self.work.show_page(page or self.work.shown or "steps")
        self.work.focus_page()
        self.work_shown.emit(True)

    def _to_work(self) -> None:
        self.show_work()

    def show_assessment(self, assessment: Assessment, chosen: str | None) -> None:
        """Let the repair work follow the job; the form is shown by its desk."""
        self._chosen = chosen
        if self.work is not None:
            self.work.show_assessment(assessment, chosen)

    def take_preferences(self) -> None:
        """Take over units and density."""
        if self.work is not None:
            self.work.take_preferences()
