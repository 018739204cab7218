"""A sidewall let down is the curve of the same family with its length and its lower end, found from other figures."""

import math

import pytest

from tiremap.geometry.bracketing import root_between
from tiremap.geometry.frames import SectionPoint
from tiremap.geometry.loaded_sidewall import sidewall_under_load
from tiremap.geometry.sidewall_curve import SidewallCurve

UNLOADED = SidewallCurve(7.8e-5, 103.0, 258.6, 1.12, -0.79)


def place_of(curve, phi):
    return SectionPoint(float(curve.across(phi)), float(curve.radius(phi)))


def end_and_start(curve):
    return place_of(curve, curve.phi_start), place_of(curve, curve.phi_flange)


def relative_of(unloaded, c, rw):
    """The curve of this constant and widest radius with the other's flange contact and cord length."""
    flange = place_of(unloaded, unloaded.phi_flange)
    phi_flange = math.asin(0.5 * c * (flange.r**2 - rw**2))
    at_zero = SidewallCurve(c, 0.0, rw, 0.0, phi_flange)
    to_widest = -float(at_zero.length(phi_flange))
    phi_start = root_between(lambda phi: float(at_zero.length(phi)) + to_widest - unloaded.cord_length, 0.0, 3.0, 1e-14)
    return SidewallCurve(c, flange.x - float(at_zero.across(phi_flange)), rw, phi_start, phi_flange)


@pytest.mark.parametrize(
    ("c", "rw"),
    [
        (8.2e-5, 258.0),
        (9.5e-5, 256.0),
        (1.2e-4, 253.0),  # past a right angle at the belt
        (1.3e-4, 251.9),
        (1.0e-4, 251.0),
        (7.0e-5, 259.0),  # higher than unloaded
    ],
)
def test_the_loaded_curve_is_the_one_of_this_length_and_flange_from_the_lowered_belt_edge(c, rw):
    wanted = relative_of(UNLOADED, c, rw)
    found = sidewall_under_load(UNLOADED, place_of(wanted, wanted.phi_start))
    assert (found.c, found.xm, found.rw) == pytest.approx((c, wanted.xm, rw), rel=1e-8)
    assert (found.phi_start, found.phi_flange) == pytest.approx((wanted.phi_start, wanted.phi_flange), abs=1e-8)
    assert found.cord_length == pytest.approx(UNLOADED.cord_length, abs=2e-9)


def test_the_curve_of_a_belt_edge_that_stays_is_the_unloaded_one_itself():
    assert sidewall_under_load(UNLOADED, place_of(UNLOADED, UNLOADED.phi_start)) is UNLOADED


@pytest.mark.parametrize(("across", "down"), [(0.0, 1e-6), (1e-6, 0.0), (-1e-6, 0.0), (0.0, -1e-6), (0.0, 2.5)])
def test_the_smallest_way_is_gone_too(across, down):
    x, r = place_of(UNLOADED, UNLOADED.phi_start)
    found = sidewall_under_load(UNLOADED, SectionPoint(x + across, r - down))
    start, flange = end_and_start(found)
    assert found is not UNLOADED
    assert start == pytest.approx((x + across, r - down), abs=2e-9)
    assert flange == pytest.approx(place_of(UNLOADED, UNLOADED.phi_flange), abs=2e-9)


def test_a_long_way_is_gone_in_steps_and_back_again():
    x, r = place_of(UNLOADED, UNLOADED.phi_start)
    down = sidewall_under_load(UNLOADED, SectionPoint(x + 0.1, r - 28.0))
    back = sidewall_under_load(down, SectionPoint(x, r))
    for name in ("c", "xm", "rw", "phi_start", "phi_flange"):
        assert getattr(back, name) == pytest.approx(getattr(UNLOADED, name), rel=1e-8), name


def above_the_flange(far, way):
    flange = place_of(UNLOADED, UNLOADED.phi_flange)
    return SectionPoint(flange.x - far * math.cos(math.radians(way)), flange.r + far * math.sin(math.radians(way)))


@pytest.mark.parametrize(("over", "none"), [(-0.1, False), (0.1, True)])
def test_a_belt_edge_further_off_than_the_cord_is_long_has_no_curve(over, none):
    """Straight up from the flange."""
    found = sidewall_under_load(UNLOADED, above_the_flange(UNLOADED.cord_length + over, 90.0))
    assert (found is None) is none
    assert none or found.cord_length == pytest.approx(UNLOADED.cord_length, abs=2e-9)


@pytest.mark.parametrize(("over", "none"), [(-2.0, False), (-1.0, True)])
def test_a_nearly_straight_cord_that_leans_far_would_nowhere_be_widest(over, none):
    """40 degrees up, the cord carried on to its widest point comes near the axle, and then there is no such point."""
    found = sidewall_under_load(UNLOADED, above_the_flange(UNLOADED.cord_length + over, 40.0))
    assert (found is None) is none
    assert none or 0.0 < found.rw < 150.0


@pytest.mark.parametrize("above", [-50.0, -1.0, 0.0])
def test_a_belt_edge_no_higher_than_the_flange_has_no_curve(above):
    x, _ = place_of(UNLOADED, UNLOADED.phi_start)
    assert sidewall_under_load(UNLOADED, SectionPoint(x, place_of(UNLOADED, UNLOADED.phi_flange).r + above)) is None


@pytest.mark.parametrize(("across", "down"), [(24.0, 76.0), (14.0, 78.0)])
def test_a_belt_edge_let_down_nearly_to_its_flange_is_lost_on_the_way_without_an_error(across, down):
    """79 mm lie between them; there the angles run away to where the curve's radius would be a root of less than 0."""
    x, r = place_of(UNLOADED, UNLOADED.phi_start)
    assert sidewall_under_load(UNLOADED, SectionPoint(x + across, r - down)) is None
