"""``tiremap register``: the table, counts, faults, CSV, and what Ctrl+C leaves."""

import csv
import json
import signal
from pathlib import Path

import pytest

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.cli import run
from tiremap.commands import register as command
from tiremap.model.job import Job
from tiremap.resources import sample_jobs_folder
from tiremap.storage.job_file import write_job
from tiremap.storage.register import Register


@pytest.fixture
def folder(tmp_path) -> Path:
    folder = tmp_path / "jobs"
    folder.mkdir()
    write_job(folder / "fine.json", bench_job(crown_injury(), job_number="1", date="2026-03-02"))
    write_job(folder / "out.json", bench_job(crown_injury(across_mm=80), job_number="=2", date="2026-03-03"))
    write_job(folder / "fresh.json", Job(job_number="3\x1b[2J\n4"))
    (folder / "broken.json").write_text("{")
    return folder


def test_the_table_has_a_line_for_each_job_and_the_counts(folder, capsys):
    assert run(["register", str(folder)]) == 0
    said = capsys.readouterr()
    lines = said.out.splitlines()
    assert [line.split()[-1] for line in lines[:4]] == ["file", "out.json", "fine.json", "fresh.json"]
    assert "Not repairable" in lines[1] and "place" in lines[1] and "Repairable" in lines[2]
    assert lines[4] == (
        "4 jobs. Repairable: 1; Measure first: 1; Not repairable: 1; cannot be read or answered: 1."
    )


def test_faults_are_told_on_stderr_and_do_not_change_the_exit_code(folder, capsys):
    assert run(["register", str(folder)]) == 0
    said = capsys.readouterr()
    assert "broken.json" not in said.out
    (line,) = said.err.splitlines()
    assert "broken.json" in line and "JSON" in line


def test_text_of_a_job_cannot_steer_the_terminal(folder, capsys):
    run(["register", str(folder)])
    assert "\x1b" not in capsys.readouterr().out


def test_json_is_one_object_for_each_file_with_its_fault(folder, capsys):
    assert run(["register", str(folder), "--json"]) == 0
    records = {record["path"]: record for record in map(json.loads, capsys.readouterr().out.splitlines())}
    assert records.keys() == {"fine.json", "out.json", "fresh.json", "broken.json"}
    assert records["out.json"]["answer"] == "not_repairable" and records["out.json"]["deciding"] == "place"
    assert records["fine.json"]["deciding"] is None and records["fine.json"]["fault"] == ""
    assert "JSON" in records["broken.json"]["fault"] and records["broken.json"]["answer"] is None


def test_csv_holds_what_is_found_and_never_overwrites(folder, capsys, tmp_path):
    table = tmp_path / "table.csv"
    assert run(["register", str(folder), "--csv", str(table)]) == 0
    with table.open(newline="", encoding="utf-8") as file:
        rows = {row["path"]: row for row in csv.DictReader(file)}
    assert len(rows) == 4 and rows["out.json"]["job_number"] == "'=2" and rows["out.json"]["injuries"] == "1"
    before = table.read_bytes()
    assert run(["register", str(folder), "--csv", str(table)]) == 2
    assert "not overwritten" in capsys.readouterr().err and table.read_bytes() == before
    assert run(["register", str(folder), "--find", "FINE", "--csv", str(tmp_path / "one.csv")]) == 0
    assert (tmp_path / "one.csv").read_text().count("\n") == 2
    assert capsys.readouterr().out.splitlines()[-1].startswith("1 of 4 jobs.")


@pytest.mark.parametrize("name", ["nowhere", "jobs/fine.json"])
def test_a_folder_that_cannot_be_read_is_bad_input(folder, capsys, name):
    assert run(["register", str(folder.parent / name)]) == 2
    said = capsys.readouterr()
    assert said.out == "" and "folder" in said.err


def test_ctrl_c_leaves_what_is_done_and_prints_no_table(folder, capsys, monkeypatch, tmp_path):
    for each in range(160):  # more than are read at a time
        write_job(folder / f"more{each}.json", Job(job_number=str(each)))

    def interrupting(done, of):
        if done > 0:
            signal.raise_signal(signal.SIGINT)

    monkeypatch.setattr(command, "_progress", interrupting)
    monkeypatch.setattr("sys.stderr.isatty", lambda: True, raising=False)
    usual = signal.getsignal(signal.SIGINT)
    assert run(["register", str(folder), "--csv", str(tmp_path / "table.csv")]) == command.STOPPED
    said = capsys.readouterr()
    assert said.out == "" and "stopped" in said.err and not (tmp_path / "table.csv").exists()
    assert signal.getsignal(signal.SIGINT) is usual
    kept = Register(folder).count()
    assert 0 < kept < 164 and f"after {kept} files" in said.err


def test_the_samples_are_a_register(capsys):
    assert run(["register", str(sample_jobs_folder()), "--find", "20555 f-07"]) == 0
    assert [line.split()[-1] for line in capsys.readouterr().out.splitlines()[1:3]] == [
        "crown_hole.json", "one_inch_from_edge.json",
    ]
