"""Ticking the steps of a repair, each with its time, and answering its two stops."""

from dataclasses import dataclass
from datetime import datetime

from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.edits.change import changed
from tiremap.edits.injuries import injury_with_id
from tiremap.edits.marks import with_mark
from tiremap.errors import TiremapError
from tiremap.model.job import Finding, Job, StepDone
from tiremap.model.measures import Lean, Length
from tiremap.repair_steps import MEASURE, REFUSED, Step, done, held_back_by, steps_of, what_was_seen

HOLE, LINER = "check_hole", "check_liner"
"""The two stops, by the ids of their steps."""


@dataclass(frozen=True)
class HoleSeen:
    """What probing and reaming showed at one injury; ``None`` leaves a lean as it was measured."""

    injury: str
    cutter: Length
    cords_splayed: bool
    lean_across: Lean | None = None
    lean_around: Lean | None = None


def tick(job: Job, step_id: str, at: datetime, assessment: Assessment | None = None) -> Job:
    """Tick a step at that time. A stop is not ticked but answered, see `answer_hole` and `answer_liner`.

    Raises `TiremapError` where an earlier step must come first, or the list has no such step to do.
    """
    step = _allowed(job, step_id, assessment)
    if step.stop:
        raise TiremapError(f"{step.title}: this step is answered, not ticked.", "Enter what was found there.")
    return _ticked(job, StepDone(step=step_id, at=at))


def untick(job: Job, step_id: str) -> Job:
    """Take the tick of a step back."""
    return changed(job, steps_done=tuple(each for each in job.steps_done if each.step != step_id))


def answer_hole(job: Job, seen: tuple[HoleSeen, ...], at: datetime) -> Job:
    """Answer the stop after reaming: what was found goes into the job, which is answered anew.

    Every injury not refused must be told of. Raises `TiremapError` as `tick` does.
    """
    step = _allowed(job, HOLE, None)
    asked = {each.id for each in assess(job, advise=False).injuries if each.answer != "not_repairable"}
    missing = sorted(asked - {each.injury for each in seen})
    if missing:
        raise TiremapError(
            f"{step.title}: nothing was entered of injury {missing[0]}.", "Enter cutter and cords of every injury."
        )
    for each in seen:
        fields = {"size_prepared": each.cutter, "cords_splayed": each.cords_splayed}
        if each.lean_across is not None:
            fields["lean_across"] = each.lean_across
        if each.lean_around is not None:
            fields["lean_around"] = each.lean_around
        job = changed(job, injuries=with_mark(job.injuries, changed(injury_with_id(job, each.injury), **fields)))
    return _answered(job, HOLE, at)


def answer_liner(job: Job, liner_whole: bool, cord_bare: bool, at: datetime) -> Job:
    """Answer the stop after buffing: whether the liner is whole and a cord is bare. Raises as `tick` does."""
    _allowed(job, LINER, None)
    checks = changed(
        job.checks, liner=Finding(state="fine" if liner_whole else "found"),
        cords=Finding(state="found" if cord_bare else "fine"),
    )
    return _answered(changed(job, checks=checks), LINER, at)


def _answered(job: Job, step_id: str, at: datetime) -> Job:
    """The stop ticked with the answer as it is now."""
    answer = assess(job, advise=False).answer
    return _ticked(job, StepDone(step=step_id, at=at, answer=answer, seen=what_was_seen(job)))


def _ticked(job: Job, done_: StepDone) -> Job:
    return changed(job, steps_done=(*untick(job, done_.step).steps_done, done_))


def _allowed(job: Job, step_id: str, assessment: Assessment | None) -> Step:
    steps = steps_of(assess(job, advise=False) if assessment is None else assessment)
    step = next((each for each in steps if each.id == step_id), None)
    if step is None or step.id in (REFUSED, MEASURE):
        raise TiremapError(
            f"There is no step {step_id!r} to do on this tire as it is answered.",
            f"There are: {', '.join(each.id for each in steps)}.",
        )
    before = held_back_by(job, steps, step)
    if before is not None and done(job, step) is None:
        raise TiremapError(
            f"{step.title}: for safety's sake {before.number}, {before.title}, comes first.", "Do and tick that one."
        )
    return step
