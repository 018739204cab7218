"""The least and greatest margin over readings' ranges, asked of margins that can be worked out by hand."""

from math import inf, nextafter

import pytest

from tiremap.rules.margins import ON_THE_LIMIT, Margin, Question, greatest, greatest_at, least, margin_of
from tiremap.rules.reading import ENDLESS, Reading, exactly

BARELY = 2 * ON_THE_LIMIT


def reading(low: float, high: float, stated: float | None = None) -> Reading:
    return Reading("", "", low, stated, high)


@pytest.mark.parametrize(
    ("margin", "inclusive", "passes", "refuses"),
    [
        (0.1, True, True, False), (0.1, False, True, False),
        (0.0, True, True, False), (0.0, False, False, True),  # on the limit: only what includes it passes
        (ON_THE_LIMIT, True, True, False), (ON_THE_LIMIT, False, False, True),
        (-ON_THE_LIMIT, True, True, False), (-ON_THE_LIMIT, False, False, True),
        (BARELY, True, True, False), (BARELY, False, True, False),
        (-BARELY, True, False, True), (-BARELY, False, False, True),
        (-0.1, True, False, True), (-0.1, False, False, True),
    ],
)
def test_what_is_known_exactly_passes_or_is_refused_and_on_the_limit_it_is_as_the_limit_says(
    margin, inclusive, passes, refuses
):
    known, question = Margin(margin, margin, margin), Question((), lambda: margin, inclusive=inclusive)
    assert (known.passes(inclusive), known.refuses(inclusive)) == (passes, refuses)
    assert (question.passes(margin), question.refuses(margin)) == (passes, refuses)


@pytest.mark.parametrize(("low", "high"), [(-1.0, 1.0), (-5.0, 0.1)])
def test_between_the_two_nothing_passes_and_nothing_is_refused(low, high):
    margin = Margin(None, low, high)
    for inclusive in (True, False):
        assert not margin.passes(inclusive) and not margin.refuses(inclusive)


def test_a_margin_passes_by_its_least_and_is_refused_by_its_greatest():
    """Limit 6 mm less a hole of 4 to 5 mm, and of 7 to 8 mm."""
    passing = margin_of(Question((reading(4.0, 5.0, 4.5),), lambda hole: 6.0 - hole))
    refused = margin_of(Question((reading(7.0, 8.0, 7.5),), lambda hole: 6.0 - hole))
    assert passing == Margin(1.5, 1.0, 2.0)
    assert refused == Margin(-1.5, -2.0, -1.0)


@pytest.mark.parametrize(
    ("margin", "told"),
    [
        (12.5, (12.5, 12.5, 12.5)), (-12.5, (-12.5, -12.5, -12.5)),
        (ENDLESS, (ENDLESS, ENDLESS, ENDLESS)), (-ENDLESS, (-ENDLESS, -ENDLESS, -ENDLESS)),
        (2 * ENDLESS, (None, 2 * ENDLESS, inf)), (-2 * ENDLESS, (None, -inf, -2 * ENDLESS)),
    ],
)
def test_a_margin_past_what_any_tape_reaches_is_told_as_unbounded_on_either_side(margin, told):
    found = margin_of(Question((exactly(margin),), lambda value: value))
    assert (found.stated, found.low, found.high) == told


def test_a_reading_nobody_entered_leaves_no_stated_margin_unless_it_moves_nothing():
    taken, not_taken = reading(4.0, 5.0, 4.0), reading(1.0, 3.0)
    assert margin_of(Question((taken, not_taken), lambda one, other: 6.0 - one)).stated == 2.0
    assert margin_of(Question((taken, not_taken), lambda one, other: 6.0 - one - other)).stated is None
    assert margin_of(Question((taken, not_taken), lambda one, other: 6.0 - one + other)).stated is None


def test_a_reading_that_moves_it_by_no_more_than_a_hair_leaves_the_stated_margin_at_its_least():
    hair, more = reading(0.0, ON_THE_LIMIT), reading(0.0, BARELY)
    assert margin_of(Question((hair,), lambda value: value)).stated == 0.0
    assert margin_of(Question((more,), lambda value: value)).stated is None


def test_a_question_with_one_reading_known_or_wider_is_the_same_in_all_the_others():
    question = Question((reading(1.0, 2.0, 1.5), reading(3.0, 4.0, 3.5), reading(5.0, 6.0, 5.5)), max)
    assert question.ranges_with(1, 9.0) == [(1.0, 2.0), (9.0, 9.0), (5.0, 6.0)]
    assert question.with_range(1, 0.0, 9.0).ranges == [(1.0, 2.0), (0.0, 9.0), (5.0, 6.0)]
    assert [each.stated for each in question.with_range(1, 0.0, 9.0).readings] == [1.5, 3.5, 5.5]
    assert question.with_range(0, 0.0, 9.0).ranges == [(0.0, 9.0), (3.0, 4.0), (5.0, 6.0)]
    assert question.with_range(2, 0.0, 9.0).ranges == [(1.0, 2.0), (3.0, 4.0), (0.0, 9.0)]
    assert question.ranges == [(1.0, 2.0), (3.0, 4.0), (5.0, 6.0)]


def test_two_readings_are_least_and_greatest_at_opposite_corners():
    """The place less the head: 30 to 40 less 5 to 8 mm."""
    place, head = reading(30.0, 40.0, 35.0), reading(5.0, 8.0, 6.0)
    for falls, rises in ((frozenset(), frozenset()), (frozenset({1}), frozenset({0}))):
        question = Question((place, head), lambda place, head: place - head, falls_with=falls, rises_with=rises)
        assert margin_of(question) == Margin(29.0, 22.0, 35.0)
        assert greatest_at(question) == (35.0, (40.0, 5.0))
        assert least(question, [(31.0, 32.0), (6.0, 7.0)]) == 24.0
        assert greatest(question, [(31.0, 32.0), (6.0, 7.0)]) == 26.0


@pytest.mark.parametrize(("low", "high", "best", "at"), [
    (-3.0, 4.0, 10.0, 0.0), (-4.0, 3.0, 10.0, 0.0),
    (0.0, 4.0, 10.0, 0.0), (-4.0, 0.0, 10.0, 0.0),
    (1.0, 4.0, 9.0, 1.0), (-4.0, -1.0, 9.0, -1.0),
    (2.0, 2.0, 8.0, 2.0),
])
def test_a_place_either_side_of_the_center_is_best_on_the_center(low, high, best, at):
    """The margin is 10 mm less how far it is from the center."""
    question = Question((reading(low, high),), lambda place: 10.0 - abs(place))
    assert (greatest(question), greatest_at(question)) == (best, (best, (at,)))
    assert least(question) == 10.0 - max(abs(low), abs(high))


def balanced(low: float, high: float, center: float) -> Question:
    """5 mm less how far one reading is from ``center``: its two parts balance there."""
    return Question(
        (reading(low, high),), lambda place: 5.0 - abs(place - center), (lambda place: place - center,), moved_by=1
    )


@pytest.mark.parametrize(("low", "high", "center"), [
    (4.0, 20.0, 10.0), (-20.0, -4.0, -10.0),  # two corners alone
    (9.9, 10.5, 10.0), (9.5, 10.1, 10.0),  # less than 1 mm either way
    (-3.0, 20.0, 10.0), (-20.0, 3.0, -10.0),  # with the center plane between
])
def test_where_two_parts_balance_between_the_corners_the_margin_is_greatest_there(low, high, center):
    question = balanced(low, high, center)
    assert greatest(question) == pytest.approx(5.0, abs=1e-12)
    best, point = greatest_at(question)
    assert (best, point) == (pytest.approx(5.0, abs=1e-12), (pytest.approx(center),))


@pytest.mark.parametrize(("low", "high", "best"), [
    (10.0, 20.0, 5.0), (4.0, 10.0, 5.0),  # the balance is at a corner itself
    (12.0, 20.0, 3.0), (4.0, 7.0, 2.0),  # or outside of them
    (12.0, 12.0, 3.0),
])
def test_where_no_balance_lies_between_the_corners_one_of_them_is_the_greatest(low, high, best):
    assert greatest(balanced(low, high, 10.0)) == best


@pytest.mark.parametrize("size", [reading(1.0, 2.0), exactly(1.0)])
def test_a_balance_is_looked_for_along_each_reading_said_to_move_it_and_along_no_other(size):
    """5 mm less a size and how far 70 to 72 mm from an edge is from the center of a tread 130 to 170 mm wide."""
    def margin(place: float, width: float, size: float) -> float:
        return 5.0 - abs(width / 2 - place) - size

    def center(place: float, width: float, size: float) -> float:
        return width / 2 - place

    question, along_the_place_alone = (
        Question((reading(70.0, 72.0), reading(130.0, 170.0), size), margin, (center,), frozenset({2}), moved_by=count)
        for count in (2, 1)
    )
    assert greatest(question) == pytest.approx(4.0)  # 140 mm wide, at 70 mm: nothing but the size of 1 is lost
    assert greatest_at(question)[1] in ((70.0, pytest.approx(140.0), 1.0), (72.0, pytest.approx(144.0), 1.0))
    assert greatest(along_the_place_alone) == -1.0  # 130 mm wide, at 70 mm: 5 mm from the center


def test_of_readings_that_can_each_be_moved_to_a_balance_each_is_tried():
    """5 mm less how far the first is from 3 and the last from 8, between them one that stands still."""
    readings = (reading(2.0, 4.0), exactly(1.0), reading(8.0, 9.0))
    question = Question(
        readings, lambda one, still, last: 5.0 - still * abs(one - 3.0) - abs(last - 8.0),
        (lambda one, still, last: one - 3.0, lambda one, still, last: last - 8.5), moved_by=3,
    )
    assert greatest_at(question) == (5.0, (3.0, 1.0, 8.0))


def test_a_question_that_says_no_more_includes_its_limit_and_has_no_reading_that_moves_a_balance():
    question = Question((reading(4.0, 20.0),), lambda place: 5.0 - abs(place - 10.0), (lambda place: place - 10.0,))
    assert question.passes(0.0) and not question.refuses(0.0)
    assert greatest(question) == -1.0  # at 4, no further in


def test_a_zero_a_hair_inside_a_range_is_tried_as_its_ends_are():
    """Upright within half a degree: nearest to nothing at nothing."""
    assert greatest(Question((reading(-0.5, 2.0, 0.1),), lambda lean: -abs(lean))) == 0.0


def test_a_balance_is_met_along_one_reading_at_each_end_of_another():
    """a from 0 to 8, b 1 or 2: at b = 2 the two balance at a = 5, where the margin is 2; at b = 1 it is 1, at a = 4."""
    question = Question(
        (reading(0.0, 8.0, 1.0), reading(1.0, 2.0, 1.5)), lambda a, b: b - abs(a - b - 3.0),
        (lambda a, b: a - b - 3.0,), moved_by=1,
    )
    assert greatest(question) == 2.0


@pytest.mark.parametrize(
    ("jump", "high", "lowest", "highest"), [(5.0, 7.0, 1.0, 5.0), (9.0, 3.0, 2.0, 3.0), (2.0, 3.0, -2.0, 2.0)]
)
def test_a_step_inside_a_range_is_tried_on_either_side_and_one_outside_is_not(jump, high, lowest, highest):
    """From 2 on the margin is the reading up to the jump and past it 4 less: least just past it, greatest at it."""
    question = Question(
        (reading(2.0, high, 2.5),), lambda value: value if value <= jump else value - 4.0,
        jumps=((0, (jump, nextafter(jump, inf))),),
    )
    found = margin_of(question)
    assert (found.low, found.high) == (pytest.approx(lowest), pytest.approx(highest))
