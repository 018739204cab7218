"""F1 opens the page about the place one is at."""

import inspect
from importlib import import_module
from pkgutil import iter_modules

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget

import tiremap.ui
from tiremap.resources import resource_path
from tiremap.ui.help_here import PAGE_OF
from tiremap.ui.message_line import TextDialog
from tiremap.ui.print_preview import PrintPreview
from tiremap.ui.tolerance_dialog import ToleranceDialog


def page_shown(window):
    """The title of the help page beside a window, which is put away; ``None`` if there is none."""
    pages = [page for page in window.findChildren(TextDialog, "help") if page.isVisible()]
    for page in pages:
        page.close()
    assert len(pages) <= 1
    return pages[0].windowTitle() if pages else None


def press_help(qtbot, widget):
    """Press F1 with the focus in a widget."""
    with qtbot.waitActive(widget.window()):
        widget.window().activateWindow()
    widget.setFocus()
    qtbot.waitUntil(widget.hasFocus)
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_F1)


def test_f1_opens_the_page_about_the_part_the_focus_is_in(bench_window, qtbot):
    window, desk = bench_window, bench_window.desk
    places = (
        (desk.form.size.code, "The tire"), (desk.drawing.canvas, "The drawing"),
        (desk.table.view, "Injuries and repairs"),
        (desk.quick.upright, "Quick measure"), (window.cautions.all, "Getting started"),
    )
    for widget, title in places:
        press_help(qtbot, widget)
        assert page_shown(window) == title
    window.show_review()
    press_help(qtbot, window.review.panel.begin)
    assert page_shown(window) == "Review"
    window.actions_.compare.trigger()
    press_help(qtbot, window.comparison.table)
    assert page_shown(window.comparison) == "Compare the guidance"
    window.comparison.close()


def test_f1_works_in_a_question_that_shuts_out_the_windows_own_keys(bench_window, qtbot):
    dialog = ToleranceDialog(bench_window, bench_window.session.job.tire.tread_width)
    dialog.open()
    press_help(qtbot, dialog.minus)
    assert page_shown(dialog) == "Quick measure"
    dialog.reject()


@pytest.mark.parametrize("page", sorted({*PAGE_OF.values(), "getting_started"}))
def test_every_page_is_there_and_has_a_title(page):
    assert resource_path("help", f"{page}.md").read_text(encoding="utf-8").startswith("# ")


def test_every_part_with_a_page_is_a_widget_of_the_window():
    modules = [import_module(f"tiremap.ui.{found.name}") for found in iter_modules(tiremap.ui.__path__)]
    widgets = {name for module in modules for name, kind in inspect.getmembers(module, inspect.isclass)
               if issubclass(kind, QWidget)}
    assert set(PAGE_OF) <= widgets


def test_f1_in_the_preview_tells_of_printing(bench_window, qtbot):
    bench_window.actions_.preview.trigger()
    preview = bench_window.findChild(PrintPreview)
    press_help(qtbot, preview.pdf)
    assert page_shown(preview) == "Printing"
    preview.close()
