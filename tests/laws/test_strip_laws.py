"""What no turning and no mirroring of the tire may change, and what must agree for every pair."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tiremap.geometry.footprints import Head, head_outline, union_outline
from tiremap.geometry.frames import TreadPoint
from tiremap.geometry.liner_strip import Strip, true_area, wrapped
from tiremap.geometry.overlap import circle_overlap, distance, gap, overlap_area

few = settings(max_examples=60, deadline=None)

strips = st.builds(Strip, st.floats(500, 900), st.floats(9, 20), st.floats(350, 1300))
places = st.builds(TreadPoint, st.floats(-90, 90), st.floats(-0.5, 7))
heads = st.builds(
    lambda width, more, along: Head(width + more, width, along),
    st.floats(20, 80),
    st.sampled_from([0, 0, 10, 40]),
    st.sampled_from(["around", "across"]),
)
placed = st.tuples(places, heads)
near_pairs = st.tuples(placed, st.floats(-60, 60), st.floats(-0.3, 0.3), heads).map(
    lambda drawn: (*drawn[0], TreadPoint(drawn[0][0].s + drawn[1], drawn[0][0].a + drawn[2]), drawn[3])
)
turns = st.floats(-7, 7)


def turned(place: TreadPoint, by: float) -> TreadPoint:
    return TreadPoint(place.s, place.a + by)


def mirrored(place: TreadPoint) -> TreadPoint:
    return TreadPoint(-place.s, place.a)


def seen_from_the_other_side(place: TreadPoint) -> TreadPoint:
    return TreadPoint(place.s, -place.a)


@few
@given(strips, st.lists(placed, min_size=1, max_size=6), turns)
def test_turning_the_tire_changes_no_covered_area(strip, heads_placed, by):
    before = true_area(strip, union_outline(strip, heads_placed))
    after = true_area(strip, union_outline(strip, [(turned(place, by), head) for place, head in heads_placed]))
    assert after == pytest.approx(before, rel=1e-6)


@few
@given(strips, st.lists(placed, min_size=1, max_size=6), st.sampled_from([mirrored, seen_from_the_other_side]))
def test_mirroring_the_tire_changes_no_covered_area(strip, heads_placed, mirror):
    before = true_area(strip, union_outline(strip, heads_placed))
    after = true_area(strip, union_outline(strip, [(mirror(place), head) for place, head in heads_placed]))
    assert after == pytest.approx(before, rel=1e-6)


@few
@given(strips, near_pairs, turns)
def test_turning_or_mirroring_the_tire_changes_nothing_about_a_pair(strip, pair, by):
    place_a, head_a, place_b, head_b = pair

    def about(move):
        moved = move(place_a), move(place_b)
        return (
            distance(strip, *moved),
            gap(strip, moved[0], head_a, moved[1], head_b),
            overlap_area(strip, moved[0], head_a, moved[1], head_b),
        )

    before = about(lambda place: place)
    for move in (lambda place: turned(place, by), mirrored, seen_from_the_other_side):
        assert about(move) == pytest.approx(before, rel=1e-6, abs=1e-6)


@few
@given(strips, near_pairs)
def test_a_pair_is_the_same_whichever_comes_first(strip, pair):
    place_a, head_a, place_b, head_b = pair
    assert distance(strip, place_b, place_a) == pytest.approx(distance(strip, place_a, place_b))
    assert gap(strip, place_b, head_b, place_a, head_a) == pytest.approx(gap(strip, *pair), abs=1e-9)
    assert overlap_area(strip, place_b, head_b, place_a, head_a) == pytest.approx(
        overlap_area(strip, *pair), rel=1e-6, abs=1e-6
    )


@few
@given(strips, near_pairs, st.floats(0, 20))
def test_a_border_narrows_the_gap_of_two_heads_by_twice_itself(strip, pair, border):
    place_a, head_a, place_b, head_b = pair
    grown = gap(strip, place_a, head_a.grown(border), place_b, head_b.grown(border))
    assert grown == pytest.approx(gap(strip, *pair) - 2 * border, abs=1e-9)


@few
@given(strips, near_pairs)
def test_heads_share_liner_exactly_where_there_is_no_gap(strip, pair):
    bare, shared = gap(strip, *pair), overlap_area(strip, *pair)
    assert shared >= 0
    if bare >= 0:
        assert shared == 0
    elif bare < -0.1:
        assert shared > 0


@few
@given(strips, near_pairs)
def test_what_two_heads_share_is_what_they_cover_less_when_united(strip, pair):
    place_a, head_a, place_b, head_b = pair
    single = true_area(strip, head_outline(strip, place_a, head_a)) + true_area(
        strip, head_outline(strip, place_b, head_b)
    )
    united = true_area(strip, union_outline(strip, [(place_a, head_a), (place_b, head_b)]))
    assert single - united == pytest.approx(overlap_area(strip, *pair), abs=0.01 * single)


@few
@given(strips, placed, st.integers(-3, 3))
def test_a_whole_turn_leads_to_the_same_outline(strip, placed_head, whole_turns):
    place, head = placed_head
    there = wrapped(strip, head_outline(strip, place, head))
    again = wrapped(strip, head_outline(strip, turned(place, whole_turns * 2 * math.pi), head))
    assert there.symmetric_difference(again).area < 1e-6


@few
@given(strips, places)
def test_a_place_on_the_strip_leads_back_to_itself(strip, place):
    back = strip.tread_place(strip.point(place))
    assert 0 <= back.a < 2 * math.pi
    assert back.s == pytest.approx(place.s, abs=1e-9)
    assert math.cos(back.a - place.a) == pytest.approx(1, abs=1e-12)


@few
@given(st.floats(1, 60), st.floats(1, 60), st.floats(0, 130), st.floats(0, 5))
def test_circles_drawn_apart_never_share_more_and_never_more_than_the_smaller(a, b, w, further):
    shared = circle_overlap(a, b, w)
    assert 0 <= shared <= math.pi * min(a, b) ** 2 * (1 + 1e-12)
    assert circle_overlap(a, b, w + further) <= shared + 1e-6
