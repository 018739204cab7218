"""Where one more unit could go: closed forms."""

import math

import numpy as np
import pytest
import shapely

from tiremap.errors import TiremapError
from tiremap.geometry.footprints import head_outline, round_head
from tiremap.geometry.frames import StripPoint, TreadPoint
from tiremap.geometry.free_region import KeepAway, free_area, free_region, widest_gap
from tiremap.geometry.liner_strip import Strip, zone_band
from tiremap.geometry.overlap import distance

STRIP = Strip(overall_diameter=632, thickness=14.5, crown_radius=820)  # 205/55R16
TURN = 2 * math.pi


def band_area(strip: Strip, half_width: float) -> float:
    """2 pi times the integral of r ds over the liner's arc: r = D/2 - Rc + rho cos(v), ds = rho dv."""
    rho, v = strip.crown_radius - strip.thickness, half_width / strip.crown_radius
    return 2 * TURN * rho * ((strip.overall_diameter / 2 - strip.crown_radius) * v + rho * math.sin(v))


def around(at: float, mm: float) -> KeepAway:
    """Only a distance around on the tread is asked."""
    return KeepAway(TreadPoint(0, at), 0, 0, 0, around_tread=mm)


def apart(at: float, angle: float) -> KeepAway:
    """Only an angle is asked."""
    return KeepAway(TreadPoint(0, at), 0, 0, 0, angle=angle)


@pytest.mark.parametrize("half_width", [1, 60, 83])
@pytest.mark.parametrize("strip", [STRIP, Strip(530, 12, 500), Strip(650, 14, 359)])
def test_on_a_sound_tire_the_whole_band_is_free(strip, half_width):
    region = free_region(strip, half_width, [])
    assert free_area(strip, region) == pytest.approx(band_area(strip, half_width), rel=1e-9)
    assert widest_gap(strip, region) == pytest.approx((0, TURN))


@pytest.mark.parametrize("half_width", [0, -0.5, -300, -math.inf])
def test_where_no_width_is_left_nothing_is_free(half_width):
    region = free_region(STRIP, half_width, [apart(1, 0.1)])
    assert region.is_empty
    assert free_area(STRIP, region) == 0
    assert widest_gap(STRIP, region) is None


@pytest.mark.parametrize("s", [0, 30, -45])
def test_a_round_head_takes_the_disc_of_both_radii_out_of_a_wide_band(s):
    region = free_region(STRIP, 90, [KeepAway(TreadPoint(s, 2), 0, 0, 40)])
    # The pair's own flat and the liner agree about a disc's area within 0.1 %.
    assert band_area(STRIP, 90) - free_area(STRIP, region) == pytest.approx(math.pi * 40**2, rel=1e-3)


def test_a_small_head_takes_a_small_disc():
    region = free_region(STRIP, 90, [KeepAway(TreadPoint(10, 2), 0, 0, 0.5)])
    assert band_area(STRIP, 90) - free_area(STRIP, region) == pytest.approx(math.pi * 0.51**2, rel=0.01)


@pytest.mark.parametrize(("half_across", "half_around"), [(0, 15), (15, 0)])
def test_an_oblong_head_takes_a_capsule(half_across, half_around):
    region = free_region(STRIP, 90, [KeepAway(TreadPoint(5, 2), half_across, half_around, 40)])
    capsule = math.pi * 40**2 + 2 * 15 * 2 * 40
    assert band_area(STRIP, 90) - free_area(STRIP, region) == pytest.approx(capsule, rel=1e-3)


def test_a_head_outside_the_band_takes_what_reaches_in():
    region = free_region(STRIP, 60, [KeepAway(TreadPoint(80, 2), 0, 0, 40)])
    # The strips of a disc 40 mm about the head, each as long as its half angles at its own radius; summed to the edge.
    inward = np.linspace(20 * (820 - 14.5) / 820, 40, 4001)
    radii = np.array([STRIP.radius_at(80 - STRIP.tread_across(x)) for x in inward])
    lengths = 2 * np.sqrt(40**2 - inward**2) * radii / ((radii + STRIP.radius_at(80)) / 2)
    segment = float(np.sum((lengths[1:] + lengths[:-1]) / 2 * np.diff(inward)))
    assert band_area(STRIP, 60) - free_area(STRIP, region) == pytest.approx(segment, rel=1e-3)


def test_a_head_too_far_outside_the_band_takes_nothing():
    region = free_region(STRIP, 30, [KeepAway(TreadPoint(80, 2), 0, 0, 40)])
    assert free_area(STRIP, region) == pytest.approx(band_area(STRIP, 30), rel=1e-9)


def test_a_head_in_the_middle_of_a_narrow_band_closes_it_from_edge_to_edge():
    region = free_region(STRIP, 20, [KeepAway(TreadPoint(0, math.pi), 0, 0, 40)])
    # Across the center plane both centers must be 40 mm apart: 34.9 mm around is enough at 20 mm across.
    at_edge = math.sqrt(40**2 - STRIP.liner_across(20) ** 2) / ((STRIP.radius_at(20) + STRIP.R0) / 2)
    start, end = widest_gap(STRIP, region)
    assert start == pytest.approx(math.pi + at_edge, abs=1e-4)
    assert end == pytest.approx(math.pi - at_edge + TURN, abs=1e-4)


@pytest.mark.parametrize("keep", [KeepAway(TreadPoint(55, 1), 0, 0, 45), KeepAway(TreadPoint(-20, 6.2), 0, 0, 400)])
def test_every_edge_about_a_round_head_lies_at_the_least_distance_or_a_hair_beyond(keep):
    outline = free_region(STRIP, 80, [keep]).boundary
    corners = shapely.get_coordinates(outline.segmentize(0.25))
    edge = STRIP.liner_across(80) - 1e-9
    inner = [(x, t) for x, t in corners if abs(x) < edge and 1e-9 < t < STRIP.circumference - 1e-9]
    beyond = [distance(STRIP, STRIP.tread_place(StripPoint(x, t)), keep.place) - keep.radius for x, t in inner]
    assert len(beyond) > 500
    assert 0 <= min(beyond) <= max(beyond) < 0.05


def test_a_region_by_the_shoulder_is_longer_on_the_strip_than_at_the_center():
    def length_around(s):
        whole = zone_band(STRIP, -130, 130)
        taken = whole.difference(free_region(STRIP, 130, [KeepAway(TreadPoint(s, 2), 0, 0, 40)]))
        return taken.bounds[3] - taken.bounds[1]

    assert length_around(0) == pytest.approx(80, abs=0.05)
    assert length_around(75) == pytest.approx(80 * STRIP.R0 / STRIP.radius_at(75), abs=0.1)


def test_four_hundred_millimeters_around_on_a_205_55r16_take_800_of_1985_out_of_the_turn():
    assert math.pi * 632 == pytest.approx(1985.5, abs=0.05)
    region = free_region(STRIP, 60, [around(1, 400)])
    assert free_area(STRIP, region) / band_area(STRIP, 60) == pytest.approx(1 - 800 / (math.pi * 632), rel=1e-9)
    assert widest_gap(STRIP, region) == pytest.approx((1 + 400 / 316, 1 - 400 / 316 + TURN))


def test_an_angle_takes_its_part_of_the_turn_on_either_side():
    region = free_region(STRIP, 60, [apart(3, math.pi / 6)])
    assert free_area(STRIP, region) == pytest.approx(band_area(STRIP, 60) * 10 / 12, rel=1e-9)


def test_of_angle_and_distance_around_the_wider_band_holds():
    both = KeepAway(TreadPoint(0, 3), 0, 0, 0, around_tread=100, angle=0.5)
    assert free_region(STRIP, 60, [both]).equals(free_region(STRIP, 60, [apart(3, 0.5)]))
    both = KeepAway(TreadPoint(0, 3), 0, 0, 0, around_tread=316, angle=0.5)
    assert free_region(STRIP, 60, [both]).equals(free_region(STRIP, 60, [around(3, 316)]))


@pytest.mark.parametrize("angle", [math.pi, 4, 20])
@pytest.mark.parametrize("at", [0, 1, 6.1])
def test_half_a_turn_to_either_side_leaves_nothing(at, angle):
    region = free_region(STRIP, 60, [apart(at, angle)])
    assert region.is_empty
    assert widest_gap(STRIP, region) is None


def test_a_distance_longer_than_half_the_liner_leaves_nothing():
    assert free_region(STRIP, 60, [KeepAway(TreadPoint(10, 1), 0, 0, 1000)]).is_empty


def test_discs_on_either_side_of_the_datum_join_over_it():
    angle = 15 / STRIP.R0
    pair = [KeepAway(TreadPoint(0, angle), 0, 0, 30), KeepAway(TreadPoint(0, -angle), 0, 0, 30)]
    region = free_region(STRIP, 90, pair)
    # Two discs of radius 30 whose centers are 30 apart share 2 (pi/3 - sqrt(3)/4) r^2.
    united = 2 * math.pi * 30**2 - 2 * (math.pi / 3 - math.sqrt(3) / 4) * 30**2
    assert band_area(STRIP, 90) - free_area(STRIP, region) == pytest.approx(united, rel=2e-3)
    assert region.bounds[1::2] == pytest.approx((0, STRIP.circumference))


def test_a_head_on_the_datum_takes_as_much_as_one_elsewhere():
    areas = [
        free_area(STRIP, free_region(STRIP, 90, [KeepAway(TreadPoint(20, at), 0, 0, 40)])) for at in (0, 2, TURN, -0.01)
    ]
    assert areas == pytest.approx([areas[0]] * 4, rel=1e-9)


def test_without_a_gap_the_edge_is_where_the_new_head_touches_the_old():
    old, new, place = 35.0, 25.0, TreadPoint(-30, 3)
    region = free_region(STRIP, 100, [KeepAway(place, 0, 0, old + new)])
    touching = TreadPoint(-30, 3 + (old + new) / STRIP.radius_at(-30))
    assert region.boundary.distance(shapely.Point(STRIP.point(touching))) < 0.02
    heads = [head_outline(STRIP, at, round_head(2 * radius)) for at, radius in ((place, old), (touching, new))]
    assert heads[0].intersection(heads[1]).area < 0.1


def test_the_widest_gap_is_the_longest_between_bands():
    region = free_region(STRIP, 60, [apart(1, 0.2), apart(2, 0.2), apart(5, 0.2)])
    assert widest_gap(STRIP, region) == pytest.approx((2.2, 4.8))


def test_the_widest_gap_runs_over_the_datum():
    region = free_region(STRIP, 60, [apart(2, 0.5), apart(4, 0.5)])
    assert widest_gap(STRIP, region) == pytest.approx((4.5, 1.5 + TURN))


def test_a_gap_ends_at_a_band_that_touches_the_datum():
    region = free_region(STRIP, 60, [apart(0.25, 0.25), apart(4, 0.5)])
    assert widest_gap(STRIP, region) == pytest.approx((0.5, 3.5))


def test_a_head_one_can_pass_beside_ends_no_gap():
    region = free_region(STRIP, 60, [KeepAway(TreadPoint(40, 2), 0, 0, 50)])
    assert widest_gap(STRIP, region) == pytest.approx((0, TURN))


def test_heads_on_opposite_sides_leave_a_way_round_each():
    """No straight way around is free, but at each angle some place across is."""
    heads = [KeepAway(TreadPoint(50, 2), 0, 0, 60), KeepAway(TreadPoint(-50, 4), 0, 0, 60)]
    assert widest_gap(STRIP, free_region(STRIP, 60, heads)) == pytest.approx((0, TURN))


def test_a_head_of_which_nothing_is_asked_takes_nothing():
    region = free_region(STRIP, 60, [KeepAway(TreadPoint(0, 2), 10, 0, 0)])
    assert free_area(STRIP, region) == pytest.approx(band_area(STRIP, 60), rel=1e-9)


@pytest.mark.parametrize(
    "wrong",
    [
        {"radius": -1},
        {"radius": math.nan},
        {"across": -0.1},
        {"around": math.inf},
        {"around_tread": -400},
        {"angle": math.inf},
        {"place": TreadPoint(math.nan, 0)},
    ],
)
def test_a_distance_that_nobody_can_keep_is_refused_in_words(wrong):
    with pytest.raises(TiremapError, match="cannot be kept"):
        KeepAway(**{"place": TreadPoint(0, 0), "across": 0, "around": 0, "radius": 40, **wrong})


@pytest.mark.parametrize("half_width", [math.nan, math.inf, 800])
def test_a_band_wider_than_the_liner_is_refused_in_words(half_width):
    with pytest.raises(TiremapError, match="No liner lies"):
        free_region(STRIP, half_width, [])
