"""Pairs of places and heads on the liner."""

import math

import pytest

from tiremap.geometry.footprints import Head, footprint_at_true_scale, head_outline, round_head
from tiremap.geometry.frames import TreadPoint
from tiremap.geometry.liner_strip import Strip, true_area
from tiremap.geometry.overlap import circle_overlap, distance, gap, overlap_area

STRIP = Strip(overall_diameter=632, thickness=14.5, crown_radius=820)  # 205/55R16

SAME_PLACE_ACROSS = [(70, 70, 40), (50, 35, 30), (60, 40, 42), (70, 40, 10), (35, 35, 28)]  # two diameters, distance


def around(mm: float, s: float) -> float:
    """The angle that spans ``mm`` along the liner at ``s``."""
    return mm / STRIP.radius_at(s)


def test_places_side_by_side_are_as_far_apart_as_on_the_liner():
    assert distance(STRIP, TreadPoint(-20, 1), TreadPoint(62, 1)) == pytest.approx(82 * (820 - 14.5) / 820)


def test_the_flat_strip_reads_fifty_millimeters_near_the_shoulder_almost_half_a_millimeter_long():
    first, second = TreadPoint(60, 1), TreadPoint(60, 1 + around(50, 60))
    assert distance(STRIP, first, second) == pytest.approx(50)
    assert STRIP.point(second).t - STRIP.point(first).t == pytest.approx(50.4, abs=0.05)


def test_a_pair_over_the_datum_is_measured_the_short_way():
    assert distance(STRIP, TreadPoint(0, 0.1), TreadPoint(0, 2 * math.pi - 0.1)) == pytest.approx(0.2 * 301.5)


def test_places_opposite_each_other_are_half_a_turn_apart():
    assert distance(STRIP, TreadPoint(0, 0.4), TreadPoint(0, 0.4 + math.pi)) == pytest.approx(math.pi * 301.5)


def test_the_gap_of_round_heads_is_distance_less_radii():
    first, second = TreadPoint(10, 1), TreadPoint(10, 1 + around(60, 10))
    assert gap(STRIP, first, round_head(50), second, round_head(40)) == pytest.approx(60 - 25 - 20)
    assert gap(STRIP, first, round_head(80), second, round_head(60)) == pytest.approx(60 - 40 - 30)


@pytest.mark.parametrize(
    ("first", "second", "bare"),
    [
        (Head(80, 50), Head(80, 50), 100 - 40 - 40),
        (Head(80, 50), Head(80, 50, "across"), 100 - 40 - 25),
        (Head(80, 50, "across"), Head(80, 50, "across"), 100 - 25 - 25),
        (Head(80, 50), round_head(30), 100 - 40 - 15),
    ],
)
def test_the_gap_of_oblong_heads_one_behind_the_other_depends_on_how_they_lie(first, second, bare):
    places = TreadPoint(-30, 1), TreadPoint(-30, 1 + around(100, -30))
    assert gap(STRIP, places[0], first, places[1], second) == pytest.approx(bare)


def test_the_gap_of_oblong_heads_askew_runs_between_the_ends_of_their_axes():
    # 30 mm across; 55 mm around less two half axes of 15 leaves 25.
    s_second = STRIP.tread_across(30)
    middle = (STRIP.radius_at(0) + STRIP.radius_at(s_second)) / 2
    places = TreadPoint(0, 1), TreadPoint(s_second, 1 + 55 / middle)
    bare = gap(STRIP, places[0], Head(60, 30), places[1], Head(60, 30))
    assert bare == pytest.approx(math.hypot(30, 25) - 15 - 15)


def test_the_gap_agrees_with_the_outlines_laid_flat():
    place, head = TreadPoint(0, 1), Head(90, 40)
    other = TreadPoint(STRIP.tread_across(55), 1 + 20 / STRIP.R0)
    outlines = head_outline(STRIP, place, head), head_outline(STRIP, other, Head(60, 30, "across"))
    assert gap(STRIP, place, head, other, Head(60, 30, "across")) == pytest.approx(
        outlines[0].distance(outlines[1]), abs=0.2
    )


def test_equal_circles_through_each_others_center_share_the_classic_lens():
    assert circle_overlap(30, 30, 30) == pytest.approx(30**2 * (2 * math.pi / 3 - math.sqrt(3) / 2))


def test_a_circle_through_a_larger_ones_center_at_right_angles_shares_the_textbook_area():
    # Radii 3 and 4 at distance 5 cross at right angles: half-angles acos(3/5), acos(4/5); kite 3 * 4.
    assert circle_overlap(3, 4, 5) == pytest.approx(9 * math.acos(3 / 5) + 16 * math.acos(4 / 5) - 12)


def test_a_circle_inside_another_is_shared_whole():
    for w in (0, 5, 15):
        assert circle_overlap(10, 25, w) == circle_overlap(25, 10, w) == pytest.approx(math.pi * 10**2)


def test_circles_that_touch_or_stand_apart_share_nothing():
    assert circle_overlap(10, 25, 35) == circle_overlap(10, 25, 36) == 0


@pytest.mark.parametrize(("a", "b"), [(15.4, 43.9), (40.5, 10.1), (49.9, 48.9)])
def test_circles_that_touch_share_nothing_at_all_also_where_a_cosine_is_rounded(a, b):
    """Half angles taken from the rounded cosines of these would leave up to 1e-4 mm2."""
    assert circle_overlap(a, b, a + b) == circle_overlap(b, a, a + b) == 0


def test_circles_next_to_touching_whose_cosines_are_rounded_past_one_share_next_to_nothing_or_next_to_all():
    # (w2 + a2 - b2) / 2wa comes out 2e-16 past 1 in the first; past 1 and past -1 for the two circles of the second.
    assert 0 <= circle_overlap(48.3, 10.2, math.nextafter(48.3 + 10.2, 0)) < 1e-3
    just_out = math.nextafter(29.8 - 28.0, 99)
    assert circle_overlap(29.8, 28.0, just_out) == pytest.approx(math.pi * 28.0**2, rel=1e-6)
    assert circle_overlap(28.0, 29.8, just_out) == pytest.approx(math.pi * 28.0**2, rel=1e-6)


@pytest.mark.parametrize("hair", [1e-15, 1e-12, 1e-9])
def test_circles_that_barely_cross_share_next_to_nothing_and_barely_leave_share_next_to_all(hair):
    assert 0 <= circle_overlap(10, 25, 35 * (1 - hair)) < 1e-6
    assert circle_overlap(10, 25, 15 * (1 + hair)) == pytest.approx(math.pi * 10**2, rel=1e-6)


@pytest.mark.parametrize("s", [0, 40, -75])
@pytest.mark.parametrize(("first", "second", "w"), SAME_PLACE_ACROSS)
def test_heads_at_the_same_place_across_share_the_closed_form_within_a_thousandth(s, first, second, w):
    places = TreadPoint(s, 1), TreadPoint(s, 1 + around(w, s))
    heads = round_head(first), round_head(second)
    cut = head_outline(STRIP, places[0], heads[0]).intersection(head_outline(STRIP, places[1], heads[1]))
    assert overlap_area(STRIP, places[0], heads[0], places[1], heads[1]) == pytest.approx(
        true_area(STRIP, cut), rel=1e-3
    )


@pytest.mark.parametrize("s", [0, 30, -75])
@pytest.mark.parametrize("across", [12, -25])
@pytest.mark.parametrize("w", [10, 30])
def test_heads_askew_share_the_closed_form_within_a_hundredth(s, across, w):
    places = TreadPoint(s, 1), TreadPoint(s + across, 1 + around(w, s))
    heads = round_head(70), round_head(50)
    cut = head_outline(STRIP, places[0], heads[0]).intersection(head_outline(STRIP, places[1], heads[1]))
    assert overlap_area(STRIP, places[0], heads[0], places[1], heads[1]) == pytest.approx(
        true_area(STRIP, cut), rel=1e-2
    )


def test_oblong_heads_side_by_side_share_a_strip_as_long_as_their_axes_and_a_lens():
    # Width 50, 40 mm apart across: between the axes a strip 10 wide and 30 long, and one lens of two half-discs.
    places = TreadPoint(0, 1), TreadPoint(STRIP.tread_across(40), 1)
    shared = overlap_area(STRIP, places[0], Head(80, 50), places[1], Head(80, 50))
    assert shared == pytest.approx(10 * 30 + circle_overlap(25, 25, 40), rel=2e-3)


def test_an_oblong_head_as_good_as_round_shares_what_a_round_one_does():
    places = TreadPoint(20, 0.02), TreadPoint(5, -0.08)
    nearly = overlap_area(STRIP, places[0], Head(60.0001, 60), places[1], round_head(50))
    exact = overlap_area(STRIP, places[0], round_head(60), places[1], round_head(50))
    assert nearly == pytest.approx(exact, rel=1e-3)


def test_a_head_shares_all_of_itself_with_an_equal_one_on_the_same_place():
    place = TreadPoint(60, 3)
    for head in (round_head(45), Head(80, 50, "across")):
        whole = footprint_at_true_scale(STRIP, place, head).area
        assert overlap_area(STRIP, place, head, place, head) == pytest.approx(whole, rel=1e-3)


def test_heads_with_bare_liner_between_them_share_nothing():
    places = TreadPoint(0, 1), TreadPoint(0, 1 + 50.001 / 301.5)
    assert overlap_area(STRIP, places[0], round_head(50), places[1], round_head(50)) == 0
    assert overlap_area(STRIP, places[0], Head(80, 50, "across"), places[1], Head(80, 50, "across")) == 0
