"""Capsules and discs as polygons."""

import math

import numpy as np
import pytest
from shapely import LineString, Point

from tiremap.geometry.outlines import CHORD_ERROR, capsule, corners_in_half_turn

RADII = [1.5, 6, 17.5, 40, 60]


@pytest.mark.parametrize("radius", RADII)
def test_a_disc_lies_inside_its_circle_and_nowhere_more_than_the_chord_error_inside(radius):
    corners = np.asarray(capsule((7, -3), (7, -3), radius).exterior.coords)
    middles = (corners[1:] + corners[:-1]) / 2
    assert np.hypot(*(corners - (7, -3)).T) == pytest.approx(radius, abs=1e-9)
    assert radius - np.hypot(*(middles - (7, -3)).T).min() <= CHORD_ERROR * 1.001


@pytest.mark.parametrize("radius", RADII)
def test_a_disc_has_no_corner_twice_and_runs_through_its_four_far_points(radius):
    disc = capsule((0, 0), (0, 0), radius)
    corners = np.asarray(disc.exterior.coords)
    assert np.hypot(*(corners[1:] - corners[:-1]).T).min() > 1e-3
    assert disc.bounds == pytest.approx((-radius, -radius, radius, radius))


def test_the_chord_error_is_finer_than_a_drawing_needs():
    assert CHORD_ERROR <= 0.05


@pytest.mark.parametrize("end", [(30, 0), (0, 30), (-18, 24), (18, -24)])
def test_a_capsule_is_a_box_and_two_half_discs(end):
    shape = capsule((0, 0), end, 10)
    assert shape.is_valid
    assert shape.area == pytest.approx(30 * 20 + math.pi * 10**2, rel=5e-4)
    assert shape.length == pytest.approx(2 * 30 + 2 * math.pi * 10, rel=1e-3)


def test_a_capsule_is_what_lies_within_the_radius_of_its_axis():
    shape = capsule((3, 4), (-20, 15), 6)
    fine = LineString([(3, 4), (-20, 15)]).buffer(6, quad_segs=200)
    assert shape.symmetric_difference(fine).area < CHORD_ERROR * shape.length


def test_a_capsule_is_the_same_from_either_end():
    assert capsule((3, 4), (-20, 15), 6).symmetric_difference(capsule((-20, 15), (3, 4), 6)).area < 1e-9


def test_a_capsule_with_ends_a_hair_apart_is_a_sound_disc():
    shape = capsule((5, 5), (5, 5 + 1e-13), 3)
    assert shape.is_valid
    assert shape.symmetric_difference(Point(5, 5).buffer(3, quad_segs=200)).area < CHORD_ERROR * shape.length


@pytest.mark.parametrize("radius", [1e-6, 0.0005, 0.0015, 0.002, 0.005, 0.02])
def test_a_disc_hardly_larger_than_the_chord_error_is_drawn_by_eight_corners(radius):
    """Four chords to a half turn at the least: with an odd number the outline would lose its far points."""
    assert corners_in_half_turn(radius) == 4
    assert capsule((0, 0), (0, 0), radius).bounds == pytest.approx((-radius, -radius, radius, radius))


@pytest.mark.parametrize("radius", [0.1, 1, 3, 25, 60, 400])
def test_a_half_turn_has_the_least_even_number_of_chords_that_keeps_the_chord_error(radius):
    """A chord of a half turn in n parts stands r (1 - cos(pi / 2n)) inside its arc."""
    chords = corners_in_half_turn(radius)
    assert chords % 2 == 0
    assert radius * (1 - math.cos(math.pi / (2 * chords))) <= CHORD_ERROR * (1 + 1e-9)
    assert radius * (1 - math.cos(math.pi / (2 * (chords - 2)))) > CHORD_ERROR
