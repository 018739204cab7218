"""What is called free is free by the distance of a pair, and what is not breaks a condition."""

import math
from dataclasses import replace

import pytest
import shapely
from hypothesis import assume, event, given, settings
from hypothesis import strategies as st

from tiremap.geometry.crown import short_way_around
from tiremap.geometry.frames import TreadPoint
from tiremap.geometry.free_region import KeepAway, free_area, free_region, widest_gap
from tiremap.geometry.liner_strip import Strip
from tiremap.geometry.overlap import apart, distance

few = settings(max_examples=100, deadline=None)

strips = st.builds(Strip, st.floats(500, 900), st.floats(9, 20), st.floats(350, 1300))
half_widths = st.floats(5, 110)
kept_away = st.builds(
    lambda s, a, axes, radius, around_tread, angle: KeepAway(TreadPoint(s, a), *axes, radius, around_tread, angle),
    st.floats(-100, 100),
    st.floats(-0.5, 7),
    st.sampled_from([(0, 0), (0, 0), (10, 0), (0, 10), (0, 40), (40, 0)]),
    st.floats(5, 120) | st.sampled_from([0, 0.2, 400]),
    st.sampled_from([0, 0, 0, 0, 150, 400]),
    st.sampled_from([0, 0, 0, 0, 0.3]),
)
lists_kept_away = st.lists(kept_away, max_size=5)
turns = st.floats(-7, 7)


@st.composite
def questions(draw):
    """A band, heads in it, and a place: anywhere, or by the edge of what one head takes."""
    strip, half_width, keep = draw(strips), draw(half_widths), draw(lists_kept_away)
    place = TreadPoint(draw(st.floats(-half_width - 5, half_width + 5)), draw(st.floats(0, 2 * math.pi)))
    if keep and draw(st.booleans()):
        near, toward = draw(st.sampled_from(keep)), draw(st.floats(0, 2 * math.pi))
        out = near.radius + draw(st.sampled_from([-1, 1])) * draw(st.floats(0.001, 0.2))
        across = math.copysign(near.across, math.cos(toward)) + out * math.cos(toward)
        along = math.copysign(near.around, math.sin(toward)) + out * math.sin(toward)
        s = strip.tread_across(strip.liner_across(near.place.s) + across)
        assume(abs(s) < half_width + 5)
        mean_radius = (strip.radius_at(s) + strip.radius_at(near.place.s)) / 2
        place = TreadPoint(s, near.place.a + along / mean_radius)
    return strip, half_width, keep, place


def too_near(strip: Strip, keep: KeepAway, place: TreadPoint) -> bool:
    across, around = (abs(way) for way in apart(strip, keep.place, place))
    bare = math.hypot(max(0.0, across - keep.across), max(0.0, around - keep.around))
    if keep.across == keep.around == 0:
        assert bare == distance(strip, keep.place, place)
    angle = abs(short_way_around(place.a - keep.place.a))
    return bare < keep.radius or angle * strip.overall_diameter / 2 < keep.around_tread or angle < keep.angle


@settings(max_examples=300, deadline=None)
@given(questions())
def test_a_new_center_is_free_exactly_where_it_keeps_every_distance(question):
    strip, half_width, keep, place = question
    region = free_region(strip, half_width, keep)
    point = shapely.Point(strip.point(strip.tread_place(strip.point(place))))
    allowed = abs(place.s) <= half_width and not any(too_near(strip, each, place) for each in keep)
    if region.contains(point) and region.boundary.distance(point) > 1e-6:  # to rounding: the guard is on the safe side
        event("free")
        assert allowed
    elif region.is_empty or region.distance(point) > 0.1:
        event("taken")
        assert not allowed


@few
@given(strips, half_widths, lists_kept_away, turns)
def test_turning_the_tire_changes_no_free_area(strip, half_width, keep, by):
    turned = [replace(each, place=TreadPoint(each.place.s, each.place.a + by)) for each in keep]
    before, after = (free_area(strip, free_region(strip, half_width, heads)) for heads in (keep, turned))
    assert after == pytest.approx(before, rel=1e-6, abs=1e-4)


@few
@given(strips, half_widths, lists_kept_away, st.sampled_from([(-1, 1), (1, -1)]))
def test_mirroring_the_tire_changes_no_free_area(strip, half_width, keep, signs):
    s_sign, a_sign = signs
    mirrored = [replace(each, place=TreadPoint(s_sign * each.place.s, a_sign * each.place.a)) for each in keep]
    before, after = (free_area(strip, free_region(strip, half_width, heads)) for heads in (keep, mirrored))
    assert after == pytest.approx(before, rel=1e-6, abs=1e-4)


@few
@given(strips, half_widths, lists_kept_away, kept_away)
def test_one_more_head_frees_nothing(strip, half_width, keep, one_more):
    region, less = free_region(strip, half_width, keep), free_region(strip, half_width, [*keep, one_more])
    assert less.difference(region).area < 1e-3
    gap, narrower = widest_gap(strip, region), widest_gap(strip, less)
    assert narrower is None or narrower[1] - narrower[0] <= gap[1] - gap[0] + 1e-6


@few
@given(strips, half_widths, lists_kept_away)
def test_in_the_widest_gap_every_angle_has_a_free_place_and_before_it_none(strip, half_width, keep):
    region = free_region(strip, half_width, keep)
    gap = widest_gap(strip, region)
    assert (gap is None) == region.is_empty
    if gap is None:
        return
    start, end = gap
    assert 0 <= start < 2 * math.pi
    assert start < end <= start + 2 * math.pi + 1e-9

    def is_free(angle: float) -> bool:
        t = angle % (2 * math.pi) * strip.R0
        return region.intersects(shapely.LineString([(-500, t), (500, t)]))

    assert all(is_free(start + share * (end - start)) for share in (0.001, 0.2, 0.5, 0.8, 0.999))
    if end - start < 2 * math.pi - 1e-3:
        assert not is_free(start - 1e-6)
        assert not is_free(end + 1e-6)
