"""Where no sidewall curve can lie, there is none; where one can, it meets both its ends."""

import pytest

from tiremap.geometry.frames import SectionPoint
from tiremap.geometry.sidewall_curve import sidewall_leaving_at, sidewall_through

BELT_EDGE, WIDEST, FLANGE = SectionPoint(70.0, 300.0), 107.0, SectionPoint(85.0, 216.0)


def test_a_curve_meets_the_belt_edge_the_width_and_the_flange():
    curve = sidewall_through(BELT_EDGE, WIDEST, FLANGE)
    ends = [(float(curve.across(phi)), float(curve.radius(phi))) for phi in (curve.phi_start, 0.0, curve.phi_flange)]
    assert ends[0] == pytest.approx(BELT_EDGE, abs=1e-6)
    assert ends[1][0] == pytest.approx(WIDEST)
    assert ends[2] == pytest.approx(FLANGE, abs=1e-6)


@pytest.mark.parametrize(
    ("start", "widest", "flange"),
    [
        (SectionPoint(110.0, 300.0), WIDEST, FLANGE),  # the belt edge outside the widest point
        (BELT_EDGE, 80.0, FLANGE),  # the flange outside it
        (SectionPoint(70.0, 210.0), WIDEST, FLANGE),  # the belt edge below the flange
    ],
)
def test_there_is_no_curve_over_a_width_its_ends_pass_or_below_the_flange(start, widest, flange):
    assert sidewall_through(start, widest, flange) is None


@pytest.mark.parametrize(
    ("radius", "nearest", "widest"),
    [
        (300.0, 110.0, WIDEST),  # it must leave outside the widest point
        (300.0, 70.0, 80.0),  # the flange lies outside it
        (216.0, 70.0, WIDEST),  # the crown is no higher than the flange
    ],
)
def test_no_curve_leaves_a_crown_that_is_too_wide_or_no_higher_than_the_flange(radius, nearest, widest):
    assert sidewall_leaving_at(1.2, lambda x: radius, nearest, widest, FLANGE) is None
