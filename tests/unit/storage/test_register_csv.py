"""The register as CSV: RFC 4180, and nothing a spreadsheet would take for a formula."""

import csv
import io
from dataclasses import fields

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tiremap.errors import TiremapError
from tiremap.storage.register_csv import csv_text, taken_for_a_formula, write_csv
from tiremap.storage.register_rows import RegisterRow

ROW = RegisterRow("a, b.json", job_number='the "first"', size="205/55R16", injuries=2, against_answer=True)


def read_back(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_lines_end_with_cr_lf_and_quotes_are_doubled():
    header, line, rest = csv_text([ROW]).split("\r\n")
    assert header == ",".join(field.name for field in fields(RegisterRow)) and rest == ""
    assert line == '"a, b.json","the ""first""",,,205/55R16,,,,,,,2,0,0,,yes,'


@pytest.mark.parametrize(
    "text",
    [
        "=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "\tx", "＝1", "＋1", "－1", "＠A1", "﹦1", "﹢1", "﹣1",
        "﹫A1", " =1", '"=1', "'=1", '" =1', "\u00a0=1", "\u200b=1", "\ufeff=1", "\u202e=1", "\u3000＝1",
        "“=1", "\0=1", "\x1b@A1",
    ],
)
def test_text_a_spreadsheet_would_work_out_gets_an_apostrophe(text):
    (row,) = read_back(csv_text([RegisterRow("a.json", job_number=text, fault=text)]))
    assert row["job_number"] == row["fault"] == f"'{text}"


@pytest.mark.parametrize("text", ["205/55R16", "a-b", "1=1", "x+y", "'a'", " ", "", "3.5", "größer", "４７１１"])
def test_any_other_text_is_written_as_it_is(text):
    (row,) = read_back(csv_text([RegisterRow("a.json", job_number=text)]))
    assert row["job_number"] == text


def test_numbers_stay_numbers():
    assert '"' not in csv_text([RegisterRow("a.json", injuries=-2)]).splitlines()[1]
    (row,) = read_back(csv_text([RegisterRow("a.json", injuries=-2)]))
    assert row["injuries"] == "-2"


@given(st.text(), st.text(), st.integers(0, 10**6))
def test_whatever_a_job_says_comes_back_from_the_file_and_is_no_formula(number, says, injuries):
    text = csv_text([RegisterRow("a.json", job_number=number, deciding_says=says, injuries=injuries)])
    (row,) = read_back(text)
    for written, back in ((number, row["job_number"]), (says, row["deciding_says"])):
        assert back == (f"'{written}" if taken_for_a_formula(written) else written)
        assert back.strip()[:1] not in ("=", "+", "-", "@", "＝")
    assert row["injuries"] == str(injuries)


def test_an_existing_file_is_only_written_over_when_told(tmp_path):
    path = tmp_path / "register.csv"
    path.write_text("kept")
    with pytest.raises(TiremapError, match="there already"):
        write_csv(path, [ROW])
    assert path.read_text() == "kept"
    write_csv(path, [ROW], over_existing=True)
    assert path.read_bytes() == csv_text([ROW]).encode()
