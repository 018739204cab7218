"""Why no check could be asked, in words: it is always to be measured first, and says what to enter."""

import pytest

from tiremap.model.rule_set_file import rule_set_named
from tiremap.rules.nothing_to_ask import (
    class_not_spoken_of,
    no_rule_set,
    no_size,
    nothing_marked,
    rule_set_unreadable,
    stock_unreadable,
)
from tiremap.rules.reasons import answer_of

JAPAN = rule_set_named("japan")
OURS = "Tiremap: what is unknown is never a pass"


@pytest.mark.parametrize(("why", "of", "code", "field", "words"), [
    (no_size, (), "size_unknown", "tire.size_code", "the size code from the sidewall"),
    (no_rule_set, (), "no_rule_set", "rule_set", "which guidance the shop follows"),
    (nothing_marked, (), "nothing_marked", "injuries", "where the hole is"),
    (class_not_spoken_of, (JAPAN, "truck"), "class_not_covered", "tire.tire_class", "the class of tire"),
    (class_not_spoken_of, (JAPAN, None), "class_not_covered", "tire.tire_class", "the class of tire"),
])
def test_what_was_never_entered_is_asked_for(why, of, code, field, words):
    reason = why(*of)
    assert (reason.code, reason.level) == (code, "measure")
    assert (reason.settles.field, reason.settles.words, reason.settles.unit) == (field, words, "")
    assert reason.asks == ((field, words),)
    assert (reason.leads_to, answer_of([reason])) == (field, "measure_first")
    assert reason.source == (JAPAN.issuer if code == "class_not_covered" else OURS)


@pytest.mark.parametrize(("why", "of", "code", "field", "words", "says"), [
    (rule_set_unreadable, ("our_shop", "It is gone."), "rule_set_unreadable", "rule_set", "a guidance that can be read",
     "The guidance 'our_shop' cannot be read, so nothing is answered by it. It is gone."),
    (stock_unreadable, ("It is empty.",), "stock_unreadable", "stock", "a stock that can be read",
     "The shop's stock cannot be read, so which unit a hole takes is not known. It is empty."),
])
def test_a_file_that_cannot_be_read_is_told_with_why_and_asks_for_no_measurement(why, of, code, field, words, says):
    reason = why(*of)
    assert (reason.code, reason.level, reason.says, reason.source) == (code, "measure", says, OURS)
    assert (reason.settles.field, reason.settles.words, reason.settles.unit) == (field, words, "")
    assert (reason.asks, answer_of([reason])) == ((), "measure_first")


@pytest.mark.parametrize(("why", "of", "says"), [
    (no_size, (), "The tire's size is unknown: type its size code, or its diameter, section width and rim."),
    (no_rule_set, (), "No guidance is chosen: choose the rule set the shop follows."),
    (nothing_marked, (), "No injury is marked: click the hole on the drawing, or add it to the table."),
    (class_not_spoken_of, (JAPAN, "light_truck"),
     "Nothing is said of a light truck tire by Japan: ask the tire maker."),
    (class_not_spoken_of, (JAPAN, None), (
        "The class of this tire is unknown, or nothing is said of it by Japan. Say whether it is a passenger, "
        "light truck or truck tire; for a special trailer tire ask its maker."
    )),
])
def test_it_is_said_in_words(why, of, says):
    assert why(*of).says == says
