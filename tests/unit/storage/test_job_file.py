"""Job files: what they look like, and what is said of one that cannot be opened."""

import json
import os
from datetime import UTC, datetime

import pytest

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, hole
from tiremap.edits.change import changed
from tiremap.edits.decisions import record_decision
from tiremap.errors import TiremapError
from tiremap.model.job import Decision, Job
from tiremap.storage import job_file
from tiremap.storage.canonical import job_text
from tiremap.storage.job_file import ChangedOnDisk, changed_meanwhile, job_from_bytes, read_job, write_job

JOB = bench_job(crown_injury(), crown_injury("2", 20.0, size_outside=hole(3.0)), earlier_repair())


def _file(tmp_path, data):
    path = tmp_path / "job.json"
    path.write_bytes(data if isinstance(data, bytes) else data.encode())
    return path


def _changed(change):
    """The text of JOB with one change to its plain data."""
    data = json.loads(job_text(JOB))
    change(data)
    return json.dumps(data)


def _refusal(tmp_path, data):
    with pytest.raises(TiremapError) as raised:
        read_job(_file(tmp_path, data))
    assert "job.json cannot be opened" in raised.value.what
    return str(raised.value)


def test_a_job_file_is_sorted_indented_and_ends_with_a_new_line():
    text = job_text(Job(note="größer"))
    assert text.endswith('}\n') and not text.endswith("\n\n")
    assert '\n  "format": "tiremap-job",\n' in text
    assert "größer" in text
    assert list(json.loads(text)) == sorted(json.loads(text))


def test_a_whole_measurement_is_written_with_its_decimal_point(tmp_path):
    data = _changed(lambda job: job["injuries"][0]["outside"].update(value=35))
    assert '"value": 35.0' in job_text(read_job(_file(tmp_path, data)))


def test_unknown_fields_are_written_back_as_they_were_read(tmp_path):
    data = _changed(lambda job: job["injuries"][1].update(later={"b": [1, 2.5, None], "a": True}))
    again = json.loads(job_text(read_job(_file(tmp_path, data))))
    assert again["injuries"][1]["later"] == {"a": True, "b": [1, 2.5, None]}
    assert isinstance(again["injuries"][1]["later"]["b"][0], int)


def test_a_byte_order_mark_does_not_keep_a_file_from_opening(tmp_path):
    assert read_job(_file(tmp_path, b"\xef\xbb\xbf" + job_text(JOB).encode())) == JOB


def test_broken_json_is_refused_with_line_and_column(tmp_path):
    assert "line 2, column 11" in _refusal(tmp_path, '{\n  "note": oops}')


@pytest.mark.parametrize("data", ["[]", "3", "null", "{}", '{"format": "drawing", "version": 1}', '{"format": []}'])
def test_json_that_is_no_job_is_refused_as_such(tmp_path, data):
    assert "not a Tiremap job" in _refusal(tmp_path, data)


def test_an_empty_file_is_refused(tmp_path):
    assert "line 1, column 1" in _refusal(tmp_path, b"")


def test_a_newer_version_is_refused_with_both_versions(tmp_path):
    says = _refusal(tmp_path, '{"format": "tiremap-job", "version": 7, "something": "new"}')
    assert "version 7" in says and "reads up to 1" in says


@pytest.mark.parametrize("version", ["null", "0", "-1", "true", "1.0", '"1"'])
def test_a_version_that_cannot_be_is_refused(tmp_path, version):
    assert "which version" in _refusal(tmp_path, f'{{"format": "tiremap-job", "version": {version}}}')


def test_a_wrong_field_is_named_as_one_would_point_at_it(tmp_path):
    says = _refusal(tmp_path, _changed(lambda job: job["injuries"][1]["size_outside"].update(value="big")))
    assert "injuries, 2nd: size_outside: value: 'big' cannot be used. It should be a number" in says


def test_a_wrong_place_is_judged_by_the_way_it_was_measured(tmp_path):
    taped_from_toes = {"from_outboard": -3.0, "from_inboard": 120.0, "how": "tape"}
    says = _refusal(tmp_path, _changed(lambda job: job["repairs"][0].update(inside=taped_from_toes)))
    assert "repairs, 1st: inside: from_outboard: -3.0 cannot be used. It should be 0 or more." in says
    says = _refusal(tmp_path, _changed(lambda job: job["repairs"][0]["inside"].update(origin="middle")))
    assert "repairs, 1st: inside: origin: 'middle' cannot be used. It should be 'center'" in says


def test_a_missing_field_and_a_doubled_id_are_named(tmp_path):
    assert "injuries, 1st: id: it is missing" in _refusal(tmp_path, _changed(lambda job: job["injuries"][0].pop("id")))
    assert "the id '2' is used twice" in _refusal(tmp_path, _changed(lambda job: job["injuries"][0].update(id="2")))


def test_a_field_standing_twice_is_refused(tmp_path):
    text = job_text(JOB).replace('"note": ""', '"note": "a", "note": "b"', 1)
    assert "'note' stands twice" in _refusal(tmp_path, text)


def test_a_field_written_two_ways_stands_twice_and_no_line_is_made_up_for_it(tmp_path):
    """The reader takes an escaped letter for the letter; on no line does the name stand twice as it is written."""
    text = job_text(JOB).replace('"note"', '"n\\u006fte": "", "note"', 1)
    refused = _refusal(tmp_path, text)
    assert "'note' stands twice" in refused and "Line" not in refused


@pytest.mark.parametrize("number", ["NaN", "Infinity", "-Infinity", "1e999", "9" * 5000])
@pytest.mark.parametrize("field", ["rule_set_later", "note"])
def test_what_is_no_finite_number_is_refused_in_known_and_unknown_fields(tmp_path, number, field):
    text = f'{{"format": "tiremap-job", "version": 1, "{field}": {number}}}'
    assert "not a number that can be measured" in _refusal(tmp_path, text)


@pytest.mark.parametrize("encoding", ["utf-16", "latin-1"])
def test_another_encoding_is_refused_in_words(tmp_path, encoding):
    assert "not UTF-8" in _refusal(tmp_path, job_text(Job(note="größer")).encode(encoding))


def test_half_a_character_is_refused_wherever_it_stands(tmp_path):
    start = '{"format": "tiremap-job", "version": 1, '
    assert "half of a character" in _refusal(tmp_path, start + r'"later": ["\ud800"]}')
    assert "half of a character" in _refusal(tmp_path, start + r'"\udfff": 1}')


@pytest.mark.parametrize("depth", [40, 1_000, 200_000])
def test_nesting_too_deep_is_refused_and_never_ends_the_program(tmp_path, depth):
    text = f'{{"format": "tiremap-job", "version": 1, "later": {"[" * depth}{"]" * depth}}}'
    assert "too deep" in _refusal(tmp_path, text)


def test_nesting_as_deep_as_allowed_is_read_and_written(tmp_path):
    text = f'{{"format": "tiremap-job", "version": 1, "later": {"[" * 39}{"]" * 39}}}'
    job = read_job(_file(tmp_path, text))
    assert job_from_bytes(job_text(job).encode()) == job


def test_a_file_too_large_for_a_job_is_refused(tmp_path):
    assert "more than 2 MB" in _refusal(tmp_path, b" " * 2_000_001)


def test_a_folder_a_pipe_and_a_missing_file_are_refused_in_words(tmp_path):
    os.mkfifo(tmp_path / "pipe.json")
    for path, says in ((tmp_path, "is a folder"), (tmp_path / "pipe.json", "not a file"), (tmp_path / "no", "no file")):
        with pytest.raises(TiremapError, match=says):
            read_job(path)


def test_a_file_of_a_newer_version_is_never_overwritten(tmp_path):
    newer = b'{"format": "tiremap-job", "version": 2, "a": NaN, "a": 1}'
    path = _file(tmp_path, newer)
    with pytest.raises(TiremapError, match="not overwritten"):
        write_job(path, JOB)
    assert path.read_bytes() == newer


@pytest.mark.parametrize("there", [b"not json", b'{"format": "tiremap-job", "version": 1}', b"[]", b"[" * 100_000])
def test_any_other_file_may_be_overwritten_and_is_kept_beside(tmp_path, there):
    path = _file(tmp_path, there)
    write_job(path, JOB)
    assert read_job(path) == JOB
    assert (tmp_path / "job.json~").read_bytes() == there


def test_a_job_that_could_not_be_opened_again_is_never_written(tmp_path):
    path = _file(tmp_path, job_text(JOB))
    spoiled = JOB.model_copy(update={"injuries": (JOB.injuries[0], JOB.injuries[0])})
    with pytest.raises(TiremapError, match="used twice"):
        write_job(path, spoiled)
    assert read_job(path) == JOB


def test_a_file_that_may_not_be_read_is_refused_in_words(tmp_path, monkeypatch):
    path = _file(tmp_path, job_text(JOB))

    def refuse(self, mode):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(job_file.Path, "open", refuse)
    with pytest.raises(TiremapError, match="cannot be read: Permission denied"):
        read_job(path)


def test_a_file_with_a_decision_the_job_does_not_hold_is_not_overwritten(tmp_path):
    at = datetime(2026, 3, 1, 9, 30, tzinfo=UTC)
    signed = record_decision(JOB, Decision(date=at, rule_set="japan", answer="repairable", decision="repair"))
    path = tmp_path / "job.json"
    write_job(path, signed)
    with pytest.raises(TiremapError, match="decision of 2026-03-01 09:30"):
        write_job(path, JOB)
    assert read_job(path) == signed
    write_job(path, record_decision(signed, signed.decisions[0]))
    assert len(read_job(path).decisions) == 2


def test_a_file_another_program_changed_since_it_was_opened_is_not_overwritten_and_both_versions_are_told(tmp_path):
    path, theirs = tmp_path / "job.json", changed(JOB, note="theirs")
    write_job(path, JOB)
    write_job(path, theirs, opened_as=JOB)
    with pytest.raises(ChangedOnDisk, match="changed by another program or window") as raised:
        write_job(path, changed(JOB, note="mine"), opened_as=JOB)
    assert raised.value.theirs == read_job(path) == theirs
    assert raised.value.data == path.read_bytes() and raised.value.right
    write_job(path, changed(JOB, note="mine"), opened_as=theirs)
    assert read_job(path).note == "mine"


def test_a_file_written_in_another_order_or_as_the_job_to_be_saved_was_not_changed(tmp_path):
    path, mine = tmp_path / "job.json", changed(JOB, note="mine")
    path.write_text(json.dumps(dict(reversed(json.loads(job_text(JOB)).items()))), encoding="utf-8")
    assert changed_meanwhile(path, JOB) is None
    write_job(path, mine, opened_as=JOB)
    write_job(path, mine, opened_as=JOB)
    assert read_job(path) == mine


def test_a_file_that_became_unreadable_is_a_change_with_its_reason_and_one_that_is_gone_is_not(tmp_path):
    path = _file(tmp_path, "oops")
    for meanwhile in (changed_meanwhile(path, JOB), _refused_over(path)):
        assert meanwhile.theirs is None and "line 1" in meanwhile.why and meanwhile.data == b"oops"
    path.unlink()
    assert changed_meanwhile(path, JOB) is None
    write_job(path, JOB, opened_as=JOB)
    assert read_job(path) == JOB


def _refused_over(path):
    with pytest.raises(ChangedOnDisk) as raised:
        write_job(path, JOB, opened_as=JOB)
    return raised.value


def test_more_values_than_a_job_holds_are_refused(tmp_path):
    """Few bytes and one level deep, but each would be told as a fault of its own."""
    with pytest.raises(TiremapError, match="more than any job"):
        read_job(_file(tmp_path, '{"format": [' + "0," * 200_000 + "0]}"))


def test_a_file_too_large_to_be_sure_of_its_version_is_not_overwritten(tmp_path):
    path = _file(tmp_path, b" " * 2_000_001)
    with pytest.raises(TiremapError, match="is not overwritten"):
        write_job(path, JOB)
    assert path.read_bytes() == b" " * 2_000_001


def test_a_name_no_file_can_have_is_told_by_the_save(tmp_path):
    with pytest.raises(TiremapError):
        write_job(tmp_path / "a\0b.json", JOB)
    assert list(tmp_path.iterdir()) == []
