"""A user who never tires, at the window: actions, buttons, fields, tables, drawing and dialogs in any order.

Each step draws from a generator of its own, so the number of a test repeats its walk; a failure tells every step.
"""

from random import Random

import pytest
from pytestqt.exceptions import capture_exceptions

from tests.helpers.counts import examples
from tests.helpers.jobs import bench_job, crown_injury
from tests.helpers.tireless_hand import Hand
from tests.helpers.tireless_session import STARTS
from tests.helpers.window_looks import Look
from tiremap.edits.injuries import move_injury
from tiremap.storage.canonical import job_text

STEPS_OF_A_WALK = 60
WALKS = examples(10)
UNDONE_ONE_IN = 3


@pytest.mark.parametrize("seed", range(WALKS))
def test_nothing_a_tireless_user_does_leaves_the_window_untrue(seed, open_window, tmp_path, monkeypatch, qtlog):
    window = open_window(STARTS[seed % len(STARTS)]())
    hand, look = Hand(window, tmp_path, monkeypatch), Look(window)
    did: list[str] = []
    for number in range(STEPS_OF_A_WALK):
        did.append("nothing yet")
        try:
            _one_step(hand, look, Random(f"{seed}/{number}"), did)
            assert [each.message for each in qtlog.records if not each.ignored] == []
        except Exception as error:
            raise AssertionError("\n".join([f"step {number} of walk {seed}: {error!r}", *did])) from error


def _one_step(hand: Hand, look: Look, draw: Random, did: list[str]) -> None:
    """One step, all that must be true after it, and now and then undo and redo of what it did."""
    before, look.heard = job_text(look.window.session.job), []
    with capture_exceptions() as raised:
        did[-1] = hand.step(draw)
    if raised:
        raise raised[0][1]
    look.check()
    if draw.randrange(UNDONE_ONE_IN) == 0:
        with capture_exceptions() as raised:
            look.check_undo(before)
        if raised:
            raise raised[0][1]
        look.check()


@pytest.mark.parametrize("panel", ["answer", "reasons", "table", "drawing"])
def test_a_panel_that_does_not_follow_the_job_is_found(panel, open_window, monkeypatch):
    """The look itself is tried: it can fail."""
    look = Look(open_window(bench_job(crown_injury())))
    look.check()
    desk = look.window.desk
    with monkeypatch.context() as held:
        held.setattr(getattr(desk, panel), "show_assessment", lambda *_: None)
        look.window.session.apply("Move", move_injury(look.window.session.job, "1", across_mm=80.0))
    with pytest.raises(AssertionError, match=r"(is|are) behind"):
        look.check()
    look.window.show_session()
    look.check()
