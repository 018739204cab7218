"""Finding in the register: words, filters and order, against the same asked of the rows one by one."""

import os
import sqlite3
from datetime import date
from itertools import chain

import pytest

from tests.helpers.many_jobs import fill
from tiremap.storage.register import Register
from tiremap.storage.register_search import Search, found_rows


@pytest.fixture(scope="module")
def filled(tmp_path_factory):
    """A folder of 120 invented jobs and two files that are none, and a cache folder to be used again."""
    folder = tmp_path_factory.mktemp("jobs")
    fill(folder, 120)
    (folder / "Straße.json").write_text("{}")
    (folder / "a.JSON").write_text("nothing")
    return folder, tmp_path_factory.mktemp("cache")


@pytest.fixture
def register(filled, monkeypatch):
    """The register of that folder, and all its rows."""
    folder, cache = filled
    monkeypatch.setenv("TIREMAP_CACHE_FOLDER", str(cache))
    register = Register(folder)
    if not register.index_path.exists():
        register.refresh()
    return register, register.find(limit=-1)


def test_newest_first_then_by_path_and_undated_last(register):
    register, rows = register
    assert len(rows) == 122
    dated = [row for row in rows if row.date]
    assert rows[: len(dated)] == sorted(sorted(dated, key=lambda row: row.path), key=lambda row: row.date, reverse=True)
    assert [row.path for row in rows[len(dated) :]] == ["Straße.json", "a.JSON"]


@pytest.mark.parametrize(
    ("words", "fits"),
    [
        ("205/55r16", lambda row: "205/55R16" in (row.size or "")),
        ("20555", lambda row: "205/55" in (row.size or "")),
        ("20555R16", lambda row: "205/55R16" in (row.size or "")),
        ("2055516", lambda row: "205/55R16" in (row.size or "")),
        ("j-000017", lambda row: row.job_number == "J-000017"),
        ("F-007 225/45", lambda row: row.fleet_number == "F-007" and row.size.startswith("225/45")),
        ("t-000030", lambda row: row.tire_number == "T-000030"),
        ("STRASSE", lambda row: row.path == "Straße.json"),
        ("2020/ /03/", lambda row: row.path.startswith("2020/03")),
        ("%", lambda row: False),
        ("' OR 1=1 --", lambda row: False),
        ("", lambda row: True),
    ],
)
def test_every_word_must_be_found_whatever_its_case(register, words, fits):
    register, rows = register
    expected = [row for row in rows if fits(row)]
    if words not in ("%", "' OR 1=1 --"):
        assert expected
    assert register.find(words) == expected
    assert register.count(words) == len(expected)


def test_a_date_code_is_found(register):
    register, rows = register
    code = rows[0].date_code
    assert rows[0] in register.find(code) and all(code in _all_text(row) for row in register.find(code))


def _all_text(row):
    texts = (row.size, row.date_code, row.tire_number, row.job_number, row.fleet_number, row.path)
    return "".join(c for text in texts for c in (text or "") + "|" if c.isalnum() or c == "|")


@pytest.mark.parametrize(
    ("asked", "fits"),
    [
        ({"answer": "measure_first"}, lambda row: row.answer == "measure_first"),
        ({"deciding": "place"}, lambda row: row.deciding == "place"),
        ({"faulty": True}, lambda row: row.fault != ""),
        ({"faulty": False, "against_answer": True}, lambda row: row.against_answer),
        ({"since": "2020-03-01"}, lambda row: row.date is not None and row.date >= "2020-03-01"),
        ({"until": date(2020, 3, 1)}, lambda row: row.date is not None and row.date <= "2020-03-01"),
        ({"since": "2020-03", "until": "2020-03"}, lambda row: (row.date or "").startswith("2020-03")),
        (
            {"words": "t-0000", "answer": "not_repairable", "since": "2020"},
            lambda row: (row.tire_number or "").startswith("T-0000") and row.answer == "not_repairable"
            and row.date >= "2020",
        ),
    ],
)
def test_filters_leave_what_fulfills_all_of_them(register, asked, fits):
    register, rows = register
    expected = [row for row in rows if fits(row)]
    assert 0 < len(expected) < len(rows)
    assert register.find(**asked) == expected
    assert register.count(**asked) == len(expected)


def test_pages_together_are_the_whole(register):
    register, rows = register
    pages = [register.find(limit=50, offset=start) for start in range(0, 150, 50)]
    assert [len(page) for page in pages] == [50, 50, 22] and [*chain(*pages)] == rows


def test_a_search_sorts_nothing_and_looks_up_only_what_it_finds(register):
    register, _ = register
    statements = []
    with sqlite3.connect(os.fspath(register.index_path)) as index:
        index.set_trace_callback(statements.append)
        found_rows(index, Search("20555", "repairable", "place", "2020", "2021", False, False), 10, 0)
        index.set_trace_callback(None)
        plan = [step[-1] for step in index.execute(f"EXPLAIN QUERY PLAN {statements[-1]}")]
        codes = [step[1] for step in index.execute(f"EXPLAIN {statements[-1]}")]
    index.close()
    assert len(plan) == 1 and "USING INDEX newest" in plan[0] and "TEMP B-TREE" not in plan[0]
    assert "DeferredSeek" in codes and "SorterOpen" not in codes
