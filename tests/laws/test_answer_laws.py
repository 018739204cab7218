"""Laws every answer keeps. Order: not repairable < measure first < repairable."""

from math import isclose

from hypothesis import HealthCheck, assume, example, given, settings
from hypothesis import strategies as st

from tests.helpers.answers import RANK, answer, on_a_limit, rank, weighed
from tests.helpers.bench import bench_jobs, truths
from tests.helpers.counts import examples
from tests.helpers.jobs import bench_job, crown_injury, from_outboard_edge, measured_tire
from tests.helpers.strategies import jobs
from tiremap.assessment import Assessment
from tiremap.edits.change import changed
from tiremap.errors import TiremapError
from tiremap.model.job import Job
from tiremap.model.measures import Across, Around, Length
from tiremap.rules.reasons import Reason

EASY = settings(max_examples=examples(30), deadline=None, suppress_health_check=[HealthCheck.too_slow])
MANY = settings(max_examples=examples(80), deadline=None, suppress_health_check=[HealthCheck.too_slow])


@MANY
@given(st.data())
def test_an_answer_never_contradicts_any_true_value_its_measurements_allow(data):
    job = data.draw(bench_jobs())
    found = answer(job)
    truth = answer(data.draw(truths(job)))
    assume(not on_a_limit(found) and not on_a_limit(truth))
    if found.answer == "repairable":
        assert truth.answer == "repairable"
    if found.answer == "not_repairable":
        assert truth.answer == "not_repairable"


@MANY
@given(st.data())
def test_every_margin_of_a_true_value_lies_between_the_least_and_greatest(data):
    job = data.draw(bench_jobs(injuries=(1, 1), repairs=(1, 1)))
    found, truth = answer(job), answer(data.draw(truths(job)))
    codes = ("place", "head_at_tread_edge", "heads_overlap")
    ranges = {(reason.code, reason.subject): reason for reason in weighed(found) if reason.code in codes}
    for reason in weighed(truth):
        around = ranges.get((reason.code, reason.subject))
        if around is None or reason.margin is None:
            continue
        assert around.margin_low is None or around.margin_low <= reason.margin + 1e-6
        assert around.margin_high is None or reason.margin <= around.margin_high + 1e-6


@EASY
@given(bench_jobs(), st.floats(-720, 720))
def test_turning_every_angle_changes_no_margin_and_no_answer(job, turn):
    def turned(around: Around | None) -> Around | None:
        return None if around is None else changed(around, value=around.value + turn)

    there = changed(
        job,
        injuries=tuple(changed(each, around=turned(each.around)) for each in job.injuries),
        repairs=tuple(changed(each, around=turned(each.around)) for each in job.repairs),
    )
    _same(answer(job), answer(there))


@EASY
@given(bench_jobs())
def test_mirroring_the_tire_changes_no_margin_and_no_answer(job):
    other = {"outboard_edge": "inboard_edge", "inboard_edge": "outboard_edge"}

    def mirrored(place: Across | None) -> Across | None:
        if place is None:
            return None
        if place.origin == "center":
            return changed(place, value=-place.value)
        return changed(place, origin=other[place.origin])

    def leaning(lean):
        return None if lean is None else changed(lean, value=-lean.value)

    holes = [
        changed(each, outside=mirrored(each.outside), lean_across=leaning(each.lean_across)) for each in job.injuries
    ]
    heads = [changed(each, inside=mirrored(each.inside)) for each in job.repairs]
    there = changed(job, injuries=tuple(holes), repairs=tuple(heads))
    _same(answer(job), answer(there))


def _same(one: Assessment, other: Assessment) -> None:
    for first, second in zip(weighed(one), weighed(other), strict=True):
        assert first.code == second.code
        for name in ("margin", "margin_low", "margin_high"):
            a, b = getattr(first, name), getattr(second, name)
            assert (a is None) == (b is None)
            assert a is None or isclose(a, b, rel_tol=1e-9, abs_tol=1e-6)
    assert one.answer == other.answer or on_a_limit(one)


@EASY
@given(bench_jobs(injuries=(1, 1), repairs=(0, 0)), st.floats(0, 5))
def test_a_larger_hole_is_never_answered_better(job, more):
    def larger(size):
        return None if size is None else changed(size, value=size.value + more)

    hole = job.injuries[0]
    there = changed(
        job,
        injuries=(
            changed(hole, size_outside=larger(hole.size_outside), size_inside=larger(hole.size_inside)),
        ),
    )
    assert rank(answer(there)) <= rank(answer(job))


@EASY
@given(bench_jobs(injuries=(1, 1), repairs=(0, 0)), st.floats(0, 60))
def test_an_injury_further_from_the_center_is_never_answered_better(job, further):
    hole = job.injuries[0]
    outside = hole.outside
    if outside.origin == "center":
        away = further if outside.value >= 0 else -further
        lean = None if hole.lean_across is None else changed(hole.lean_across, value=0.0)
        there = changed(outside, value=outside.value + away)
    else:
        # stays on its own half of the tread, so that nearer to its edge is further from the center
        assume(job.tire.tread_width is not None and outside.value + 2 < job.tire.tread_width.value / 2 - 2)
        lean = None if hole.lean_across is None else changed(hole.lean_across, value=0.0)
        there = changed(outside, value=max(0.0, outside.value - further))
    before = changed(job, injuries=(changed(hole, lean_across=lean),))
    after = changed(job, injuries=(changed(hole, lean_across=lean, outside=there),))
    assert rank(answer(after)) <= rank(answer(before))


@EASY
@given(bench_jobs(injuries=(1, 1), repairs=(0, 0)), st.floats(0, 70), st.floats(0, 1))
def test_leaning_further_outward_is_never_answered_better(job, most, share):
    hole = job.injuries[0]
    outside = Across(value=abs(hole.outside.value) % 90, how="tape", origin="center")

    def leaning(degrees: float) -> Assessment:
        lean = None if hole.lean_across is None else changed(hole.lean_across, value=degrees)
        return answer(changed(job, injuries=(changed(hole, outside=outside, lean_across=lean),)))

    assert rank(leaning(most)) <= rank(leaning(most * share))


@EASY
@given(bench_jobs(), st.floats(0, 1))
def test_narrowing_a_tolerance_never_turns_repairable_into_not_repairable_or_back(job, share):
    def narrower(length: Length | None) -> Length | None:
        return None if length is None else changed(length, minus=2.0 * share, plus=2.0 * share)

    before = answer(job)
    tire = changed(job.tire, tread_width=narrower(job.tire.tread_width))
    holes = tuple(
        each if each.outside.how == "eye" else changed(each, outside=narrower(each.outside)) for each in job.injuries
    )
    after = answer(changed(job, tire=tire, injuries=holes))
    assume(not on_a_limit(before) and not on_a_limit(after))
    assert abs(rank(before) - rank(after)) <= 1
    if before.answer != "measure_first":
        assert after.answer == before.answer


@EASY
@given(st.floats(5, 60), st.floats(144, 200), st.floats(144, 200))
def test_a_hole_taped_from_an_edge_does_not_depend_on_the_tread_width_under_a_limit_set_in_from_it(taped, one, other):
    def place_of(tread_width: float | None) -> Reason:
        width = None if tread_width is None else Length(value=tread_width, how="tape")
        tire = measured_tire(tread_width=width)
        hole = crown_injury(outside=from_outboard_edge(taped))
        found = answer(bench_job(hole, rule_set="north_america", tire=tire))
        return next(reason for reason in found.injuries[0].reasons if reason.code == "place")

    unmeasured, first, second = place_of(None), place_of(one), place_of(other)
    assert unmeasured.margin is not None
    for reason in (first, second):
        assert isclose(reason.margin, unmeasured.margin, abs_tol=1e-9)
        assert isclose(reason.margin_low, unmeasured.margin_low, abs_tol=1e-9)
        assert reason.level == unmeasured.level


EVERY_DEPTH = ("tread_depth", "tread_depth_outboard", "tread_depth_central", "tread_depth_inboard")
"""One of them can be enough: the depth over the center, where a set asks for no other."""
NEEDED_TO_PASS = ("tread_depth", "lean_across", "size", "inspected", "earlier_repairs")


@EASY
@given(bench_jobs(injuries=(1, 1), repairs=(0, 0), unknowns=False), st.sampled_from(NEEDED_TO_PASS))
@example(bench_job(crown_injury()), "tread_depth")
@example(bench_job(crown_injury()), "lean_across")
@example(bench_job(crown_injury()), "size")
@example(bench_job(crown_injury()), "inspected")
@example(bench_job(crown_injury()), "earlier_repairs")
def test_nothing_that_must_be_known_may_be_forgotten(job, what):
    if what == "tread_depth":
        there = changed(job, tire=changed(job.tire, **dict.fromkeys(EVERY_DEPTH)))
    elif what == "lean_across":
        there = changed(job, injuries=(changed(job.injuries[0], lean_across=None),))
    elif what == "size":
        there = changed(job, injuries=(changed(job.injuries[0], size_outside=None, size_inside=None),))
    else:
        there = changed(job, checks=changed(job.checks, **{what: None}))
    assert answer(there).answer != "repairable"


@EASY
@given(jobs())
def test_no_job_however_odd_is_repairable_with_anything_unlooked_at_or_raises_anything_but_words(job: Job):
    try:
        found = answer(job)
    except TiremapError as error:
        assert str(error)
        return
    checks = job.checks
    if checks.inspected is None or checks.earlier_repairs is None or job.rule_set is None or not job.injuries:
        assert found.answer != "repairable"
    worst_part = min(
        [RANK[injury.answer] for injury in found.injuries]
        + [0 if r.level == "refuse" else 1 if r.level == "measure" else 2 for r in found.all_reasons]
    )
    assert rank(found) == worst_part


@EASY
@given(bench_jobs(injuries=(2, 3), repairs=(0, 2)))
def test_the_order_of_injuries_and_repairs_does_not_matter(job):
    there = changed(job, injuries=job.injuries[::-1], repairs=job.repairs[::-1])
    one, other = answer(job), answer(there)
    assert one.answer == other.answer
    assert {each.id: each.answer for each in one.injuries} == {each.id: each.answer for each in other.injuries}
