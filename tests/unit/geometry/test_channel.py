"""The channel of an injury from tread to liner."""

import math

import pytest

from tiremap.geometry.channel import (
    channel_length,
    channel_outline,
    disc_reach_across,
    inside_place,
    leans_between,
    total_lean,
)
from tiremap.geometry.frames import SectionPoint, TreadPoint
from tiremap.geometry.liner_strip import Strip

THICKNESS, CROWN_RADIUS, DIAMETER = 14.5, 820, 632  # 205/55R16
STRIP = Strip(DIAMETER, THICKNESS, CROWN_RADIUS)
LEANS = [math.radians(degrees) for degrees in (-40, -25, 10, 25, 40)]


def test_an_upright_channel_is_as_long_as_the_rubber_is_thick():
    assert channel_length(14.5, 0, 0) == 14.5


def test_a_leaning_channel_is_longer_by_the_cosine_of_its_lean():
    assert channel_length(12, math.tan(math.radians(25)), 0) == pytest.approx(12 / math.cos(math.radians(25)))
    assert channel_length(12, 0, -1) == pytest.approx(12 * math.sqrt(2))


def test_the_two_parts_of_a_lean_add_by_their_tangents():
    assert math.tan(total_lean(0.3, -0.4)) == pytest.approx(0.5)
    assert channel_length(10, 0.3, -0.4) == pytest.approx(10 / math.cos(total_lean(0.3, -0.4)))


def test_an_upright_injury_comes_out_under_the_place_where_it_went_in():
    assert inside_place(STRIP, TreadPoint(-35, 2), 0, 0) == TreadPoint(-35, 2)


def test_a_channel_leans_outboard_and_towards_growing_angle_where_its_tangents_are_positive():
    inside = inside_place(STRIP, TreadPoint(-35, 2), 0.3, 0.2)
    assert inside.s == pytest.approx(-35 + 14.5 * 0.3)
    assert inside.a == pytest.approx(2 + 14.5 * 0.2 / STRIP.radius_at(-35))


@pytest.mark.parametrize("lean", LEANS)
@pytest.mark.parametrize("s", [-80, 0, 60])
def test_across_the_inside_end_lies_where_a_straight_line_meets_the_liner(s, lean):
    # In the section: from the tread circle inward, turned by the lean from the normal, to the circle 14.5 mm below.
    normal = s / CROWN_RADIUS
    x, y = CROWN_RADIUS * math.sin(normal), CROWN_RADIUS * math.cos(normal)
    dx, dy = -math.sin(normal - lean), -math.cos(normal - lean)
    inward = x * dx + y * dy
    reach = -inward - math.sqrt(inward**2 - CROWN_RADIUS**2 + (CROWN_RADIUS - THICKNESS) ** 2)
    met = CROWN_RADIUS * math.atan2(x + reach * dx, y + reach * dy)
    assert inside_place(STRIP, TreadPoint(s, 1), math.tan(lean), 0).s == pytest.approx(met, abs=0.6)


@pytest.mark.parametrize("lean", LEANS)
def test_around_the_inside_end_lies_where_a_straight_line_meets_the_liner(lean):
    outer, inner = DIAMETER / 2, DIAMETER / 2 - THICKNESS
    reach = outer * math.cos(lean) - math.sqrt(inner**2 - (outer * math.sin(lean)) ** 2)
    met = math.atan2(reach * math.sin(lean), outer - reach * math.cos(lean))
    inside = inside_place(STRIP, TreadPoint(0, 0), 0, math.tan(lean))
    assert inside.a * inner == pytest.approx(met * inner, abs=0.6)


@pytest.mark.parametrize(("tan_across", "tan_around"), [(0, 0), (0.5, -0.2), (-0.8, 0.8)])
@pytest.mark.parametrize("angle", [0, 3, 2 * math.pi - 0.001])
def test_lean_follows_from_the_two_ends_also_over_the_datum(angle, tan_across, tan_around):
    outside = TreadPoint(20, angle)
    inside = inside_place(STRIP, outside, tan_across, tan_around)
    within_a_turn = TreadPoint(inside.s, inside.a % (2 * math.pi))
    assert leans_between(STRIP, outside, within_a_turn) == pytest.approx((tan_across, tan_around), abs=1e-9)


def test_a_disc_reaches_further_across_the_more_its_channel_leans_across():
    assert disc_reach_across(6, 0) == 3
    assert disc_reach_across(6, math.tan(math.radians(-40))) == pytest.approx(3 / math.cos(math.radians(40)))


def test_a_channel_is_drawn_as_wide_as_the_cutter_along_the_line_of_its_ends():
    shape = channel_outline(SectionPoint(30, 315), SectionPoint(36, 301), 6)
    assert shape.is_valid
    assert shape.area == pytest.approx(math.hypot(6, 14) * 6 + math.pi * 3**2, rel=2e-3)
    assert (shape.centroid.x, shape.centroid.y) == pytest.approx((33, 308))
