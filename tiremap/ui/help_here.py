"""Help that fits the place: the page about the part of the window the focus is in."""

from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication, QDialog, QWidget

from tiremap.resources import resource_path
from tiremap.ui.message_line import TextDialog

HELP_KEY = "F1"
ELSEWHERE = "getting_started"
_PAGES = {
    "form": ("TireForm",),
    "drawing": ("DrawingPanel", "FreePlacesBar"),
    "quick_measure": ("QuickMeasure", "ToleranceDialog"),
    "table": ("MarksTable", "MarkEditor"),
    "reasons": ("AnswerPanel", "AnswerLarge", "ReasonsList"),
    "compare": ("CompareWindow",),
    "limits": ("LimitsPage", "GuidancePage"),
    "dimensions": ("DimensionsPage",),
    "repair_work": ("RepairWork",),
    "stock": ("StockPage",),
    "saving": ("TwoVersions", "LeftWork"),
    "printing": ("PrintPreview",),
    "review": ("ReviewDesk", "SignOff"),
    "teach": ("TeachDesk",),
}
"""Parts of the window, by class, that each page of ``resources/help`` is about."""
PAGE_OF = {part: page for page, parts in _PAGES.items() for part in parts}


def page_at(widget: QWidget | None) -> str:
    """The page about the innermost part that holds a widget; *Getting started* where there is none."""
    while widget is not None:
        page = PAGE_OF.get(type(widget).__name__)
        if page is not None:
            return page
        widget = widget.parentWidget()
    return ELSEWHERE


def show_page(page: str, window: QWidget) -> None:
    """Show a page beside a window, in place of the one that stood there."""
    for shown in window.findChildren(TextDialog, "help"):
        shown.close()
    text = resource_path("help", f"{page}.md").read_text(encoding="utf-8")
    title, _, rest = text.partition("\n")
    dialog = TextDialog(title.removeprefix("# "), rest.strip(), window, markdown=True)
    dialog.setObjectName("help")
    dialog.show()


def show_help_here() -> None:
    """Show the page about the place of the focus; while that page has it, nothing more."""
    window = QApplication.activeWindow()
    if window is not None and window.objectName() != "help":
        show_page(page_at(QApplication.focusWidget() or window), window)


def give_help_key(dialog: QDialog) -> None:
    """Let the help key work in a dialog that shuts the window's own keys out."""
    QShortcut(QKeySequence(HELP_KEY), dialog).activated.connect(show_help_here)
