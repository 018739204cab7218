"""The repair itself, beside the drawing: pages for its dimensions, its steps, the leak check and the refit."""

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QButtonGroup, QGridLayout, QLabel, QPushButton, QStackedWidget, QVBoxLayout, QWidget

from tiremap.assessment import Assessment
from tiremap.ui.dimensions_page import DimensionsPage
from tiremap.ui.editor import Editor
from tiremap.ui.language import marked, told, tr
from tiremap.ui.leak_page import LeakPage
from tiremap.ui.preferences import Preferences
from tiremap.ui.refit_page import RefitPage
from tiremap.ui.steps_page import StepsPage

PAGES: dict[str, tuple[str, Callable[[Editor, Preferences], QWidget]]] = {
    "dimensions": (marked("Dimensions"), DimensionsPage),
    "steps": (marked("Steps"), StepsPage),
    "leak": (marked("Leak check"), LeakPage),
    "refit": (marked("Refit"), RefitPage),
}
"""What each page is called, and what makes it; in the order the work meets them."""
_IN_A_ROW = 2


class RepairWork(QWidget):
    """The pages; each is made when it is first wanted, and follows the job from then on."""

    def __init__(self, editor: Editor, preferences: Preferences, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._editor = editor
        self._preferences = preferences
        self._chosen: str | None = None
        self.setAccessibleName(tr("Repair work"))
        self.pages: dict[str, QWidget] = {}
        self.buttons: dict[str, QPushButton] = {}
        self._group = QButtonGroup(self)
        self._stack = QStackedWidget()
        grid = QGridLayout()
        grid.setSpacing(4)
        for number, (name, (words, _)) in enumerate(PAGES.items()):
            button = QPushButton(told(words))
            button.setCheckable(True)
            button.clicked.connect(partial(self.show_page, name))
            self._group.addButton(button)
            self.buttons[name] = button
            grid.addWidget(button, number // _IN_A_ROW, number % _IN_A_ROW)
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 4, 4, 0)
        column.addLayout(grid)
        column.addWidget(self._stack, 1)

    @property
    def shown(self) -> str | None:
        """The name of the page in sight; ``None`` before one was wanted."""
        return next((name for name, page in self.pages.items() if page is self._stack.currentWidget()), None)

    def show_page(self, name: str) -> None:
        """Show a page as the job stands."""
        if name not in self.pages:
            page = PAGES[name][1](self._editor, self._preferences)
            self.pages[name] = page
            self._stack.addWidget(page)
        self.buttons[name].setChecked(True)
        self._stack.setCurrentWidget(self.pages[name])
        self.pages[name].show_assessment(self._editor.session.assessment, self._chosen)
        for label in self.pages[name].findChildren(QLabel):
            label.updateGeometry()  # its density may have changed while it was not in sight

    def focus_page(self) -> None:
        """Put the focus on the step to do; on another page on its first field, or on its button where it has none."""
        page = self.pages[self.shown]
        if isinstance(page, StepsPage) and page.to_do is not None:
            page.focus_next()
        else:
            first = (each for each in page.findChildren(QWidget) if _takes_focus(each, page))
            next(first, self.buttons[self.shown]).setFocus(Qt.FocusReason.OtherFocusReason)

    def show_assessment(self, assessment: Assessment, chosen: str | None) -> None:
        """Let every page that was made follow."""
        self._chosen = chosen
        for page in self.pages.values():
            page.show_assessment(assessment, chosen)

    def take_preferences(self) -> None:
        """Take over units and density."""
        for page in self.pages.values():
            page.take_preferences()


def _takes_focus(widget: QWidget, page: QWidget) -> bool:
    """Whether Tab comes to it once its page is in sight."""
    return bool(widget.focusPolicy() & Qt.FocusPolicy.TabFocus) and widget.isEnabled() and widget.isVisibleTo(page)
