"""What undo and redo keep, after any sequence of edits."""

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.helpers.counts import examples
from tests.helpers.strategies import acrosses, arounds, hole_sizes, jobs, lengths
from tiremap.edits import checks, injuries, job_card, repairs, tire
from tiremap.session import Session
from tiremap.storage.canonical import job_text

few = settings(max_examples=examples(10), deadline=None, suppress_health_check=list(HealthCheck))

shifts = st.floats(-20, 20)
# Each edit is a function of the job and one number that chooses among its marks.
edits = st.one_of(
    st.tuples(acrosses(), st.none() | arounds()).map(lambda at: lambda job, _: injuries.place_injury(job, *at)),
    st.tuples(acrosses(), st.none() | arounds()).map(lambda at: lambda job, _: repairs.place_repair(job, *at)),
    st.tuples(shifts, shifts).map(
        lambda by: lambda job, n: _to_an_injury(job, n, injuries.nudge_injury, *by, center_mm=5.0, angle_deg=350.0)
    ),
    st.tuples(shifts, shifts).map(lambda to: lambda job, n: _to_an_injury(job, n, injuries.move_injury, *to)),
    (st.none() | hole_sizes()).map(
        lambda size: lambda job, n: _to_an_injury(job, n, injuries.set_injury, size_outside=size)
    ),
    st.sampled_from(
        [
            lambda job, n: _to_an_injury(job, n, injuries.set_upright),
            lambda job, n: _to_an_injury(job, n, injuries.confirm_as_taped),
            lambda job, n: _to_an_injury(job, n, injuries.remove_injury),
            lambda job, _: checks.nothing_found(job),
            lambda job, _: checks.set_inspected(job, None),
            lambda job, _: job_card.choose_rule_set(job, "north_america"),
            lambda job, _: tire.set_size_code(job, "225/45R17"),
        ]
    ),
    (st.none() | lengths(100, 250)).map(lambda width: lambda job, _: tire.set_tire(job, tread_width=width)),
)
sequences = st.lists(st.tuples(edits, st.integers(0, 9)), max_size=12)


def _to_an_injury(job, n, edit, *args, **fields):
    return edit(job, job.injuries[n % len(job.injuries)].id, *args, **fields) if job.injuries else job


def _run(session, sequence):
    """Apply the edits; the jobs that stood, first to last, each once."""
    stood = [session.job]
    for edit, n in sequence:
        session.apply("an edit", edit(session.job, n))
        if session.job is not stood[-1]:
            stood.append(session.job)
    return stood


def _nothing_assessed(job):
    return job_text(job)


@few
@given(jobs(later=True), sequences)
def test_undoing_everything_gives_the_identical_job_and_redoing_everything_too(job, sequence):
    before = job_text(job)
    session = Session(job, assess=_nothing_assessed)
    stood = _run(session, sequence)
    after = job_text(session.job)
    while session.undo_name:
        session.undo()
    assert session.job is job
    assert job_text(session.job) == before
    assert not session.unsaved
    while session.redo_name:
        session.redo()
    assert session.job is stood[-1]
    assert job_text(session.job) == after


@few
@given(jobs(most_marks=1), sequences, st.data())
def test_any_walk_through_the_history_shows_the_jobs_that_stood_in_order(job, sequence, data):
    session = Session(job, assess=_nothing_assessed)
    stood = _run(session, sequence)
    at = len(stood) - 1
    for back in data.draw(st.lists(st.booleans(), max_size=20)):
        session.undo() if back else session.redo()
        at = max(0, at - 1) if back else min(len(stood) - 1, at + 1)
        assert session.job is stood[at]
        assert session.assessment == job_text(stood[at])


@few
@given(jobs(later=True), sequences)
def test_no_edit_loses_what_the_program_does_not_know(job, sequence):
    session = Session(job, assess=_nothing_assessed)
    _run(session, sequence)
    assert session.job.model_extra == job.model_extra
    assert session.job.tire.model_extra == job.tire.model_extra
    kept = {mark.id: mark.model_extra for mark in job.repairs}
    assert {mark.id: mark.model_extra for mark in session.job.repairs if mark.id in kept} == kept


@few
@given(jobs(), sequences)
def test_ids_stay_unique_over_injuries_and_repairs(job, sequence):
    session = Session(job, assess=_nothing_assessed)
    _run(session, sequence)
    ids = [mark.id for mark in (*session.job.injuries, *session.job.repairs)]
    assert len(ids) == len(set(ids))
