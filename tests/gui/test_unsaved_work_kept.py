"""Unsaved work is kept while it is done and offered after a stop; it goes only after a save or an explicit no."""

from datetime import UTC, datetime

import pytest

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.edits.change import changed
from tiremap.model.job import Job
from tiremap.resources import settings_folder
from tiremap.session import Session
from tiremap.storage.job_file import read_job, write_job
from tiremap.storage.unsaved_work import Work, WorkKept, work_found
from tiremap.ui import dialogs
from tiremap.ui import opening as app
from tiremap.ui.left_work import LeftWork
from tiremap.ui.work_keeper import WorkKeeper

OPENED = bench_job(crown_injury("1"))
MINE = changed(OPENED, note="mine")


@pytest.fixture
def wishes(monkeypatch):
    """What the user wants with the work found: wish and row, one by one; "later" once they are used up."""
    answers, offered = [], []

    def ask(parent, found):
        offered.append([each.work and each.work.job for each in found])
        wish, row = answers.pop(0) if answers else ("later", 0)
        return wish, found[row]

    monkeypatch.setattr(dialogs, "ask_about_left_work", ask)
    monkeypatch.setattr(dialogs, "ask_to_throw_away", lambda parent, name: True)
    return answers, offered


def _files():
    folder = settings_folder() / "unsaved_work"
    return sorted(path.name for path in folder.glob("*.json")) if folder.exists() else []


def _on_disk(keeper):
    """The job that lies on disk for a running window, by a look that a running program cannot take."""
    from tiremap.storage.unsaved_work import _read

    return _read(keeper._kept.path)[0].job


def _left(job, path=None, opened_as=OPENED):
    """Unsaved work as a kill leaves it: its lock is gone, its file stays."""
    kept = WorkKept()
    file = None if path is None else str(path)
    kept.keep(Work(file=file, kept=datetime.now(UTC), opened_as=opened_as, job=job))
    kept.end()


@pytest.fixture
def keeper(qapp):
    """A keeper on a session without a window."""
    made = WorkKeeper(Session(OPENED))
    yield made
    made.end()


def test_an_edit_is_on_disk_a_moment_later_and_a_save_removes_it(keeper, tmp_path, qtbot):
    keeper._session.apply("Note", MINE)
    qtbot.waitUntil(lambda: len(_files()) == 1)
    qtbot.waitUntil(lambda: _on_disk(keeper) == MINE)
    path = tmp_path / "job.json"
    write_job(path, MINE)
    keeper._session.saved(path)
    qtbot.waitUntil(lambda: _files() == [])


def test_edits_that_follow_quickly_are_written_together(qtbot, monkeypatch, keeper):
    written = []
    real = WorkKept.keep
    monkeypatch.setattr(WorkKept, "keep", lambda kept, work: (written.append(work.job.note), real(kept, work)))
    for number in range(30):
        keeper._session.apply("Note", changed(OPENED, note=f"edit {number}"))
    qtbot.waitUntil(lambda: written[-1:] == ["edit 29"])
    assert len(written) < 30


def test_going_back_to_what_was_saved_or_closing_without_saving_leaves_nothing(bench_window, qtbot):
    bench_window.session.apply("Note", MINE)
    bench_window.keeper.keep_now()
    bench_window.session.undo()
    qtbot.waitUntil(lambda: _files() == [])
    bench_window.session.redo()
    bench_window.keeper.keep_now()
    assert len(_files()) == 1
    bench_window.close()  # the user says that the changes are not wanted
    assert _files() == [] and list((settings_folder() / "unsaved_work").iterdir()) == []


def test_work_that_cannot_be_kept_is_told_once(bench_window, qtbot):
    settings_folder().mkdir(exist_ok=True)
    (settings_folder() / "unsaved_work").write_text("a file where the folder would be")
    bench_window.session.apply("Note", MINE)
    assert not bench_window.keeper.keep_now()
    qtbot.waitUntil(lambda: "cannot be made" in bench_window.message.text)
    bench_window.message.clear()
    bench_window.session.apply("Note", changed(MINE, note="more"))
    assert not bench_window.keeper.keep_now()
    qtbot.wait(20)
    assert bench_window.message.text == ""


def test_nothing_is_offered_where_nothing_was_left_nor_what_a_running_window_keeps(bench_window, wishes):
    app.offer_left_work(bench_window)
    bench_window.session.apply("Note", MINE)
    bench_window.keeper.keep_now()
    app.offer_left_work(bench_window)
    assert wishes[1] == []


def test_work_taken_up_again_stands_unsaved_over_its_file_with_the_way_back(window, wishes, tmp_path):
    path = tmp_path / "job.json"
    write_job(path, OPENED)
    _left(MINE, path)
    wishes[0].append(("open", 0))
    app.offer_left_work(window)
    assert window.session.job == MINE and window.session.path == path and window.session.unsaved
    assert read_job(path) == OPENED
    assert len(_files()) == 1 and _on_disk(window.keeper) == MINE  # its own; that of the first is gone
    window.actions_.save.trigger()
    assert read_job(path) == MINE
    window.session.undo()
    assert window.session.job == OPENED


def test_a_job_that_never_had_a_file_comes_back_too(window, wishes):
    _left(changed(Job(), note="untitled"), opened_as=Job())
    wishes[0].append(("open", 0))
    app.offer_left_work(window)
    assert window.session.job.note == "untitled" and window.session.path is None and window.session.unsaved


def test_not_now_keeps_it_and_only_an_explicit_no_removes_it(qapp, wishes, monkeypatch):
    _left(MINE)
    for _ in range(2):
        app.offer_left_work(None)
    wishes[0].append(("throw_away", 0))
    monkeypatch.setattr(dialogs, "ask_to_throw_away", lambda parent, name: False)
    app.offer_left_work(None)
    assert wishes[1] == [[MINE]] * 4 and len(_files()) == 1
    monkeypatch.setattr(dialogs, "ask_to_throw_away", lambda parent, name: True)
    wishes[0].append(("throw_away", 0))
    app.offer_left_work(None)
    assert _files() == []


def test_work_that_the_window_cannot_keep_stays_where_it_is(window, wishes, monkeypatch):
    _left(MINE)
    monkeypatch.setattr(WorkKeeper, "keep_now", lambda keeper: False)
    wishes[0].append(("open", 0))
    app.offer_left_work(window)
    found = [each for each in work_found() if each.work.job == MINE]
    assert found
    for each in found:
        each.leave()


def test_the_offer_names_the_job_and_says_what_differs_from_the_file_as_it_stands(qtbot, tmp_path):
    path = tmp_path / "job.json"
    write_job(path, OPENED)
    _left(MINE, path)
    write_job(path, changed(OPENED, job_number="R-7"))  # another program, since
    broken = settings_folder() / "unsaved_work" / "broken.json"
    broken.write_text("{")
    found = work_found()
    dialog = LeftWork(found)
    qtbot.addWidget(dialog)
    assert dialog.jobs.item(0).text().startswith("job.json, last worked on ")
    rows = [[dialog.table.item(row, column).text() for column in range(3)] for row in range(dialog.table.rowCount())]
    assert rows == [["job number", "R-7", "not entered"], ["note", "nothing", "mine"]]
    assert str(path) in dialog.says.text()
    dialog.jobs.setCurrentRow(1)
    assert not dialog.open_it.isEnabled() and "line 1" in dialog.says.text() and dialog.table.rowCount() == 0
    dialog.throw_away.click()
    assert dialog.wish == "throw_away" and dialog.chosen.path == broken
    for each in found:
        each.leave()
