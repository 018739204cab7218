"""Lines that know their way: circles and straight lines by their formulas, arcs without a kink between two ends."""

import math

import numpy as np
import pytest

from tiremap.geometry.paths import (
    Path,
    arc,
    cross,
    joined,
    lengths_along,
    mirrored,
    straight,
    two_arc_frame,
    two_arcs,
)

ALONG = np.array([0.6, 0.8])
ACROSS = np.array([-0.8, 0.6])
CENTER = np.array([3.0, 40.0])


def way(angle):
    return np.array([math.cos(angle), math.sin(angle)])


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


@pytest.mark.parametrize(
    ("out", "end", "into"),
    [
        (0.0, (30.0, -20.0), -1.4),  # both bend right
        (0.0, (30.0, 20.0), 1.4),  # both bend left
        (0.0, (40.0, -10.0), 0.01),  # right, then left: all but level again
        (0.3, (15.0, -50.0), -1.9),
        (-0.2, (50.0, -12.0), -0.1),
    ],
)
@pytest.mark.parametrize("count", [5, 10])
def test_two_arcs_are_two_circles_tangent_to_both_ends_and_to_each_other(out, end, into, count):
    start, end = np.array([2.0, 3.0]), np.array([2.0, 3.0]) + end
    path = two_arcs(start, way(out), end, way(into), count)
    assert len(path.points) == 2 * count - 1  # the meeting point once
    assert path.points[0] == pytest.approx(start) and (path.points[-1] == end).all()
    assert path.directions[0] == pytest.approx(way(out)) and path.directions[-1] == pytest.approx(way(into))
    assert np.hypot(*path.directions.T) == pytest.approx(1.0)
    for first in (0, count - 1):
        points, ways = path.points[first : first + count], path.directions[first : first + count]
        # A circle's chord makes the same angle with the direction at both its ends.
        chords = np.diff(points, axis=0)
        assert cross(ways[:-1], chords) == pytest.approx(cross(chords, ways[1:]), abs=1e-9)
        turns = cross(ways[:-1], ways[1:])
        assert turns == pytest.approx(np.full(count - 1, turns[0]))
        assert np.hypot(*chords.T) == pytest.approx(np.full(count - 1, np.hypot(*chords[0])))
        assert (np.sum(chords * ways[:-1], axis=1) > 0.0).all()


def test_the_two_arcs_meet_where_their_equal_tangents_do():
    """Straight ahead a quarter of the way each; round a quarter circle, half of the quarter is turned there."""
    reach, middle = two_arc_frame(
        np.zeros(2), ALONG, np.array([30.0 * ALONG, 20.0 * (ALONG + ACROSS)]), np.array([ALONG, ACROSS])
    )
    assert reach[0] == pytest.approx(7.5, abs=1e-3)  # as exact as so small a turn is divided by
    assert middle[0] == pytest.approx(ALONG)
    assert reach[1] == pytest.approx(20.0 * math.tan(math.pi / 8))
    assert middle[1] == pytest.approx((ALONG + ACROSS) / math.sqrt(2.0))
    small, way_there = two_arc_frame(np.zeros(2), ALONG, 0.02 * (ALONG + ACROSS)[None], ACROSS[None])
    assert small[0] == pytest.approx(0.02 * math.tan(math.pi / 8))
    assert way_there[0] == pytest.approx((ALONG + ACROSS) / math.sqrt(2.0))


def test_two_arcs_with_no_gap_between_their_ends_have_no_length_and_divide_nothing_by_zero():
    reach, middle = two_arc_frame(np.ones(2), ALONG, np.ones((1, 2)), ACROSS[None])
    assert reach == pytest.approx([0.0])
    assert np.isfinite(middle).all()


@pytest.mark.parametrize(("start", "end", "turn"), [(0.2, 1.7, 1.0), (1.7, -0.4, -1.0)])
def test_an_arc_runs_on_its_circle_from_angle_to_angle(start, end, turn):
    path = arc(CENTER, 7.0, start, end, 4)
    for at, angle in enumerate(np.linspace(start, end, 4)):
        assert path.points[at] == pytest.approx(CENTER + 7.0 * way(angle))
        assert path.directions[at] == pytest.approx(turn * np.array([-math.sin(angle), math.cos(angle)]))


def test_a_straight_line_has_even_steps_and_one_direction():
    path = straight(CENTER, CENTER + 30.0 * ALONG, 4)
    assert path.points == pytest.approx(np.array([CENTER + step * ALONG for step in (0.0, 10.0, 20.0, 30.0)]))
    assert path.directions == pytest.approx(np.array([ALONG] * 4))
    assert len(straight(CENTER, CENTER + ALONG).points) == 2


def test_outward_is_to_the_left_of_the_way():
    path = straight(np.zeros(2), 10.0 * ALONG, 3)
    assert path.outward == pytest.approx(np.array([ACROSS] * 3))
    assert path.aside(2.0) == pytest.approx(path.points + 2.0 * ACROSS)
    assert path.aside(-2.0) == pytest.approx(path.points - 2.0 * ACROSS)
    distances = np.array([0.0, 1.0, -3.0])
    assert path.aside(distances) == pytest.approx(path.points + distances[:, None] * ACROSS)


def test_a_circle_set_aside_is_a_circle_about_the_same_center():
    path = arc(CENTER, 9.0, 1.5, 0.2, 6)  # clockwise: outward is away from the center
    assert np.hypot(*(path.aside(2.0) - CENTER).T) == pytest.approx(11.0)
    assert np.hypot(*(path.aside(-2.0) - CENTER).T) == pytest.approx(7.0)


def test_lengths_add_up_along_the_line():
    points = np.array([[1.0, 1.0], [4.0, 5.0], [4.0, 17.0], [-4.0, 2.0]])  # steps of 5, 12 and 17
    assert lengths_along(points) == pytest.approx([0.0, 5.0, 17.0, 34.0])
    assert Path(points, points).lengths() == pytest.approx([0.0, 5.0, 17.0, 34.0])


def test_a_part_is_cut_out_of_points_and_directions():
    path = arc(CENTER, 9.0, 1.5, 0.2, 6)
    for part, numbers in ((path.part(2, 4), [2, 3]), (path.part(3), [3, 4, 5])):
        assert (part.points == path.points[numbers]).all()
        assert (part.directions == path.directions[numbers]).all()


def test_a_point_shared_by_two_neighbors_is_kept_once_with_the_first_ones_direction():
    first, second = straight(np.zeros(2), 10.0 * ALONG), straight(10.0 * ALONG, 10.0 * ALONG + 5.0 * ACROSS)
    third = straight(10.0 * ALONG + 5.0 * ACROSS, 5.0 * ACROSS)
    path = joined(first, second, third)
    corners = [np.zeros(2), 10.0 * ALONG, 10.0 * ALONG + 5.0 * ACROSS, 5.0 * ACROSS]
    assert path.points == pytest.approx(np.array(corners))
    assert path.directions == pytest.approx(np.array([ALONG, ALONG, ACROSS, -ALONG]))


def test_ends_apart_are_both_kept():
    first, second = straight(np.zeros(2), 10.0 * ALONG), straight(10.0 * ALONG + 1e-6, 20.0 * ALONG)
    third = straight(30.0 * ALONG, 40.0 * ALONG)
    path = joined(first, second, third)
    assert path.points == pytest.approx(np.concatenate([first.points, second.points, third.points]), abs=0.0)
    assert path.directions == pytest.approx(np.concatenate([first.directions, second.directions, third.directions]))
    assert joined(first) is not None and len(joined(first).points) == 2


def test_cross_is_the_sine_of_the_turn_counterclockwise_positive():
    assert cross(way(0.3), way(0.8)) == pytest.approx(math.sin(0.5))
    assert cross(way(0.8), way(0.3)) == pytest.approx(-math.sin(0.5))
    assert cross(np.array([way(0.0), way(1.0)]), way(0.4)) == pytest.approx([math.sin(0.4), -math.sin(0.6)])


def test_a_mirrored_half_line_has_its_center_point_once():
    half = np.array([[0.0, 5.0], [3.0, 4.0], [6.0, 1.0]])
    assert mirrored(half).tolist() == [[-6.0, 1.0], [-3.0, 4.0], [0.0, 5.0], [3.0, 4.0], [6.0, 1.0]]
