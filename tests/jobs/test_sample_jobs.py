"""Every sample job, with the answer and the reasons it was made to show."""

import pytest

from tiremap.assess import assess
from tiremap.resources import sample_jobs_folder
from tiremap.storage.canonical import job_text
from tiremap.storage.job_file import read_job

EXPECTED = {
    "crown_hole": ("repairable", set()),
    "one_inch_from_edge": ("measure_first", {"place"}),
    "shoulder": ("not_repairable", {"place", "head_at_tread_edge"}),
    "leaning_channel": ("not_repairable", {"place", "head_at_tread_edge"}),
    "two_heads": ("not_repairable", {"heads_overlap"}),
    "beside_an_earlier_repair": ("repairable", set()),
    "tread_width_not_measured": ("measure_first", {"place", "head_at_tread_edge"}),
    "old_van_tire": ("repairable", set()),
    "cutter_between_two": ("measure_first", {"hole_size"}),
    "narrowest": ("repairable", set()),
    "widest": ("repairable", set()),
    "earlier_plug": ("not_repairable", {"improper_repair"}),
    "third_repair_across_the_datum": ("not_repairable", {"repair_count", "around_apart"}),
    "second_repair_at_speed": ("repairable", set()),
    "fresh_click": (
        "measure_first",
        {"inspected", "condition", "earlier_repairs", "tread_depth", "place", "hole_size", "head_at_tread_edge"},
    ),
}
"""Answer, and the codes of every reason that refuses or asks to be measured."""


def test_every_sample_job_is_expected_here_and_the_folder_holds_nothing_else():
    assert {path.name for path in sample_jobs_folder().iterdir()} == {f"{name}.json" for name in EXPECTED}


@pytest.mark.parametrize("name", EXPECTED)
def test_a_sample_job_gives_the_answer_it_was_made_to_show(name):
    answer, codes = EXPECTED[name]
    found = assess(read_job(sample_jobs_folder() / f"{name}.json"))
    assert found.answer == answer
    assert {reason.code for reason in found.all_reasons if reason.level in ("refuse", "measure")} == codes


@pytest.mark.parametrize("name", EXPECTED)
def test_a_sample_job_is_written_back_byte_for_byte_and_says_what_it_shows(name):
    path = sample_jobs_folder() / f"{name}.json"
    job = read_job(path)
    assert job_text(job).encode() == path.read_bytes()
    assert job.note


def test_the_samples_show_all_three_answers():
    assert {answer for answer, _ in EXPECTED.values()} == {"repairable", "measure_first", "not_repairable"}
