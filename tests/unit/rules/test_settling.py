"""What would settle a Measure first, asked of margins simple enough to be known beforehand."""

from dataclasses import replace

import pytest

from tiremap.rules.margins import Question
from tiremap.rules.reading import UNBOUNDED, Reading, exactly, unknown
from tiremap.rules.reasons import Reason, Settles, Turns
from tiremap.rules.settling import advised, asked, not_alone, settling, settling_words, window_words, within_words

CUTTERS = (4.0, 6.0, 8.0)


def taped(name: str, low: float, high: float, stated: float | None = None, **more) -> Reading:
    """A reading called after its field; stated at its least unless said otherwise."""
    return Reading(name, f"the {name}", low, low if stated is None else stated, high, **more)


def free(name: str, low: float = -UNBOUNDED, high: float = UNBOUNDED, **more) -> Reading:
    """A reading nobody took."""
    return unknown(name, f"the {name}", low, high, **more)


def within_10(*readings: Reading) -> Question:
    """10 mm less all of them, whichever way each goes."""
    return Question(readings, lambda *values: 10.0 - sum(map(abs, values)))


def largest(limit: float, low: float, steps: tuple[float, ...]) -> Question:
    """A size that may be ``low`` to 8 mm and passes up to ``limit``, told in ``steps``."""
    size = Reading("injury.1.size_outside", "the size", low, None, 8.0, step=0.1, steps=steps)
    return Question((size,), lambda size: limit - size, falls_with=frozenset({0}))


def around_10(place: Reading, size: float = 0.0) -> Question:
    """5 mm less how far a place is from 10 mm, and less a size of nothing to ``size``."""
    return Question((place, Reading("", "", 0.0, 0.0, size)), lambda place, size: 5.0 - abs(place - 10.0) - size)


# --- the one that settles it by itself --------------------------------------------------------------------------


def test_where_everything_is_known_no_measurement_is_named():
    assert settling(Question((exactly(9.0),), lambda size: 6.0 - size)) is None
    assert settling_words(None) == ""


def test_what_has_one_value_or_is_nowhere_entered_is_not_named():
    """10 less 3 and up to 6 leaves 1 mm for the last."""
    known, hidden = taped("width", 3.0, 3.0), Reading("", "", 0.0, None, 6.0)
    settles = settling(within_10(known, hidden, taped("size", 0.0, 6.0)))
    assert (settles.field, settles.words, settles.unit, settles.at_most) == ("size", "the size", "mm", 1.0)
    assert settling(within_10(known, hidden, exactly(5.0))) is None


@pytest.mark.parametrize("falls", [frozenset(), frozenset({0, 1})])
def test_of_two_that_would_each_settle_it_an_estimated_one_is_named_first(falls):
    """Either must leave room for the other at its worst: 10 less 8, or 10 less 6."""
    first, second = taped("place", 0.0, 8.0, stated=3.0), taped("size", 0.0, 6.0, stated=3.0)
    question = replace(within_10(first, second), falls_with=falls)
    settles = settling(question)
    assert (settles.field, settles.at_least, settles.at_most, settles.tolerance) == ("place", None, 4.0, 1.0)
    assert settling_words(settles) == "Measure the place: 4 mm or less passes, known to within 1 mm."
    by_eye = replace(question, readings=(first, second._replace(estimated=True)))
    settles = settling(by_eye)
    assert (settles.field, settles.at_least, settles.at_most, settles.tolerance) == ("size", None, 2.0, None)


def test_one_that_does_not_settle_it_is_passed_over_for_one_that_does():
    """With the place at 12 nothing is left; with the size at 6 there are 4 mm for the place."""
    settles = settling(within_10(taped("size", 0.0, 6.0, estimated=True), taped("place", 0.0, 12.0)))
    assert (settles.field, settles.at_most, settles.alone) == ("place", 4.0, True)


@pytest.mark.parametrize(("reading", "at_least", "at_most"), [
    (free("lean"), -7.0, 7.0), (free("lean", low=0.0), None, 7.0), (free("lean", high=0.0), -7.0, None),
    (free("lean", low=-3.0), None, 7.0), (free("lean", high=3.0), -7.0, None),
    (taped("lean", -UNBOUNDED, UNBOUNDED, stated=9.0), -7.0, 7.0),
])
def test_one_without_bound_is_the_one_to_measure_and_leaves_room_for_the_other(reading, at_least, at_most):
    settles = settling(within_10(taped("size", 0.0, 3.0, estimated=True), reading))
    assert (settles.field, settles.alone) == ("lean", True)
    assert (settles.at_least, settles.at_most) == (at_least, at_most)


# --- where none does by itself ----------------------------------------------------------------------------------


def test_where_none_settles_it_alone_the_one_that_moves_it_most_is_named_and_then_the_next():
    """With the size known at its best 12 of the place are left, with the place known 15 of the size."""
    settles = settling(within_10(taped("size", 0.0, 15.0), taped("place", 0.0, 12.0)))
    assert (settles.field, settles.alone, settles.then, settles.then_field) == ("size", False, "the place", "place")
    settles = settling(within_10(taped("place", 0.0, 12.0), taped("size", 0.0, 15.0)))
    assert (settles.field, settles.then_field) == ("size", "place")
    assert (settles.at_least, settles.at_most, settles.tolerance) == (None, None, None)
    assert settling_words(settles) == "Measure the size, then the place."


def test_what_is_named_next_is_entered_in_another_field_and_comes_first_in_order():
    readings = [taped("size", 0.0, 30.0), taped("size", 0.0, 29.0), taped("place", 0.0, 11.0), taped("lean", 0.0, 12.0)]
    assert settling(within_10(*readings)).then_field == "place"
    assert settling(within_10(*readings[::-1])).then_field == "lean"
    alone = settling(within_10(*readings[:2]))
    assert (alone.field, alone.then, alone.then_field) == ("size", None, None)
    assert settling_words(alone) == "Measure the size."
    estimated = [*readings[:3], readings[3]._replace(estimated=True)]
    assert settling(within_10(*estimated)).then_field == "lean"


def test_a_best_place_between_the_ends_counts_for_how_much_a_reading_moves_the_margin():
    """A place from -10 to 30 is best at 10, 20 from its ends; the size may be 15: -10 with the one known, else -15."""
    place, size = taped("place", -10.0, 30.0), taped("size", 0.0, 15.0)
    question = Question((size, place), lambda size, place: 5.0 - abs(place - 10.0) - size)
    settles = settling(question)
    assert (settles.field, settles.then_field, settles.alone) == ("place", "size", False)


@pytest.mark.parametrize("side", [1.0, -1.0])
def test_a_value_beyond_what_a_reading_may_be_settles_nothing(side):
    """Of 3 mm a size of 2.6 leaves 0.4, and the place is at least 0.5 from the center; it may be 4."""
    place = taped("place", *sorted((side * 0.5, side * 4.0)))
    question = Question((place, taped("size", 0.0, 2.6)), lambda place, size: 3.0 - abs(place) - size)
    settles = settling(question)
    assert (settles.field, settles.alone, settles.then_field) == ("place", False, "size")


def test_one_without_bound_comes_before_any_other_as_nothing_else_moves_the_margin():
    """11 mm of size are more than the 10 there are."""
    settles = settling(within_10(taped("size", 11.0, 13.0, estimated=True), taped("lean", -UNBOUNDED, UNBOUNDED)))
    assert (settles.field, settles.then_field, settles.alone) == ("lean", "size", False)


def test_of_two_without_bound_neither_settles_it_and_they_are_named_in_order():
    first, second, size = free("lean"), taped("place", -UNBOUNDED, UNBOUNDED), free("size", 0.0, 3.0)
    settles = settling(within_10(first, second, size))
    assert (settles.field, settles.then_field, settles.alone) == ("lean", "size", False)
    settles = settling(within_10(second, first))
    assert (settles.field, settles.then_field) == ("lean", "place")


def test_what_must_follow_is_named_with_its_field():
    size, place = free("size", unit="deg"), taped("place", 0.0, 1.0)
    assert not_alone(size, "mm", place) == Settles(
        "size", "the size", "mm", alone=False, then="the place", then_field="place"
    )
    assert not_alone(size, "mm", None) == Settles("size", "the size", "mm", alone=False)
    assert settling(within_10(free("size", 11.0, 12.0, unit="deg"))).unit == "deg"


# --- from where on it passes ------------------------------------------------------------------------------------


def test_of_a_reading_in_steps_the_largest_that_passes_is_named():
    settles = settling(largest(7.0, 2.0, CUTTERS))
    assert (settles.alone, settles.at_most) == (True, 6.0)


@pytest.mark.parametrize(("limit", "steps", "at_most"), [
    (6.0, CUTTERS, 6.0),  # exactly on the limit
    (6.355, (4.0, 6.35, 8.0), 6.35),  # nearer to it than the tenths it would be told in
    (6.345, (4.0, 6.35, 8.0), 4.0),
    (4.0, CUTTERS, 4.0),
])
def test_a_step_just_inside_the_limit_is_named_and_one_just_outside_is_not(limit, steps, at_most):
    assert settling(largest(limit, 2.0, steps)).at_most == at_most


def test_a_reading_in_steps_that_passes_from_somewhere_on_has_no_most():
    size = Reading("size", "the size", 2.0, None, 8.0, steps=CUTTERS)
    settles = settling(Question((size,), lambda size: size - 5.0))
    assert (settles.alone, settles.at_least, settles.at_most) == (True, 5.0, None)


def test_where_no_step_lies_inside_the_limit_no_value_is_promised_to_pass():
    """The least it may be passes, but no cutter is that small: measuring may end outside."""
    settles = settling(largest(3.0, 2.0, CUTTERS))
    assert (settles.alone, settles.at_least, settles.at_most) == (False, None, None)
    assert settling_words(settles) == "Measure the size."


def test_a_reading_whose_value_says_nothing_is_named_without_one():
    channel = Reading("injury.1.lean_across", "the lean", 2.0, None, 8.0, step=0.0, unit="deg")
    settles = settling(Question((channel,), lambda channel: 6.0 - channel))
    assert settles == Settles("injury.1.lean_across", "the lean", "deg")
    assert settling_words(settles) == "Measure the lean."


def test_a_best_value_inside_the_range_is_found_and_both_ends_of_its_window():
    """The margin is 5 mm less how far the reading is from 10 mm: it passes from 5 to 15 mm."""
    place = Reading("injury.1.outside", "the place", -30.0, None, 90.0, step=1.0)
    settles = settling(Question((place,), lambda place: 5.0 - abs(place - 10.0)))
    assert (settles.alone, settles.at_least, settles.at_most) == (True, 5.0, 15.0)


@pytest.mark.parametrize(("low", "stated", "high", "at_least", "at_most", "tolerance"), [
    (-30.0, 10.0, 10.5, 9.0, None, 1.0),  # up to its greatest it passes
    (9.5, 10.0, 50.0, None, 11.0, 1.0),
    (-30.0, 10.0, 50.0, 9.0, 11.0, 1.0),
    (10.0, 10.0, 50.0, None, 11.0, 1.0), (-30.0, 10.0, 10.0, 9.0, None, 1.0),
    (-30.0, 9.3, 50.0, 9.0, 11.0, 0.3), (-30.0, 10.75, 50.0, 9.0, 11.0, 0.2),  # the nearer end, in tenths
    (-30.0, 8.9, 50.0, 9.0, 11.0, None), (-30.0, 11.1, 50.0, 9.0, 11.0, None),  # as stated it does not pass
    (-30.0, None, 50.0, 9.0, 11.0, None),
])
def test_how_well_it_must_be_known_is_how_far_the_stated_value_is_from_the_nearer_end(
    low, stated, high, at_least, at_most, tolerance
):
    """With a size of 4 mm at worst there is 1 mm either side of 10."""
    settles = settling(around_10(Reading("place", "the place", low, stated, high), size=4.0))
    assert (settles.at_least, settles.at_most, settles.tolerance) == (at_least, at_most, tolerance)


@pytest.mark.parametrize(("limit", "step", "at_most", "at_least"), [
    (6.0, 0.1, 6.0, 6.0), (6.04, 0.1, 6.0, 6.1), (5.96, 0.1, 5.9, 6.0), (6.3, 1.0, 6.0, 7.0), (6.3, 0.25, 6.25, 6.5),
])
def test_an_end_is_told_in_whole_steps_on_the_side_that_passes(limit, step, at_most, at_least):
    most, least = free("size", 0.0, 8.0, step=step), free("size", 1.0, 9.0, step=step)
    assert settling(Question((most,), lambda size: limit - size)).at_most == at_most
    assert settling(Question((least,), lambda size: size - limit)).at_least == at_least


def test_a_lean_is_told_in_degrees():
    """A tangent of a half is 26.57 degrees."""
    lean = free("lean", tangent=True, step=1.0, unit="deg")
    settles = settling(Question((lean,), lambda tangent: 0.5 - abs(tangent)))
    assert (settles.at_least, settles.at_most, settles.unit) == (-26.0, 26.0, "deg")
    assert settling_words(settles) == "Measure the lean: -26 to 26 degrees passes."


# --- what was never entered -------------------------------------------------------------------------------------


def test_what_was_never_entered_and_moves_the_margin_is_asked_for_once_and_in_order():
    readings = (
        free("size", 0.0, 1.0), taped("place", 0.0, 9.0), free("lean", 0.0, 2.0), free("size", 0.0, 3.0),
        Reading("", "", 0.0, None, 4.0),
    )
    assert asked(within_10(*readings)) == (("size", "the size"), ("lean", "the lean"))
    assert asked(within_10(*readings[::-1])) == (("size", "the size"), ("lean", "the lean"))
    assert asked(within_10(*readings[1:3])) == (("lean", "the lean"),)
    assert asked(within_10(taped("place", 0.0, 9.0))) == ()


def test_what_does_not_move_the_margin_is_not_asked_for():
    question = Question((free("size", 0.0, 1.0), free("belt", 0.0, 9.0)), lambda size, belt: 6.0 - size)
    assert asked(question) == (("size", "the size"),)


@pytest.mark.parametrize("lean", [free("lean"), free("lean", high=5.0), free("lean", low=-5.0)])
def test_one_without_bound_is_asked_for_and_drowns_no_other(lean):
    question = Question((lean, free("size", 0.0, 1.0)), lambda lean, size: 10.0 + min(lean, -lean) - size)
    assert asked(question) == (("lean", "the lean"), ("size", "the size"))


def test_one_without_bound_is_taken_at_zero_or_as_near_to_it_as_it_may_be():
    """An upright hole moves nothing, however thick the crown; one that leans at least so much does."""
    crown = free("crown", 5.0, 12.0)
    assert asked(Question((free("lean"), crown), lambda lean, crown: lean * crown)) == (("lean", "the lean"),)
    leaning = Question((free("lean", low=2.0), crown), lambda lean, crown: lean * crown)
    assert asked(leaning) == (("lean", "the lean"), ("crown", "the crown"))


# --- in words ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("fields", "words"), [
    ({}, ""),
    ({"at_least": 35.0}, "35 mm or more passes"), ({"at_most": 6.5}, "6.5 mm or less passes"),
    ({"at_least": 0.0}, "0 mm or more passes"), ({"at_most": 0.0}, "0 mm or less passes"),
    ({"at_least": -7.0, "at_most": 7.0}, "-7 to 7 mm passes"),
    ({"unit": "deg", "at_most": 10.0}, "10 degrees or less passes"),
    ({"unit": "h", "at_least": 3.25}, "3.25 hours or more passes"),
    ({"unit": "deg", "away": 45.0, "away_from": "repair R1"}, "45 degrees or more from repair R1 passes"),
])
def test_from_where_on_it_passes_in_words(fields, words):
    settles = Settles("f", "the size", **{"unit": "mm", **fields})
    assert window_words(settles) == words
    assert settling_words(settles) == (f"Measure the size: {words}." if words else "Measure the size.")


@pytest.mark.parametrize(("unit", "tolerance", "words"), [
    ("mm", None, ""), ("mm", 0.0, ""), ("mm", 2.0, ", known to within 2 mm"), ("mm", 0.3, ", known to within 0.3 mm"),
    ("deg", 1.5, ", known to within 1.5 degrees"), ("h", 0.5, ", known to within 0.5 hours"),
])
def test_how_well_it_must_be_known_in_words(unit, tolerance, words):
    settles = Settles("f", "the size", unit, tolerance=tolerance)
    assert within_words(settles) == words
    assert settling_words(settles) == f"Measure the size{words}."


# --- a reason with its advice -----------------------------------------------------------------------------------

PLACE_OPEN = Reason("place", "measure", "It is open.", "a source")
SETTLES = Settles("f", "the size", "mm", at_most=6.0)
OPEN = within_10(free("size", 0.0, 12.0))


def test_what_is_open_says_what_settles_it_and_asks_for_what_was_never_entered():
    found = advised(replace(PLACE_OPEN, question=OPEN))
    assert (found.settles.field, found.settles.at_most) == ("size", 10.0)
    assert found.asks == (("size", "the size"),)
    assert found.advice == "Measure the size: 10 mm or less passes."
    assert found.says == "It is open. Measure the size: 10 mm or less passes."
    assert (found.question, found.settles_later) == (None, None)


def test_a_check_that_knows_better_what_settles_it_is_heard():
    found = advised(replace(PLACE_OPEN, question=OPEN, settles=SETTLES))
    assert (found.settles, found.asks) == (SETTLES, (("size", "the size"),))
    assert found.says == "It is open. Measure the size: 6 mm or less passes."


def test_where_nothing_would_settle_it_nothing_is_added():
    found = advised(replace(PLACE_OPEN, question=within_10(exactly(10.0))))
    assert (found.says, found.advice, found.settles, found.asks) == ("It is open.", "", None, ())


def test_of_a_pair_what_settles_it_is_worked_out_later_and_else_it_is_the_one_it_came_with():
    asks, other = (("f", "the size"),), Settles("g", "the place", "mm")
    pair = replace(PLACE_OPEN, asks=asks, settles=other)
    found, fallen_back = (
        advised(replace(pair, settles_later=later)) for later in (lambda: SETTLES, lambda: None)
    )
    assert (found.settles, found.asks, found.settles_later) == (SETTLES, asks, None)
    assert found.says == "It is open. Measure the size: 6 mm or less passes."
    assert (fallen_back.settles, fallen_back.asks, fallen_back.says) == (other, asks, "It is open. Measure the place.")


@pytest.mark.parametrize("level", ["measure", "caution", "note"])
def test_what_has_nothing_to_be_worked_out_stays_as_it_is(level):
    reason = replace(PLACE_OPEN, level=level, settles=SETTLES)
    assert advised(reason) is reason


@pytest.mark.parametrize(("size", "advice"), [
    (free("size", 12.0, 14.0),
     "At best 2 mm outside: nothing still to be measured changes this, nor does any one wrong entry."),
    (taped("size", 12.0, 14.0, step=0.0),
     "2 mm outside: no closer measurement changes this, nor does any one wrong entry."),
    (taped("size", 12.0, 14.0, stated=13.0),
     "3 mm outside, at best 2 mm: no closer measurement changes this, unless the size was 10 mm or less, not 13 mm."),
])
def test_a_refusal_says_whether_something_is_still_to_be_measured_and_that_it_changes_nothing(size, advice):
    found = advised(replace(PLACE_OPEN, level="refuse", unit="mm", question=within_10(size)))
    assert (found.advice, found.says) == (advice, f"It is open. {advice}")


def test_a_refusal_without_a_question_has_nothing_still_to_be_measured():
    found = advised(replace(PLACE_OPEN, level="refuse", turns=Turns("f", "the size", "mm", at_most=6.0)))
    assert found.advice == "No measurement changes this, unless the size was 6 mm or less."


def test_a_value_past_the_end_it_is_told_to_reach_has_no_room_left_to_be_off():
    """169.5 mm passes by 0.05, and 170 is told, in whole millimeters: not half a millimeter of room, but none."""
    width = Reading("tire.tread_width", "the tread width", 168.0, 169.5, 171.0, step=1.0)
    settles = settling(Question((width,), lambda width: width - 169.45))
    assert (settles.at_least, settles.tolerance) == (170.0, 0.0)
    assert settling_words(settles) == "Measure the tread width: 170 mm or more passes."
