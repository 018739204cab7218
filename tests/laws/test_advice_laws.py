"""The measurement a Measure first names does settle it, at the value it names and not short of it."""

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from tests.helpers.bench import bench_jobs
from tests.helpers.counts import examples
from tests.helpers.jobs import bench_job, crown_injury, from_outboard_edge, measured_tire
from tiremap.assess import assess
from tiremap.edits.change import changed
from tiremap.model.job import Job
from tiremap.model.measures import Across, HoleSize, Lean, Length
from tiremap.rules.reasons import Reason, Settles

COARSER_THAN_ITS_ROUNDING = {"mm": 1.1, "deg": 1.1}
"""A turning value is rounded by at most its step; this much short of it the check can no longer pass."""


def place(job: Job) -> Reason:
    return next(reason for reason in assess(job).injuries[0].reasons if reason.code == "place")


def measured(job: Job, settles: Settles, value: float) -> Job | None:
    """The job with the named measurement taken exactly; ``None`` where that value cannot be entered."""
    hole = job.injuries[0]
    if settles.field == "tire.tread_width":
        return changed(job, tire=changed(job.tire, tread_width=Length(value=value, how="exact")))
    if settles.field == "injury.1.outside":
        if hole.outside.origin != "center" and value < 0:
            return None
        taken = Across(value=value, how="exact", origin=hole.outside.origin)
        return changed(job, injuries=(changed(hole, outside=taken),))
    if settles.field == "injury.1.lean_across":
        return changed(job, injuries=(changed(hole, lean_across=Lean(value=value, how="exact")),))
    if settles.field == "injury.1.size_outside" and value > 0:
        size = HoleSize(value=value, how="exact")
        return changed(job, injuries=(changed(hole, size_outside=size, size_inside=None),))
    return None


@settings(max_examples=examples(25), deadline=None, suppress_health_check=list(HealthCheck))
@given(bench_jobs(injuries=(1, 1), repairs=(0, 0)), st.sampled_from(["at_least", "at_most"]))
def test_the_named_measurement_settles_the_place_at_its_turning_value_and_not_short_of_it(job, end):
    assume(assess(job).zone is not None)  # the rule set speaks of the class
    reason = place(job)
    settles = reason.settles
    assume(settles is not None and settles.alone)
    turning = getattr(settles, end)
    assume(turning is not None)
    there = measured(job, settles, turning)
    assume(there is not None)
    assert place(there).level == "note"
    if settles.field == "injury.1.size_outside":
        return  # cutters come in steps, so a little larger a hole may still take the same one
    short = turning + (-1 if end == "at_least" else 1) * COARSER_THAN_ITS_ROUNDING[settles.unit]
    too_short = measured(job, settles, short)
    assert too_short is None or place(too_short).level != "note"


def test_two_things_unknown_are_named_one_after_the_other():
    fresh = crown_injury(lean_across=None, size_outside=None, size_inside=None)
    settles = place(bench_job(fresh)).settles
    assert not settles.alone
    assert settles.then


def test_a_taped_place_just_too_coarse_is_asked_again_with_the_tolerance_it_needs():
    size = HoleSize(value=3.0, how="exact")
    upright = Lean(value=0.0, how="exact")
    near = crown_injury(
        outside=from_outboard_edge(28.0), size_outside=size, size_inside=None, lean_across=upright
    )
    reason = place(bench_job(near, rule_set="north_america", tire=measured_tire()))
    # 28 - 25.4 - 3 / 2 = 1.1 mm inside, less than the 2 mm of a tape
    assert (reason.level, reason.settles.field) == ("measure", "injury.1.outside")
    assert reason.settles.at_least == 26.9
    assert abs(reason.settles.tolerance - 1.1) < 1e-9
    assert "1.1 mm" in reason.says
