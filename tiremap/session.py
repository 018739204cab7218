"""The job being edited: its assessment, its undo history, and whether it has been saved.

All changes come in by `Session.apply`; whoever must know of them asks by `Session.listen`. No window is needed.
"""

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from pydantic import ValidationError

from tiremap.assess import assess as assess_job
from tiremap.assessment import Assessment
from tiremap.edits.change import changed
from tiremap.errors import TiremapError
from tiremap.model.job import Job
from tiremap.model.wording import in_words


class Step(NamedTuple):
    """One undo step: what the user did, and the job on the other side of it."""

    name: str
    job: Job


class Session:
    """One open job. The job it starts with counts as saved: there is nothing of the user's to lose yet."""

    _job: Job
    _saved_job: Job
    _path: Path | None
    _done: list[Step]
    _undone: list[Step]

    def __init__(
        self, job: Job | None = None, path: Path | None = None, assess: Callable[[Job], Assessment] = assess_job,
        assess_tried: Callable[[Job, Assessment], Assessment] | None = None,
    ) -> None:
        self._assess = assess
        self._assess_tried = assess_tried or _tried
        self._listeners: list[Callable[[], None]] = []
        self._open(job if job is not None else Job(), path)

    @property
    def job(self) -> Job:
        """The job as it stands."""
        return self._job

    @property
    def path(self) -> Path | None:
        """The file it was read from or last saved to; ``None`` while it has none."""
        return self._path

    @property
    def assessment(self) -> Assessment:
        """Everything true about the job as it stands."""
        return self._assessment

    @property
    def saved_job(self) -> Job:
        """The job as it was last saved or loaded: what its file holds, unless another program wrote there."""
        return self._saved_job

    @property
    def unsaved(self) -> bool:
        """Whether the job differs from the one last saved or loaded; undoing back to that one is saved again."""
        return self._job != self._saved_job

    @property
    def undo_name(self) -> str | None:
        """What the user would undo, or ``None``."""
        return self._done[-1].name if self._done else None

    @property
    def redo_name(self) -> str | None:
        """What the user would do again, or ``None``."""
        return self._undone[-1].name if self._undone else None

    def apply(self, name: str, job: Job) -> None:
        """Put a changed job in place of the present one, as one undo step of that name; an equal job is no step.

        Raises `TiremapError` for a job that is not valid, or that changes or leaves out a decision already made; then
        nothing has changed.
        """
        if job == self._job:
            return
        _check(job)
        _check_decisions(job, self._job)
        assessment = self._assess(job)
        self._done.append(Step(name, self._job))
        self._undone.clear()
        self._show(job, assessment)

    def preview(self, job: Job) -> Assessment:
        """The assessment of a job that is only tried, as during a drag: no undo step, nobody is told.

        It says no more than a drag shows: what to measure and the united ground are left out.
        """
        return self._assess_tried(job, self._assessment)

    def assess_again(self) -> None:
        """Assess the job anew: something it is answered by, such as a rule set's file, has changed. No undo step."""
        self._show(self._job, self._assess(self._job))

    def undo(self) -> None:
        """Go back one step, to the identical job; nothing happens if there is none."""
        self._step(self._done, self._undone)

    def redo(self) -> None:
        """Do again what was last undone; nothing happens if there is none."""
        self._step(self._undone, self._done)

    def saved(self, path: Path) -> None:
        """The job as it stands has been saved to that file. Its decisions stay from now on, also through undo."""
        self._path = path
        self._saved_job = self._job
        self._done = _with_decisions(self._done, self._job)
        self._tell()

    def load(self, job: Job, path: Path | None) -> None:
        """Open another job; the history of the one before it is gone."""
        self._open(job, path)
        self._tell()

    def listen(self, callback: Callable[[], None]) -> None:
        """Call ``callback`` after each change of the job, its path or whether it is saved."""
        self._listeners.append(callback)

    def _open(self, job: Job, path: Path | None) -> None:
        _check(job)
        self._assessment = self._assess(job)
        self._job = self._saved_job = job
        self._path = path
        self._done = []
        self._undone = []

    def _step(self, source: list[Step], target: list[Step]) -> None:
        if not source:
            return
        assessment = self._assess(source[-1].job)
        step = source.pop()
        target.append(Step(step.name, self._job))
        self._show(step.job, assessment)

    def _show(self, job: Job, assessment: Assessment) -> None:
        self._job = job
        self._assessment = assessment
        self._tell()

    def _tell(self) -> None:
        for callback in tuple(self._listeners):
            callback()


def _tried(job: Job, before: Assessment) -> Assessment:
    return assess_job(job, advise=False, before=before)


def _check(job: Job) -> None:
    """Raise `TiremapError` for a job made without validation."""
    try:
        Job.model_validate(job.model_dump(warnings=False))
    except ValidationError as error:
        raise in_words(error) from None


def _check_decisions(job: Job, before: Job) -> None:
    """Raise `TiremapError` unless the decisions made before still stand first, unchanged."""
    if job.decisions[: len(before.decisions)] != before.decisions:
        raise TiremapError("A decision once made is not changed or taken out.", "Record another one after it.")


def _with_decisions(done: list[Step], job: Job) -> list[Step]:
    """The steps that led to a job, each with the job's decisions; a step that did nothing else is left out.

    Undoing what came before a saved decision must not undo the decision, and refusing would lock the user out of
    every earlier step.
    """
    kept: list[Step] = []
    after = job
    for step in reversed(done):
        before = step.job
        if before.decisions != job.decisions:
            before = changed(before, decisions=job.decisions)
        if before != after:
            kept.append(Step(step.name, before))
            after = before
    return kept[::-1]
