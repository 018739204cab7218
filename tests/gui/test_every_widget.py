"""Every widget of every window has a name and a size to be hit, is reached by keyboard, and is shown whole."""

from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget

from tests.helpers.jobs import bench_job, crown_injury
from tests.helpers.widget_walk import faults, interactive, name_of
from tiremap.edits.change import changed
from tiremap.storage.job_file import ChangedOnDisk
from tiremap.storage.unsaved_work import Work, WorkFound
from tiremap.ui.crash import CrashDialog
from tiremap.ui.help_here import show_page
from tiremap.ui.left_work import LeftWork
from tiremap.ui.preferences import Preferences
from tiremap.ui.tolerance_dialog import ToleranceDialog
from tiremap.ui.two_versions import TwoVersions

LEAST = {"desk": 24, "bench": 44}
"""Least width and height of a target, px. 24: WCAG 2.2, 2.5.8 (AA). 44: 2.5.5 (AAA)."""
SETTLED_MS = 3000
"""Longest that a fault is waited away; a real one stays."""


def other_windows(window):
    """Every window that can be opened beside the main one, each opened; to be closed by the caller."""
    window.actions_.compare.trigger()
    yield window.comparison
    for action in ("limits", "own_guidance", "stock", "sign", "preview"):
        getattr(window.actions_, action).trigger()
        yield QApplication.activeModalWidget() or newest_of(window)
    window.desk.show_details("1")
    yield newest_of(window.desk)
    window.cautions.show_all()
    yield newest_of(window.cautions)
    show_page("form", window)
    yield newest_of(window)
    width = window.session.job.tire.tread_width
    for dialog in (
        ToleranceDialog(window, width), CrashDialog("Report", "Kept.", window), two_versions(window), left_work(window),
    ):
        dialog.open()
        yield dialog


def settled_faults(qtbot, window, least, but="no such fault"):
    """What is wrong once the layouts had their turns, ``but`` for one kind: one inside another settles in several."""

    def found():
        return [fault for fault in faults(window, least) if not fault.endswith(but)]

    with suppress(qtbot.TimeoutError):
        qtbot.waitUntil(lambda: not found(), timeout=SETTLED_MS)
    return found()


def two_versions(window):
    """The question about a file that another program changed."""
    mine = window.session.job
    changed_there = ChangedOnDisk(Path("job.json"), b"", changed(mine, note="theirs", job_number="R-7"), "")
    return TwoVersions(changed_there, mine, True, window)


def left_work(window):
    """The offer of work a stopped program left."""
    job = window.session.job
    work = Work(file=None, kept=datetime.now(UTC), opened_as=job, job=changed(job, note="unsaved"))
    return LeftWork((WorkFound(Path("kept.json"), None, work, ""),), window)


def newest_of(parent):
    """The window opened last over a part of the window.

    Asked of the part, not of the application: among all its windows are some that are just being destroyed.
    """
    windows = parent.findChildren(QWidget, options=Qt.FindChildOption.FindDirectChildrenOnly)
    return [each for each in windows if each.isWindow() and each.isVisible()][-1]


@pytest.mark.parametrize(("density", "least"), LEAST.items())
def test_every_widget_of_every_window_can_be_named_hit_reached_and_read(open_window, qtbot, density, least):
    Preferences().keep(density=density)
    window = open_window(bench_job(crown_injury()))
    desk, found, walked = window.desk, [], set()
    for more in (False, True):
        desk.form.more.setChecked(more)
        found += settled_faults(qtbot, window, least)
    window.message.show_text("Something could not be done.")
    window.actions_.key_row.trigger()
    window.keys.more.setChecked(True)
    found += settled_faults(qtbot, window, least, but="not reached by Tab")  # typed by hand, so Tab passes them by
    window.actions_.key_row.trigger()
    window.show_review()
    found += settled_faults(qtbot, window, least)
    window.message.clear()
    window.show_mark()
    for other in other_windows(window):
        QApplication.processEvents()
        assert other is not window and any(interactive(other))
        walked.add(type(other).__name__)
        found += settled_faults(qtbot, other, least)
        other.close()
    assert found == [], "\n".join(found)
    assert walked == {
        "CompareWindow", "LimitsPage", "GuidancePage", "SignOff", "MarkEditor", "TextDialog", "ToleranceDialog",
        "CrashDialog", "PrintPreview", "StockPage", "TwoVersions", "LeftWork",
    }


@pytest.mark.parametrize(("density", "least"), LEAST.items())
def test_every_widget_of_the_first_screen_can_be_named_hit_reached_and_read(open_window, qtbot, density, least):
    Preferences().keep(density=density)
    window = open_window()
    assert window.desk.start.isVisible()
    assert settled_faults(qtbot, window, least) == []


@pytest.mark.parametrize(("density", "least"), LEAST.items())
def test_every_widget_before_a_class_can_be_named_hit_reached_and_read(open_window, qtbot, density, least):
    Preferences().keep(density=density)
    window = open_window()
    window.actions_.teach_desk.trigger()
    desk = window.teaching.desk
    desk.presentation.go(5)  # the loaded tire, with all controls
    desk.take_preferences()
    qtbot.waitUntil(lambda: desk.canvas is not None and bool(desk.canvas.placed))
    qtbot.wait(20)
    assert desk.load.isVisible() and faults(window, least) == []


def test_a_window_that_stands_takes_over_the_density_of_the_bench_each_time_it_is_chosen(open_window, qtbot):
    window = open_window(bench_job(crown_injury()))
    for more in (False, True, False):
        window.actions_.bench.trigger()
        window.desk.form.more.setChecked(more)
        assert settled_faults(qtbot, window, LEAST["bench"]) == []
        window.actions_.desk.trigger()
        assert settled_faults(qtbot, window, LEAST["desk"]) == []


def test_tab_goes_through_the_form_in_bench_order_and_through_everything_without_a_trap(bench_window, qtbot):
    desk = bench_window.desk
    desk.form.size.code.setFocus()
    qtbot.waitUntil(desk.form.size.code.hasFocus)
    visited = [desk.form.size.code]
    for _ in range(200):
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
        if QApplication.focusWidget() is visited[0]:
            break
        visited.append(QApplication.focusWidget())
    else:
        raise AssertionError(f"Tab does not come back: {[name_of(each) for each in visited[-5:]]}")
    names = [name_of(each) for each in visited]
    form = [names.index(name) for name in ("Size code", "Tread width", "Tread depth")]
    assert form == sorted(form) and len(names) > 25
    parts = (desk.form, desk.drawing, desk.quick, desk.table, desk.reasons)
    places = [first_inside(visited, part) for part in parts]
    assert places == sorted(places)
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Backtab)
    assert QApplication.focusWidget() is not visited[0]


def first_inside(visited, part):
    """How many steps it takes to come into a part of the window."""
    return next(step for step, widget in enumerate(visited) if part.isAncestorOf(widget))
