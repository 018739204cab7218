"""A refusal says how far past its limit it is and which entry would have to be wrong, in the unit it was taken in."""

from dataclasses import replace
from math import inf, radians, tan

import pytest

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.assess import assess
from tiremap.rules.margins import Question
from tiremap.rules.reading import Reading, exactly, unknown
from tiremap.rules.reasons import Reason, Turns
from tiremap.rules.turning import figure, likeliest, past_words, turn_of, turned, turning

REFUSED = Reason("hole_size", "refuse", "It is refused.", "a source", unit="mm")
TURNS = Turns("f", "the size", "mm", at_most=6.0, stated=8.0)


def entry(name: str, low: float, stated: float | None, high: float, **more) -> Reading:
    return Reading(name, f"the {name}", low, stated, high, **more)


def within_6(size: Reading, *others: Reading) -> Question:
    """6 mm less a size and all others."""
    return Question((size, *others), lambda *values: 6.0 - sum(values), falls_with=frozenset({0}))


# --- which entry ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("falls", [frozenset({0}), frozenset()])
def test_a_size_would_have_to_be_as_small_as_the_limit_leaves_with_the_others_at_their_best(falls):
    """6 mm less another of at least 1 mm leaves 5."""
    question = within_6(entry("size", 7.5, 8.0, 8.5), entry("other", 1.0, 2.0, 3.0, step=0.0))
    assert turning(replace(question, falls_with=falls)) == Turns("size", "the size", "mm", at_most=5.0, stated=8.0)


def test_a_place_would_have_to_be_as_far_in_as_the_limit_asks():
    place = entry("place", 28.0, 30.0, 32.0, unit="in", per_shown=10.0)
    assert turning(Question((place,), lambda place: place - 35.0)) == Turns(
        "place", "the place", "in", at_least=3.5, stated=3.0
    )


@pytest.mark.parametrize("more", [{"stated": None}, {"step": 0.0}, {"name": ""}, {"entered": False}])
def test_what_nobody_entered_itself_or_whose_value_says_nothing_cannot_be_wrong(more):
    fields = {"name": "size", "low": 7.5, "stated": 8.0, "high": 8.5, **more}
    assert turning(within_6(entry(**fields))) is None


def test_a_size_cannot_have_been_less_than_nothing():
    """Of 6 mm another takes 6.5: even a hole of no size is refused. With 5.5 taken, 0.5 are left."""
    size = entry("size", 7.5, 8.0, 8.5)
    assert turning(within_6(size, exactly(6.5))) is None
    assert turning(within_6(size, exactly(5.5))).at_most == 0.5
    assert turning(replace(within_6(size, exactly(6.5)), falls_with=frozenset())).at_most == -0.5


def test_where_no_value_at_all_would_do_no_entry_is_named():
    assert turning(Question((entry("place", 28.0, 30.0, 32.0),), lambda place: -1.0 - abs(place))) is None


@pytest.mark.parametrize(("at_place", "at_size", "named"), [(2.0, 1.0, "place"), (1.0, 2.0, "size")])
def test_of_two_entries_the_one_fewer_of_its_own_tolerances_off_is_named(at_place, at_size, named):
    """Either is 2 mm past at its best: that place 2 mm to within 2 or 1, that size 2 mm to within 1 or 2."""
    place = entry("place", 20.0 - at_place, 20.0, 20.0 + at_place)
    size = entry("size", 8.0 - at_size, 8.0, 8.0 + at_size)
    best = 20.0 + at_place - (8.0 - at_size)
    question = Question((place, size), lambda place, size: place - size - (best + 2.0))
    assert turning(question).field == named


def test_the_limit_says_whether_the_entry_may_lie_on_it():
    size, question = entry("size", 7.5, 8.0, 8.5), within_6(entry("size", 7.5, 8.0, 8.5))
    assert turning(question).at_most == 6.0
    assert turning(replace(question, inclusive=False)).at_most == 5.9
    assert turning(replace(within_6(size._replace(step=0.5)), inclusive=False)).at_most == 5.5


# --- from which value on ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(("low", "stated", "high", "off"), [
    (7.5, 8.0, 8.5, 4.0), (7.0, 8.0, 9.0, 2.0), (7.0, 8.0, 8.5, 2.0 / 0.75), (6.5, 8.0, 20.0, 2.0 / 6.75),
    (8.0, 8.0, 8.0, inf),  # exactly known
])
@pytest.mark.parametrize("mirrored", [1.0, -1.0])
def test_a_turn_is_as_many_tolerances_off_as_its_value_is_from_the_stated_one(low, stated, high, off, mirrored):
    ends = sorted((mirrored * low, mirrored * high))
    reading = entry("size", ends[0], mirrored * stated, ends[1])
    found, turns = turn_of(reading, 0.0, lambda value: mirrored * value > 6.0)
    assert found == pytest.approx(off)
    assert (turns.at_most, turns.at_least) == ((6.0, None) if mirrored > 0 else (None, -6.0))


@pytest.mark.parametrize(("limit", "step", "at_most"), [
    (6.04, 0.1, 6.0), (5.96, 0.1, 5.9), (6.3, 1.0, 6.0), (6.3, 0.25, 6.25), (6.0, 0.25, 6.0), (0.3, 0.1, 0.3),
])
def test_its_value_is_told_in_whole_steps_on_the_side_that_is_not_refused(limit, step, at_most):
    size = entry("size", 7.5, 8.0, 8.5, step=step)
    assert turn_of(size, 0.0, lambda value: value > limit)[1].at_most == at_most
    below = entry("size", -8.5, -8.0, -7.5, step=step)
    assert turn_of(below, 0.0, lambda value: value < -limit)[1].at_least == -at_most


def test_a_value_is_closed_in_on_from_as_far_on_the_other_side_of_the_center_too():
    """A place 8 mm off on one side passes from 6 mm on, and 7.5 mm off on the other; the reading ends at 7.5."""
    assert turn_of(entry("place", -8.5, -8.0, -7.5), 7.5, lambda place: place < -6.0)[1].at_least == -6.0
    assert turn_of(entry("place", 7.5, 8.0, 8.5), -7.5, lambda place: place > 6.0)[1].at_most == 6.0


def test_a_value_that_turns_back_within_one_step_is_not_named():
    place = entry("place", 28.0, 30.0, 32.0)
    assert turn_of(place, 35.04, lambda value: not 35.02 <= value <= 35.06) is None
    assert turn_of(place, 35.04, lambda value: not 35.02 <= value <= 35.11)[1].at_least == 35.1


def test_a_lean_is_told_in_degrees_and_what_was_stated_in_hundredths():
    low, stated, high = (tan(radians(lean)) for lean in (35.0, 40.128, 45.0))
    lean = entry("lean", low, stated, high, tangent=True, step=1.0, unit="deg")
    off, turns = turn_of(lean, 0.0, lambda tangent: tangent > 0.5)  # 26.57 degrees
    assert (turns.at_most, turns.stated, turns.unit) == (26.0, 40.13, "deg")
    assert off == pytest.approx(14.128 / 5.0)


def test_the_likeliest_is_the_fewest_tolerances_off_and_of_equals_the_first():
    other, third = replace(TURNS, field="g"), replace(TURNS, field="h")
    assert likeliest([(3.0, TURNS), None, (2.0, other), (2.0, third)]) is other
    assert likeliest([None, (inf, TURNS)]) is TURNS
    assert likeliest([None]) is likeliest([]) is None


# --- how far past -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("fields", "words"), [
    ({"margin_high": -2.0, "margin": -2.0}, "2 mm past the limit"),
    ({"margin_high": -2.0, "margin": -3.0}, "3 mm past the limit, at best 2 mm"),
    ({"margin_high": -2.0}, "At best 2 mm past the limit"),
    ({"margin_high": -2.0, "margin": -3.0, "code": "place"}, "3 mm outside, at best 2 mm"),
    ({"margin_high": -2.0, "margin": -2.0, "code": "place"}, "2 mm outside"),
    ({"margin_high": -2.0, "code": "place"}, "At best 2 mm outside"),
    ({"margin_high": -2.0, "margin": -2.0, "unit": "deg"}, "2 degrees past the limit"),
    ({"margin_high": -1.0, "margin": -1.0, "unit": "repairs"}, "1 more than allowed"),
    ({"margin_high": -2.0, "unit": "repairs"}, "2 more than allowed"),
    ({"margin_high": 0.0, "margin": 0.0}, "On the limit, which is not inside it"),
    ({"margin_high": 0.0, "margin": -3.0}, "On the limit, which is not inside it"),
    ({}, ""), ({"margin": -3.0}, ""),
    ({"margin_high": -2.0, "past": "Long past"}, "Long past"),
])
def test_how_far_a_refusal_is_past_its_limit_in_words(fields, words):
    assert past_words(replace(REFUSED, **fields)) == words


@pytest.mark.parametrize(("margin", "told"), [
    (-0.01, "0.1"), (-0.1, "0.1"), (-0.11, "0.2"), (-0.3, "0.3"),
    (-1.95, "2"), (-2.0, "2"), (-2.01, "2.1"), (-12.34, "12.4"),
])
def test_how_far_past_never_looks_less_than_it_is(margin, told):
    assert past_words(replace(REFUSED, margin=margin, margin_high=margin)) == f"{told} mm past the limit"


def test_of_two_edges_of_a_zone_it_is_told_how_far_past_the_one_it_refuses_by():
    reason = replace(REFUSED, margin=-9.0, margin_high=-8.0, question=within_6(entry("size", 7.5, 8.0, 8.5)))
    assert past_words(reason) == "2 mm past the limit, at best 1.5 mm"
    not_taken = replace(REFUSED, question=within_6(unknown("size", "the size", 7.5, 8.5)))
    assert past_words(not_taken) == "At best 1.5 mm past the limit"


# --- in words ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("turns", "unless"), [
    (TURNS, "the size was 6 mm or less, not 8 mm"),
    (replace(TURNS, at_most=None, at_least=9.0), "the size was 9 mm or more, not 8 mm"),
    (replace(TURNS, stated=None), "the size was 6 mm or less"),
    (replace(TURNS, at_most=0.0, stated=0.0), "the size was 0 mm or less, not 0 mm"),
    (replace(TURNS, at_most=None, at_least=0.0, stated=-8.0), "the size was 0 mm or more, not -8 mm"),
    (Turns("f", "the lean", "deg", at_most=26.0, stated=40.0), "the lean was 26 degrees or less, not 40 degrees"),
    (Turns("f", "the place", "h", at_least=3.5, stated=3.25), "the place was 3:30 or more, not 3:15"),
])
def test_a_refusal_names_the_entry_that_would_have_to_be_wrong(turns, unless):
    found = turned(replace(REFUSED, turns=turns), unknown=False)
    assert found.advice == f"No measurement changes this, unless {unless}."
    assert (found.says, found.past, found.turns) == (f"It is refused. {found.advice}", "", turns)


def test_an_entry_that_is_no_figure_is_led_to_and_not_told():
    found = turned(replace(REFUSED, turns=Turns("f", "the finding")), unknown=False)
    assert (found.advice, found.leads_to) == ("No measurement changes this.", "f")


REFUSED_SIZE = within_6(entry("size", 7.5, 8.0, 8.5))
HOPELESS = within_6(entry("size", 7.5, 8.0, 8.5, step=0.0))


@pytest.mark.parametrize(("fields", "unknown", "advice"), [
    ({"margin_high": -2.0}, False, "At best 2 mm past the limit: no measurement changes this."),
    ({}, False, "No measurement changes this."),
    ({}, True, "Nothing still to be measured changes this."),
    ({"turns_later": lambda: None}, False, "No closer measurement changes this, nor does any one wrong entry."),
    ({"turns_later": lambda: None}, True, "Nothing still to be measured changes this, nor does any one wrong entry."),
    ({"turns_later": lambda: TURNS}, False,
     "No closer measurement changes this, unless the size was 6 mm or less, not 8 mm."),
    ({"question": REFUSED_SIZE}, False, "2 mm past the limit, at best 1.5 mm: no closer measurement changes this, "
     "unless the size was 6 mm or less, not 8 mm."),
    ({"question": REFUSED_SIZE}, True, "2 mm past the limit, at best 1.5 mm: nothing still to be measured changes "
     "this, unless the size was 6 mm or less, not 8 mm."),
    ({"question": HOPELESS}, False, "2 mm past the limit, at best 1.5 mm: no closer measurement changes this, "
     "nor does any one wrong entry."),
    ({"past": "Far past"}, False, "Far past: no measurement changes this."),
])
def test_what_could_change_a_refusal_in_words(fields, unknown, advice):
    found = turned(replace(REFUSED, **fields), unknown)
    assert (found.advice, found.says) == (advice, f"It is refused. {advice}")
    assert (found.question, found.turns_later) == (None, None)


def test_a_check_that_knows_better_which_entry_may_be_wrong_is_heard():
    def never() -> Turns:
        raise AssertionError("asked though it is known")

    known = replace(TURNS, at_most=4.0)
    assert turned(replace(REFUSED, turns=known, question=REFUSED_SIZE), unknown=False).turns is known
    assert turned(replace(REFUSED, turns=known, turns_later=never), unknown=False).turns is known
    assert turned(replace(REFUSED, turns_later=lambda: known, question=REFUSED_SIZE), unknown=False).turns is known


@pytest.mark.parametrize(
    ("value", "unit", "words"),
    [
        (3.25, "h", "3:15"), (12.0, "h", "12:00"), (0.1, "h", "0:06"), (-0.25, "h", "11:45"), (-1 / 60, "h", "11:59"),
        (2.9999, "h", "3:00"),  # never 2:60
        (27.25, "mm", "27.25 mm"), (12.0, "deg", "12 degrees"),
    ],
)
def test_a_figure_is_told_as_it_is_read(value, unit, words):
    assert figure(value, unit) == words


def test_how_far_a_refusal_is_past_its_limit_is_told_alike_before_and_after_its_advice():
    job = bench_job(crown_injury(across_mm=80.0))
    plain, advised = (assess(job, advise=advise).deciding for advise in (False, True))
    assert advised.past.endswith(" mm outside") or " mm outside, at best " in advised.past
    assert past_words(plain) == past_words(advised) == advised.past
