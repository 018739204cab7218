"""A window of the test's own, as the tests of the window have it."""

import pytest

from tests.helpers.windows import windows_put_away
from tiremap.ui import dialogs


@pytest.fixture
def open_window(qtbot, qapp, monkeypatch):
    """Opens a window on a job, with its drawing; after the test it is closed without questions and really gone."""
    qapp.setStyle("Fusion")
    monkeypatch.setattr(dialogs, "ask_about_unsaved", lambda parent, name: "discard")
    with windows_put_away(qtbot) as opened:
        yield opened


def pytest_collection_modifyitems(items):
    """The offscreen platform warns about every window with a least size; real platforms do not."""
    for item in items:
        if "tests/state/" in item.path.as_posix():
            item.add_marker(pytest.mark.qt_log_ignore("does not support propagateSizeHints", extend=True))
