"""The bracketing solver against roots known in closed form."""

import math

import pytest

from tiremap.geometry.bracketing import root_between


@pytest.mark.parametrize(
    ("function", "low", "high", "root"),
    [
        (lambda x: x * x - 2.0, 0.0, 2.0, math.sqrt(2.0)),
        (math.cos, 0.0, 3.0, math.pi / 2),
        (lambda x: math.exp(x) - 1e6, 0.0, 50.0, math.log(1e6)),
        (lambda x: (x - 1.0) ** 9, 0.0, 3.0, 1.0),
        (lambda x: x, 0.0, 1.0, 0.0),
    ],
)
def test_a_root_between_two_ends_is_found(function, low, high, root):
    found = root_between(function, low, high, tries=400)
    assert found == pytest.approx(root, abs=1e-2 if root == 1.0 else 1e-8)


def test_ends_of_one_sign_have_no_root_between():
    assert root_between(lambda x: x * x + 1.0, -1.0, 1.0) is None


def test_a_function_that_is_not_a_number_has_no_root():
    assert root_between(lambda x: math.nan, -1.0, 1.0) is None


def test_out_of_tries_the_middle_of_what_is_left_is_given():
    """After one guess on a line the root is known only to lie between that guess and an end."""
    function = lambda x: x**3 - 8.0  # noqa: E731
    guess = 8.0 / 9.0  # of false position between 0 and 3
    assert root_between(function, 0.0, 3.0, tries=1) == pytest.approx((guess + 3.0) / 2.0)


def spied(function):
    """The function, and the list of what it is asked for."""
    asked = []

    def spy(x):
        asked.append(x)
        return function(x)

    return spy, asked


@pytest.mark.parametrize("sign", [1, -1])
@pytest.mark.parametrize(("low", "high"), [(1.0, 3.0), (-1.0, 1.0), (0.0, 2.0), (0.0, 1.0), (-5.0, 1.0)])
def test_a_root_of_a_line_is_found_at_once_also_at_either_end_and_where_an_end_is_worth_one(low, high, sign):
    function, asked = spied(lambda x: sign * (x - 1.0))
    assert root_between(function, low, high) == 1.0
    assert asked == [low, high] if 1.0 in (low, high) else [low, high, 1.0]


def test_ends_of_one_sign_have_no_root_between_whichever_sign():
    assert root_between(lambda x: -2.0, -1.0, 1.0) is None
    assert root_between(lambda x: 2.0, -1.0, 1.0) is None


@pytest.mark.parametrize("sign", [1, -1])
@pytest.mark.parametrize("way", [1, -1])
def test_the_idle_end_counts_half_from_the_second_guess_on_one_side_on(way, sign):
    """The Illinois rule by hand on x^3 - 8 between 0 and 3, and on its mirror images."""

    def crossing(left, right):
        (a, at_a), (b, at_b) = left, right
        return a - at_a * (b - a) / (at_b - at_a)

    def cubed(x):
        return x**3 - 8.0

    first = crossing((0.0, -8.0), (3.0, 19.0))
    second = crossing((first, cubed(first)), (3.0, 19.0))  # nothing was idle yet
    third = crossing((second, cubed(second)), (3.0, 19.0 / 2))
    fourth = crossing((third, cubed(third)), (3.0, 19.0 / 4))
    assert cubed(third) < 0 < cubed(fourth)
    fifth = crossing((third, cubed(third)), (fourth, cubed(fourth)))  # the other end: whole again
    function, asked = spied(lambda x: sign * cubed(way * x))
    assert root_between(function, *sorted((0.0, way * 3.0))) == pytest.approx(way * 2.0, abs=1e-10)
    assert [way * x for x in asked[2:7]] == pytest.approx([first, second, third, fourth, fifth], rel=1e-12)
    assert len(asked) <= 12  # bisection would need 35


@pytest.mark.parametrize("at_low", [-1e-30, -1.0])
def test_a_guess_rounded_onto_an_end_is_replaced_by_the_middle(at_low):
    """A line from 1e-30 to 1 crosses zero less than the last digit from its end."""
    values = {1.0: at_low, 3.0: 1e-30 / -at_low, 2.0: 0.0}
    function, asked = spied(values.__getitem__)
    assert root_between(function, 1.0, 3.0) == 2.0
    assert asked == [1.0, 3.0, 2.0]


def test_a_bracket_exactly_as_wide_as_the_tolerance_is_halved_once_more():
    values = {0.0: -1.0, 4.0: 1.0, 2.0: -1.0, 3.0: -1.0}  # 3: a line from -1 at 2 to 1 at 4
    assert root_between(values.__getitem__, 0.0, 4.0, tolerance=2.0) == 3.0
    assert root_between(values.__getitem__, 0.0, 4.0, tolerance=2.1) == 2.0


@pytest.mark.parametrize("way", [1, -1])
@pytest.mark.parametrize(
    ("value", "tolerance", "ends"),
    [
        (-0.001, 1 / 64, True),
        (-0.9, 1 / 64, False),  # a short step, but the value is large
        (-1 / 256, 1 / 128, False),  # a step exactly as long as the tolerance
        (-1 / 64, 1 / 64, False),  # a value exactly as large as the tolerance
    ],
)
def test_a_short_step_ends_it_only_where_the_value_is_small_too(way, value, tolerance, ends):
    """Ends 1 apart, worth -1 and 127: the first guess is 1/128 from the one that it moves."""
    guess = way / 128
    values = {0.0: -1.0, guess: value, way * 1.0: 127.0}
    function, asked = spied(lambda x: values.get(x, way * x - 0.5))
    found = root_between(function, *sorted((0.0, way * 1.0)), tolerance=tolerance)
    if ends:
        assert (found, asked) == (guess, [*sorted((0.0, way * 1.0)), guess])
    else:
        assert found == pytest.approx(way * 0.5, abs=1 / 64)


@pytest.mark.parametrize("way", [1, -1])
def test_a_small_value_after_a_long_step_ends_nothing(way):
    values = {0.0: -1.0, way * 0.5: -0.001, way * 1.0: 1.0}
    found = root_between(lambda x: values.get(x, way * x - 0.9), *sorted((0.0, way * 1.0)), tolerance=1 / 64)
    assert found == pytest.approx(way * 0.9, abs=1 / 64)


@pytest.mark.parametrize("sign", [1, -1])
@pytest.mark.parametrize("way", [1, -1])
def test_a_root_beside_an_end_of_infinite_value_is_found_by_halving(way, sign):
    def pole(x):
        return math.inf if x >= 2.0 else 1.0 / (2.0 - x) - 1.0

    low, high = sorted((0.0, way * 2.0))
    assert root_between(lambda x: sign * pole(way * x), low, high) == pytest.approx(way * 1.0, abs=1e-9)
    low, high = sorted((way * -0.5, way * 2.0))
    assert root_between(lambda x: sign * pole(way * x), low, high) == pytest.approx(way * 1.0, abs=1e-9)
