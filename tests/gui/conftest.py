"""A window on a session, with settings of its own: the user's are never touched."""

import pytest

from tests.helpers.jobs import bench_job, crown_injury
from tests.helpers.windows import windows_put_away
from tiremap.edits.job_card import choose_rule_set
from tiremap.edits.tire import set_size_code
from tiremap.model.job import Job
from tiremap.ui import dialogs


@pytest.fixture(autouse=True)
def own_settings(tmp_path, monkeypatch):
    """Settings in a folder of the test."""
    monkeypatch.setenv("TIREMAP_SETTINGS_FOLDER", str(tmp_path / "settings"))


@pytest.fixture
def unsaved_answers(open_window, monkeypatch):
    """Answers to the question about unsaved work, taken one by one; "discard" once they are used up."""
    answers: list[str] = []
    monkeypatch.setattr(dialogs, "ask_about_unsaved", lambda parent, name: answers.pop(0) if answers else "discard")
    return answers


@pytest.fixture
def open_window(qtbot, qapp, monkeypatch):
    """Opens a window on a job; after the test it is closed without questions and really gone."""
    qapp.setStyle("Fusion")
    monkeypatch.setattr(dialogs, "ask_about_unsaved", lambda parent, name: "discard")
    monkeypatch.setattr(dialogs, "ask_which_version", lambda parent, changed, mine, unsaved: "later")
    with windows_put_away(qtbot) as opened:
        yield opened


@pytest.fixture
def window(open_window):
    """A window on a fresh job."""
    return open_window()


@pytest.fixture
def sized_window(open_window):
    """A window on a job that knows its guidance and size code and nothing else."""
    return open_window(set_size_code(choose_rule_set(Job(), "united_kingdom"), "205/55R16 91V"))


@pytest.fixture
def bench_window(open_window):
    """A window on a measured tire with one hole in the crown: repairable."""
    return open_window(bench_job(crown_injury()))


def pytest_collection_modifyitems(items):
    """The offscreen platform warns about every window with a least size; real platforms do not."""
    for item in items:
        if "tests/gui/" in item.path.as_posix():
            item.add_marker(pytest.mark.qt_log_ignore("does not support propagateSizeHints", extend=True))
