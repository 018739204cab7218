"""Earlier repairs marked, and the checks that say whether they were looked for."""

import pytest

from tests.helpers.jobs import at_angle, bench_job, crown_injury, earlier_repair, from_center, taped
from tiremap.edits.checks import FINDINGS, nothing_found, set_check, set_earlier_repairs, set_inspected
from tiremap.edits.repairs import (
    confirm_repair_as_taped,
    move_repair,
    nudge_repair,
    place_repair,
    remove_repair,
    set_repair,
)
from tiremap.errors import TiremapError
from tiremap.model.job import Checks, Finding, Job, Repair, RepairsLookedFor
from tiremap.model.measures import Across, Around


def test_marked_repairs_are_numbered_apart_from_injuries():
    job = place_repair(place_repair(bench_job(crown_injury("1")), from_center(3.0), at_angle(10.0)))
    assert job.repairs == (Repair(id="R1", inside=from_center(3.0), around=at_angle(10.0)), Repair(id="R2"))


def test_marking_a_repair_reopens_the_answer_that_there_are_none():
    assert place_repair(set_earlier_repairs(Job(), "none")).checks.earlier_repairs is None
    assert place_repair(nothing_found(Job())).checks.earlier_repairs is None


def test_marking_one_more_repair_leaves_all_marked_as_answered():
    job = bench_job(earlier_repair())
    assert place_repair(job).checks == job.checks


def test_no_earlier_repairs_cannot_be_answered_while_some_are_marked():
    with pytest.raises(TiremapError, match="1 are marked"):
        set_earlier_repairs(bench_job(earlier_repair()), "none")


def test_a_repair_is_moved_nudged_and_confirmed_by_its_head():
    job = move_repair(bench_job(earlier_repair()), "R1", 20.0, 45.0)
    assert job.repairs[0].inside == Across(value=20.0, origin="center", how="eye")
    job = nudge_repair(job, "R1", -0.5, -46.0)
    assert job.repairs[0].inside.value == 19.5
    assert job.repairs[0].around == Around(value=359.0, how="eye")
    job = confirm_repair_as_taped(job, "R1")
    assert (job.repairs[0].inside, job.repairs[0].around) == (from_center(19.5), at_angle(359.0))


def test_a_repair_is_described_and_taken_off():
    job = set_repair(bench_job(earlier_repair()), "R1", kind="plug_only", head_length=None, head_width=taped(30.0))
    assert (job.repairs[0].kind, job.repairs[0].head_length) == ("plug_only", None)
    job = remove_repair(job, "R1")
    assert job.repairs == ()
    with pytest.raises(TiremapError, match="no repair 'R1' on this tire"):
        remove_repair(job, "R1")


def test_nothing_found_answers_every_open_check_together():
    assert nothing_found(Job()).checks == Checks(
        **{name: Finding(state="fine", together=True) for name in FINDINGS},
        earlier_repairs=RepairsLookedFor(state="none", together=True),
    )


def test_nothing_found_with_repairs_marked_says_all_are_marked():
    job = place_repair(Job())
    assert nothing_found(job).checks.earlier_repairs == RepairsLookedFor(state="all_marked", together=True)


def test_nothing_found_never_overwrites_an_answer():
    job = set_earlier_repairs(set_inspected(Job(), "found"), "all_marked")
    after = nothing_found(job).checks
    assert (after.inspected, after.earlier_repairs) == (job.checks.inspected, job.checks.earlier_repairs)
    assert nothing_found(nothing_found(Job())) == nothing_found(Job())


def test_a_check_is_answered_singly_and_taken_back():
    job = set_inspected(nothing_found(Job()), "fine")
    assert job.checks.inspected == Finding(state="fine", together=False)
    assert set_inspected(job, None).checks.inspected is None
    assert set_earlier_repairs(job, None).checks.earlier_repairs is None


def test_a_check_there_is_not_is_a_bug():
    with pytest.raises(TypeError, match="sparkle"):
        set_check(Job(), "sparkle", "fine")
