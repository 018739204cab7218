"""A session worked without rest, and beside it what must be true: a plain list of the texts that stood.

`TirelessSession` does one thing at a time and checks all of it after each. `walk` does many at random and, where one
fails, leaves out what the failure does not need.
"""

import json
import tempfile
from collections.abc import Callable, Sequence
from functools import cache
from pathlib import Path
from random import Random
from typing import NamedTuple

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair
from tests.helpers.random_edits import EDITS
from tests.helpers.random_measures import START, number
from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.edits import injuries
from tiremap.edits.change import changed
from tiremap.edits.job_card import choose_rule_set
from tiremap.edits.steps import HOLE, HoleSeen, answer_hole, tick
from tiremap.edits.tire import set_size_code
from tiremap.errors import TiremapError
from tiremap.model.after_repair import Refit, Torque
from tiremap.model.job import Job
from tiremap.model.measures import Length
from tiremap.repair_steps import steps_of
from tiremap.resources import sample_jobs_folder
from tiremap.session import Session
from tiremap.storage.canonical import job_text
from tiremap.storage.job_file import job_from_bytes, read_job, write_job

STARTS: tuple[Callable[[], Job], ...] = (
    Job,
    lambda: set_size_code(choose_rule_set(Job(), "united_kingdom"), "205/55R16 91V"),
    lambda: bench_job(crown_injury()),
    lambda: bench_job(crown_injury(), earlier_repair(around_deg=None), rule_set="north_america"),
    lambda: _worked_up_to("check_hole"),
    lambda: _worked_up_to("check_liner"),
)
"""Where a walk may begin: with nothing, at the bench, and far into the work."""
FILES = ("first.json", "second.json")


@cache
def _worked_up_to(stop: str) -> Job:
    """A repairable tire with every step before a stop ticked, and the wheel's refit looked up."""
    job = bench_job(crown_injury(), refit=Refit(nuts=5, torque=Torque(value=120.0, unit="N.m")))
    for step in steps_of(assess(job)):
        if step.id == stop:
            break
        if step.id == HOLE:
            job = answer_hole(job, (HoleSeen("1", Length(value=4.0, how="exact"), False),), START)
        else:
            job = tick(job, step.id, START)
    return job


class Stood(NamedTuple):
    """A text that stood, and the name of the step that led away from it."""

    name: str
    text: str


class TirelessSession:
    """A session, the history it must have, and the files it was saved to.

    Every ``anew_every``-th answer to a job not seen before is worked out once more and compared. With ``advise`` the
    session says what to measure, as in the window; without it all else is the same and several times as fast.
    """

    def __init__(self, job: Job, folder: Path, *, anew_every: int = 1, advise: bool = False) -> None:
        self._folder, self._anew_every, self._advise = folder, anew_every, advise
        self._texts: dict[int, tuple[Job, str]] = {}
        self._answers: dict[int, tuple[Job, Assessment]] = {}
        self._read_back: set[str] = set()
        self._told: list[Assessment] = []
        self._seen = 0
        self.session = Session(job, assess=self._assess)
        self.session.listen(self._hear)
        self._begin()
        self.check()

    # --- what is done ---------------------------------------------------------------------------------------------

    def edit(self, kind: str, draw: Random) -> str:
        """One edit of a kind, applied as one undo step; what it was and what came of it."""
        chosen = draw.choice(EDITS[kind])
        return f"{chosen.__name__}: {self._apply(chosen.__name__, lambda: chosen(draw, self.session))}"

    def undo(self) -> str:
        """One step back."""
        self.session.undo()
        if self._done:
            step = self._done.pop()
            self._undone.append(Stood(step.name, self._now))
            self._now = step.text
        return "undo"

    def redo(self) -> str:
        """One step forth again."""
        self.session.redo()
        if self._undone:
            step = self._undone.pop()
            self._done.append(Stood(step.name, self._now))
            self._now = step.text
        return "redo"

    def save(self, draw: Random) -> str:
        """Save as the window does; a refusal leaves file and job as they were."""
        path = self._folder / draw.choice(FILES)
        before = path.read_bytes() if path.exists() else None
        try:
            write_job(path, self.session.job, self.session.saved_job if path == self.session.path else None)
        except TiremapError as error:
            assert before is not None and path.read_bytes() == before
            return f"save to {path.name} refused: {error.what}"
        self.session.saved(path)
        assert path.read_bytes().decode() == self._now
        self._saved, self._path = self._now, path
        self._done = _with_decisions(self._done, self._now)
        self._kept = json.loads(self._now)["decisions"]
        return f"save to {path.name}"

    def open(self, draw: Random) -> str:
        """Open one of the files saved, or a sample."""
        saved = [each for name in FILES if (each := self._folder / name).exists()]
        path = draw.choice([*saved, *saved, draw.choice(sorted(sample_jobs_folder().glob("*.json")))])
        self.session.load(read_job(path), path)
        if path in saved:
            assert path.read_bytes().decode() == self._text(self.session.job)
        self._begin()
        return f"open {path.name}"

    def try_a_drag(self, draw: Random) -> str:
        """Try a place as a drag does: the answers of a whole assessment, and no trace of it."""
        if not self.session.job.injuries:
            return "nothing to drag"
        id = draw.choice(self.session.job.injuries).id
        try:
            moved = injuries.move_injury(self.session.job, id, number(draw, -110, 110), number(draw, 0, 360))
            tried = self.session.preview(moved)
        except TiremapError as error:
            return f"drag refused: {error.what}"
        anew = assess(moved, advise=False)
        assert _bare(tried) == _bare(anew)
        return f"drag of {id} tried"

    def unsign(self, draw: Random) -> str:
        """Try to take the last decision out, or to change it: never possible."""
        made = self.session.job.decisions
        if not made:
            return "nothing signed"
        other = made[:-1] if draw.randrange(2) else (*made[:-1], changed(made[-1], note="never said"))
        came = self._apply("unsign", lambda: changed(self.session.job, decisions=other))
        assert came.startswith("refused") or other == made, came
        return f"unsign: {came}"

    def _apply(self, name: str, edit: Callable[[], Job]) -> str:
        told = len(self._told)
        try:
            job = edit()
            self.session.apply(name, job)
        except TiremapError as error:
            assert len(self._told) == told
            assert str(error).strip()
            return f"refused: {error.what}"
        text = self._text(self.session.job)
        if text == self._now:
            return "as it was"
        assert self.session.job is job and len(self._told) == told + 1
        self._done.append(Stood(name, self._now))
        self._undone, self._now = [], text
        return "done"

    # --- what must be true ----------------------------------------------------------------------------------------

    def check(self) -> None:
        """Everything that must be true of the session now."""
        session = self.session
        assert self._text(session.job) == self._now
        assert session.undo_name == (self._done[-1].name if self._done else None)
        assert session.redo_name == (self._undone[-1].name if self._undone else None)
        assert session.unsaved == (self._now != self._saved)
        assert session.path == self._path
        assert not self._told or self._told[-1] is session.assessment
        assert session.assessment is self._answers[id(session.job)][1]
        assert session.assessment.job is session.job
        if self._kept:
            assert json.loads(self._now)["decisions"][: len(self._kept)] == self._kept  # a saved decision stays
        self._check_read_back()

    def _check_read_back(self) -> None:
        """A job not seen before saves and reads back the same, and is answered the same again."""
        if self._now in self._read_back:
            return
        self._read_back.add(self._now)
        read = job_from_bytes(self._now.encode())
        assert read == self.session.job and job_text(read) == self._now
        self._seen += 1
        if self._seen % self._anew_every == 0:
            assert self.session.assessment == assess(read, advise=self._advise)

    def _begin(self) -> None:
        """Another job stands in the session: no history, nothing to save."""
        self._now = self._saved = self._text(self.session.job)
        self._done: list[Stood] = []
        self._undone: list[Stood] = []
        self._path = self.session.path
        self._kept = json.loads(self._now)["decisions"] if self._path is not None else []

    def _assess(self, job: Job) -> Assessment:
        """The answer to a job, worked out once for each record: going back and forth shows the one of before."""
        if id(job) not in self._answers:
            self._answers[id(job)] = (job, assess(job, advise=self._advise))
        return self._answers[id(job)][1]

    def _text(self, job: Job) -> str:
        if id(job) not in self._texts:
            self._texts[id(job)] = (job, job_text(job))
        return self._texts[id(job)][1]

    def _hear(self) -> None:
        self._told.append(self.session.assessment)


def _with_decisions(done: list[Stood], now: str) -> list[Stood]:
    """The history once decisions are saved: they stand in every earlier text; what then changes nothing is no step."""
    decisions, kept, after = json.loads(now)["decisions"], [], now
    for step in reversed(done):
        fields = json.loads(step.text)
        text = step.text
        if fields["decisions"] != decisions:
            text = json.dumps({**fields, "decisions": decisions}, indent=2, sort_keys=True, ensure_ascii=False) + "\n"
        if text != after:
            kept.append(Stood(step.name, text))
            after = text
    return kept[::-1]


def _bare(assessment: Assessment) -> list[tuple]:
    """Answers and margins, which a drag must not get wrong; sentences may hold advice."""
    marks = [(each.id, each.answer, each.margin_mm) for each in assessment.injuries]
    pairs = [(each.first, each.second, each.distance_mm, each.head_overlap_mm2) for each in assessment.pairs]
    reasons = [(each.code, each.level, each.subject, each.margin) for each in assessment.all_reasons]
    return [(assessment.answer,), *marks, *pairs, *sorted(reasons, key=repr)]


# --- walks ------------------------------------------------------------------------------------------------------------

ACTIONS = {
    "undo": lambda walker, draw: walker.undo(), "redo": lambda walker, draw: walker.redo(),
    "save": lambda walker, draw: walker.save(draw), "open": lambda walker, draw: walker.open(draw),
    "drag": lambda walker, draw: walker.try_a_drag(draw), "unsign": lambda walker, draw: walker.unsign(draw),
    **{kind: (lambda walker, draw, kind=kind: walker.edit(kind, draw)) for kind in EDITS},
}
WEIGHTS = {
    "undo": 36, "redo": 30, "save": 2, "open": 1, "drag": 1, "unsign": 1, "place": 4, "move": 7, "measure": 9,
    "remove": 2, "tire": 9, "card": 3, "guidance": 3, "checks": 5, "steps": 11, "record": 2, "decisions": 3, "leak": 3,
    "refit": 4,
}
"""How often: a walk back and forth costs little and finds much."""
ANEW_EVERY = 8
"""Of the answers of a walk so many are worked out once more; the state machine compares every one."""


class Failed(NamedTuple):
    """Where a walk failed: its steps by number, what they did, and how it ended."""

    steps: tuple[int, ...]
    did: tuple[str, ...]
    error: Exception


def walk(seed: int, steps: Sequence[int]) -> Failed | None:
    """Do the steps of those numbers of the walk of that seed; where it failed, or ``None``.

    Each step draws from a generator of its own, so that leaving one out does not change the others.
    """
    did: list[str] = []
    actions, weights = list(ACTIONS), [WEIGHTS[each] for each in ACTIONS]
    with tempfile.TemporaryDirectory() as folder:
        try:
            walker = TirelessSession(STARTS[seed % len(STARTS)](), Path(folder), anew_every=ANEW_EVERY)
            for number_ in steps:
                draw = Random(f"{seed}/{number_}")
                action, = draw.choices(actions, weights)
                did.append(action)
                did[-1] = ACTIONS[action](walker, draw)
                walker.check()
        except Exception as error:  # whatever is raised is the finding
            return Failed(tuple(steps[: len(did)]), tuple(did), error)
    return None


def shortest(seed: int, failed: Failed) -> Failed:
    """A failing walk with every step left out that it fails the same way without."""
    size = len(failed.steps) // 2
    while size:
        for start in range(0, len(failed.steps), size):
            fewer = failed.steps[:start] + failed.steps[start + size :]
            again = walk(seed, fewer)
            if again is not None and type(again.error) is type(failed.error):
                failed = again
                break
        else:
            size //= 2
    return failed


def told(seed: int, failed: Failed) -> str:
    """A failure in words, with what repeats it."""
    lines = [f"{number_:5}  {what}" for number_, what in zip(failed.steps, failed.did, strict=True)]
    error = f"{type(failed.error).__name__}: {failed.error}"
    return "\n".join([f"walk({seed}, {list(failed.steps)}) fails:", *lines, error])
