"""The register keeps up with its folder, lists what cannot be read, and loses nothing with its index."""

import os
import sqlite3
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.helpers.jobs import bench_job, crown_injury, measured_tire
from tiremap.assess import assess, verdict
from tiremap.errors import TiremapError
from tiremap.model.job import Decision, Job
from tiremap.resources import cache_folder, sample_jobs_folder
from tiremap.storage import register_refresh, register_rows
from tiremap.storage.canonical import job_text
from tiremap.storage.job_file import read_job, write_job
from tiremap.storage.register import Register, RegisterRow
from tiremap.storage.shop_rule_sets import copy_rule_set, write_limit

LONG_AGO_NS = 1_700_000_000 * 10**9


def put(path: Path, content: str | Job) -> Path:
    """Write a file as if it had lain there for long: its time stamp is trusted."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(content if isinstance(content, str) else job_text(content))
    os.utime(path, ns=(LONG_AGO_NS, LONG_AGO_NS))
    return path


def put_fresh_jobs(folder: Path, number: int) -> None:
    """Jobs with nothing but their number."""
    for each in range(number):
        put(folder / f"fresh{each}.json", Job(job_number=f"fresh {each}"))


def rows(register: Register) -> dict[str, RegisterRow]:
    return {row.path: row for row in register.find(limit=-1)}


@pytest.fixture
def folder(tmp_path) -> Path:
    put(tmp_path / "jobs" / "a.json", bench_job(crown_injury(), job_number="1"))
    put(tmp_path / "jobs" / "below" / "b.json", bench_job(crown_injury(across_mm=80), job_number="2"))
    return tmp_path / "jobs"


def test_a_row_says_what_the_job_says_and_how_it_is_answered():
    register = Register(sample_jobs_folder())
    register.refresh()
    found = rows(register)
    assert found.keys() == {path.name for path in sample_jobs_folder().glob("*.json")}
    for name, row in found.items():
        job = read_job(sample_jobs_folder() / name)
        answered = assess(job)
        assert (row.job_number, row.fleet_number, row.tire_number) == (
            job.job_number, job.fleet_number, job.tire.number,
        )
        assert (row.size, row.date, row.rule_set) == (job.tire.size_code, job.date, job.rule_set)
        assert (row.injuries, row.repairs, row.answer) == (len(job.injuries), len(job.repairs), answered.answer)
        first = answered.all_reasons[0]
        assert row.deciding == (None if row.answer == "repairable" else first.code)
        assert row.fault == ""


def test_only_what_changed_is_read_again(folder):
    register = Register(folder)
    assert (register.refresh().read, register.refresh().read) == (2, 0)
    put(folder / "a.json", bench_job(crown_injury(), job_number="1 again"))
    put(folder / "c.json", bench_job(job_number="3"))
    (folder / "below" / "b.json").unlink()
    done = register.refresh()
    assert (done.read, done.unchanged, done.gone, done.faulty, done.stopped) == (2, 0, 1, 0, False)
    assert {path: row.job_number for path, row in rows(register).items()} == {"a.json": "1 again", "c.json": "3"}


def test_a_change_within_one_tick_of_the_clock_is_noticed(folder):
    register = Register(folder)
    path = folder / "a.json"
    write_job(path, bench_job(job_number="7"))
    stamp = path.stat().st_mtime_ns
    register.refresh()
    path.write_text(job_text(bench_job(job_number="8")))
    os.utime(path, ns=(stamp, stamp))
    assert register.refresh().read == 1
    assert rows(register)["a.json"].job_number == "8"


def test_a_file_written_anew_with_the_same_content_is_not_answered_again(folder):
    register = Register(folder)
    register.refresh()
    os.utime(folder / "a.json")
    done = register.refresh()
    assert (done.read, done.unchanged) == (0, 2)


def test_the_same_job_number_twice_is_two_rows(folder):
    put(folder / "copy.json", (folder / "a.json").read_text())
    register = Register(folder)
    register.refresh()
    assert [row.path for row in register.find() if row.job_number == "1"] == ["a.json", "copy.json"]


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("{", "JSON"),
        ("", "JSON"),
        ('{"format": "other"}', "not a Tiremap job"),
        (job_text(bench_job()).replace('"version": 1', '"version": 999'), "newer"),
    ],
)
def test_a_file_that_is_no_job_is_a_row_with_its_fault(folder, content, says):
    put(folder / "wrong.json", content)
    register = Register(folder)
    assert register.refresh().faulty == 1
    row = rows(register)["wrong.json"]
    assert says in row.fault and row == RegisterRow("wrong.json", fault=row.fault)
    assert register.answers()[None] == 1 and register.find(faulty=True) == [row]
    put(folder / "wrong.json", bench_job())
    assert register.refresh().faulty == 0


def test_a_job_whose_size_cannot_be_read_keeps_its_row_and_says_why(folder):
    put(folder / "size.json", bench_job(tire=measured_tire("no size"), job_number="9"))
    register = Register(folder)
    register.refresh()
    row = rows(register)["size.json"]
    assert (row.job_number, row.size, row.answer) == ("9", "no size", None)
    assert "no size" in row.fault


def test_a_link_is_followed_inside_the_folder_only(folder, tmp_path):
    put(tmp_path / "elsewhere" / "secret.json", bench_job(job_number="secret"))
    (folder / "out.json").symlink_to(tmp_path / "elsewhere" / "secret.json")
    (folder / "away").symlink_to(tmp_path / "elsewhere")
    (folder / "inside.json").symlink_to(folder / "a.json")
    (folder / "dangling.json").symlink_to(folder / "nothing.json")
    (folder / "round").symlink_to(folder)
    register = Register(folder)
    register.refresh()
    found = rows(register)
    assert found.keys() == {"a.json", "below/b.json", "out.json", "away", "inside.json", "dangling.json"}
    assert "out of the folder" in found["out.json"].fault and "out of the folder" in found["away"].fault
    assert found["out.json"].job_number is None and found["inside.json"].job_number == "1"
    assert "cannot be read" in found["dangling.json"].fault


@pytest.mark.skipif(os.sep != "/", reason="such names and files exist on POSIX only")
def test_a_name_that_is_no_text_and_a_pipe_are_listed(folder):
    os.mkfifo(folder / "pipe.json")
    with open(os.fsencode(folder) + b"/\xff.json", "w") as file:
        file.write(job_text(bench_job()))
    register = Register(folder)
    register.refresh()
    assert "not a file" in rows(register)["pipe.json"].fault
    assert "name" in rows(register)["\\xff.json"].fault


def test_a_file_that_may_not_be_read_is_tried_again_each_time(folder, monkeypatch):
    register = Register(folder)
    usual = register_rows._bytes_of

    def refused(path):
        if path.endswith("a.json"):
            raise PermissionError(13, "Permission denied")
        return usual(path)

    monkeypatch.setattr(register_rows, "_bytes_of", refused)
    assert register.refresh().faulty == register.refresh().faulty == 1
    assert "Permission denied" in rows(register)["a.json"].fault
    monkeypatch.setattr(register_rows, "_bytes_of", usual)
    assert register.refresh().faulty == 0 and rows(register)["a.json"].job_number == "1"


def test_a_defect_brought_out_by_one_job_does_not_keep_the_others_from_being_listed(folder, monkeypatch):
    def failing(job):
        if job.job_number == "1":
            raise ZeroDivisionError("division by zero")
        return verdict(job)

    monkeypatch.setattr(register_rows, "verdict", failing)
    register = Register(folder)
    assert register.refresh().faulty == 1
    assert "ZeroDivisionError" in rows(register)["a.json"].fault and rows(register)["below/b.json"].answer


@pytest.mark.parametrize("missing", ["nowhere", "a.json"])
def test_a_folder_that_cannot_be_read_leaves_the_index_as_it_was(folder, missing, tmp_path):
    with pytest.raises(TiremapError, match="folder"):
        Register(folder / missing).refresh()
    register = Register(folder)
    register.refresh()
    folder.rename(tmp_path / "moved")
    with pytest.raises(TiremapError, match="no folder"):
        register.refresh()
    assert len(register.find()) == 2


def test_nothing_is_written_among_the_jobs(folder):
    before = sorted(folder.rglob("*"))
    register = Register(folder)
    register.refresh()
    register.find("1")
    assert sorted(folder.rglob("*")) == before
    assert register.index_path.is_relative_to(cache_folder()) and register.index_path.is_file()
    assert Register(folder / "below").index_path != register.index_path


@pytest.mark.parametrize("damage", ["no index", "cut off", "torn", "older", "other tables", "deleted"])
def test_an_index_of_no_use_is_worked_out_again(folder, damage):
    put_fresh_jobs(folder, 40)
    register = Register(folder)
    register.refresh()
    before, path = register.find(), register.index_path
    with sqlite3.connect(path) as index:
        index.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        if damage == "older":
            index.execute("PRAGMA user_version = 0")
        if damage == "other tables":
            index.execute("DROP TABLE job")
    index.close()
    content = path.read_bytes()
    if damage == "no index":
        path.write_bytes(b"not an index" * 1000)
    if damage == "cut off":
        path.write_bytes(content[: len(content) // 3])
    if damage == "torn":
        path.write_bytes(content[:4096] + b"\x5a" * (len(content) - 4096))
    if damage == "deleted":
        path.unlink()
    if damage in ("older", "other tables", "deleted"):
        register.refresh()
    assert register.find() == before


def test_changed_rules_answer_every_job_anew(folder):
    copy_rule_set("united_kingdom", "our_shop")
    put(folder / "ours.json", bench_job(crown_injury(), rule_set="our_shop"))
    register = Register(folder)
    register.refresh()
    assert rows(register)["ours.json"].answer == "repairable"
    write_limit("our_shop", "tread_depths", 0, 7.0, "the shop's own word")
    assert register.refresh().read == 3
    assert rows(register)["ours.json"].answer != "repairable"


def test_an_age_counted_to_today_is_counted_anew_on_another_day(folder, monkeypatch):
    put(folder / "aged.json", bench_job(tire=measured_tire(date_code="0120")))
    put(folder / "dated.json", bench_job(tire=measured_tire(date_code="0120"), date="2026-03-02"))
    register = Register(folder)
    register.refresh()
    assert register.refresh().read == 0
    monkeypatch.setattr("tiremap.storage.register_refresh.rules_of_today", lambda rules: f"{rules} tomorrow")
    assert register.refresh().read == 1


def test_a_stop_keeps_what_is_done_and_the_next_refresh_does_the_rest(folder):
    put_fresh_jobs(folder, 160)  # more than are read at a time
    register, told = Register(folder), []
    first = register.refresh(lambda done, of: told.append((done, of)), lambda: len(told) > 1)
    assert first.stopped and 0 < first.read < 162 and len(rows(register)) == first.read
    rest = register.refresh()
    assert not rest.stopped and rest.read == 162 - first.read and len(rows(register)) == 162
    assert told == sorted(told) and {of for _, of in told} == {162}


def test_progress_is_told_up_to_the_last_file(folder):
    put_fresh_jobs(folder, 160)
    told = []
    Register(folder).refresh(lambda done, of: told.append((done, of)))
    assert told[-1] == (162, 162) and told == sorted(told)


def test_a_file_changed_between_the_listing_and_the_reading_is_read_again_until_it_is_right(folder, monkeypatch):
    really = register_refresh.files_found

    def listed_too_early(where):
        found = really(where)
        put(folder / "a.json", bench_job(crown_injury(), job_number="changed meanwhile"))
        return found

    register = Register(folder)
    monkeypatch.setattr(register_refresh, "files_found", listed_too_early)
    register.refresh()
    monkeypatch.setattr(register_refresh, "files_found", really)
    register.refresh()
    assert rows(register)["a.json"].job_number == "changed meanwhile"
    put(folder / "a.json", bench_job(crown_injury(), job_number="and once more"))
    register.refresh()
    assert rows(register)["a.json"].job_number == "and once more"


def test_a_repair_decided_against_the_recorded_answer_is_marked(folder):
    for name, answer, decision in (
        ("agreed", "repairable", "repair"),
        ("against", "measure_first", "repair"),
        ("left", "not_repairable", "do_not_repair"),
    ):
        decided = Decision(date=datetime(2026, 3, 2, tzinfo=UTC), rule_set="japan", answer=answer, decision=decision)
        put(folder / f"{name}.json", bench_job(decisions=(decided,)))
    register = Register(folder)
    register.refresh()
    assert [row.path for row in register.find(against_answer=True)] == ["against.json"]
    assert rows(register)["left.json"].last_decision == "do_not_repair" and rows(register)["left.json"].decisions == 1


def test_jobs_of_a_tire_are_found_by_its_number_case_aside(folder):
    put(folder / "t1.json", bench_job(tire=measured_tire(number="T-118"), date="2026-01-05"))
    put(folder / "t2.json", bench_job(tire=measured_tire(number=" t-118 "), date="2026-02-05"))
    put(folder / "t3.json", bench_job(tire=measured_tire(number="T-1180")))
    register = Register(folder)
    register.refresh()
    assert [row.path for row in register.of_tire("T-118")] == ["t2.json", "t1.json"]
    assert register.of_tire("") == register.of_tire("  ") == []
