"""A file another program changed while it was open: noticed, shown in words, and nothing lost whichever way on."""

from datetime import UTC, datetime
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication, QWidget

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.edits.change import changed
from tiremap.model.job import Decision, Job
from tiremap.resources import settings_folder
from tiremap.session import Session
from tiremap.storage.checked_save import previous_generation
from tiremap.storage.job_file import ChangedOnDisk, read_job, write_job
from tiremap.ui import dialogs
from tiremap.ui.files import JobFiles
from tiremap.ui.preferences import Preferences
from tiremap.ui.two_versions import TwoVersions

OPENED = bench_job(crown_injury("1"))
MINE = changed(OPENED, note="mine")
THEIRS = changed(bench_job(crown_injury("1"), crown_injury("2", 20.0)), note="theirs")


class Desk:
    """The files of a window without the window: all that two versions concern, and quick to make."""

    def __init__(self) -> None:
        self.window = QWidget()
        self.session = Session(OPENED)
        self.files = JobFiles(self.session, Preferences(), self.window)
        self.told: list[str] = []
        self.files.told.connect(self.told.append)


@pytest.fixture
def desk(qtbot):
    made = Desk()
    qtbot.addWidget(made.window)
    return made


@pytest.fixture
def asked(monkeypatch):
    """The questions about two versions, answered one by one; "later" once the answers are used up."""
    questions, answers = [], []

    def ask(parent, found, mine, unsaved):
        questions.append(found)
        return answers.pop(0) if answers else "later"

    monkeypatch.setattr(dialogs, "ask_which_version", ask)
    return questions, answers


@pytest.fixture
def met(desk, asked, tmp_path):
    """A desk with unsaved work on a file that another program has changed meanwhile, and the file."""
    path = tmp_path / "job.json"
    write_job(path, OPENED)
    desk.files.open_path(path)
    desk.session.apply("Note", MINE)
    write_job(path, THEIRS)
    return desk, path


def _kept():
    return [read_job(path) for path in sorted((settings_folder() / "kept_jobs").glob("*.json"))]


def test_putting_it_off_changes_nothing(met, asked):
    desk, path = met
    desk.files.save()
    assert asked[0][0].theirs == THEIRS
    assert read_job(path) == THEIRS
    assert desk.session.job == MINE and desk.session.unsaved


def test_keeping_mine_keeps_a_copy_of_theirs(met, asked):
    desk, path = met
    asked[1].append("mine")
    desk.files.save()
    assert read_job(path) == MINE and not desk.session.unsaved
    assert _kept() == [THEIRS] and read_job(previous_generation(path)) == THEIRS
    assert str(settings_folder()) in desk.told[0]


def test_taking_theirs_keeps_a_copy_of_mine(met, asked):
    desk, path = met
    asked[1].append("theirs")
    desk.files.save()
    assert desk.session.job == read_job(path) == THEIRS and not desk.session.unsaved
    assert _kept() == [MINE]
    assert len(desk.session.assessment.injuries) == 2


def test_saving_mine_under_another_name_leaves_theirs(met, asked, monkeypatch, tmp_path):
    desk, path = met
    other = tmp_path / "other.json"
    monkeypatch.setattr(dialogs, "ask_where_to_save", lambda parent, suggested: other)
    asked[1].append("other_name")
    desk.files.save()
    assert (read_job(path), read_job(other), desk.session.path) == (THEIRS, MINE, other)


def test_a_file_written_once_more_while_the_question_stands_is_asked_about_again(met, asked, monkeypatch):
    desk, path = met
    newest = changed(THEIRS, note="once more")
    questions = []

    def ask(parent, found, mine, unsaved):
        questions.append(found.theirs)
        if len(questions) == 1:
            write_job(path, newest)
        return "mine"

    monkeypatch.setattr(dialogs, "ask_which_version", ask)
    desk.files.save()
    assert questions == [THEIRS, newest]
    assert read_job(path) == MINE and newest in _kept()


def test_where_no_copy_of_theirs_can_be_kept_theirs_stays(met, asked, monkeypatch):
    desk, path = met
    told = []
    monkeypatch.setattr(dialogs, "tell_file_error", lambda parent, text: told.append(text))
    settings_folder().mkdir(exist_ok=True)
    (settings_folder() / "kept_jobs").write_text("a file where the folder would be")
    asked[1].append("mine")
    desk.files.save()
    assert read_job(path) == THEIRS and "cannot be made" in told[0] and desk.session.unsaved


def test_a_file_saved_meanwhile_with_the_same_job_is_no_question(met, asked):
    desk, path = met
    write_job(path, MINE)
    desk.files.save()
    assert asked[0] == [] and not desk.session.unsaved


def test_a_file_that_is_gone_is_saved_anew(met, asked):
    desk, path = met
    path.unlink()
    desk.files.save()
    assert asked[0] == [] and read_job(path) == MINE


def test_it_is_noticed_when_the_window_gets_the_focus_and_asked_once_for_each_change(met, asked, qtbot):
    desk, path = met

    def focus():
        QApplication.sendEvent(desk.window, QEvent(QEvent.Type.WindowActivate))
        qtbot.wait(20)

    focus()
    focus()
    assert len(asked[0]) == 1
    write_job(path, changed(THEIRS, note="theirs again"))
    focus()
    assert [each.theirs.note for each in asked[0]] == ["theirs", "theirs again"]


def test_our_own_save_and_a_job_without_a_file_are_no_question_on_focus(met, asked, qtbot):
    desk, _ = met
    asked[1].append("mine")
    desk.files.save()
    desk.files.look()
    desk.session.load(Job(), None)
    desk.files.look()
    assert len(asked[0]) == 1


@pytest.fixture
def dialog(qtbot):
    """Opens the question itself."""

    def opened(theirs, mine=MINE, why=""):
        shown = TwoVersions(ChangedOnDisk(Path("job.json"), b"", theirs, why), mine, True)
        qtbot.addWidget(shown)
        return shown

    return opened


def test_the_question_shows_what_differs_and_each_button_answers(dialog):
    shown = dialog(THEIRS)
    rows = [[shown.table.item(row, column).text() for column in range(3)] for row in range(shown.table.rowCount())]
    assert ["note", "mine", "theirs"] in rows
    assert any(row[0] == "injury 2" and row[1] == "not there" for row in rows)
    for button, answer in ((shown.keep, "mine"), (shown.take, "theirs"), (shown.other, "other_name")):
        button.click()
        assert shown.answer == answer
    assert dialog(THEIRS).answer == "later"


def test_a_decision_in_the_file_is_not_replaced(dialog):
    at = datetime(2026, 3, 1, 9, 30, tzinfo=UTC)
    decision = Decision(date=at, rule_set="japan", answer="repairable", decision="repair")
    shown = dialog(changed(THEIRS, decisions=(decision,)))
    assert not shown.keep.isEnabled() and shown.take.isEnabled() and shown.other.isEnabled()
    assert "a decision" in shown.says.text()


def test_what_cannot_be_opened_is_not_taken(dialog):
    shown = dialog(None, why="It is not JSON.")
    assert not shown.take.isEnabled() and shown.keep.isEnabled() and "It is not JSON." in shown.says.text()


def test_keeping_mine_over_what_cannot_be_opened_keeps_its_bytes(met, asked):
    desk, path = met
    path.write_bytes(b"not a job")
    asked[1].append("mine")
    desk.files.save()
    assert read_job(path) == MINE
    kept, = (settings_folder() / "kept_jobs").iterdir()
    assert kept.read_bytes() == b"not a job"


def test_the_window_says_where_the_version_that_gave_way_is_kept(bench_window):
    bench_window.files.told.emit("It is kept there.")
    assert bench_window.message.text == "It is kept there."
