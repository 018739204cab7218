"""A save stopped, or failing, at every single call that touches a file: no file unreadable, no generation lost.

Both are walked through systematically: call number 1, 2, 3 ... until a save runs through.
"""

import errno
import os

import pytest

from tests.helpers.jobs import bench_job, crown_injury
from tests.safety.stops import counted, failing_with, stop_after, stop_before
from tiremap.edits.change import changed
from tiremap.errors import TiremapError
from tiremap.storage.canonical import job_text
from tiremap.storage.checked_save import previous_generation
from tiremap.storage.job_file import job_from_bytes, read_job, write_job

GENERATIONS = [changed(bench_job(crown_injury()), note=f"generation {number}") for number in range(5)]
LEAST_CALLS = 20
"""A save of a file with a generation before it makes more; fewer would mean that they are not seen any more."""


def _saved(tmp_path, upto):
    """A job file after the saves of the first generations, and no trace of anything else."""
    path = tmp_path / "job.json"
    if upto:
        path.write_text(job_text(GENERATIONS[upto - 1]), encoding="utf-8")
    if upto > 1:
        previous_generation(path).write_text(job_text(GENERATIONS[upto - 2]), encoding="utf-8")
    return path


def _notes(path):
    """What the job file and its previous generation hold."""
    before = previous_generation(path)
    return tuple(job_from_bytes(each.read_bytes()).note[-1] if each.exists() else "" for each in (path, before))


def _every_call(monkeypatch, tmp_path, upto, instead):
    """The file after a save that met with ``instead`` at its nth call, for every n, and the error if it had one."""
    number = 0
    while True:
        number += 1
        folder = tmp_path / str(number)
        folder.mkdir()
        path, error = _saved(folder, upto), None
        with counted(monkeypatch, number, instead) as calls:
            try:
                write_job(path, GENERATIONS[upto], GENERATIONS[upto - 1] if upto else None)
            except TiremapError as raised:
                error = raised
        if number > len(calls.made):
            assert _notes(path)[0] == str(upto) and error is None
            return
        yield calls.made[-1], path, error


@pytest.mark.parametrize("instead", [stop_before, stop_after])
@pytest.mark.parametrize("upto", [1, 2, 3])
def test_wherever_a_save_is_stopped_both_generations_are_there(tmp_path, monkeypatch, upto, instead):
    """Either the two from before the save or the two from after it, each whole and readable."""
    old = (str(upto - 1), str(upto - 2) if upto > 1 else "")
    new = (str(upto), str(upto - 1))
    seen = [_notes(path) for _, path, _ in _every_call(monkeypatch, tmp_path, upto, instead)]
    assert len(seen) >= LEAST_CALLS
    assert set(seen) == {old, new}


@pytest.mark.parametrize("instead", [stop_before, stop_after])
def test_the_save_after_a_stopped_one_finishes_its_work_and_leaves_nothing_over(tmp_path, monkeypatch, instead):
    for _, path, _ in _every_call(monkeypatch, tmp_path, 2, instead):
        stood, _ = _notes(path)
        with counted(monkeypatch, 0, instead):
            write_job(path, GENERATIONS[3])
        assert _notes(path) == ("3", stood)
        assert sorted(each.name for each in path.parent.iterdir()) == ["job.json", "job.json~"]


@pytest.mark.long
@pytest.mark.parametrize("instead", [stop_before, stop_after])
def test_a_second_stop_on_top_of_the_first_costs_nothing_either(tmp_path, monkeypatch, instead):
    """Every stop of a save, and every stop of the one after it."""
    for number, (_, path, _) in enumerate(_every_call(monkeypatch, tmp_path, 2, stop_after)):
        stood = _notes(path)
        kept = {each.name: each.read_bytes() for each in path.parent.iterdir()}
        again = 0
        while True:
            again += 1
            with counted(monkeypatch, again, instead) as calls:
                write_job(path, GENERATIONS[4])
            assert _notes(path) in (stood, ("4", stood[0])), (number, again)
            if again > len(calls.made):
                break
            _put_back(path.parent, kept)


def _put_back(folder, kept):
    """The folder as it was, file by file."""
    for each in folder.iterdir():
        each.unlink()
    for name, data in kept.items():
        (folder / name).write_bytes(data)


@pytest.mark.parametrize("instead", [stop_before, stop_after])
def test_a_first_save_that_is_stopped_leaves_no_file_or_a_whole_one(tmp_path, monkeypatch, instead):
    for _, path, _ in _every_call(monkeypatch, tmp_path, 0, instead):
        assert not path.exists() or read_job(path) == GENERATIONS[0]


@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EIO, errno.EACCES, errno.EROFS, errno.ENOENT, errno.EBUSY])
@pytest.mark.parametrize("upto", [0, 1, 3])
def test_whichever_call_fails_the_save_succeeds_whole_or_both_generations_stand(tmp_path, monkeypatch, upto, code):
    """A failure is told with what to do; where it came after the work was done, the save counts and is whole."""
    old = (str(upto - 1), str(upto - 2) if upto > 1 else "")
    told = 0
    for call, path, error in _every_call(monkeypatch, tmp_path, upto, failing_with(code)):
        if error is None:
            assert _notes(path)[0] == str(upto), call
            continue
        told += 1
        assert "was not saved" in error.what and "as it was" in error.what and error.right
        assert _notes(path) == old if upto else not path.exists(), call
    assert told > 5


def test_everything_is_forced_to_disk_before_it_is_given_its_name(tmp_path, monkeypatch):
    path = _saved(tmp_path, 3)
    with counted(monkeypatch, 0, stop_before) as calls:
        write_job(path, GENERATIONS[3])
    steps = [each for each in calls.made if each in ("write", "fsync", "replace")]
    assert steps == ["write", "fsync", "write", "fsync", "replace", "replace", "fsync", "replace", "fsync"]


def test_a_folder_that_went_away_is_told(tmp_path):
    folder = tmp_path / "gone"
    folder.mkdir()
    path = _saved(folder, 1)
    for each in folder.iterdir():
        each.unlink()
    folder.rmdir()
    with pytest.raises(TiremapError, match="folder does not exist"):
        write_job(path, GENERATIONS[1], GENERATIONS[0])


@pytest.mark.skipif(hasattr(os, "geteuid") and os.geteuid() == 0, reason="nothing is read-only to root")
def test_a_read_only_folder_is_told_and_the_file_stands(tmp_path):
    path = _saved(tmp_path, 1)
    tmp_path.chmod(0o500)
    try:
        with pytest.raises(TiremapError, match="was not saved"):
            write_job(path, GENERATIONS[1], GENERATIONS[0])
    finally:
        tmp_path.chmod(0o700)
    assert _notes(path) == ("0", "")
