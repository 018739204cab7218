"""Bugs reach the user with a report; bad input that slipped through is only told."""

import sys

from PySide6.QtGui import QGuiApplication

from tiremap.errors import TiremapError
from tiremap.ui import crash


def raised(error):
    """The error as an exception hook gets it."""
    try:
        raise error
    except type(error):
        return sys.exc_info()


def test_bad_input_is_told_in_the_message_line(bench_window):
    crash._tell(*raised(TiremapError("That cannot be.", "A right one: 35.")))
    assert bench_window.message.text == "That cannot be. A right one: 35."
    assert bench_window.message.isVisible()
    bench_window.message.away.click()
    assert not bench_window.message.isVisible()


def test_a_bug_opens_a_report_that_can_be_copied(bench_window, monkeypatch, capsys):
    reports = []

    def copied(dialog):
        dialog.copy()
        reports.append(QGuiApplication.clipboard().text())
        return 0

    monkeypatch.setattr(crash.CrashDialog, "exec", copied)
    crash._tell(*raised(ZeroDivisionError("a bug")))
    assert reports[0].startswith("Tiremap ") and "ZeroDivisionError: a bug" in reports[0]
    assert "ZeroDivisionError" in capsys.readouterr().err  # and on the terminal as always
