"""Two arcs between two ends: where nothing turns they are the straight line, where it turns they are tangent to it."""

import numpy as np
import pytest

from tiremap.geometry.paths import cross, two_arcs

ALONG = np.array([0.6, 0.8])
ACROSS = np.array([-0.8, 0.6])


def test_two_arcs_to_an_end_straight_ahead_are_the_straight_line():
    start = np.array([10.0, 300.0])
    path = two_arcs(start, ALONG, start + 25.0 * ALONG, ALONG)
    assert path.points[0] == pytest.approx(start) and path.points[-1] == pytest.approx(start + 25.0 * ALONG)
    assert cross(path.points - start, ALONG) == pytest.approx(0.0, abs=1e-9)
    assert (np.diff((path.points - start) @ ALONG) > 0.0).all()
    assert path.directions == pytest.approx(np.repeat(ALONG[None], len(path.points), axis=0))


def test_an_end_that_turns_a_quarter_is_reached_along_one_circle():
    path = two_arcs(np.zeros(2), ALONG, 20.0 * (ALONG + ACROSS), ACROSS)
    assert np.hypot(*(path.points - 20.0 * ACROSS).T) == pytest.approx(20.0)
    assert path.directions[0] == pytest.approx(ALONG) and path.directions[-1] == pytest.approx(ACROSS)
