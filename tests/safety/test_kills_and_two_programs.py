"""Programs that are killed while they save, and two that work in one folder: nothing is unreadable, nothing is lost.

A short form by default; all of it with ``.venv/bin/pytest -n 0 -m long -s tests/safety``, which prints what it counted.
"""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.safety.saving_program import OWN_FILE_EVERY
from tiremap.storage.job_file import read_job
from tiremap.storage.register import Register

TOP = Path(__file__).resolve().parents[2]
PROGRAM = TOP / "tests" / "safety" / "saving_program.py"
NO_FORK = pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot fork")


def _started(*args):
    command = [sys.executable, str(PROGRAM), *map(str, args)]
    path = {**os.environ, "PYTHONPATH": str(TOP)}
    return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=path)


def _ended(program):
    out, error = program.communicate()
    assert program.returncode == 0, error
    return json.loads(out)


@NO_FORK
@pytest.mark.parametrize(("times", "seed"), [(40, 1), pytest.param(1000, 2, marks=pytest.mark.long)])
def test_a_saver_killed_at_random_moments_leaves_two_whole_generations_each_time(tmp_path, times, seed):
    """The file holds what was last reported as saved, or the save under way; the one before it is beside it."""
    counted = _ended(_started("kills", tmp_path, times, seed))
    print(counted)
    assert counted["kills"] == times and counted["saves"] > 0
    assert counted["in_the_middle_of_a_save"] > 0


@pytest.mark.parametrize("times", [30, pytest.param(500, marks=pytest.mark.long)])
def test_two_programs_saving_to_one_file_and_one_register_lose_nothing(tmp_path, monkeypatch, times):
    folder = tmp_path / "jobs"
    folder.mkdir()
    (folder / "shared.json").write_text('{"format": "tiremap-job", "version": 1}', encoding="utf-8")
    counted = [_ended(each) for each in [_started("share", folder, times, who) for who in "ab"]]
    print(counted)
    assert sum(each["met"] for each in counted) > 0
    words = read_job(folder / "shared.json").note.split()
    assert sorted(words) == sorted(f"{who}{number}" for who in "ab" for number in range(times))
    own = {f"{who}{number}" for who in "ab" for number in range(0, times, OWN_FILE_EVERY)}
    register = Register(folder)
    assert register.refresh().faulty == 0
    assert {row.job_number for row in register.find() if row.job_number} == own
    assert register.count() == len(own) + 1
