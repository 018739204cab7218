"""Injuries placed, moved, nudged and measured."""

import pytest

from tests.helpers.jobs import at_angle, bench_job, crown_injury, earlier_repair, from_center, from_outboard_edge, hole
from tiremap.edits.injuries import (
    confirm_as_taped,
    injury_with_id,
    move_injury,
    nudge_injury,
    place_injury,
    remove_injury,
    set_injury,
    set_upright,
)
from tiremap.errors import TiremapError
from tiremap.model.job import Injury, Job
from tiremap.model.measures import Across, Around, BeadToes, Lean


def test_placed_injuries_are_numbered_and_know_only_where_they_are():
    job = place_injury(Job(), from_outboard_edge(35.0), None)
    job = place_injury(job, from_center(-3.0, how="eye"), at_angle(90.0))
    assert job.injuries == (
        Injury(id="1", outside=Across(value=35.0, origin="outboard_edge", how="tape")),
        Injury(id="2", outside=from_center(-3.0, how="eye"), around=at_angle(90.0)),
    )


def test_a_new_injury_takes_no_number_another_mark_has():
    job = bench_job(crown_injury("1"), crown_injury("7"), earlier_repair("8"))
    assert place_injury(remove_injury(job, "1"), None, None).injuries[-1].id == "9"


def test_a_moved_end_is_by_eye_from_the_center_and_the_rest_stays_as_measured():
    job = bench_job(crown_injury(outside=from_outboard_edge(35.0), inside=from_center(4.0)))
    moved = injury_with_id(move_injury(job, "1", across_mm=-12.5), "1")
    assert moved.outside == Across(value=-12.5, origin="center", how="eye")
    assert moved.inside == from_center(4.0)
    assert moved.around == at_angle(0.0)
    inside = injury_with_id(move_injury(job, "1", 6.0, 370.0, end="inside"), "1")
    assert inside.inside == Across(value=6.0, origin="center", how="eye")
    assert inside.outside == from_outboard_edge(35.0)
    assert inside.around == Around(value=10.0, how="eye")


def test_a_nudge_of_a_place_taped_from_an_edge_starts_where_it_lies_now():
    job = bench_job(crown_injury(outside=from_outboard_edge(35.0, minus=1.0)))
    nudged = injury_with_id(nudge_injury(job, "1", across_mm=-1.0, center_mm=50.0), "1")
    assert nudged.outside == Across(value=49.0, origin="center", how="eye")
    with pytest.raises(ValueError, match="present distance"):
        nudge_injury(job, "1", across_mm=-1.0)


def test_a_nudge_of_a_place_kept_from_the_center_in_inches_goes_on_in_millimeters():
    job = bench_job(crown_injury(outside=from_center(1.0, unit="in")))
    assert nudge_injury(job, "1", across_mm=0.1).injuries[0].outside.value == 25.4 + 0.1


def test_a_nudge_around_leaves_the_place_across_as_it_was_taped():
    job = bench_job(crown_injury(outside=from_outboard_edge(35.0), around=at_angle(0.5)))
    nudged = injury_with_id(nudge_injury(job, "1", around_deg=-1.0), "1")
    assert nudged.outside == from_outboard_edge(35.0)
    assert nudged.around == Around(value=359.5, how="eye")


def test_a_nudge_around_of_a_taped_place_needs_its_present_angle():
    job = bench_job(crown_injury(around=Around(value=496.0, unit="mm", how="tape")))
    assert nudge_injury(job, "1", around_deg=1.0, angle_deg=90.0).injuries[0].around.value == 91.0
    with pytest.raises(ValueError, match="present angle"):
        nudge_injury(job, "1", around_deg=1.0)


def test_ten_small_nudges_end_where_one_large_one_does():
    job = small = bench_job(crown_injury(across_mm=0.2))
    for _ in range(10):
        small = nudge_injury(small, "1", across_mm=0.1)
    assert small == nudge_injury(job, "1", across_mm=1.0)


def test_upright_is_both_leans_zero_by_probe():
    injury = set_upright(place_injury(Job(), None, None), "1").injuries[0]
    assert injury.lean_across == injury.lean_around == Lean(value=0.0, how="probe")


def test_a_confirmed_place_stands_as_taped_and_others_as_they_were():
    toes = BeadToes(from_outboard=200.0, from_inboard=210.0, how="tape", minus=1.0)
    job = move_injury(bench_job(crown_injury(inside=toes)), "1", 12.0, 30.0)
    injury = confirm_as_taped(job, "1").injuries[0]
    assert injury.outside == from_center(12.0, how="tape")
    assert injury.around == at_angle(30.0, how="protractor")
    assert injury.inside == toes


def test_confirming_leaves_a_place_around_that_was_measured_as_it_was_measured():
    for measured in (Around(value=310.0, unit="mm", how="tape"), Around(value=95.0, how="clock"), None):
        job = bench_job(crown_injury(outside=from_center(5.0, how="eye"), around=measured))
        confirmed = injury_with_id(confirm_as_taped(job, "1"), "1")
        assert confirmed.outside == from_center(5.0, how="tape")
        assert confirmed.around == measured


def test_a_cleared_size_is_unknown_again_and_the_order_of_injuries_stays():
    job = bench_job(crown_injury("1"), crown_injury("2"), crown_injury("3"))
    job = set_injury(job, "2", size_outside=None, size_inside=hole(6.0))
    assert [injury.id for injury in job.injuries] == ["1", "2", "3"]
    assert job.injuries[1].size_outside is None
    assert job.injuries[1].size_inside == hole(6.0)


def test_an_injury_that_is_not_there_is_named_with_those_that_are():
    job = bench_job(crown_injury("1"), crown_injury("2"), earlier_repair("R1"))
    for edit in (remove_injury, set_upright, confirm_as_taped, move_injury, nudge_injury, set_injury):
        with pytest.raises(TiremapError, match=r"no injury 'R1' on this tire. There are: 1, 2."):
            edit(job, "R1")


def test_a_place_that_is_no_number_is_refused_in_words():
    with pytest.raises(TiremapError, match="It should be a number"):
        move_injury(bench_job(crown_injury()), "1", across_mm=float("nan"))
    with pytest.raises(TiremapError, match="It should be 10000 or less"):
        move_injury(bench_job(crown_injury()), "1", across_mm=1e5)
