"""The sidewall curve: its formulas against sums in small steps; where one can lie, it meets both its ends."""

import math

import numpy as np
import pytest

from tiremap.geometry.frames import SectionPoint
from tiremap.geometry.sidewall_curve import SidewallCurve, angle_of, sidewall_leaving_at, sidewall_through

BELT_EDGE, WIDEST, FLANGE = SectionPoint(70.0, 300.0), 107.0, SectionPoint(85.0, 216.0)
ABOVE, BELOW = math.radians(30.0), math.radians(-30.0)
CURVE = SidewallCurve(1.0 / (260.0**2 - 250.0**2), 107.0, 250.0, ABOVE, math.radians(-60.0))
"""At 30 degrees, where the sine is a half, it lies 260 mm from the axle: ``2 sin(phi) / c = 260^2 - 250^2``."""


def place_of(curve, phi):
    return SectionPoint(float(curve.across(phi)), float(curve.radius(phi)))


def summed(function, to, steps=20000):
    """The integral from 0, by midpoints."""
    return float(np.sum(function((np.arange(steps) + 0.5) * to / steps)) * to / steps)


@pytest.mark.parametrize(
    ("phi", "radius"), [(ABOVE, 260.0), (0.0, 250.0), (BELOW, math.sqrt(2.0 * 250.0**2 - 260.0**2))]
)
def test_the_radius_follows_the_sine_and_the_curvature_the_radius(phi, radius):
    assert float(CURVE.radius(phi)) == pytest.approx(radius, rel=1e-12)
    assert float(CURVE.curvature(phi)) == pytest.approx(radius / 5100.0, rel=1e-12)


@pytest.mark.parametrize("phi", [ABOVE, 0.0, BELOW, CURVE.phi_flange, 1.5])
def test_length_and_distance_across_are_the_sums_of_small_steps(phi):
    def per_angle(each):
        return 5100.0 / np.sqrt(250.0**2 + 2.0 * 5100.0 * np.sin(each))  # the radius of curvature

    assert float(CURVE.length(phi)) == pytest.approx(summed(per_angle, phi), abs=1e-6)
    across = WIDEST - summed(lambda each: np.sin(each) * per_angle(each), phi)
    assert float(CURVE.across(phi)) == pytest.approx(across, abs=1e-6)


def test_points_and_path_run_from_the_belt_edge_down_and_know_their_way():
    phi = np.array([ABOVE, 0.0, BELOW])
    path = CURVE.path(phi)
    assert CURVE.points(phi) == pytest.approx(np.array([place_of(CURVE, each) for each in phi]), rel=1e-15)
    assert (path.points == CURVE.points(phi)).all()
    half = math.sqrt(3.0) / 2.0
    assert path.directions == pytest.approx(np.array([[0.5, -half], [0.0, -1.0], [-0.5, -half]]), abs=1e-12)


def test_the_cord_is_as_long_as_both_its_parts_and_its_angles_are_found_by_length():
    upper, lower = float(CURVE.length(CURVE.phi_start)), float(CURVE.length(CURVE.phi_flange))
    assert upper > 0.0 > lower
    assert CURVE.cord_length == pytest.approx(upper - lower, rel=1e-12)
    lengths = np.array([0.0, 0.25 * upper, upper, upper - 0.5 * lower, upper - lower])
    angles = CURVE.angles_at(lengths)
    assert angles[[0, 2, 4]] == pytest.approx([CURVE.phi_start, 0.0, CURVE.phi_flange], abs=1e-12)
    assert upper - CURVE.length(angles) == pytest.approx(lengths, abs=1e-10)


@pytest.mark.parametrize("one_over_c", [5100.0, 20000.0, 30000.0])
def test_angles_are_found_by_length_on_curves_however_high(one_over_c):
    """The last one's radius goes from 349 to 58 mm."""
    curve = SidewallCurve(1.0 / one_over_c, 107.0, 250.0, 1.4, -1.4)
    lengths = np.linspace(0.0, curve.cord_length, 7)
    assert float(curve.length(1.4)) - curve.length(curve.angles_at(lengths)) == pytest.approx(lengths, abs=1e-11)


@pytest.mark.parametrize(
    ("way", "angle"), [((0.0, -1.0), 0.0), ((1.0, 0.0), 90.0), ((-1.0, 0.0), -90.0), ((0.5, -math.sqrt(0.75)), 30.0)]
)
def test_the_angle_of_a_way_is_0_straight_down_and_grows_outboard(way, angle):
    assert math.degrees(angle_of(np.array(way))) == pytest.approx(angle)


@pytest.mark.parametrize(
    ("start", "widest", "flange"),
    [
        (BELT_EDGE, WIDEST, FLANGE),
        (SectionPoint(0.7, 3.0), 1.07, SectionPoint(0.85, 2.16)),  # the same, a hundredth as large
        (SectionPoint(103.0, 300.0), 107.0, SectionPoint(104.0, 216.0)),  # nearly upright
        (SectionPoint(81.0, 300.0), 107.0, SectionPoint(69.0, 207.0)),  # nearly level where the flange takes it over
    ],
)
def test_a_curve_meets_the_belt_edge_the_width_and_the_flange(start, widest, flange):
    curve = sidewall_through(start, widest, flange)
    ends = [place_of(curve, phi) for phi in (curve.phi_start, 0.0, curve.phi_flange)]
    assert ends[0] == pytest.approx(start, abs=1e-8)
    assert ends[1] == pytest.approx((widest, curve.rw), abs=1e-12)
    assert ends[2] == pytest.approx(flange, abs=1e-8)
    assert math.pi / 2 > curve.phi_start > 0.0 > curve.phi_flange > -math.pi / 2
    assert start.r > curve.rw > flange.r


@pytest.mark.parametrize("curve", [CURVE, SidewallCurve(1.0 / 5100.0, 107.0, 250.0, 1.5, -1.2)])
def test_the_curve_through_the_ends_of_a_curve_is_that_curve(curve):
    start, flange = place_of(curve, curve.phi_start), place_of(curve, curve.phi_flange)
    again = sidewall_through(start, curve.xm, flange)
    for name in ("c", "xm", "rw", "phi_start", "phi_flange"):
        assert getattr(again, name) == pytest.approx(getattr(curve, name), rel=1e-7), name


@pytest.mark.parametrize(
    "curve",
    [
        CURVE,
        SidewallCurve(1.0 / 5100.0, 107.0, 250.0, 1.4, -1.2),
        SidewallCurve(1.0 / 5.1, 107.0, 250.0, 1.4, -1.2),  # only 0.04 mm high
        SidewallCurve(5.84e-5, 107.0, 236.7, 1.435, -0.626),
        SidewallCurve(2.67e-5, 107.0, 208.5, 0.67, -0.177),  # 126 mm high
    ],
)
@pytest.mark.parametrize("slope", [0.0, 0.2])
def test_the_curve_that_leaves_a_crown_at_its_own_angle_is_that_curve(curve, slope):
    """The crown runs through the curve's start, level or falling; the start is found though nothing tells it."""
    start, flange = place_of(curve, curve.phi_start), place_of(curve, curve.phi_flange)
    again = sidewall_leaving_at(
        curve.phi_start, lambda x: start.r - slope * (x - start.x), start.x - 8.0, curve.xm, flange
    )
    for name in ("c", "xm", "rw", "phi_start", "phi_flange"):
        assert getattr(again, name) == pytest.approx(getattr(curve, name), rel=1e-6), name


@pytest.mark.parametrize(
    ("start", "widest", "flange"),
    [
        (SectionPoint(110.0, 300.0), WIDEST, FLANGE),  # the belt edge outside the widest point
        (SectionPoint(WIDEST, 300.0), WIDEST, FLANGE),  # or at it
        (BELT_EDGE, 80.0, FLANGE),  # the flange outside it
        (BELT_EDGE, FLANGE.x, FLANGE),  # or at it
        (SectionPoint(70.0, 210.0), WIDEST, FLANGE),  # the belt edge below the flange
        (SectionPoint(70.0, FLANGE.r), WIDEST, FLANGE),  # or level with it
        (SectionPoint(20.0, 300.0), WIDEST, FLANGE),  # the belt edge too far in for any curve of that height
        (SectionPoint(20.0, 300.0), WIDEST, SectionPoint(101.5, 245.0)),
        (BELT_EDGE, WIDEST, SectionPoint(10.0, 216.0)),  # the flange too far in
        (SectionPoint(97.0, 300.0), WIDEST, SectionPoint(45.0, 230.0)),  # or further in than a curve so round can turn
    ],
)
def test_there_is_no_curve_over_a_width_its_ends_pass_or_below_the_flange(start, widest, flange):
    assert sidewall_through(start, widest, flange) is None


@pytest.mark.parametrize(
    ("radius", "nearest", "widest"),
    [
        (300.0, 110.0, WIDEST),  # it must leave outside the widest point
        (300.0, WIDEST, WIDEST),  # or at it
        (300.0, 70.0, 80.0),  # the flange lies outside it
        (300.0, 70.0, FLANGE.x),  # or at it
        (216.0, 70.0, WIDEST),  # the crown is no higher than the flange
        (210.0, 70.0, WIDEST),
    ],
)
def test_no_curve_leaves_a_crown_that_is_too_wide_or_no_higher_than_the_flange(radius, nearest, widest):
    assert sidewall_leaving_at(1.2, lambda x: radius, nearest, widest, FLANGE) is None


def test_no_curve_leaves_a_crown_for_a_flange_further_in_than_a_curve_so_round_can_turn():
    assert sidewall_leaving_at(1.2, lambda x: 300.0, 90.0, WIDEST, SectionPoint(27.0, 249.0)) is None
