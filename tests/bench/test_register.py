"""How long the register takes: ``pytest -n 0 --benchmark-only tests/bench/test_register.py``, ``-m long`` for 100,000.

Making an index anew is set against reading and parsing the same files in one process (``extra_info``); a filter is
asked of 100,000 rows. ``processors_over`` is the same with the time the processors worked, shared out over the cores:
what it would be were the machine free of other work. Of 1,000 files much is the start of the processes.
"""

import os
from dataclasses import replace

import pytest

from tests.helpers.cpu_time import timed, worked_s
from tests.helpers.many_jobs import fill, places
from tiremap.storage.job_file import read_job
from tiremap.storage.register import Register
from tiremap.storage.register_index import opened, put
from tiremap.storage.register_rows import Asked, Entry, entry_of
from tiremap.storage.register_scan import files_found

IN_DAILY_USE_AND_MORE = 100_000

SEARCHES = {
    "the first page": {},
    "a size": {"words": "20555"},
    "one job": {"words": "j-054321"},
    "two words and an answer": {"words": "225/45 f-007", "answer": "repairable"},
    "nothing": {"words": "nowhere at all"},
    "a month": {"since": "2021-03", "until": "2021-03"},
    "what decides": {"deciding": "place", "answer": "not_repairable"},
}


@pytest.mark.parametrize("number", [1_000, pytest.param(100_000, marks=pytest.mark.long)])
def test_an_index_made_anew(tmp_path, benchmark, number):
    folder = tmp_path / "jobs"
    fill(folder, number)
    some = sorted(folder.rglob("*.json"))[:: number // 1_000]
    parsed = [timed(lambda: [read_job(path) for path in some]) for _ in range(3)]
    by_clock, by_processors = (min(each) * number / len(some) for each in zip(*parsed, strict=True))
    register, done = Register(folder), []
    worked = worked_s(lambda: done.append(benchmark.pedantic(register.refresh, rounds=1)))
    benchmark.extra_info["over_reading_and_parsing"] = round(benchmark.stats.stats.min / by_clock, 2)
    benchmark.extra_info["processors_over"] = round(worked / os.cpu_count() / by_processors, 2)
    (done,) = done
    assert (done.read, done.faulty) == (number, 0) and register.count() == number


@pytest.fixture(scope="module")
def large(tmp_path_factory):
    """A register of 100,000 rows: 500 invented jobs, each many times under other numbers."""
    folder, cache = tmp_path_factory.mktemp("jobs"), tmp_path_factory.mktemp("cache")
    fill(folder, 500)
    entries = [entry_of(Asked(str(folder), found, None, "rules", 0)) for found in files_found(folder)]
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("TIREMAP_CACHE_FOLDER", str(cache))
        register = Register(folder)
        every = enumerate(places(IN_DAILY_USE_AND_MORE), start=1)
        with opened(register.index_path) as index:
            put(index, (_under_another_number(entries[each % 500], each, path) for each, path in every))
    return folder, cache


def _under_another_number(entry: Entry, number: int, path: str) -> Entry:
    date, job_number, row = "-".join((*path.split("/")[:2], f"{number % 28 + 1:02}")), f"J-{number:06}", entry.row
    search = entry.search.replace(row.path.casefold(), path.casefold())
    search = search.replace(row.job_number.casefold(), job_number.casefold())
    named = replace(row, path=path, date=date, job_number=job_number)
    return replace(entry, row=named, search=search, found=replace(entry.found, path=path))


@pytest.mark.parametrize("asked", SEARCHES)
def test_a_filter_over_100_000_jobs(large, benchmark, monkeypatch, asked):
    folder, cache = large
    monkeypatch.setenv("TIREMAP_CACHE_FOLDER", str(cache))
    register = Register(folder)
    search = SEARCHES[asked]
    rows, number = benchmark(lambda: (register.find(**search, limit=200), register.count(**search)))
    assert len(rows) == min(number, 200) and (number > 0) == (asked != "nothing")
    assert register.count() == IN_DAILY_USE_AND_MORE
