"""What a refusal says could change it does, at the value it names and not short of it; no closer measurement does."""

from hypothesis import HealthCheck, assume, given, settings

from tests.helpers.bench import bench_jobs
from tiremap.assess import assess
from tiremap.edits.change import changed
from tiremap.model.job import Job
from tiremap.model.measures import Across, Around, HoleSize, Lean, Length
from tiremap.rules.reasons import Reason, Turns

SHORT_OF_IT = {"tire.tread_width": 1.1, "tire.tread_depth": 0.11, "lean": 1.1, "around": 1.1}
"""A turning value is rounded by at most its step; this much short of it the check refuses still."""

slow = settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))


def refusals(job: Job) -> list[Reason]:
    return [reason for reason in assess(job).all_reasons if reason.level == "refuse"]


def check(reason: Reason) -> tuple:
    """A hole is held to its limit outside and inside, each a check of its own."""
    return reason.code, reason.subject, "(inside)" in reason.says


def still_refused(job: Job, reason: Reason) -> bool:
    return any(check(each) == check(reason) for each in refusals(job))


def taken_exactly(job: Job, turns: Turns, value: float) -> Job | None:
    """The job with one entry taken as exactly ``value``; ``None`` where it cannot be entered."""
    kind, _, rest = turns.field.partition(".")
    if kind == "tire":
        taken = Length(value=value, how="exact") if value > 0 else None
        return taken and changed(job, tire=changed(job.tire, **{rest: taken}))
    mark_id, _, name = rest.partition(".")
    marks = job.injuries if kind == "injury" else job.repairs
    mark = next(each for each in marks if each.id == mark_id)
    taken = _exactly(getattr(mark, name), name, value)
    if taken is None:
        return None
    others = tuple(changed(each, **{name: taken}) if each is mark else each for each in marks)
    return changed(job, **{"injuries" if kind == "injury" else "repairs": others})


def _exactly(was, name: str, value: float):
    if name in ("outside", "inside"):
        if was.origin != "center" and value < 0:
            return None
        return Across(value=value, how="exact", origin=was.origin)
    if name.startswith("lean"):
        return Lean(value=value, how="exact") if abs(value) < 90 else None
    if name == "around":
        return Around(value=value, unit=was.unit, how=was.how, minus=0.0, plus=0.0)
    return HoleSize(value=value, how="exact") if value > 0 else None


def names_a_value(turns: Turns) -> bool:
    return turns.at_least is not None or turns.at_most is not None


def step_of(turns: Turns) -> float:
    name = turns.field.rpartition(".")[2]
    return SHORT_OF_IT.get(turns.field, SHORT_OF_IT.get(name.partition("_")[0], 0.11))


@slow
@given(bench_jobs(injuries=(1, 2), repairs=(0, 1)))
def test_an_entry_at_the_value_a_refusal_names_is_no_longer_refused_and_short_of_it_is(job):
    told = [reason for reason in refusals(job) if reason.turns is not None and names_a_value(reason.turns)]
    assume(told)
    for reason in told:
        turns = reason.turns
        at_least = turns.at_least is not None
        value = turns.at_least if at_least else turns.at_most
        there = taken_exactly(job, turns, value)
        if there is None:
            continue
        assert not still_refused(there, reason), reason.says
        if turns.unit == "mm" and turns.field.endswith("size_prepared"):
            continue
        short = taken_exactly(job, turns, value + (-1 if at_least else 1) * step_of(turns))
        assert short is None or still_refused(short, reason), reason.says


@slow
@given(bench_jobs(injuries=(1, 2), repairs=(0, 1)))
def test_every_refusal_says_what_could_change_it_and_asks_for_nothing(job):
    assessment = assess(job)
    told = refusals(job)
    assume(told)
    assert assessment.needed == ()
    for reason in told:
        assert reason.settles is None and reason.asks == ()
        assert reason.says.endswith(f" {reason.advice}")
        assert "changes this" in reason.advice
        assert (reason.question, reason.settles_later, reason.turns_later) == (None, None, None)


@slow
@given(bench_jobs(injuries=(1, 2), repairs=(0, 1)))
def test_every_measure_first_that_can_be_measured_names_what_to_measure(job):
    for reason in assess(job).all_reasons:
        if reason.level == "measure" and reason.code != "no_unit_in_stock":
            assert reason.settles is not None, reason
            assert reason.settles.field


@slow
@given(bench_jobs(injuries=(1, 2), repairs=(0, 1)))
def test_a_drag_gives_the_same_answers_and_margins_without_advice(job):
    def figures(assessment):
        return [
            (each.code, each.level, each.subject, each.margin, each.margin_low, each.margin_high)
            for each in assessment.all_reasons
        ]

    assert figures(assess(job)) == figures(assess(job, advise=False))
