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
