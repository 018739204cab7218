"""The arc of a given length over a given chord: the chord is 2 R sin(L / 2 R)."""

import math

import pytest

from tiremap.geometry.membrane import radius_of_arc


@pytest.mark.parametrize("degrees", [1, 60, 120, 180, 240, 300, 350])
def test_an_arc_from_a_sliver_to_almost_the_whole_circle_has_its_circles_radius(degrees):
    angle = math.radians(degrees)
    assert radius_of_arc(40 * angle, 2 * 40 * math.sin(angle / 2)) == pytest.approx(40, rel=1e-6)


@pytest.mark.parametrize("longer", [-0.5, -1e-13, 0, 1e-13, 5e-13])
def test_an_arc_no_longer_than_its_chord_but_for_rounding_is_straight(longer):
    assert radius_of_arc(50 * (1 + longer), 50) == math.inf


def test_at_exactly_the_rounding_allowed_an_arc_is_straight_and_past_it_just_bent():
    assert radius_of_arc(1.0 + 1e-12, 1.0) == math.inf
    assert math.isfinite(radius_of_arc(1.0 + 2e-12, 1.0))
