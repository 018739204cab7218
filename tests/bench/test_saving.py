"""What saving takes: ``pytest -n 0 --benchmark-only tests/bench/test_saving.py``.

A save is set against writing the same bytes to two files and forcing them to disk, which is the least that keeps one
previous generation (``extra_info``). Of keeping unsaved work only `hand_over` is in the window's own thread.
"""

import os
from statistics import median
from time import perf_counter

import pytest

from tests.unit.drawing.scenes_of import crowded
from tiremap.edits.change import changed
from tiremap.session import Session
from tiremap.storage.canonical import job_text
from tiremap.storage.job_file import write_job
from tiremap.ui.work_keeper import WorkKeeper

ROUNDS = 30
JOB = crowded().job
"""Twelve injuries and six repairs."""


def _bare(folder, data):
    """Seconds it takes to write those bytes twice and force them to disk."""
    start = perf_counter()
    for name in ("one", "other"):
        handle = os.open(folder / name, os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
        os.write(handle, data)
        os.fsync(handle)
        os.close(handle)
    return perf_counter() - start


def test_a_save(benchmark, tmp_path):
    jobs = [changed(JOB, note=f"save {number}") for number in range(ROUNDS + 1)]
    path, bare = tmp_path / "job.json", []
    write_job(path, jobs[0])
    numbers = iter(range(1, ROUNDS + 1))

    def setup():
        number = next(numbers)
        bare.append(_bare(tmp_path, job_text(jobs[number]).encode()))
        return (path, jobs[number], jobs[number - 1]), {}

    benchmark.pedantic(write_job, setup=setup, rounds=ROUNDS)
    benchmark.extra_info["times two bare writes"] = round(benchmark.stats["median"] / median(bare), 1)


@pytest.mark.parametrize("part", ["hand_over", "written"])
def test_keeping_unsaved_work(benchmark, qapp, part):
    session = Session(JOB)
    keeper = WorkKeeper(session)
    numbers = iter(range(10_000))

    def setup():
        if keeper._under_way is not None:
            keeper._under_way.result()
        session.apply("Note", changed(session.job, note=f"edit {next(numbers)}"))
        keeper._timer.stop()

    benchmark.pedantic(keeper._hand_over if part == "hand_over" else keeper.keep_now, setup=setup, rounds=ROUNDS)
    keeper.end()
