"""Turning the strip on the wheel ring, and shifting the picture by hand."""

from math import atan2, cos, pi, sin

import pytest

from tests.helpers.played import played
from tiremap.gestures.pointer import Pointer
from tiremap.gestures.turning import press_ring, shift_picture
from tiremap.gestures.wishes import Choose, Pan, TurnTo


def around(happening, angle):
    """A happening at that angle on a ring 100 mm in radius, shown at 1 px per mm."""
    x, y = 100 * sin(angle), 100 * cos(angle)
    return Pointer(happening, x, y, (x, -y))


def angle_at(point):
    return atan2(point[0], point[1]) % (2 * pi)


def test_a_click_on_the_ring_brings_that_angle_to_the_middle():
    gesture = press_ring(around("press", 1.0), angle_at, 0.2, None)
    assert played(gesture, around("release", 1.0)) == [None, TurnTo(pytest.approx(1.0))]


def test_a_click_on_a_mark_of_the_ring_chooses_it_and_brings_it_to_the_middle():
    gesture = press_ring(around("press", 1.0), angle_at, 0.2, ("3", 1.02))
    assert played(gesture, around("release", 1.0)) == [Choose("3"), TurnTo(1.02)]


def test_a_drag_turns_by_the_angle_swept_and_not_to_the_hand():
    gesture = press_ring(around("press", 1.0), angle_at, 0.2, None)
    wishes = played(gesture, around("move", 1.5), around("release", 2.0))
    assert [wish.angle for wish in wishes[1:]] == pytest.approx([0.7, 1.2])


def test_a_hand_may_go_around_the_ring_more_than_once():
    gesture = press_ring(around("press", 0.0), angle_at, 0.0, None)
    steps = [around("move", step) for step in (1, 2, 3, 4, 5, 6, 7, 8)]
    assert played(gesture, *steps, around("release", 8.5))[-1].angle == pytest.approx(8.5)


def test_a_turn_given_up_goes_back_to_where_it_was():
    gesture = press_ring(around("press", 1.0), angle_at, 0.2, None)
    assert played(gesture, around("move", 2.0), around("cancel", 2.0))[-1] == TurnTo(0.2)


def test_the_picture_follows_the_hand_pixel_for_pixel():
    def hand(happening, right, down):
        return Pointer(happening, 0.0, 0.0, (right, down))

    steps = [hand("move", 15, 2), hand("move", 18, 2), hand("release", 18, 9)]
    wishes = played(shift_picture(hand("press", 5, 5)), *steps)
    assert wishes == [None, Pan(10, -3), Pan(3, 0), Pan(0, 7)]
