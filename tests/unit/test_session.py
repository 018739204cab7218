"""The session: one way in for changes, undo and redo, and who is told."""

from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair
from tiremap.assess import assess
from tiremap.edits.decisions import record_decision
from tiremap.edits.injuries import move_injury, nudge_injury, remove_injury
from tiremap.edits.job_card import set_note
from tiremap.errors import TiremapError
from tiremap.model.job import Decision, Job
from tiremap.model.rule_set_file import rule_set_path
from tiremap.session import Session
from tiremap.storage.shop_rule_sets import copy_rule_set, write_limit

JOB = bench_job(crown_injury(across_mm=10.0))
NUDGED = nudge_injury(JOB, "1", across_mm=1.0)


def _assess(job):
    """Stands for the assessment: where the injuries lie; refuses a job whose note says so."""
    if job.note == "cannot be assessed":
        raise TiremapError("It cannot be assessed.")
    return tuple(injury.outside.value for injury in job.injuries)


@pytest.fixture
def session():
    return Session(JOB, assess=_assess, assess_tried=lambda job, before: _assess(job))


def test_a_fresh_session_knows_nothing_and_has_nothing_to_save():
    session = Session(assess=_assess)
    assert session.job == Job()
    assert session.path is None
    assert not session.unsaved
    assert session.undo_name is session.redo_name is None


def test_an_applied_change_is_assessed_and_one_undo_takes_it_back(session):
    session.apply("Nudge", NUDGED)
    assert session.job is NUDGED
    assert session.assessment == (11.0,)
    assert session.undo_name == "Nudge"
    session.undo()
    assert session.job is JOB
    assert session.assessment == (10.0,)
    assert (session.undo_name, session.redo_name) == (None, "Nudge")
    session.redo()
    assert session.job is NUDGED
    assert (session.undo_name, session.redo_name) == ("Nudge", None)


def test_an_equal_job_is_no_step_and_nobody_is_told(session):
    told = []
    session.listen(lambda: told.append(session.job))
    session.apply("Nothing", JOB.model_copy())
    assert session.undo_name is None
    assert session.job is JOB
    assert told == []


def test_a_new_change_after_an_undo_ends_what_could_be_redone(session):
    session.apply("Nudge", NUDGED)
    session.undo()
    session.apply("Remove", remove_injury(JOB, "1"))
    assert session.redo_name is None
    session.redo()
    assert session.job.injuries == ()


def test_a_drag_tried_out_leaves_no_trace(session):
    told = []
    session.listen(lambda: told.append(1))
    assert session.preview(NUDGED) == (11.0,)
    assert session.job is JOB
    assert session.assessment == (10.0,)
    assert session.undo_name is None
    assert not session.unsaved
    assert told == []


def test_a_place_tried_in_a_drag_is_answered_as_if_everything_were_asked_anew():
    marks = [crown_injury(str(n), 9.0 * n - 20, 14.0 * n) for n in range(1, 5)]
    session = Session(bench_job(*marks, earlier_repair("R1", 10.0, 40.0)))
    for place in (-60.0, -12.0, 5.0, 80.0):
        moved = move_injury(session.job, "2", across_mm=place, around_deg=33.0)
        tried, anew = session.preview(moved).as_record(), assess(moved, advise=False).as_record()
        assert tried["answer"] == anew["answer"]
        for part in ("injuries", "pairs", "reasons"):
            assert [_bare(each) for each in tried[part]] == [_bare(each) for each in anew[part]]


def _bare(record):
    """A record without sentences, in which there may be advice."""
    reasons = [_bare(each) for each in record.get("reasons", ())]
    return {**record, "reasons": reasons, "says": ""}


def test_undoing_back_to_the_saved_job_leaves_nothing_to_save(session):
    session.apply("Nudge", NUDGED)
    assert session.unsaved
    session.saved(Path("job.json"))
    assert session.path == Path("job.json")
    assert not session.unsaved
    session.undo()
    assert session.unsaved
    session.redo()
    assert not session.unsaved


def test_loading_another_job_forgets_the_history_of_the_one_before(session):
    session.apply("Nudge", NUDGED)
    other = bench_job()
    session.load(other, Path("other.json"))
    assert session.job is other
    assert session.assessment == ()
    assert session.path == Path("other.json")
    assert not session.unsaved
    session.undo()
    assert session.job is other


def test_listeners_are_told_after_each_change_and_see_it_whole(session):
    seen = []
    session.listen(lambda: seen.append((session.assessment, session.undo_name, session.unsaved)))
    session.apply("Nudge", NUDGED)
    session.undo()
    session.redo()
    session.saved(Path("job.json"))
    session.load(JOB, None)
    assert seen == [
        ((11.0,), "Nudge", True),
        ((10.0,), None, False),
        ((11.0,), "Nudge", True),
        ((11.0,), "Nudge", False),
        ((10.0,), None, False),
    ]


@pytest.mark.parametrize(
    "spoiled",
    [
        JOB.model_copy(update={"injuries": (JOB.injuries[0], JOB.injuries[0])}),
        JOB.model_copy(update={"note": 7}),
        set_note(JOB, "cannot be assessed"),
    ],
    ids=["one id twice", "a number for a note", "not to be assessed"],
)
def test_a_job_that_cannot_stand_changes_nothing(session, spoiled):
    session.apply("Nudge", NUDGED)
    session.undo()
    for attempt in (lambda: session.apply("Spoil", spoiled), lambda: session.load(spoiled, Path("spoiled.json"))):
        with pytest.raises(TiremapError):
            attempt()
        assert session.job is JOB
        assert session.path is None
        assert session.assessment == (10.0,)
        assert (session.undo_name, session.redo_name) == (None, "Nudge")


def test_a_job_is_assessed_again_without_a_step_when_its_rule_set_has_changed():
    copy_rule_set("united_kingdom", "our_shop")
    session = Session(bench_job(crown_injury(), rule_set="our_shop"))
    told = []
    session.listen(lambda: told.append(session.assessment.answer))
    write_limit("our_shop", "largest_injuries", 0, 2.0, "our own word")
    session.assess_again()
    rule_set_path("our_shop").unlink()
    session.assess_again()
    assert told == ["not_repairable", "measure_first"]
    assert (session.undo_name, session.unsaved) == (None, False)


def _decision(day: int) -> Decision:
    return Decision(date=datetime(2026, 3, day, tzinfo=UTC), rule_set="japan", answer="repairable", decision="repair")


def test_a_decision_not_saved_yet_is_undone_as_any_edit(session):
    session.apply("Record the decision", record_decision(JOB, _decision(1)))
    session.undo()
    assert session.job is JOB


def test_a_saved_decision_stays_through_undo_and_redo_of_everything_else(session):
    session.apply("Move", NUDGED)
    session.apply("Record the decision", record_decision(NUDGED, _decision(1)))
    session.saved(Path("job.json"))
    session.apply("Record the decision", record_decision(session.job, _decision(2)))
    session.undo()
    assert session.undo_name == "Move"  # the saved decision is no step to undo any more
    session.undo()
    assert session.job == record_decision(JOB, _decision(1))
    assert session.undo_name is None and session.unsaved
    session.redo()
    session.redo()
    assert session.job == record_decision(record_decision(NUDGED, _decision(1)), _decision(2))


def test_no_edit_changes_or_takes_out_a_decision(session):
    signed = record_decision(JOB, _decision(1))
    session.apply("Record the decision", signed)
    for other in (JOB, record_decision(JOB, _decision(2))):
        with pytest.raises(TiremapError, match="Record another one after it"):
            session.apply("Change", other)
    assert session.job is signed
