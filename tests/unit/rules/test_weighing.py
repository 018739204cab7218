"""From a margin to a reason: what a check ends in, and what its reason carries."""

import pytest

from tiremap.rules.margins import Margin, Question
from tiremap.rules.reading import UNBOUNDED, Reading, exactly, unknown
from tiremap.rules.reasons import Settles, Turns
from tiremap.rules.weighing import LimitSays, Words, level_of, reason_for, weigh

WORDS = Words("It passes.", "It is refused.", "It is open.")
SIX = LimitSays(6.0, "mm", "a source", measured="inside the tread edge")
SETTLES, TURNS = Settles("f", "the size", "mm"), Turns("f", "the size")


def hole(low: float, high: float, inclusive: bool = True) -> Question:
    """6 mm less a hole; the stated value lies in the middle."""
    size = Reading("injury.1.size_outside", "the size", low, (low + high) / 2, high)
    return Question((size,), lambda size: 6.0 - size, inclusive=inclusive)


def weighed(question: Question, limit: LimitSays = SIX, **more):
    return weigh("hole_size", question, WORDS, limit, ("1",), settles=SETTLES, turns=TURNS, **more)


@pytest.mark.parametrize("refusing", ["refuse", "measure", "caution"])
@pytest.mark.parametrize(("low", "high", "inclusive", "level", "says"), [
    (1.0, 2.0, True, "note", "It passes."), (-1.0, 2.0, True, "measure", "It is open."),
    (-2.0, -1.0, True, None, "It is refused."),
    (0.0, 2.0, True, "note", "It passes."), (0.0, 2.0, False, "measure", "It is open."),
    (-2.0, 0.0, True, "measure", "It is open."), (-2.0, 0.0, False, None, "It is refused."),
    (0.0, 0.0, True, "note", "It passes."), (0.0, 0.0, False, None, "It is refused."),
])
def test_a_margin_passes_at_its_least_is_refused_at_its_greatest_and_else_is_open(
    low, high, inclusive, level, says, refusing
):
    assert level_of(Margin(None, low, high), inclusive, WORDS, refusing) == (level or refusing, says)


@pytest.mark.parametrize(("low", "high", "level", "settles", "turns", "asked_later"), [
    (4.0, 5.0, "note", None, None, False),
    (5.0, 7.0, "measure", SETTLES, None, True),
    (7.0, 8.0, "refuse", None, TURNS, True),
])
def test_what_is_open_carries_what_settles_it_and_what_is_refused_what_turns_it(
    low, high, level, settles, turns, asked_later
):
    reason = weighed(hole(low, high))
    assert (reason.level, reason.settles, reason.turns) == (level, settles, turns)
    assert (reason.question is not None) is asked_later
    assert (reason.code, reason.source, reason.subject, reason.asks) == ("hole_size", "a source", ("1",), ())


@pytest.mark.parametrize("refusing", ["measure", "caution", "note"])
def test_what_is_broken_and_does_not_refuse_asks_for_no_measurement(refusing):
    reason = weighed(hole(7.0, 8.0), refusing=refusing)
    assert (reason.level, reason.says) == (refusing, "It is refused.")
    assert reason.settles is reason.turns is reason.question is None


@pytest.mark.parametrize("asked", [True, False])
@pytest.mark.parametrize(("inclusive", "level"), [(True, "note"), (False, "refuse")])
def test_the_limit_says_whether_it_is_included_whatever_the_question_was_asked_with(asked, inclusive, level):
    limit = LimitSays(6.0, "mm", "a source", inclusive=inclusive)
    reason = weighed(hole(6.0, 6.0, inclusive=asked), limit)
    assert reason.level == level
    open_one = weighed(hole(5.0, 7.0, inclusive=asked), limit)
    assert open_one.question.inclusive is inclusive


def test_a_limit_is_included_and_grows_the_other_way_unless_it_says_so():
    plain = LimitSays(6.0, "mm", "a source")
    assert weighed(hole(6.0, 6.0), plain).level == "note"
    assert weighed(hole(4.0, 5.0), plain).value == 4.5
    assert plain.measured == ""


@pytest.mark.parametrize(("grows", "value"), [(True, 7.5), (False, 4.5)])
def test_the_value_shown_is_the_limit_and_the_stated_margin(grows, value):
    """A margin of 1.5 mm stated: 7.5 of at least 6, or 4.5 of at most 6."""
    limit = LimitSays(6.0, "mm", "a source", grows=grows, measured="inside the tread edge")
    reason = reason_for("place", "note", "It passes.", Margin(1.5, 1.0, 2.0), limit)
    assert (reason.value, reason.limit, reason.unit, reason.measured) == (value, 6.0, "mm", "inside the tread edge")
    assert (reason.margin, reason.margin_low, reason.margin_high) == (1.5, 1.0, 2.0)


@pytest.mark.parametrize(("limit", "stated"), [(None, 1.5), (6.0, None), (None, None)])
def test_without_a_limit_s_value_or_a_stated_margin_no_value_is_shown(limit, stated):
    reason = reason_for("place", "note", "", Margin(stated, 1.0, 2.0), LimitSays(limit, "mm", "a source"))
    assert (reason.value, reason.limit, reason.margin) == (None, limit, stated)


def test_margins_without_bound_are_not_shown_as_figures():
    reason = weighed(Question((unknown("f", "w", -UNBOUNDED, UNBOUNDED), exactly(1.0)), lambda one, other: one))
    assert (reason.level, reason.margin, reason.margin_low, reason.margin_high) == ("measure", None, None, None)


def test_what_a_reason_is_given_besides_it_carries_as_it_is():
    question, asks = hole(5.0, 7.0), (("f", "the size"),)
    reason = reason_for(
        "place", "measure", "It is open.", Margin(0.0, -1.0, 1.0), SIX, ("1", "2"), SETTLES, asks, TURNS, question
    )
    assert (reason.subject, reason.settles, reason.asks, reason.turns) == (("1", "2"), SETTLES, asks, TURNS)
    assert reason.question is question and reason.says == "It is open."
