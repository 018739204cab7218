"""A window that is closed is gone, whatever was opened in it, with all it was made of."""

import gc
import weakref
from collections.abc import Callable

import pytest
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QApplication, QDialog

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair
from tests.helpers.widget_walk import interactive
from tiremap.drawing.sight import drawn_section
from tiremap.edits.injuries import move_injury
from tiremap.edits.tire import set_tire
from tiremap.geometry.section_inputs import SectionCannotBeDrawn
from tiremap.resources import sample_jobs_folder
from tiremap.session import Session
from tiremap.ui import dialogs
from tiremap.ui.main_window import MainWindow
from tiremap.ui.preferences import Preferences


def look_and_drag(window, qtbot):
    """The drawing in every look, and a job that changes under it."""
    for name in ("projector", "inches", "bench", "inside", "free_places"):
        getattr(window.actions_, name).trigger()
    QApplication.processEvents()
    window.session.apply("Move", move_injury(window.session.job, "1", 20.0, 30.0))
    QApplication.processEvents()
    window.desk._preview("1", 40.0, 1.0)
    window.session.undo()


def not_drawn(window, qtbot):
    """A tire whose section cannot be drawn, which is remembered for the next time."""
    window.editor.change("Rim", lambda job: set_tire(job, rim_width_in=18.0))
    QApplication.processEvents()
    assert isinstance(drawn_section(window.session.assessment.section_inputs), SectionCannotBeDrawn)


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
    look_and_drag, not_drawn, review, work_on_it, open_all("compare", "limits", "own_guidance"),
    open_all("stock", "sign"), open_all("preview"), left_open, teach,
)


@pytest.fixture(autouse=True)
def no_questions(monkeypatch):
    """Nothing is asked when a window closes."""
    monkeypatch.setattr(dialogs, "ask_about_unsaved", lambda parent, name: "discard")


def opened_used_and_closed(qtbot, use) -> tuple[weakref.ref, ...]:
    """Weak references to a window that was opened, used and closed, and to what it was made of."""
    window = MainWindow(Session(bench_job(crown_injury(), earlier_repair())), Preferences())
    window.show()
    window.desk.build_drawing()
    QApplication.processEvents()
    use(window, qtbot)
    QApplication.processEvents()
    drawing = window.desk.drawing
    made_of = (window, window.session, window.preferences, window.desk, drawing, drawing.canvas.figure)
    gone = tuple(map(weakref.ref, made_of))
    window.close()
    window.deleteLater()
    QCoreApplication.sendPostedEvents(window, QEvent.Type.DeferredDelete)
    return gone


@pytest.mark.parametrize(
    "use", USES, ids=["look", "not_drawn", "review", "work", "guidance", "stock", "preview", "left_open", "teach"]
)
def test_a_window_that_was_closed_is_gone_with_all_it_was_made_of(qapp, qtbot, use):
    parts = opened_used_and_closed(qtbot, use)
    gc.collect()
    assert [type(part()).__name__ for part in parts if part() is not None] == []
    assert [each for each in gc.get_objects() if type(each) is MainWindow] == []
    assert QApplication.activeWindow() is None
