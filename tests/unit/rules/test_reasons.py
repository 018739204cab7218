"""What reasons add up to, in which order they are told, and where one leads to."""

from math import inf

import pytest

from tiremap.rules.margins import Question
from tiremap.rules.reading import exactly
from tiremap.rules.reasons import Reason, Settles, Turns, answer_of, bounded, by_weight, heaviest, worst

SETTLES = Settles("tire.tread_width", "the tread width", "mm")
TURNS = Turns("injury.1.outside", "the place", "mm", stated=80.0, at_most=40.0)


def reason(level="measure", says="", **fields) -> Reason:
    return Reason(code="place", level=level, says=says, source="", **fields)


def test_a_reason_leads_to_the_field_to_measure_else_to_the_one_to_check():
    assert reason(settles=SETTLES).leads_to == "tire.tread_width"
    assert reason(turns=TURNS).leads_to == "injury.1.outside"
    assert reason(settles=SETTLES, turns=TURNS).leads_to == "tire.tread_width"
    assert reason().leads_to is None


@pytest.mark.parametrize(("levels", "answer"), [
    ([], "repairable"), (["note"], "repairable"), (["caution"], "repairable"), (["note", "caution"], "repairable"),
    (["measure"], "measure_first"), (["note", "measure", "caution"], "measure_first"),
    (["refuse"], "not_repairable"), (["measure", "refuse"], "not_repairable"), (["note", "refuse"], "not_repairable"),
])
def test_a_refusal_decides_else_anything_to_measure(levels, answer):
    assert answer_of([reason(level) for level in levels]) == answer
    assert answer_of(tuple(reason(level) for level in reversed(levels))) == answer


@pytest.mark.parametrize(("answers", "found"), [
    ([], "repairable"), (["repairable"], "repairable"),
    (["measure_first"], "measure_first"), (["repairable", "measure_first"], "measure_first"),
    (["not_repairable"], "not_repairable"), (["measure_first", "not_repairable"], "not_repairable"),
    (["repairable", "not_repairable", "measure_first"], "not_repairable"),
])
def test_the_worst_of_some_answers(answers, found):
    assert worst(answers) == worst(answers[::-1]) == found


@pytest.mark.parametrize(("value", "told"), [
    (None, None), (inf, None), (-inf, None), (0.0, 0.0), (-3.5, -3.5), (1e9, 1e9),
])
def test_what_has_no_bound_has_no_value(value, told):
    assert bounded(value) == told


@pytest.mark.parametrize(("levels", "found"), [
    ([], None), (["note", "caution"], None), (["measure"], 0), (["note", "measure", "measure"], 1),
    (["measure", "refuse", "refuse", "note"], 1), (["refuse", "measure"], 0), (["caution", "refuse"], 1),
])
def test_the_heaviest_is_the_first_refusal_else_the_first_to_be_measured(levels, found):
    reasons = [reason(level, str(number)) for number, level in enumerate(levels)]
    assert heaviest(reasons) is (None if found is None else reasons[found])


def test_reasons_are_told_by_weight_and_else_in_the_order_they_were_asked():
    levels = ["note", "measure", "caution", "refuse", "note", "refuse", "caution", "measure"]
    told = by_weight([reason(level, str(number)) for number, level in enumerate(levels)])
    assert [each.says for each in told] == ["3", "5", "1", "7", "2", "6", "0", "4"]


@pytest.mark.parametrize("later", [
    {"question": Question((exactly(1.0),), lambda value: value)},
    {"settles_later": lambda: SETTLES}, {"turns_later": lambda: TURNS},
])
def test_what_is_still_to_be_worked_out_is_no_part_of_what_a_reason_says(later):
    assert reason(**later) == reason()
    assert repr(reason(**later)) == repr(reason())


def test_a_measurement_settles_alone_unless_something_must_follow():
    assert SETTLES.alone
