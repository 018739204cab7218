"""Where one more unit could go: closed forms."""

import math

import numpy as np
import pytest
import shapely

from tiremap.errors import TiremapError
from tiremap.geometry.footprints import head_outline, round_head
from tiremap.geometry.frames import StripPoint, TreadPoint
from tiremap.geometry.free_region import GUARD, KeepAway, free_area, free_region, widest_gap
from tiremap.geometry.liner_strip import SEAM_GRID, Strip, zone_band
from tiremap.geometry.overlap import apart as way_apart
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
        {"radius": math.inf},
        {"across": math.inf},
        {"around_tread": math.inf},
        {"angle": -0.1},
        {"astray": -0.1},
        {"astray": math.inf},
        {"across": -0.1},
        {"around": math.inf},
        {"around_tread": -400},
        {"angle": math.inf},
        {"place": TreadPoint(math.nan, 0)},
        {"place": TreadPoint(0, math.inf)},
    ],
)
def test_a_distance_that_nobody_can_keep_is_refused_in_words(wrong):
    with pytest.raises(TiremapError, match="cannot be kept"):
        KeepAway(**{"place": TreadPoint(0, 0), "across": 0, "around": 0, "radius": 40, **wrong})


@pytest.mark.parametrize("half_width", [math.nan, math.inf, 800])
def test_a_band_wider_than_the_liner_is_refused_in_words(half_width):
    with pytest.raises(TiremapError, match="No liner lies"):
        free_region(STRIP, half_width, [])


@pytest.mark.parametrize("count", [4, 12, 23])
def test_bands_that_meet_all_around_leave_nothing_not_even_the_rounding_between_them(count):
    region = free_region(STRIP, 60, [apart((at + 0.3) * TURN / count, math.pi / count) for at in range(count)])
    assert region.is_empty


def test_a_place_of_less_than_a_square_millimeter_is_a_place():
    region = free_region(STRIP, 1e-4, [])
    assert 0.3 < free_area(STRIP, region) < 0.5
    assert free_area(STRIP, region) == pytest.approx(band_area(STRIP, 1e-4), rel=1e-6)


BARREL = Strip(overall_diameter=900, thickness=9, crown_radius=200)  # round enough to have a liner all around itself


def test_the_band_ends_where_the_liner_goes_around_its_own_crown():
    assert BARREL.radius_at(math.pi * 200) == pytest.approx(450 - 200 - 191)
    assert free_area(BARREL, free_region(BARREL, math.pi * 199.99, [])) == pytest.approx(
        band_area(BARREL, math.pi * 199.99), rel=1e-9
    )
    with pytest.raises(TiremapError, match="No liner lies"):
        free_region(BARREL, math.pi * 200, [])


@pytest.mark.parametrize("radius", [0.5, -0.5])
def test_the_band_ends_where_the_liner_reaches_the_axle(radius):
    half_width = 820 * math.acos((radius - 316 + 820) / (820 - 14.5))
    assert STRIP.radius_at(half_width) == pytest.approx(radius)
    if radius > 0:
        region = free_region(STRIP, half_width, [])
        assert free_area(STRIP, region) == pytest.approx(band_area(STRIP, half_width), rel=1e-9)
    else:
        with pytest.raises(TiremapError, match="No liner lies"):
            free_region(STRIP, half_width, [])


def half_angle_taken(keep: KeepAway, half_width: float) -> float:
    """Half the stretch without any place, by a head at 2 rad."""
    start, end = widest_gap(STRIP, free_region(STRIP, half_width, [keep]))
    assert start - 2 == pytest.approx(2 + TURN - end, abs=1e-9)
    return start - 2


@pytest.mark.parametrize(("s", "radius"), [(0, 40), (20, 60), (-20, 60), (20, 80)])
def test_a_band_so_narrow_that_no_corner_lies_in_it_is_closed_as_far_as_the_head_reaches(s, radius):
    # Closed at every place across: to the half angle at the band's far edge, where the head reaches least.
    far = STRIP.liner_across(abs(s) + 0.1)
    expected = math.sqrt(radius**2 - far**2) / ((STRIP.radius_at(s) + STRIP.radius_at(0.1)) / 2)
    assert half_angle_taken(KeepAway(TreadPoint(s, 2), 0, 0, radius), 0.1) * STRIP.R0 == pytest.approx(
        expected * STRIP.R0, abs=0.03
    )


@pytest.mark.parametrize("liner_radius", [301.5, 290, 250])
@pytest.mark.parametrize("astray", [0, 0.05])
def test_a_head_that_may_lie_astray_or_nearer_the_axle_takes_that_much_more_around(astray, liner_radius):
    edge = math.sqrt(40**2 - STRIP.liner_across(1) ** 2) / ((STRIP.radius_at(1) + liner_radius) / 2)
    keep = KeepAway(TreadPoint(0, 2), 0, 0, 40, astray=astray, liner_radius=liner_radius)
    assert half_angle_taken(keep, 1) == pytest.approx(astray + edge, abs=1e-4)


def test_without_a_liner_radius_of_its_own_a_head_has_that_of_its_place():
    place = TreadPoint(60, 2)
    keeps = [KeepAway(place, 0, 0, 70), KeepAway(place, 0, 0, 70, liner_radius=STRIP.radius_at(60))]
    assert free_region(STRIP, 20, keeps[:1]).equals(free_region(STRIP, 20, keeps[1:]))


def test_a_head_astray_widens_the_band_of_an_angle_and_of_a_distance_around():
    assert half_angle_taken(KeepAway(TreadPoint(0, 2), 0, 0, 0, angle=0.3, astray=0.05), 60) == pytest.approx(0.35)
    by_distance = KeepAway(TreadPoint(0, 2), 0, 0, 0, around_tread=158, astray=0.05)
    assert half_angle_taken(by_distance, 60) == pytest.approx(0.5 + 0.05)


def test_a_head_astray_of_which_no_angle_is_asked_leaves_the_way_beside_it():
    region = free_region(STRIP, 60, [KeepAway(TreadPoint(40, 2), 0, 0, 50, astray=0.1)])
    assert widest_gap(STRIP, region) == pytest.approx((0, TURN))
    assert region.contains(shapely.Point(STRIP.point(TreadPoint(-50, 2))))


def test_the_least_angle_asked_may_be_less_than_a_radian_or_more():
    for angle in (0.001, 0.3, 1.0, 2.5):
        assert half_angle_taken(KeepAway(TreadPoint(0, 2), 0, 0, 0, angle=angle), 60) == pytest.approx(angle)


@pytest.mark.parametrize("radius", [0.005, 0.5, 1, 3, 25, 40, 41, 60])
def test_what_a_head_takes_reaches_across_as_far_as_its_radius_and_the_guard(radius):
    taken = zone_band(STRIP, -90, 90).difference(free_region(STRIP, 90, [KeepAway(TreadPoint(5, 2), 3, 0, radius)]))
    middle = STRIP.liner_across(5)
    assert taken.bounds[::2] == pytest.approx((middle - 3 - radius - GUARD, middle + 3 + radius + GUARD), abs=1e-9)


@pytest.mark.parametrize("s", [0, 50, -50])
@pytest.mark.parametrize(("across", "around"), [(40, 0), (15, 0), (0, 40)])
def test_every_edge_about_an_oblong_head_lies_at_the_least_distance_or_a_hair_beyond(across, around, s):
    keep = KeepAway(TreadPoint(s, 2), across, around, 45)
    corners = shapely.get_coordinates(free_region(STRIP, 80, [keep]).boundary.segmentize(0.5))
    edge = STRIP.liner_across(80) - 1e-9
    beyond = []
    for x, t in corners:
        if abs(x) < edge and 1e-9 < t < STRIP.circumference - 1e-9:
            x_apart, t_apart = map(abs, way_apart(STRIP, keep.place, STRIP.tread_place(StripPoint(x, t))))
            beyond.append(math.hypot(max(0.0, x_apart - across), max(0.0, t_apart - around)) - 45)
    assert len(beyond) > 300
    assert 0 <= min(beyond) <= max(beyond) < 0.05


@pytest.mark.parametrize("radius", [1000, 1500, 2200])
def test_a_distance_longer_than_the_liner_is_wide_on_any_tire_leaves_nothing(radius):
    """So far across from the head the liner's formula has no radius left: only the band counts."""
    assert free_region(STRIP, 90, [KeepAway(TreadPoint(10, 1), 0, 0, radius)]).is_empty


def pieces(*stretches: tuple[float, float]) -> shapely.Geometry:
    """A region of boxes side by side, each over a stretch of the strip (mm around)."""
    return shapely.MultiPolygon(
        [shapely.box(20 * at, low, 20 * at + 10, high) for at, (low, high) in enumerate(stretches)]
    )


END = STRIP.circumference


@pytest.mark.parametrize(
    ("stretches", "gap"),
    [
        ([(100, 300), (150, 200)], (100, 300)),  # one within the other
        ([(100, 300), (250, 400), (600, 850)], (100, 400)),  # one over the end of the other
        ([(100, 200), (200, 300), (600, 750)], (100, 300)),  # end to end
        ([(100, 200), (200 + SEAM_GRID, 300), (600, 750)], (100, 300)),  # but for the grid of the seam
        ([(100, 200), (200 + 3 * SEAM_GRID, 300), (600, 750)], (600, 750)),
        ([(100, 200), (150, 300), (290, 420), (600, 900)], (100, 420)),  # a chain
        ([(100, 150), (300, 400), (350, 600), (360, 380), (700, 800)], (300, 600)),  # one that is not the first
        ([(50, 290), (300, 320), (310, 350), (340, 400)], (50, 290)),
        ([(900, 1000), (100, 130)], (900, 1000)),  # the longest, wherever it comes
        ([(100, 200), (900, 930)], (100, 200)),
        ([(100, 200), (500, 600)], (100, 200)),  # the first of equals
        ([(0, 60), (300, 400), (END - 50, END)], (END - 50, END + 60)),  # over the datum
        ([(0, 60), (END - 50, END)], (END - 50, END + 60)),
        ([(SEAM_GRID, 60), (300, 400), (END - 50, END - SEAM_GRID)], (END - 50, END + 60)),
        ([(3 * SEAM_GRID, 60), (300, 400), (END - 50, END)], (300, 400)),
        ([(0, 60), (300, 400), (END - 50, END - 3 * SEAM_GRID)], (300, 400)),
        ([(0.5, 60), (300, 400), (END - 50, END)], (300, 400)),
        ([(0, 60), (300, 400), (END - 50, END - 0.5)], (300, 400)),
        ([(0, 300), (100, END)], (0, END)),  # all around, in two
    ],
)
def test_the_widest_gap_joins_stretches_that_meet_and_takes_the_longest(stretches, gap):
    assert widest_gap(STRIP, pieces(*stretches)) == pytest.approx((gap[0] / STRIP.R0, gap[1] / STRIP.R0), abs=1e-7)
