"""The liner strip: places, the cut at the datum, true areas."""

import math

import pytest
import shapely
from shapely import LineString, MultiPolygon, Polygon, box

from tiremap.errors import TiremapError
from tiremap.geometry.footprints import head_outline, round_head
from tiremap.geometry.frames import StripPoint, TreadPoint
from tiremap.geometry.liner_strip import Strip, true_area, unrolled, wrapped, zone_band

STRIP = Strip(overall_diameter=632, thickness=14.5, crown_radius=820)  # 205/55R16


def test_the_strip_is_as_long_as_the_liner_around_the_center_plane():
    assert pytest.approx(632 / 2 - 14.5) == STRIP.R0
    assert STRIP.circumference == pytest.approx(2 * math.pi * 301.5)


def test_the_liner_is_narrower_around_towards_the_shoulders():
    assert STRIP.radius_at(0) == pytest.approx(STRIP.R0)
    assert STRIP.radius_at(60) == STRIP.radius_at(-60) < STRIP.radius_at(30) < STRIP.R0


def test_a_quarter_turn_is_a_quarter_of_the_strip_and_outboard_is_to_the_right():
    point = STRIP.point(TreadPoint(82, math.pi / 2))
    assert point.t == pytest.approx(STRIP.circumference / 4)
    assert point.s_liner == pytest.approx(82 * (820 - 14.5) / 820)


@pytest.mark.parametrize("s", [-70, 0, 33.3])
@pytest.mark.parametrize("a", [0, 1e-9, 3, 6.28])
def test_a_point_of_the_strip_leads_back_to_its_place(s, a):
    assert STRIP.tread_place(STRIP.point(TreadPoint(s, a))) == pytest.approx((s, a), abs=1e-12)


@pytest.mark.parametrize(("t", "angle"), [(-10, 2 * math.pi - 10 / 301.5), (-1e-18, 0), (1e-18, 0)])
def test_a_point_past_the_datum_has_an_angle_within_one_turn(t, angle):
    assert STRIP.tread_place(StripPoint(0, t)).a == pytest.approx(angle, abs=1e-12)


def test_a_whole_turn_is_the_datum_again():
    assert STRIP.tread_place(StripPoint(0, STRIP.circumference)).a == 0


@pytest.mark.parametrize(
    ("diameter", "thickness", "crown_radius"),
    [(632, 0, 820), (632, 330, 820), (632, 14, 14), (632, math.nan, 820), (math.inf, 14, math.inf)],
)
def test_a_liner_that_no_tire_can_have_is_refused_in_words(diameter, thickness, crown_radius):
    with pytest.raises(TiremapError, match="thick under the tread"):
        Strip(diameter, thickness, crown_radius)


def test_a_shape_within_the_strip_is_left_alone():
    shape = box(-10, 0, 10, STRIP.circumference)
    assert wrapped(STRIP, shape) is shape


def test_a_shape_over_the_datum_is_cut_and_its_rest_lies_at_the_other_end():
    cut = wrapped(STRIP, box(-10, -30, 10, 50))
    expected = shapely.union_all([box(-10, 0, 10, 50), box(-10, STRIP.circumference - 30, 10, STRIP.circumference)])
    assert cut.symmetric_difference(expected).area < 1e-9


@pytest.mark.parametrize("turns", [-2, -1, 1, 3])
def test_a_shape_whole_turns_away_comes_back_to_the_same_place(turns):
    far = box(-10, 40 + turns * STRIP.circumference, 10, 90 + turns * STRIP.circumference)
    assert wrapped(STRIP, far).symmetric_difference(box(-10, 40, 10, 90)).area < 1e-6


def test_a_shape_longer_than_the_strip_covers_it_once():
    around = wrapped(STRIP, box(-10, -100, 10, STRIP.circumference + 300))
    assert around.area == pytest.approx(20 * STRIP.circumference)


@pytest.mark.parametrize("t_low", [-1e-13, 1e-13 - 20])
def test_a_shape_that_only_touches_the_datum_leaves_no_thread_at_the_other_end(t_low):
    touching = Polygon([(0, t_low), (10, t_low + 20), (-10, t_low + 20)])
    cut = wrapped(STRIP, touching)
    assert all(isinstance(part, Polygon) for part in shapely.get_parts(cut))
    assert cut.area == pytest.approx(200)


def test_of_two_parts_one_that_only_touches_the_datum_leaves_no_thread_beside_the_other():
    cut = wrapped(STRIP, MultiPolygon([box(0, 10, 10, 20), box(20, -30, 30, 0)]))
    assert all(isinstance(part, Polygon) for part in shapely.get_parts(cut))
    length = STRIP.circumference
    assert cut.equals(shapely.union_all([box(0, 10, 10, 20), box(20, length - 30, 30, length)]))


def test_a_line_over_the_datum_is_cut_like_a_shape():
    assert wrapped(STRIP, LineString([(5, -30), (5, 20)])).length == pytest.approx(50)


def test_nothing_wraps_to_nothing():
    assert wrapped(STRIP, Polygon()).is_empty
    assert unrolled(STRIP, Polygon(), 0, 100).is_empty
    assert true_area(STRIP, Polygon()) == 0


def test_a_head_over_the_datum_is_seen_whole_where_the_strip_scrolls_past_it():
    head = head_outline(STRIP, TreadPoint(20, 0.01), round_head(50))
    seen = unrolled(STRIP, wrapped(STRIP, head), -100, 100)
    assert isinstance(seen, Polygon)
    assert seen.symmetric_difference(head).area < 1e-3


def test_a_window_longer_than_a_turn_shows_a_head_twice():
    head = head_outline(STRIP, TreadPoint(20, 1), round_head(50))
    seen = unrolled(STRIP, head, 0, 2 * STRIP.circumference)
    assert len(shapely.get_parts(seen)) == 2
    assert seen.area == pytest.approx(2 * head.area, rel=1e-6)


def test_a_zone_is_a_band_once_around():
    band = zone_band(STRIP, -50, 60)
    assert band.bounds == pytest.approx((STRIP.liner_across(-50), 0, STRIP.liner_across(60), STRIP.circumference))


@pytest.mark.parametrize("s_high", [10, 5])
def test_a_zone_whose_edges_meet_or_cross_is_empty(s_high):
    assert zone_band(STRIP, 10, s_high).is_empty


@pytest.mark.parametrize(("s_low", "s_high"), [(-60, 60), (0, 83), (-83, -40)])
@pytest.mark.parametrize(("diameter", "thickness", "crown_radius"), [(632, 14.5, 820), (530, 12, 500), (650, 14, 359)])
def test_the_area_of_a_zone_is_that_of_the_surface_of_revolution(diameter, thickness, crown_radius, s_low, s_high):
    # 2 pi times the integral of r ds over the liner's arc: r = D/2 - Rc + rho cos(v), ds = rho dv.
    rho = crown_radius - thickness
    v_low, v_high = s_low / crown_radius, s_high / crown_radius
    exact = 2 * math.pi * rho * (
        (diameter / 2 - crown_radius) * (v_high - v_low) + rho * (math.sin(v_high) - math.sin(v_low))
    )  # fmt: skip
    strip = Strip(diameter, thickness, crown_radius)
    assert true_area(strip, zone_band(strip, s_low, s_high)) == pytest.approx(exact, rel=1e-9)


def test_a_hole_in_a_shape_is_not_counted():
    outer, inner = box(-30, 0, 30, 80), box(-5, 20, 15, 50)
    rest = true_area(STRIP, outer) - true_area(STRIP, inner)
    assert true_area(STRIP, outer.difference(inner)) == pytest.approx(rest, rel=1e-12)


@pytest.mark.parametrize("turned", [False, True])
def test_holes_are_not_counted_in_any_part_whichever_way_its_rings_run(turned):
    plates = [box(0, 0, 40, 60), box(-90, 300, -10, 350)]
    openings = [[box(5, 5, 10, 10), box(20, 20, 35, 50)], [box(-80, 310, -70, 340)]]
    parts = []
    for plate, holes in zip(plates, openings, strict=True):
        rings = [list(each.exterior.coords)[:: -1 if turned else 1] for each in (plate, *holes)]
        parts.append(Polygon(rings[0], rings[1:]))
    rest = sum(true_area(STRIP, each) for each in plates)
    rest -= sum(true_area(STRIP, hole) for holes in openings for hole in holes)
    assert true_area(STRIP, MultiPolygon(parts)) == pytest.approx(rest, rel=1e-12)


def test_the_strip_alone_shows_a_head_by_the_shoulder_too_large():
    head = head_outline(STRIP, TreadPoint(75, 1), round_head(60))
    assert head.area > 1.01 * true_area(STRIP, head)


@pytest.mark.parametrize("s", [0, -40, 75])
def test_a_heads_true_area_is_its_strip_area_at_the_radius_of_its_centroid(s):
    head = head_outline(STRIP, TreadPoint(s, 1), round_head(60))
    at_centroid = head.area * STRIP.radius_at(STRIP.tread_across(head.centroid.x)) / STRIP.R0
    assert true_area(STRIP, head) == pytest.approx(at_centroid, rel=1e-3)


@pytest.mark.parametrize("t", [0, STRIP.circumference, -STRIP.circumference])
def test_a_line_along_the_datum_stays_there(t):
    along = wrapped(STRIP, LineString([(-20, t), (30, t)]))
    assert along.bounds == pytest.approx((-20, 0, 30, 0))


@pytest.mark.parametrize(("thickness", "diameter", "crown_radius"), [(0.5, 632, 820), (300, 632, 820), (300, 900, 310)])
def test_any_rubber_thinner_than_tire_and_crown_are_round_is_a_liner(thickness, diameter, crown_radius):
    assert pytest.approx(diameter / 2 - thickness) == Strip(diameter, thickness, crown_radius).R0


@pytest.mark.parametrize(("diameter", "thickness", "crown_radius"), [(632, 316, 820), (900, 310, 310), (900, 400, 310)])
def test_rubber_as_thick_as_tire_or_crown_is_round_is_refused(diameter, thickness, crown_radius):
    with pytest.raises(TiremapError, match="thick under the tread"):
        Strip(diameter, thickness, crown_radius)


@pytest.mark.parametrize("c", [140, -140, 60])
@pytest.mark.parametrize(("diameter", "thickness", "crown_radius"), [(632, 14.5, 820), (530, 12, 500), (650, 14, 359)])
def test_the_area_of_a_long_triangle_is_that_on_the_surface_of_revolution(diameter, thickness, crown_radius, c):
    # Corners (0, 0), (c, 0), (0, h): the integral of h (1 - x/c) r(x) / R0 dx with r = D/2 - Rc + rho cos(x / rho), in
    # parts h / R0 ((D/2 - Rc) c / 2 + rho^3 / c (1 - cos(c / rho))).
    rho, h = crown_radius - thickness, 200
    strip = Strip(diameter, thickness, crown_radius)
    exact = h / strip.R0 * ((diameter / 2 - crown_radius) * c / 2 + rho**3 / c * (1 - math.cos(c / rho)))
    for corners in ([(0, 0), (c, 0), (0, h)], [(0, 0), (0, h), (c, 0)], [(0, -h), (0, 0), (c, -h)]):
        assert true_area(strip, Polygon(corners)) == pytest.approx(abs(exact), rel=1e-7)


def test_a_line_a_point_and_an_empty_shape_beside_an_area_add_none():
    area = box(-10, 20, 10, 50)
    mixed = shapely.GeometryCollection([LineString([(20, 0), (40, 50)]), shapely.Point(50, 5), Polygon(), area])
    assert true_area(STRIP, mixed) == pytest.approx(true_area(STRIP, area), rel=1e-12)
    assert true_area(STRIP, LineString([(20, 0), (40, 50)])) == 0
