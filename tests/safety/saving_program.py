"""Programs of their own for the tests that kill and race: started by file, they import the program once and then fork.

``kills FOLDER TIMES SEED``: again and again a saver is started that saves one generation after the other, and killed at
a random moment; after each kill every file is read. ``share FOLDER TIMES NAME``: saves to a file that another program
writes too, once both stand. Each prints one line of JSON with what it counted.
"""

import json
import os
import random
import signal
import sys
import time
from pathlib import Path

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.edits.change import changed
from tiremap.model.job import Job
from tiremap.storage.checked_save import previous_generation
from tiremap.storage.job_file import ChangedOnDisk, job_from_bytes, read_job, write_job
from tiremap.storage.register import Register

LONGEST_LIFE_S = 0.06
"""Of a saver before it is killed: some saves, so that every part of a save is met."""

OWN_FILE_EVERY = 10
"""Saves to the shared file after which a job of the program's own is saved and the register is read."""

LOOK_S = 0.01


def generation(number: int) -> Job:
    """The job that is saved as that generation; they differ in length, so that a mixture would not be read."""
    return changed(bench_job(crown_injury()), job_number=str(number), note="x" * (number * 37 % 3000))


def number_in(path: Path) -> int:
    """Which generation a file holds; fails unless it is whole."""
    job = job_from_bytes(path.read_bytes())
    number = int(job.job_number)
    if job != generation(number):
        raise AssertionError(f"{path} holds a mixture")
    return number


def kills(folder: Path, times: int, seed: int) -> dict[str, int]:
    """Kill a saver that many times; fails at the first file that is not whole, or generation that is lost."""
    draw, path = random.Random(seed), folder / "job.json"
    write_job(path, generation(0))
    write_job(path, generation(1))
    saves = stopped_between = 0
    last = 1
    for _ in range(times):
        done = _one_life(path, last, draw.uniform(0, LONGEST_LIFE_S))
        stands, before = number_in(path), number_in(previous_generation(path))
        if stands not in (done, done + 1) or before != stands - 1:
            raise AssertionError(f"{done} was saved, {stands} and {before} are there")
        stopped_between += any(each.name.startswith(".tiremap-") for each in folder.iterdir())
        saves += stands - last
        last = stands
    write_job(path, generation(last + 1), generation(last))
    left = sorted(each.name for each in folder.iterdir())
    if left != ["job.json", "job.json~"]:
        raise AssertionError(f"left over: {left}")
    return {"kills": times, "saves": saves, "in_the_middle_of_a_save": stopped_between}


def _one_life(path: Path, last: int, life_s: float) -> int:
    """Start a saver and kill it; the last generation it said it had saved."""
    reader, writer = os.pipe()
    child = os.fork()
    if child == 0:
        _save_for_ever(path, last, writer)
    os.close(writer)
    time.sleep(life_s)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    with os.fdopen(reader, "rb") as said:
        lines = said.read().split()
    return int(lines[-1]) if lines else last


def _save_for_ever(path: Path, last: int, writer: int) -> None:
    while True:
        write_job(path, generation(last + 1), generation(last))
        last += 1
        os.write(writer, b"%d\n" % last)


def share(folder: Path, times: int, who: str) -> dict[str, int]:
    """Write to one job file together with another program, save jobs beside it and keep the register up to date."""
    path, met = folder / "shared.json", 0
    _wait_for_both(folder.parent, who)
    for number in range(times):
        met += _add(path, f"{who}{number}")
        if number % OWN_FILE_EVERY == 0:
            write_job(folder / f"{who}{number}.json", changed(Job(), job_number=f"{who}{number}"))
            Register(folder).refresh()
    return {"saves": times, "met": met}


def _wait_for_both(folder: Path, who: str) -> None:
    """Say that this program stands, and wait until the other does: they are to work at the same time."""
    (folder / f"{who}.ready").touch()
    while len(list(folder.glob("*.ready"))) < 2:
        time.sleep(LOOK_S)


def _add(path: Path, word: str) -> int:
    """Add a word to the job's note; how often the other program was quicker and the job was read again."""
    met = 0
    while True:
        job = read_job(path)
        try:
            write_job(path, changed(job, note=f"{job.note} {word}"), opened_as=job)
            return met
        except ChangedOnDisk:
            met += 1


if __name__ == "__main__":
    what, folder, times, rest = sys.argv[1], Path(sys.argv[2]), int(sys.argv[3]), sys.argv[4]
    print(json.dumps(kills(folder, times, int(rest)) if what == "kills" else share(folder, times, rest)))
