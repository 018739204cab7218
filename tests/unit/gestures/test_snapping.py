"""The steps that places set by hand fall on."""

from math import pi

import pytest

from tiremap.gestures.snapping import snap_step, snapped, snapped_angle


@pytest.mark.parametrize(
    ("px_per_mm", "step"), [(0.5, 1.0), (0.99, 1.0), (1.0, 0.5), (1.99, 0.5), (2.0, 0.1), (60, 0.1)]
)
def test_the_step_is_the_largest_that_is_smaller_than_a_pixel_and_never_under_a_tenth(px_per_mm, step):
    assert snap_step(px_per_mm) == step


def test_a_length_falls_on_the_nearest_step_and_nothing_is_never_minus_nothing():
    assert snapped(41.2345, 0.1) == 41.2 and snapped(41.26, 0.5) == 41.5 and snapped(41.5001, 1.0) == 42
    assert str(snapped(-0.04, 0.1)) == "0.0"


def test_an_angle_falls_on_whole_steps_along_the_tread_and_stays_within_a_turn():
    assert snapped_angle(1.0, 316.0, 1.0) * 316 == pytest.approx(316)
    assert snapped_angle(-0.7 / 316, 316.0, 0.5) == pytest.approx(2 * pi - 0.5 / 316)
    assert snapped_angle(None, 316.0, 1.0) is None
