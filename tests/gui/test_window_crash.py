"""Bugs reach the user with a report, the job kept first; bad input that slipped through is only told."""

import sys
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication

from tiremap.edits.injuries import place_injury
from tiremap.errors import TiremapError
from tiremap.model.job import Job
from tiremap.session import Session
from tiremap.storage.job_file import read_job, write_job
from tiremap.ui import crash


def raised(error):
    """The error as an exception hook gets it."""
    try:
        raise error
    except type(error):
        return sys.exc_info()


@pytest.fixture
def hook():
    """A hook of the test's own; that of the suite stays installed."""
    return crash.CrashHook()


@pytest.fixture
def dialogs_shown(monkeypatch):
    """The crash dialogs, each taken as closed at once."""
    shown = []
    monkeypatch.setattr(crash.CrashDialog, "exec", lambda dialog: shown.append(dialog))
    return shown


def test_bad_input_is_told_in_the_message_line(bench_window, hook):
    hook.tell(*raised(TiremapError("That cannot be.", "A right one: 35.")))
    assert bench_window.message.text == "That cannot be. A right one: 35."
    assert bench_window.message.isVisible()
    bench_window.message.away.click()
    assert not bench_window.message.isVisible()


def test_a_bug_behind_a_button_keeps_the_job_and_opens_a_report(
    bench_window, hook, dialogs_shown, qtbot, tmp_path, capsys, monkeypatch
):
    """The job has unsaved work and a file of its own: the copy has the work, the file stays as it was."""
    window, path = bench_window, tmp_path / "of_the_user.json"
    write_job(path, window.session.job)
    window.session.saved(path)
    before = path.read_bytes()
    window.session.apply("Place injury", place_injury(window.session.job))

    def broken():
        raise ZeroDivisionError("a bug")

    hook.session = window.session
    monkeypatch.setattr(sys, "excepthook", hook.tell)  # what a slot raises ends there
    window.cautions.all.clicked.disconnect()
    window.cautions.all.clicked.connect(broken)
    qtbot.mouseClick(window.cautions.all, Qt.MouseButton.LeftButton)
    dialog, = dialogs_shown
    dialog.copy_button.click()
    report = QGuiApplication.clipboard().text()
    assert report.startswith("Tiremap ") and "ZeroDivisionError: a bug" in report
    kept = Path(dialog.kept.text().partition(" is kept in ")[2])
    assert kept.parent == tmp_path / "settings" / "kept_jobs"
    assert read_job(kept) == window.session.job and len(read_job(kept).injuries) == 2
    assert path.read_bytes() == before and window.session.unsaved
    assert "ZeroDivisionError" in capsys.readouterr().err  # and on the terminal as always


def test_two_faults_keep_two_copies_and_one_while_the_dialog_is_open_is_not_told_again(
    hook, monkeypatch, tmp_path, capsys, qapp
):
    hook.session = Session(Job())
    shown = []

    def opened(dialog):
        shown.append(dialog)
        hook.tell(*raised(ValueError("painting again")))

    monkeypatch.setattr(crash.CrashDialog, "exec", opened)
    hook.tell(*raised(ZeroDivisionError("first")))
    hook.tell(*raised(ZeroDivisionError("second")))
    assert len(shown) == 2 and capsys.readouterr().err.count("painting again") == 2
    assert len(list((tmp_path / "settings" / "kept_jobs").glob("*.json"))) == 2


def test_where_no_copy_can_be_kept_the_report_still_opens_and_says_so(hook, dialogs_shown, tmp_path, qapp):
    (tmp_path / "settings").mkdir(exist_ok=True)
    (tmp_path / "settings" / "kept_jobs").write_text("a file where the folder would be")
    hook.session = Session(Job())
    hook.tell(*raised(ZeroDivisionError("a bug")))
    assert dialogs_shown[0].kept.text().startswith("No copy of the job could be kept: ")
