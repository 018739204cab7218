"""Keys on the screen type into the field of the window worked in, and never into another one."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from tiremap.resources import sample_jobs_folder
from tiremap.storage.job_file import read_job
from tiremap.ui.key_row import KeyRow
from tiremap.ui.limits_page import LimitsPage

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def window(open_window, qtbot):
    """A window with keys on the screen, the cursor in Quick measure's tread depth."""
    window = open_window(read_job(sample_jobs_folder() / "one_inch_from_edge.json"))
    window.desk.choose("1")
    qtbot.keyClick(window, Qt.Key.Key_F9)
    qtbot.mouseClick(window.desk.quick.depth.edit, LEFT)
    return window


@pytest.fixture
def details(window, qtbot):
    """The Details window in front of it, opened by F6."""
    qtbot.keyClick(window.desk.quick.depth.edit, Qt.Key.Key_F6)
    bring_to_front(qtbot, window.desk._details)
    return window.desk._details


def row_of(dialog) -> KeyRow:
    [row] = dialog.findChildren(KeyRow)
    return row


def tap(qtbot, row, text):
    for letter in text:
        qtbot.mouseClick(row.keys[letter], LEFT)


def bring_to_front(qtbot, window):
    """As a window manager does when it opens, or any part of it is pressed."""
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)


def test_a_tap_types_into_the_window_in_front_and_not_into_the_one_behind(qtbot, window, details):
    job, field = window.session.job, details.fields["inside"].edit
    assert field.hasFocus()
    bring_to_front(qtbot, window)  # the tap on a key of the window behind
    tap(qtbot, window.keys, "1")
    assert window.desk.quick.depth.edit.hasFocus() and window.session.job == job
    assert not window.desk.quick.depth.edit.isModified()
    bring_to_front(qtbot, details)
    row = row_of(details)
    assert row.width() >= row.minimumSizeHint().width()  # no key lies under another
    tap(qtbot, row, "80")
    assert field.text() == "80"
    qtbot.mouseClick(row_of(details).enter, LEFT)
    assert window.session.job.injuries[0].inside.value == 80


def test_keys_follow_whoever_goes_back_to_a_field_of_the_window_behind(qtbot, window, details):
    before, depth = details.fields["inside"].edit.text(), window.desk.quick.depth.edit
    bring_to_front(qtbot, window)
    qtbot.mouseClick(depth, LEFT)
    assert window.keys.isEnabled() and not row_of(details).isEnabled()
    depth.selectAll()
    tap(qtbot, window.keys, "7")
    assert depth.text() == "7"
    tap(qtbot, row_of(details), "9")
    assert depth.text() == "7" and details.fields["inside"].edit.text() == before


def test_the_window_has_its_keys_again_when_the_other_is_closed(qtbot, window, details):
    details.close()
    bring_to_front(qtbot, window)
    depth = window.desk.quick.depth.edit
    qtbot.waitUntil(depth.hasFocus)
    depth.selectAll()
    tap(qtbot, window.keys, "7")
    assert depth.text() == "7"


def test_a_row_types_nothing_where_no_field_of_its_window_has_the_focus(qtbot, window, details):
    bring_to_front(qtbot, window)
    text = window.desk.quick.depth.edit.text()
    tap(qtbot, row_of(details), "9")
    assert window.desk.quick.depth.edit.text() == text


def test_every_dialog_that_is_typed_in_has_keys_and_loses_them_with_f9(qtbot, window):
    window.actions_.limits.trigger()
    page = window.findChild(LimitsPage)
    bring_to_front(qtbot, page)
    qtbot.mouseClick(page.sought, LEFT)
    tap(qtbot, row_of(page), "16")
    assert page.sought.text() == "16"
    bring_to_front(qtbot, window)
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_F9)
    assert not row_of(page).isVisible() and not window.keys.isVisible()
    page.close()
