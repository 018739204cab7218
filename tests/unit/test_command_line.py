"""The command line: keys, exit codes, and what it says of bad input. Each test runs the real program."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from tiremap.arguments import COMMANDS
from tiremap.cli import RUN
from tiremap.resources import sample_jobs_folder

TOP = Path(__file__).resolve().parents[2]
SAMPLES = sample_jobs_folder()

JOB_KEYS = {
    "job", "rule_set", "answer", "injuries", "pairs", "buffed_area_mm2", "sealed_area_mm2", "reasons",
}
REASON_KEYS = {
    "code", "level", "says", "value", "limit", "unit", "margin", "margin_low", "margin_high", "source",
}
PAIR_KEYS = {
    "first", "second", "distance_mm", "around_deg", "around_tread_mm", "head_overlap_mm2", "buffed_overlap_mm2",
    "reasons",
}
SECTION_KEYS = {
    "size", "overall_diameter_mm", "section_width_mm", "section_height_mm", "rim_diameter_mm",
    "measuring_rim_width_in", "tread_width_mm", "tread_width_basis", "max_in_service_width_mm",
    "max_in_service_diameter_mm", "air_volume_l", "widest_point_share_of_height", "approximate",
}


def tiremap(*arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run the program without a display."""
    bare = {key: value for key, value in os.environ.items() if key not in ("DISPLAY", "WAYLAND_DISPLAY")}
    bare.pop("QT_QPA_PLATFORM", None)
    return subprocess.run(
        [sys.executable, "-m", "tiremap", *arguments], capture_output=True, text=True, cwd=TOP, env=bare | environment
    )


def records(done: subprocess.CompletedProcess[str]) -> list[dict]:
    return [json.loads(line) for line in done.stdout.splitlines()]


def sample(name: str) -> str:
    return str(SAMPLES / f"{name}.json")


def test_section_prints_the_dimensions_of_each_size_one_object_per_line():
    done = tiremap("section", "205/55R16", "225/45R17", "--json")
    assert done.returncode == 0
    first, second = records(done)
    assert first.keys() == second.keys() == SECTION_KEYS
    # worked in the size rules: 205/55R16 is 632 mm, 214 wide on 6.5 in; 225/45R17 634, 225 on 7.5
    assert (first["overall_diameter_mm"], first["section_width_mm"]) == (632, 214)
    assert (first["section_height_mm"], first["measuring_rim_width_in"]) == (113, 6.5)
    assert (second["overall_diameter_mm"], second["section_width_mm"]) == (634, 225)
    assert second["measuring_rim_width_in"] == 7.5


def test_a_wrong_size_code_is_told_in_words_and_the_others_are_still_answered():
    done = tiremap("section", "205/55", "195/65R15", "--json")
    assert done.returncode == 2
    assert [record["size"] for record in records(done)] == ["195/65R15"]
    assert "205/55R16" in done.stderr  # what a right one looks like
    assert "Traceback" not in done.stderr


def test_a_section_too_low_to_draw_has_its_dimensions_all_the_same():
    done = tiremap("section", "205/25R18", "--json")
    assert done.returncode == 0
    (record,) = records(done)
    assert record["overall_diameter_mm"] > 0
    assert (record["air_volume_l"], record["approximate"]) == (None, None)


def test_assess_prints_one_object_for_each_job_with_the_promised_keys():
    done = tiremap("assess", sample("two_heads"), sample("fresh_click"), "--json")
    assert done.returncode == 1
    refused, fresh = records(done)
    assert refused.keys() == fresh.keys() == JOB_KEYS
    assert refused["job"] == sample("two_heads")
    assert (refused["rule_set"], refused["answer"]) == ("north_america", "not_repairable")
    assert [injury.keys() for injury in refused["injuries"]] == [{"id", "answer", "margin_mm", "reasons"}] * 2
    (pair,) = refused["pairs"]
    assert pair.keys() == PAIR_KEYS
    assert pair["head_overlap_mm2"] > 0
    every = [*refused["reasons"], *pair["reasons"], *refused["injuries"][0]["reasons"], *fresh["reasons"]]
    assert all(reason.keys() == REASON_KEYS for reason in every)
    assert all(reason["source"] for reason in every)
    assert fresh["injuries"][0]["margin_mm"] is None
    assert fresh["buffed_area_mm2"] is None


@pytest.mark.parametrize(
    ("names", "code"),
    [
        (["crown_hole"], 0),
        (["shoulder"], 1),
        (["fresh_click"], 3),
        (["crown_hole", "fresh_click"], 3),
        (["fresh_click", "shoulder"], 1),
    ],
)
def test_the_exit_code_is_that_of_the_worst_answer(names, code):
    assert tiremap("assess", *map(sample, names)).returncode == code


def test_a_missing_or_broken_job_is_bad_input_and_the_others_are_still_answered(tmp_path):
    broken = tmp_path / "broken.json"
    broken.write_text('{"format": "tiremap-job", "version": 1, "tire": {"tread_width": 170}}')
    done = tiremap("assess", str(tmp_path / "none.json"), str(broken), sample("shoulder"), "--json")
    assert done.returncode == 2
    assert len(records(done)) == 1
    assert "none.json" in done.stderr
    assert "tread_width" in done.stderr or "tread width" in done.stderr
    assert "Traceback" not in done.stderr


def test_assess_with_all_rules_prints_one_object_for_each_job_and_rule_set():
    done = tiremap("assess", sample("crown_hole"), "--rules", "all", "--json")
    assert done.returncode == 0
    assert [record["rule_set"] for record in records(done)] == [
        "australia", "european_makers", "germany", "japan", "new_zealand", "north_america", "united_kingdom",
    ]


def test_assess_with_another_rule_set_answers_by_that_one():
    (record,) = records(tiremap("assess", sample("crown_hole"), "--rules", "united_kingdom", "--json"))
    assert record["rule_set"] == "united_kingdom"


def test_an_unknown_rule_set_is_bad_usage_and_the_names_are_listed():
    done = tiremap("assess", sample("crown_hole"), "--rules", "atlantis")
    assert done.returncode == 2
    assert "north_america" in done.stderr


def test_a_job_without_a_display_is_answered_as_text_with_one_line_on_what_the_window_needs():
    done = tiremap(sample("shoulder"))
    assert done.returncode == 1
    assert "Not repairable" in done.stdout
    assert "Cautions" in done.stdout
    assert done.stderr.count("\n") == 1
    assert "display" in done.stderr


def test_without_job_and_display_there_is_a_message_and_no_crash():
    done = tiremap()
    assert (done.returncode, done.stdout) == (2, "")
    assert "display" in done.stderr


def test_a_display_that_does_not_answer_is_found_out_before_qt_aborts():
    done = tiremap(sample("crown_hole"), DISPLAY=":4095")
    assert done.returncode == 0
    assert "Repairable" in done.stdout
    assert "the window needs" in done.stderr


@pytest.mark.parametrize("suffix", ["pdf", "png", "svg"])
def test_sheet_writes_each_format_for_every_answer(suffix, tmp_path):
    starts = {"pdf": b"%PDF", "png": b"\x89PNG", "svg": b"<?xml"}
    target = tmp_path / f"sheet.{suffix}"
    done = tiremap("sheet", sample("fresh_click"), "-o", str(target))
    assert (done.returncode, done.stderr) == (0, "")
    assert target.read_bytes().startswith(starts[suffix])


def test_a_sheet_of_an_unknown_kind_or_in_a_missing_folder_is_refused(tmp_path):
    for target in (tmp_path / "sheet.doc", tmp_path / "missing" / "sheet.pdf"):
        done = tiremap("sheet", sample("crown_hole"), "-o", str(target))
        assert done.returncode == 2
        assert "Traceback" not in done.stderr


def test_a_margin_is_printed_in_its_own_unit():
    said = tiremap("assess", sample("second_repair_at_speed")).stdout
    (line,) = [each for each in said.splitlines() if "km/h and would have" in each]
    assert line.partition("Margin ")[2].partition(" [")[0].endswith(" km/h.")


def test_every_command_that_is_offered_does_something():
    assert set(COMMANDS) == set(RUN)
