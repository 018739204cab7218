"""A window killed in the middle of work: what was done is found at the next start.

``.venv/bin/pytest -n 0 -m long -s tests/safety/test_killed_window.py`` kills it again and again and prints how much
work each kill cost, in seconds between the kill and the newest edit that is there again.
"""

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tiremap.storage.unsaved_work import work_found

TOP = Path(__file__).resolve().parents[2]
PROGRAM = TOP / "tests" / "safety" / "edited_window.py"
EDITS_BEFORE = 5
LONGEST_WORK_S = 3.0


def _killed_while_working(work_s):
    """Every edit that was made with its time, ns, and the time of the kill."""
    env = {**os.environ, "PYTHONPATH": str(TOP), "QT_QPA_PLATFORM": "offscreen"}
    with subprocess.Popen([sys.executable, str(PROGRAM)], stdout=subprocess.PIPE, text=True, env=env) as program:
        lines = [program.stdout.readline() for _ in range(EDITS_BEFORE)]
        time.sleep(work_s)
        killed_at = time.time_ns()
        program.send_signal(signal.SIGKILL)
        lines += program.stdout.read().splitlines()
    made = dict(map(int, line.split()) for line in lines if len(line.split()) == 2)
    return made, killed_at


def _found_again():
    found, = work_found()
    assert found.work is not None, found.why
    found.remove()
    return int(found.work.job.note)


def _seconds_lost(made, killed_at, number):
    """From the first edit that is gone to the kill; 0 where none is."""
    return max(0.0, (killed_at - made[number + 1]) / 1e9) if number + 1 in made else 0.0


def test_a_window_killed_while_an_untitled_job_is_worked_on_leaves_that_work_for_the_next_start():
    made, _ = _killed_while_working(1.5)
    assert _found_again() in made


@pytest.mark.long
def test_what_each_of_many_kills_of_a_window_costs():
    draw, costs = random.Random(3), []
    for _ in range(30):
        made, killed_at = _killed_while_working(draw.uniform(0.5, LONGEST_WORK_S))
        number = _found_again()
        assert number in made
        costs.append(_seconds_lost(made, killed_at, number))
    print(f"30 kills, lost at most {max(costs):.2f} s, on average {sum(costs) / len(costs):.2f} s")
