"""Reading many files: on all cores, with a stop, where no process can be started, and by two programs at once."""

import json
import os
import subprocess
import sys
from concurrent.futures import Future
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path

import pytest

from tiremap.model.job import Job
from tiremap.storage import register_reading
from tiremap.storage.canonical import job_text
from tiremap.storage.register import Register
from tiremap.storage.register_reading import read_entries
from tiremap.storage.register_rows import Asked, entry_of
from tiremap.storage.register_scan import files_found

TOP = Path(__file__).resolve().parents[3]

SAVES_AND_REFRESHES = """
import sys
from pathlib import Path
from tiremap.model.job import Job
from tiremap.storage.job_file import write_job
from tiremap.storage.register import Register

if __name__ == "__main__":
    folder, who = Path(sys.argv[1]), sys.argv[2]
    for turn in range(6):
        write_job(folder / f"{who}{turn}.json", Job(job_number=f"{who} {turn}"))
        write_job(folder / "shared.json", Job(job_number=f"{who} {turn}"))
        (folder / f"{who}{turn - 3}.json").unlink(missing_ok=turn < 3)
        Register(folder).refresh()
        assert {f"{who}{turn}.json"} <= {row.path for row in Register(folder).find(who)}
"""
"""Another program on the same folder: saves its own jobs and one that both save, and finds what it just saved."""


@pytest.fixture
def asked(tmp_path):
    folder = tmp_path / "jobs"
    folder.mkdir()
    for each in range(60):
        (folder / f"{each}.json").write_text("{" if each == 7 else job_text(Job(job_number=f"job {each}")))
    return [Asked(str(folder), found, None, "rules", 0) for found in files_found(folder)]


@pytest.fixture
def for_any_number(monkeypatch):
    """Other processes are started for any number of files."""
    limits = {"files_at_a_time": 7, "most_processes": 2, "all_cores_from": 1}
    monkeypatch.setattr(register_reading, "read_toml", lambda name: {"register": limits})
    monkeypatch.setattr(register_reading.os, "cpu_count", lambda: 2)


def by_path(parts) -> list:
    return sorted((entry for part in parts for entry in part), key=lambda entry: entry.found.path)


def test_all_cores_read_what_one_reads(asked, for_any_number):
    assert by_path(read_entries(asked, lambda: False)) == [entry_of(each) for each in asked]


@pytest.mark.parametrize("lives_for", [0, 1, 4])
def test_processes_that_cannot_be_started_or_die_leave_nothing_out(asked, for_any_number, monkeypatch, lives_for):
    class Dying:
        """Does so many errands, then breaks as a pool does whose processes died."""

        def __init__(self, *arguments, **more):
            self.left = lives_for

        def submit(self, errand, files):
            if not lives_for:
                raise BrokenProcessPool
            future = Future()
            self.left -= 1
            if self.left >= 0:
                future.set_result(errand(files))
            else:
                future.set_exception(BrokenProcessPool())
            return future

        def shutdown(self, cancel_futures):
            assert cancel_futures

    monkeypatch.setattr(register_reading, "ProcessPoolExecutor", Dying)
    assert by_path(read_entries(asked, lambda: False)) == [entry_of(each) for each in asked]


def test_a_stop_takes_hold_after_the_files_under_way(asked, for_any_number, monkeypatch):
    monkeypatch.setattr(register_reading.os, "cpu_count", lambda: 1)
    stops = iter([False, False, True])
    assert len(by_path(read_entries(asked, lambda: next(stops)))) == 14


def test_two_programs_on_one_folder_lose_nothing(tmp_path):
    folder = tmp_path / "jobs"
    folder.mkdir()
    program = tmp_path / "program.py"
    program.write_text(SAVES_AND_REFRESHES)
    both = [
        subprocess.Popen([sys.executable, program, folder, who], cwd=TOP, env=_with_project(), stderr=subprocess.PIPE)
        for who in ("one", "other")
    ]
    for each in both:
        _, said = each.communicate(timeout=120)
        assert each.returncode == 0, said.decode()
    register = Register(folder)
    register.refresh()
    numbers = {path.name: json.loads(path.read_text())["job_number"] for path in folder.glob("*.json")}
    assert {row.path: row.job_number for row in register.find(limit=-1)} == numbers
    assert len(numbers) == 2 * 3 + 1 and not any(row.fault for row in register.find())


def _with_project() -> dict[str, str]:
    return os.environ | {"PYTHONPATH": str(TOP)}
