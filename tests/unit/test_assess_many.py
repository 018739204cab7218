"""``tiremap assess`` of many files: the same lines, order, faults and exit codes on one core and on all."""

import json

import pytest

from tests.helpers.many_jobs import fill
from tiremap.cli import run
from tiremap.commands import all_cores
from tiremap.commands.all_cores import in_order

LIMITS = {"files_at_a_time": 4, "all_cores_from": 10, "most_processes": 2}


@pytest.fixture
def paths(tmp_path) -> list[str]:
    fill(tmp_path / "jobs", 14)
    paths = sorted(str(path) for path in (tmp_path / "jobs").rglob("*.json"))
    broken = tmp_path / "broken.json"
    broken.write_text("{")
    return [*paths[:7], str(broken), *paths[7:], str(tmp_path / "nowhere.json")]


@pytest.fixture
def two_cores(monkeypatch):
    monkeypatch.setattr(all_cores, "read_toml", lambda name: {"register": LIMITS})
    monkeypatch.setattr(all_cores.os, "cpu_count", lambda: 2)


@pytest.mark.parametrize("asked", [["--json"], ["--rules", "japan"]])
def test_on_all_cores_it_says_what_it_says_on_one(paths, capsys, monkeypatch, asked):
    code = run(["assess", *paths, *asked])
    alone = capsys.readouterr()
    monkeypatch.setattr(all_cores, "read_toml", lambda name: {"register": LIMITS})
    monkeypatch.setattr(all_cores.os, "cpu_count", lambda: 2)
    assert run(["assess", *paths, *asked]) == code == 2
    together = capsys.readouterr()
    assert together.out == alone.out and together.err == alone.err
    assert len(alone.err.splitlines()) == 2 and "broken.json" in alone.err.splitlines()[0]
    if asked == ["--json"]:
        told = [json.loads(line)["job"] for line in alone.out.splitlines()]
        assert told == [path for path in paths if "broken" not in path and "nowhere" not in path]


def test_a_process_that_dies_costs_no_file(two_cores, monkeypatch):
    class Dying(all_cores.ProcessPoolExecutor):
        def submit(self, work, part):
            if part == ["4", "5", "6", "7"]:
                raise all_cores.BrokenProcessPool
            return super().submit(work, part)

    monkeypatch.setattr(all_cores, "ProcessPoolExecutor", Dying)
    numbers = [str(number) for number in range(18)]
    assert [each for part in in_order(sorted, numbers) for each in part] == [
        each for start in range(0, 18, 4) for each in sorted(numbers[start : start + 4])
    ]


def test_what_the_work_raises_is_raised_here(two_cores):
    with pytest.raises(ValueError):
        list(in_order(_as_numbers, ["1"] * 9 + ["none"] * 2))


def _as_numbers(paths: list[str]) -> list[float]:
    return [float(path) for path in paths]


def test_a_terminal_is_told_how_far_it_is_and_nothing_else_is(paths, capsys, monkeypatch):
    monkeypatch.setattr(all_cores, "read_toml", lambda name: {"register": LIMITS | {"all_cores_from": 100}})
    monkeypatch.setattr("sys.stderr.isatty", lambda: True, raising=False)
    run(["assess", *paths, "--json"])
    said = capsys.readouterr()
    assert "4 of 16 files" in said.err and "12 of 16 files" in said.err
    assert said.err.endswith("\r\x1b[K") and "files" not in said.out
