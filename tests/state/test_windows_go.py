"""A window that is closed is gone, whatever was opened in it, and takes its memory along."""

import ctypes
import gc
import os
import weakref
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QApplication, QComboBox, QDialog, QVBoxLayout, QWidget

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair
from tests.helpers.widget_walk import interactive
from tiremap.edits.injuries import move_injury
from tiremap.resources import sample_jobs_folder
from tiremap.session import Session
from tiremap.ui import dialogs
from tiremap.ui.main_window import MainWindow
from tiremap.ui.preferences import Preferences

WINDOWS, WARM_UP = 100, 30
MOST_GROWTH_MB = 5.0
BOXES_AT_ONCE = 20
MEMORY = Path("/proc/self/statm")
MB = 1e6


def look_and_drag(window, qtbot):
    """The drawing in every look, and a job that changes under it."""
    for name in ("projector", "inches", "bench", "inside", "free_places"):
        getattr(window.actions_, name).trigger()
    QApplication.processEvents()
    window.session.apply("Move", move_injury(window.session.job, "1", 20.0, 30.0))
    QApplication.processEvents()
    window.desk._preview("1", 40.0, 1.0)
    window.session.undo()


def review(window, qtbot):
    """The register of the samples, and the story of one."""
    window.show_review()
    window.review.panel.show_folder(sample_jobs_folder())
    qtbot.waitUntil(lambda: not window.review.panel.reads, timeout=20000)
    window.review.panel.table.selectRow(0)
    window.show_mark()


def work_on_it(window, qtbot):
    """Every page of the repair work, the keys on the screen, and the answer over the whole window."""
    for name in ("dimensions", "steps", "leak", "refit", "key_row", "answer_large"):
        getattr(window.actions_, name).trigger()
        QApplication.processEvents()


def open_all(*names: str) -> Callable[[MainWindow, object], None]:
    """Windows beside the window, each opened, looked at and closed."""

    def opened(window, qtbot):
        for name in names:
            getattr(window.actions_, name).trigger()
            QApplication.processEvents()
            for each in window.findChildren(QDialog):
                if each.isVisible():
                    assert any(interactive(each))
                    each.close()

    return opened


def left_open(window, qtbot):
    """What is still open beside a window goes with it."""
    window.desk.show_details("1")
    for name in ("compare", "cautions", "getting_started"):
        getattr(window.actions_, name).trigger()


def teach(window, qtbot):
    """The desk for a class."""
    window.show_teach()
    QApplication.processEvents()
    window.show_mark()


USES = (
    look_and_drag, review, work_on_it, open_all("compare", "limits", "own_guidance"), open_all("stock", "sign"),
    open_all("preview"), left_open, teach,
)


@pytest.fixture(autouse=True)
def no_questions(monkeypatch):
    """Nothing is asked when a window closes."""
    monkeypatch.setattr(dialogs, "ask_about_unsaved", lambda parent, name: "discard")


class Gone(NamedTuple):
    """Weak references to a closed window and to what it was made of, and how many boxes to choose from it had."""

    parts: tuple[weakref.ref, ...]
    boxes: int


def opened_used_and_closed(qtbot, use) -> Gone:
    """A window that was opened, used and closed."""
    window = MainWindow(Session(bench_job(crown_injury(), earlier_repair())), Preferences())
    window.show()
    window.desk.build_drawing()
    QApplication.processEvents()
    use(window, qtbot)
    QApplication.processEvents()
    drawing = window.desk.drawing
    made_of = (window, window.session, window.preferences, window.desk, drawing, drawing.canvas.figure)
    gone = Gone(tuple(map(weakref.ref, made_of)), len(window.findChildren(QComboBox)))
    window.close()
    window.deleteLater()
    QCoreApplication.sendPostedEvents(window, QEvent.Type.DeferredDelete)
    return gone


@pytest.mark.parametrize(
    "use", USES, ids=["look", "review", "work", "guidance", "stock", "preview", "left_open", "teach"]
)
def test_a_window_that_was_closed_is_gone_with_all_it_was_made_of(qapp, qtbot, use):
    parts = opened_used_and_closed(qtbot, use).parts
    gc.collect()
    assert [type(part()).__name__ for part in parts if part() is not None] == []
    assert [each for each in gc.get_objects() if type(each) is MainWindow] == []
    assert QApplication.activeWindow() is None


def memory_mb() -> float:
    """What the process holds in memory, once what nobody needs was taken away and given back to the system."""
    gc.collect()
    ctypes.CDLL(None).malloc_trim(0)
    return int(MEMORY.read_text().split()[1]) * os.sysconf("SC_PAGE_SIZE") / MB


def plain_boxes_come_and_go(number: int) -> None:
    """Make and take away bare boxes to choose from, of which Qt keeps about a kilobyte each under a style sheet."""
    for _ in range(number // BOXES_AT_ONCE):
        part = QWidget()
        column = QVBoxLayout(part)
        for _ in range(BOXES_AT_ONCE):
            box = QComboBox()
            box.addItems(["one", "other"])
            column.addWidget(box)
        part.deleteLater()
        QCoreApplication.sendPostedEvents(part, QEvent.Type.DeferredDelete)


@pytest.mark.long
@pytest.mark.skipif(not MEMORY.exists(), reason="memory is read as Linux tells it")
def test_a_hundred_windows_leave_no_memory_behind_but_what_qt_keeps_of_as_many_boxes(qapp, qtbot):
    boxes = 0
    for number in range(WARM_UP):
        opened_used_and_closed(qtbot, USES[number % len(USES)])
    before = memory_mb()
    for number in range(WINDOWS):
        boxes += opened_used_and_closed(qtbot, USES[number % len(USES)]).boxes
    grown = memory_mb() - before
    before = memory_mb()
    plain_boxes_come_and_go(boxes)
    assert grown - (memory_mb() - before) < MOST_GROWTH_MB
