"""Unsaved work is kept for the next start, never taken from a running window, and removed on the user's word alone."""

import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.edits.change import changed
from tiremap.errors import TiremapError
from tiremap.model.job import Job
from tiremap.storage.file_lock import held_file
from tiremap.storage.unsaved_work import Work, WorkKept, work_found

JOB = bench_job(crown_injury())
AT = datetime(2026, 3, 1, 9, 30, tzinfo=UTC)
TOP = Path(__file__).resolve().parents[3]


def _work(note="", at=AT, file="/shop/one.json"):
    return Work(file=file, kept=at, opened_as=Job(), job=changed(JOB, note=note))


def _left_behind(*works):
    """Each work as a stopped program leaves it: kept, and the lock gone with the process."""
    paths = []
    for work in works:
        kept = WorkKept()
        kept.keep(work)
        kept.end()
        paths.append(kept.path)
    return paths


def test_what_a_stopped_program_kept_is_found_with_all_it_held_the_newest_first():
    _left_behind(_work("older"), _work("newer", datetime(2026, 3, 2, tzinfo=UTC), file=None))
    newer, older = work_found()
    assert older.work == _work("older") and newer.work.job.note == "newer" and newer.work.file is None
    for each in (newer, older):
        each.leave()


def test_what_a_running_window_keeps_is_not_found():
    kept = WorkKept()
    kept.keep(_work())
    assert work_found() == ()
    kept.end()
    found, = work_found()
    assert work_found() == ()  # nor what another window is just asking about
    found.leave()


def test_what_another_running_program_keeps_is_not_found_until_it_is_killed(tmp_path):
    code = (
        "import sys; from tests.unit.storage.test_unsaved_work import WorkKept, _work\n"
        "kept = WorkKept(); kept.keep(_work('theirs')); print('kept', flush=True); sys.stdin.read()"
    )
    pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE}
    with subprocess.Popen([sys.executable, "-c", code], text=True, cwd=TOP, **pipes) as program:
        assert program.stdout.readline() == "kept\n"
        assert work_found() == ()
        program.kill()
    found, = work_found()
    assert found.work == _work("theirs")
    found.leave()


def test_nothing_is_on_disk_before_there_is_work_and_nothing_after_it_was_saved(tmp_path):
    kept = WorkKept()
    kept.forget()
    assert not kept.path.parent.exists()
    kept.keep(_work("one"))
    kept.keep(_work("two"))
    kept.forget()
    kept.end()
    assert list(kept.path.parent.iterdir()) == []


def test_found_work_stays_until_it_is_removed():
    path, = _left_behind(_work())
    for _ in range(2):
        found, = work_found()
        found.leave()
    found, = work_found()
    found.remove()
    assert work_found() == () and list(path.parent.iterdir()) == []


def test_damaged_work_gives_the_moment_before_and_else_says_why_and_stays():
    kept = WorkKept()
    kept.keep(_work("before"))
    kept.keep(_work("last"))
    kept.end()
    kept.path.write_bytes(b"{")
    found, = work_found()
    assert found.work == _work("before")
    found.leave()
    kept.path.with_name(f"{kept.path.name}~").unlink()
    found, = work_found()
    assert found.work is None and "line 1" in found.why
    found.leave()
    assert kept.path.exists()


@pytest.mark.parametrize("data", [b"[]", b'"text"', b"{}", b'{"job": {}, "opened_as": {}}', b'{"job": 3}'])
def test_what_is_no_work_is_told_and_never_a_bug(data):
    path, = _left_behind(_work())
    path.write_bytes(data)
    found, = work_found()
    assert found.work is None and found.why
    found.leave()


def test_a_folder_that_cannot_be_made_is_told(tmp_path):
    (tmp_path / "settings").write_text("a file where the folder would be")
    with pytest.raises(TiremapError, match="cannot be made"):
        WorkKept().keep(_work())


def test_where_there_are_no_locks_work_is_kept_and_offered_and_taking_it_over_removes_nothing(monkeypatch):
    def none(path):
        raise OSError(95, "Operation not supported")

    monkeypatch.setattr("tiremap.storage.unsaved_work.held_file", none)
    path, = _left_behind(_work())
    found, = work_found()
    found.taken_over()
    assert path.exists()
    found.remove()
    assert not path.exists()


def test_a_window_that_kept_nothing_leaves_nothing():
    kept = WorkKept()
    kept.end()
    kept.forget()
    assert not kept.path.parent.exists()


def test_work_that_is_saved_between_the_listing_and_the_look_is_not_offered_and_its_lock_goes_too(monkeypatch):
    path, = _left_behind(_work())

    def once_it_is_saved(lock):
        path.unlink()
        return held_file(lock)

    monkeypatch.setattr("tiremap.storage.unsaved_work.held_file", once_it_is_saved)
    assert work_found() == ()
    assert list(path.parent.iterdir()) == []


def test_work_of_a_version_not_known_is_told_by_its_field():
    path, = _left_behind(_work())
    path.write_text(path.read_text().replace('"version": 1\n}', '"version": 2\n}'))
    found, = work_found()
    assert found.work is None and "version" in found.why
    found.leave()
