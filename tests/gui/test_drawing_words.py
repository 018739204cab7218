"""What the drawings say in words."""

from math import floor

from tests.helpers.jobs import all_fine, bench_job, crown_injury, earlier_repair, from_outboard_edge, measured_tire
from tiremap.assess import assess
from tiremap.model.job import Finding, Injury, Job
from tiremap.ui.drawing_words import drawing_in_words


def said(job, id, unit="mm"):
    return drawing_in_words(assess(job), id, unit)


def test_a_place_is_said_from_the_center_wherever_it_was_taped_from():
    """85 mm from center to edge, less 20 mm."""
    job = bench_job(crown_injury("2", outside=from_outboard_edge(20.0)))
    assert said(job, "2").startswith("injury 2, 65 mm outboard of center, ")


def test_a_place_inboard_and_one_on_the_center_are_said_so():
    job = bench_job(crown_injury("1", -31.0), crown_injury("2", 0.0, 90))
    assert "31 mm inboard of center" in said(job, "1")
    assert said(job, "2").startswith("injury 2, on the center, ") and "90° around" in said(job, "2")


def test_a_place_outside_the_limit_is_said_so():
    said_of = said(bench_job(crown_injury("1", 82.0)), "1")
    assert "mm outside the limit, 0° around, Not repairable" in said_of


def test_the_place_and_the_margin_are_said_first_as_one_hears_them():
    job = bench_job(crown_injury("2", 31.0))
    margin = assess(job).mark("2").margin_mm
    assert said(job, "2") == f"injury 2, 31 mm outboard of center, {floor(margin * 10) / 10:g} mm inside the limit, " \
        "0° around, Repairable."


def test_a_hole_that_passes_is_said_with_the_answer_of_its_tire():
    refused = all_fine().model_copy(update={"inspected": Finding(state="found")})
    assert said(bench_job(crown_injury("1"), checks=refused), "1").endswith(", Not repairable, its own checks pass.")


def test_what_was_not_measured_is_said_and_nothing_made_up():
    job = bench_job(Injury(id="1"))
    assert said(job, "1") == "injury 1, place not measured, margin not known, way around not measured, Measure first."


def test_a_repair_has_no_margin_and_no_answer():
    job = bench_job(crown_injury("1"), earlier_repair("R1", -40, 200))
    assert said(job, "R1") == "repair R1, 40 mm inboard of center, 200° around."


def test_inches_are_said_when_inches_are_shown():
    assert "1.00 in outboard" in said(bench_job(crown_injury("1", 25.4)), "1", unit="in")


def test_a_job_without_a_tire_asks_for_its_size():
    assert said(Job(), "") == "No tire yet: enter its size code."


def test_a_tire_without_marks_says_so():
    assert said(bench_job(tire=measured_tire()), "") == "no injuries, no repairs; none chosen."
