"""A user who never tires, without a window: any edits in any order, undo, redo, save and open, all checked each time.

The bulk are seeded walks, several times as fast as Hypothesis; the state machine beside them says what to measure, as
the window does, compares every answer and shrinks by itself.
"""

import tempfile
from importlib import import_module
from inspect import isfunction
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from tests.helpers.counts import examples
from tests.helpers.random_edits import EDITS
from tests.helpers.tireless_session import ACTIONS, STARTS, WEIGHTS, TirelessSession, shortest, told, walk
from tiremap import edits
from tiremap.edits.job_card import set_note
from tiremap.errors import TiremapError
from tiremap.model.job import Job
from tiremap.session import Session

STEPS_OF_A_WALK = 120
WALKS = examples(340)
draws = st.randoms(use_true_random=False)


@pytest.mark.parametrize("part", range(4))
def test_nothing_a_tireless_user_does_leaves_the_session_untrue(part):
    for seed in range(part, WALKS, 4):
        failed = walk(seed, range(STEPS_OF_A_WALK))
        assert failed is None, told(seed, shortest(seed, failed))


class AnyOrder(RuleBasedStateMachine):
    """One thing after another, as Hypothesis chooses."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = tempfile.TemporaryDirectory()

    @initialize(start=st.sampled_from(STARTS))
    def start(self, start) -> None:
        self.walker = TirelessSession(start(), Path(self.folder.name), advise=True)

    @rule(kind=st.sampled_from(sorted(EDITS)), draw=draws)
    def edit(self, kind, draw) -> None:
        self.walker.edit(kind, draw)

    @rule()
    def undo(self) -> None:
        self.walker.undo()

    @rule()
    def redo(self) -> None:
        self.walker.redo()

    @rule(action=st.sampled_from(["save", "open", "drag", "unsign"]), draw=draws)
    def act(self, action, draw) -> None:
        ACTIONS[action](self.walker, draw)

    @invariant()
    def all_is_true(self) -> None:
        self.walker.check()

    def teardown(self) -> None:
        self.folder.cleanup()


AnyOrder.TestCase.settings = settings(
    max_examples=examples(15), stateful_step_count=30, deadline=None, suppress_health_check=list(HealthCheck)
)
TestAnyOrder = AnyOrder.TestCase


def test_every_edit_is_drawn():
    """A new edit, or a new room of them, is walked too; a decision is recorded by signing."""
    drawn = {name for kinds in EDITS.values() for each in kinds for name in each.__code__.co_names}
    assert _edits() - drawn == {"record_decision"}
    assert WEIGHTS.keys() == ACTIONS.keys()


def _edits() -> set[str]:
    """The names of all public functions of `tiremap.edits` that give a job."""
    modules = [import_module(f"tiremap.edits.{path.stem}") for path in Path(edits.__file__).parent.glob("*.py")]
    functions = [each for module in modules for each in vars(module).values() if isfunction(each)]
    giving = {each.__name__ for each in functions if each.__annotations__.get("return") is Job}
    return {name for name in giving if not name.startswith("_")}


def test_the_walk_finds_a_session_that_undoes_wrongly_and_tells_the_least_that_shows_it(monkeypatch):
    """The walk itself is tried: it can fail, and what it tells repeats the failure."""

    def undo_but_keep_the_note(session):
        before = session.job.note
        Session.undo_rightly(session)
        if session.job.note != before:
            session._job = set_note(session.job, before)

    monkeypatch.setattr(Session, "undo_rightly", Session.undo, raising=False)
    monkeypatch.setattr(Session, "undo", undo_but_keep_the_note)
    failed = next(found for seed in range(100) if (found := walk(seed, range(60))) and (at := seed) is not None)
    least = shortest(at, failed)
    assert len(least.steps) == 2 and least.did == ("set_note: done", "undo")
    assert f"walk({at}, {list(least.steps)}) fails:" in told(at, least)
    assert walk(at, least.steps) is not None


def test_the_walk_finds_an_edit_that_raises_anything_but_words(monkeypatch):
    def broken(draw, session):
        raise KeyError("a bug")

    monkeypatch.setitem(EDITS, "card", (broken,))
    failed = next(found for seed in range(100) if (found := walk(seed, range(60))))
    assert isinstance(failed.error, KeyError) and not isinstance(failed.error, TiremapError)
