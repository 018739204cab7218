"""The rim contour against JIS D 4218:2021 Table 3 (ISO 4000-2 family): B, G, P, H and R2 of the J flange."""

import numpy as np
import pytest

from tiremap.geometry.rim import has_fifteen_degree_seat, rim_contour, rim_form

HALF = 165.1 / 2  # 6.5 J
RADIUS = 406 / 2


def contour(rim_width=165.1, rim_diameter=406.0):
    return rim_contour(rim_form(rim_width, rim_diameter))


def test_the_flange_is_17_5_high_and_11_wide():
    line = contour()
    assert line[:, 1].max() - RADIUS == pytest.approx(17.5)
    assert line[:, 0].max() - HALF == pytest.approx(11.0)


def test_the_flange_is_rounded_to_9_5():
    line = contour()
    rounded = line[(line[:, 0] > HALF + 0.01) & (line[:, 0] < HALF + 9.4)]
    center = np.array([HALF + 9.5, RADIUS + 17.5 - 9.5])
    assert len(rounded) > 5
    assert np.hypot(*(rounded - center).T) == pytest.approx(np.full(len(rounded), 9.5))


def test_the_flange_face_stands_on_half_the_rim_width():
    line = contour()
    face = line[(line[:, 1] > RADIUS + 6.5) & (line[:, 1] <= RADIUS + 8.0)]
    assert face[:, 0] == pytest.approx(np.full(len(face), HALF), abs=0.05)


def seat_of(line, half):
    """The two ends of the bead seat: the longest straight stretch between well and flange."""
    inside = line[(line[:, 0] < half) & (line[:, 0] > 0)]
    steps = np.hypot(*np.diff(inside, axis=0).T)
    sloped = np.abs(np.diff(inside[:, 1]) / np.diff(inside[:, 0])) < 0.3
    first = int(np.argmax(np.where(sloped, steps, 0.0)))
    return inside[first], inside[first + 1]


def test_the_bead_seat_rises_5_degrees_to_the_rim_diameter_at_the_flange():
    inner, outer = seat_of(contour(), HALF)
    slope = (outer[1] - inner[1]) / (outer[0] - inner[0])
    assert np.degrees(np.arctan(slope)) == pytest.approx(5.0)
    assert outer[1] + slope * (HALF - outer[0]) == pytest.approx(RADIUS)


@pytest.mark.parametrize(
    ("inches", "seat"), [(3.0, 13.0), (3.5, 15.0), (4.0, 15.0), (4.5, 19.5), (6.5, 19.5), (10.5, 19.5)]
)
def test_the_bead_seat_is_as_wide_as_published_for_the_rim_width(inches, seat):
    half = 25.4 * inches / 2
    inner, _ = seat_of(contour(25.4 * inches), half)
    assert half - inner[0] == pytest.approx(seat)


@pytest.mark.parametrize(("code", "depth"), [(13, 17.3), (16, 17.3), (21, 17.3), (22, 22.0), (24, 22.0)])
def test_the_well_is_as_deep_as_published_for_the_rim_code(code, depth):
    # 17.3 is the depth of the well, not the height of the flange.
    diameter = np.floor(25.4 * code + 0.5)
    assert diameter / 2 - contour(165.1, diameter)[:, 1].min() == pytest.approx(depth)


@pytest.mark.parametrize("code", [16.5, 17.5, 19.5, 22.5, 24.5])
def test_a_half_inch_code_has_a_15_degree_seat(code):
    # The name of the rim; common practice.
    diameter = np.floor(25.4 * code + 0.5)
    assert has_fifteen_degree_seat(diameter)
    inner, outer = seat_of(contour(228.6, diameter), 228.6 / 2)
    assert np.degrees(np.arctan((outer[1] - inner[1]) / (outer[0] - inner[0]))) == pytest.approx(15.0)


@pytest.mark.parametrize("code", range(10, 25))
def test_a_whole_inch_code_has_a_5_degree_seat(code):
    assert not has_fifteen_degree_seat(np.floor(25.4 * code + 0.5))
