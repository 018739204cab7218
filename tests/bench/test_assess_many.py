"""``tiremap assess`` of many files, against reading and validating them in one process.

``pytest -n 0 --benchmark-only tests/bench/test_assess_many.py``, ``-m long`` for 10,000. The ratio stands in
``extra_info``. ``processors_over`` is the same with the time the processors worked, shared out over the cores: what it
would be were the machine free of other work. Of 1,000 files much is the start of the processes.
"""

import os
from pathlib import Path

import pytest

from tests.helpers.cpu_time import timed, worked_s
from tests.helpers.many_jobs import fill
from tiremap.cli import run
from tiremap.storage.job_file import read_job


@pytest.mark.parametrize("number", [1_000, pytest.param(10_000, marks=pytest.mark.long)])
@pytest.mark.parametrize("how", [[], ["--json"]], ids=["in words", "as JSON"])
def test_assess_by_command(tmp_path, benchmark, capsys, number, how):
    fill(tmp_path, number)
    paths = sorted(str(path) for path in tmp_path.rglob("*.json"))
    read = [timed(lambda: [read_job(Path(path)) for path in paths[:: number // 1_000]]) for _ in range(3)]
    by_clock, by_processors = (min(each) * number / 1_000 for each in zip(*read, strict=True))
    codes = []
    worked = worked_s(lambda: codes.append(benchmark.pedantic(run, args=(["assess", *paths, *how],), rounds=1)))
    benchmark.extra_info["over_reading_and_validating"] = round(benchmark.stats.stats.min / by_clock, 2)
    benchmark.extra_info["processors_over"] = round(worked / os.cpu_count() / by_processors, 2)
    lines = capsys.readouterr().out.splitlines()
    assert codes == [1] and len(lines) >= number
