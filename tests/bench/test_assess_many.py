"""``tiremap assess`` of many files, against reading and validating them in one process.

``pytest -n 0 --benchmark-only tests/bench/test_assess_many.py``, ``-m long`` for 10,000. The ratio stands in
``extra_info``; on a machine with other work the cores are not the command's alone, and it comes out higher.
"""

from pathlib import Path
from time import perf_counter

import pytest

from tests.helpers.many_jobs import fill
from tiremap.cli import run
from tiremap.storage.job_file import read_job


def least_time_to_read(paths: list[str]) -> float:
    times = []
    for _ in range(3):
        begun = perf_counter()
        for path in paths:
            read_job(Path(path))
        times.append(perf_counter() - begun)
    return min(times)


@pytest.mark.parametrize("number", [1_000, pytest.param(10_000, marks=pytest.mark.long)])
@pytest.mark.parametrize("how", [[], ["--json"]], ids=["in words", "as JSON"])
def test_assess_by_command(tmp_path, benchmark, capsys, number, how):
    fill(tmp_path, number)
    paths = sorted(str(path) for path in tmp_path.rglob("*.json"))
    reading = least_time_to_read(paths[:: number // 1_000]) * number / 1_000
    code = benchmark.pedantic(lambda: run(["assess", *paths, *how]), rounds=1 if number > 1_000 else 2)
    benchmark.extra_info["over_reading_and_validating"] = round(benchmark.stats.stats.min / reading, 2)
    lines = capsys.readouterr().out.splitlines()
    assert code == 1 and len(lines) >= number
