"""Heads on the liner and the ground they cover together."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point

from tiremap.errors import TiremapError
from tiremap.geometry.footprints import (
    Head,
    around_at_true_scale,
    footprint_at_true_scale,
    head_outline,
    round_head,
    union_outline,
)
from tiremap.geometry.frames import TreadPoint
from tiremap.geometry.liner_strip import Strip, true_area, wrapped

STRIP = Strip(overall_diameter=632, thickness=14.5, crown_radius=820)  # 205/55R16


def test_a_round_head_has_a_radius_and_no_axis():
    head = round_head(50)
    assert (head.radius, head.half_axis, head.is_round) == (25, 0, True)


def test_an_oblong_head_lies_around_unless_said_and_reaches_as_far_as_its_ends():
    around, across = Head(80, 50), Head(80, 50, "across")
    assert (around.radius, around.half_axis) == (25, 15)
    assert (around.axis_reach, around.reach_across) == ((0, 15), 25)
    assert (across.axis_reach, across.reach_across) == ((15, 0), 40)


def test_a_border_grows_a_head_all_round_and_leaves_its_axis():
    grown = Head(80, 50, "across").grown(6)
    assert grown == Head(92, 62, "across")
    assert grown.half_axis == 15


@pytest.mark.parametrize(
    ("length", "width"), [(0, 0), (50, 0), (40, 50), (50, -1), (math.nan, 40), (50, math.nan), (math.inf, 40)]
)
def test_a_head_without_size_or_wider_than_long_is_refused_in_words(length, width):
    with pytest.raises(TiremapError, match="A head cannot be"):
        Head(length, width)


@pytest.mark.parametrize(("length", "width"), [(0.4, 0.4), (1, 1), (30, 0.5)])
def test_a_head_may_be_as_small_as_a_plug_of_less_than_a_millimeter(length, width):
    assert Head(length, width).radius == width / 2


def test_a_head_is_as_wide_as_it_is_and_drawn_longer_around_by_the_shoulder():
    s_low, t_low, s_high, t_high = head_outline(STRIP, TreadPoint(60, 2), round_head(50)).bounds
    assert s_high - s_low == pytest.approx(50)
    assert t_high - t_low == pytest.approx(50 * STRIP.R0 / STRIP.radius_at(60))
    assert t_high - t_low > 50.3
    assert ((s_low + s_high) / 2, (t_low + t_high) / 2) == pytest.approx(STRIP.point(TreadPoint(60, 2)))


def test_an_oblong_head_across_is_long_across():
    s_low, t_low, s_high, t_high = head_outline(STRIP, TreadPoint(0, 2), Head(80, 50, "across")).bounds
    assert (s_high - s_low, t_high - t_low) == pytest.approx((80, 50))


def test_a_head_outline_is_not_cut_at_the_datum():
    _, t_low, _, t_high = head_outline(STRIP, TreadPoint(0, 0), round_head(50)).bounds
    assert (t_low, t_high) == pytest.approx((-25, 25))


@pytest.mark.parametrize("s", [-80, 0, 45])
def test_an_oblong_head_covers_its_box_and_its_round_ends(s):
    shape = head_outline(STRIP, TreadPoint(s, 1), Head(80, 50))
    assert true_area(STRIP, shape) == pytest.approx(30 * 50 + math.pi * 25**2, rel=2e-3)


def test_no_heads_cover_nothing():
    assert union_outline(STRIP, []).is_empty


def test_heads_well_apart_cover_their_sum():
    heads = [(TreadPoint(-30, 1), round_head(50)), (TreadPoint(30, 4), round_head(40))]
    union = union_outline(STRIP, heads)
    assert true_area(STRIP, union) == pytest.approx(math.pi * (25**2 + 20**2), rel=1e-3)
    assert len(shapely.get_parts(union)) == 2


def test_two_heads_on_either_side_of_the_datum_share_their_overlap_once():
    def covered(turned_by: float) -> float:
        heads = [(TreadPoint(0, 0.05 + turned_by), round_head(50)), (TreadPoint(10, -0.03 + turned_by), round_head(60))]
        return true_area(STRIP, union_outline(STRIP, heads))

    assert covered(0) == pytest.approx(covered(2), rel=1e-9)
    assert covered(0) < 0.85 * math.pi * (25**2 + 30**2)


def test_a_union_stays_between_the_two_lips_of_the_datum():
    union = union_outline(STRIP, [(TreadPoint(0, 0.01), round_head(50)), (TreadPoint(0, 6.2), round_head(50))])
    assert union.bounds[1] == pytest.approx(0, abs=1e-9)
    assert union.bounds[3] == pytest.approx(STRIP.circumference, abs=1e-9)


@given(st.lists(st.tuples(st.floats(-60, 60), st.floats(0, 2 * math.pi), st.floats(5, 120)), min_size=1, max_size=12))
def test_heads_cover_together_what_the_library_unites(heads):
    placed = [(TreadPoint(across, around), round_head(diameter)) for across, around, diameter in heads]
    every = shapely.union_all([wrapped(STRIP, head_outline(STRIP, *each)) for each in placed])
    union = union_outline(STRIP, placed)
    assert union.symmetric_difference(every).area < 1e-6
    assert union.is_valid and len(shapely.get_parts(union)) == len(shapely.get_parts(every))


def test_the_buffed_area_reaches_past_the_head_by_the_border():
    place, head = TreadPoint(25, 3), Head(70, 45)
    inner, outer = footprint_at_true_scale(STRIP, place, head), footprint_at_true_scale(STRIP, place, head.grown(6))
    reach = shapely.distance(shapely.points(np.asarray(outer.exterior.coords)), inner)
    assert reach == pytest.approx(6, abs=0.01)


@pytest.mark.parametrize("s", [-70, 0, 70])
def test_a_round_head_is_a_circle_on_the_template(s):
    shape = footprint_at_true_scale(STRIP, TreadPoint(s, 5), round_head(60))
    center = Point(STRIP.liner_across(s), 0)
    assert shapely.distance(shapely.points(np.asarray(shape.exterior.coords)), center) == pytest.approx(30)


def test_the_template_measures_around_at_the_places_own_radius():
    place = TreadPoint(60, 1)
    assert around_at_true_scale(STRIP, 1, place) == 0
    assert around_at_true_scale(STRIP, 1.1, place) == pytest.approx(0.1 * STRIP.radius_at(60))
    assert around_at_true_scale(STRIP, 0.9, place) < 0
