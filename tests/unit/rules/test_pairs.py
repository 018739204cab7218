"""How far apart two marks lie, worked out by hand: places from readings, distances from places, gaps from distances.

The tire is a 205/55R16: 316 mm from the axle to the tread, a crown of radius 820 mm. Its crown is 12 mm thick where
that is exactly known, 11.3 to 12.7 mm by gauge; where nobody measured it, it is drawn 14.5 mm thick.
"""

import gc
from dataclasses import replace
from math import cos, hypot, inf, pi, radians
from weakref import ref

import pytest

from tests.helpers.jobs import bench_job, crown_injury, evenly_worn, from_outboard_edge, gauged, measured_tire
from tiremap.assess import assess
from tiremap.assessment import case_of
from tiremap.model.measures import Around, Lean, Length
from tiremap.rules.marks import HeadSize
from tiremap.rules.pairs import Apart, Reach, apart, reach_of, turning
from tiremap.rules.reading import UNBOUNDED, Reading

SIX = Length(value=6.0, how="exact")
EXACT_CROWN = {**evenly_worn(SIX), "under_grooves": SIX}
GAUGED_CROWN = {**evenly_worn(gauged(6.0)), "under_grooves": gauged(6.0)}
UNKNOWN_CROWN = {"tread_depth": None, "under_grooves": None}
TWO_ENDS = 2  # of the tread width
FOUR_ENDS = 4  # of tread width and thickness, where the tread is exactly as deep everywhere


def facts_and_mark(tire, **injury):
    case = case_of(assess(bench_job(crown_injury(**injury), tire=measured_tire(**tire)), advise=False))
    return case.facts, case.injuries[0]


EXACT, A_MARK = facts_and_mark(EXACT_CROWN)
GAUGED, _ = facts_and_mark(GAUGED_CROWN)


def exact_lean(value):
    return Lean(value=value, how="exact")


def with_head(radius, half_across=(0.0, 0.0, 0.0), half_around=(0.0, 0.0, 0.0)):
    return replace(A_MARK, head=HeadSize(Reading("", "", *radius), half_across, half_around))


ONE = with_head((10.0, 11.0, 12.0), (1.0, 2.0, 3.0), (4.0, 5.0, 6.0))
OTHER = with_head((20.0, 21.0, 22.0), (7.0, 8.0, 9.0), (2.0, 3.0, 4.0))
POINTS = with_head((0.0, 0.0, 0.0))


def lying(across, around, stated, first=ONE, second=OTHER):
    return Apart(first, second, across, around, *stated, around_rad=0.1, angle=(0.1, 0.1))


@pytest.mark.parametrize("swapped", [False, True])
def test_a_gap_is_the_distance_less_both_axes_and_both_radii(swapped):
    """Least: 30-3-9 and 34-6-4, so 18 and 24. Stated: 34-2-8 and 40-5-3, so 24 and 32. Greatest: 38-1-7 and 46-4-2."""
    heads = (OTHER, ONE) if swapped else (ONE, OTHER)
    pair = lying((30.0, 38.0), (34.0, 46.0), (34.0, 40.0), *heads)
    gap, beyond = pair.gap(), pair.gap(6.0)
    assert (gap.low, gap.stated, gap.high) == (30 - 12 - 22, 40 - 11 - 21, 50 - 10 - 20)
    assert (beyond.low, beyond.stated, beyond.high) == (-4 - 12, 8 - 12, 20 - 12)


@pytest.mark.parametrize(
    ("across", "around", "bare"),
    [
        ((9.0, 5.0, 4.0), (40.0, 40.0, 44.0), (30.0, 32.0, 38.0)),  # across they lie within their axes
        ((42.0, 42.0, 46.0), (3.0, 3.0, 4.0), (30.0, 32.0, 38.0)),  # around they do
        ((0.0, 0.0, 0.0), (0.0, 0.0, 0.0), (0.0, 0.0, 0.0)),
    ],
)
def test_heads_within_each_others_axes_gain_nothing_that_way(across, around, bare):
    pair = lying((across[0], across[2]), (around[0], around[2]), (across[1], around[1]))
    gap = pair.gap()
    assert (gap.low, gap.stated, gap.high) == (bare[0] - 34.0, bare[1] - 32.0, bare[2] - 30.0)


@pytest.mark.parametrize(
    ("stated", "first", "second"),
    [
        ((None, 40.0), ONE, OTHER),
        ((34.0, None), ONE, OTHER),
        ((34.0, 40.0), with_head((10.0, None, 12.0)), OTHER),
        ((34.0, 40.0), ONE, with_head((20.0, None, 22.0))),
    ],
)
def test_no_gap_is_stated_where_a_place_or_a_head_was_never_entered(stated, first, second):
    gap = lying((30.0, 38.0), (34.0, 46.0), stated, first, second).gap()
    assert gap.stated is None
    assert -inf < gap.low < gap.high < inf


def test_a_gap_past_a_hundred_meters_comes_from_no_bound_and_is_told_as_none():
    endless = lying((0.0, UNBOUNDED), (0.0, UNBOUNDED), (None, None), with_head((0.0, None, UNBOUNDED))).gap()
    assert (endless.low, endless.high) == (-inf, inf)
    heads = with_head((0.0, None, 40_000.0)), with_head((0.0, None, 60_000.0))
    just_not = lying((0.0, 100_000.0), (0.0, 0.0), (None, None), *heads).gap()
    assert (just_not.low, just_not.high) == (-100_000.0, 100_000.0)


@pytest.mark.parametrize(
    ("stated", "distance"), [((3.0, 4.0), 5.0), ((None, 4.0), None), ((3.0, None), None), ((0.0, 0.0), 0.0)]
)
def test_the_stated_distance_counts_both_ways_and_needs_both(stated, distance):
    assert lying((0.0, 9.0), (0.0, 9.0), stated).distance == distance


def test_the_inside_end_is_kept_for_each_end_of_the_tread_width():
    """40 +- 2 mm inside the edge of a tread of 170 +- 2, and on by a thickness of its own at 45 degrees."""
    facts, mark = facts_and_mark(GAUGED_CROWN, outside=from_outboard_edge(40.0), lean_across=exact_lean(45.0))
    expected = [(84 - 42 + 11.3, 84 - 38 + 12.7), (86 - 42 + 11.3, 86 - 38 + 12.7)]
    found = reach_of(facts, mark).across
    assert [end for ends in found for end in ends] == pytest.approx([end for ends in expected for end in ends])


def test_where_the_tread_is_as_deep_everywhere_it_is_kept_for_each_end_of_the_thickness_too():
    """6 mm of tread at any hole and 6 +- 0.5 under the grooves: two holes have the same thickness, whatever it is."""
    one_depth = {**GAUGED_CROWN, **evenly_worn(Length(value=6.0, how="exact"))}
    facts, mark = facts_and_mark(one_depth, outside=from_outboard_edge(40.0), lean_across=exact_lean(45.0))
    reach = reach_of(facts, mark)
    expected = [(84 - 42 + 11.5, 84 - 38 + 11.5), (84 - 42 + 12.5, 84 - 38 + 12.5),
                (86 - 42 + 11.5, 86 - 38 + 11.5), (86 - 42 + 12.5, 86 - 38 + 12.5)]
    assert [end for ends in reach.across for end in ends] == pytest.approx([end for ends in expected for end in ends])
    assert reach.whole_across == pytest.approx((53.5, 60.5))
    assert reach.stated == pytest.approx((45.0 + 12.0, 316 - 820 + 808 * cos(57.0 / 820)), abs=1e-9)
    least_radius = 316 - 820 + (820 - 12.5) * cos(60.5 / 820)
    assert reach.radii == pytest.approx((least_radius, 316 - 820 + (820 - 11.5) * cos(53.5 / 820)), abs=1e-9)


def radii_between(low, high):
    middle, off = (low + high) / 2, (high - low) / 2
    place = from_outboard_edge(85.0 - middle, how="exact", minus=off, plus=off)
    width = Length(value=170.0, how="exact")
    return reach_of(*facts_and_mark({**EXACT_CROWN, "tread_width": width}, outside=place, lean_across=exact_lean(0.0)))


@pytest.mark.parametrize(
    ("low", "high", "nearest", "furthest"),
    [
        (10.0, 30.0, 10.0, 30.0), (-30.0, -10.0, 10.0, 30.0), (-30.0, 10.0, 0.0, 30.0), (-10.0, 30.0, 0.0, 30.0),
        (-0.5, 40.0, 0.0, 40.0),
    ],
)
def test_the_liner_is_furthest_from_the_axle_where_it_is_nearest_the_center_plane(low, high, nearest, furthest):
    reach = radii_between(low, high)
    assert reach.whole_across == pytest.approx((low, high))
    radii = [316 - 820 + 808 * cos(each / 820) for each in (furthest, nearest)]
    assert reach.radii == pytest.approx(radii, abs=1e-6)


def test_a_place_and_lean_nobody_took_lie_anywhere_and_nothing_is_stated():
    facts, mark = facts_and_mark(GAUGED_CROWN, lean_across=None)
    reach = reach_of(facts, mark)
    assert reach.across == ((-UNBOUNDED, UNBOUNDED),) * TWO_ENDS
    assert reach.stated is None


@pytest.mark.parametrize(
    ("outside", "width_known", "stated"),
    [
        (from_outboard_edge(40.0), True, 45.0), (from_outboard_edge(40.0), False, None),
        (from_outboard_edge(40.0).model_copy(update={"origin": "center"}), True, 40.0),
        (from_outboard_edge(40.0).model_copy(update={"origin": "center"}), False, 40.0),
    ],
)
def test_a_place_from_an_edge_is_stated_only_on_a_tread_whose_width_was_measured(outside, width_known, stated):
    tire = EXACT_CROWN if width_known else {**EXACT_CROWN, "tread_width": None}
    found = reach_of(*facts_and_mark(tire, outside=outside)).stated
    assert stated == (None if found is None else pytest.approx(found[0]))


@pytest.mark.parametrize("lean", [45.0, -45.0])
def test_a_lean_around_carries_the_inside_end_on_by_the_thickness_over_the_liners_radius(lean):
    at_10 = {"around": Around(value=10.0, how="exact", minus=1.0, plus=2.0), "lean_around": exact_lean(lean)}
    sign = 1 if lean > 0 else -1
    thin, thick = sorted((sign * 11.3 / (316 - 11.3), sign * 12.7 / (316 - 12.7)))
    reach = reach_of(*facts_and_mark(GAUGED_CROWN, **at_10))
    assert reach.around == pytest.approx((radians(9.0) + thin, radians(12.0) + thick))
    assert reach.stated_around == pytest.approx(radians(10.0) + sign * 12 / (316 - 12))
    drawn = reach_of(*facts_and_mark(UNKNOWN_CROWN, **at_10))
    assert drawn.stated_around == pytest.approx(radians(10.0) + sign * 14.5 / (316 - 14.5))


@pytest.mark.parametrize("unknown", ["around", "lean_around"])
def test_no_angle_is_stated_where_place_or_lean_around_was_never_entered(unknown):
    assert reach_of(*facts_and_mark(EXACT_CROWN, **{unknown: None})).stated_around is None


def test_a_mark_whose_place_around_is_exactly_known_turns_with_it_and_with_nothing_else():
    lean = Lean(value=0.0, how="exact", minus=45.0, plus=45.0)
    facts, mark = facts_and_mark(GAUGED_CROWN, lean_around=lean)
    reach, moved = reach_of(facts, mark), turning(facts, mark)(1.5)
    most = 12.7 / (316 - 12.7)
    assert moved.around == pytest.approx((1.5 - most, 1.5 + most))
    assert moved.stated_around is None
    assert moved == replace(reach, around=moved.around, stated_around=None)


def test_where_a_mark_may_lie_is_worked_out_once_on_one_tire():
    facts, mark = facts_and_mark(GAUGED_CROWN)
    once, again = reach_of(facts, mark), reach_of(facts, mark)
    assert once == again and once.across is again.across and once.mark is mark
    assert reach_of(replace(facts), mark).across is not once.across


def test_a_mark_and_what_is_kept_of_it_goes_with_its_last_user():
    facts, mark = facts_and_mark(GAUGED_CROWN)
    reach_of(facts, mark), mark.ends_on(facts)(170.0, 0.0, 0.0, 14.0)
    gone = ref(mark)
    gc.disable()  # it is no cycle: of many files hundreds of objects each would wait to be looked for
    try:
        del mark
        assert gone() is None
    finally:
        gc.enable()


AT_THE_CENTER = ((0.0, 0.0),) * FOUR_ENDS


def reaching(across=AT_THE_CENTER, around=(0.0, 0.0), radii=(304.0, 304.0), stated=None, stated_around=None):
    return Reach(POINTS, across, around, radii, stated, stated_around)


@pytest.mark.parametrize(
    ("one", "other", "least", "most"),
    [
        (((10, 12), (11, 13), (12, 14), (13, 15)), ((40, 44), (42, 46), (44, 48), (46, 50)), 28, 37),
        (((10, 12), (11, 13), (12, 14), (13, 15)), ((-20, -14), (-19, -13), (-18, -12), (-17, -11)), 24, 32),
        (((-5, 5),) * 4, ((-3, 8),) * 4, 0, 13),  # they overlap
        (((0, 4),) * 4, ((4, 6),) * 4, 0, 6),  # they touch
        (((0, 0),) * 4, ((0.5, 0.5),) * 4, 0.5, 0.5),
    ],
)
def test_two_marks_are_compared_on_one_and_the_same_tread(one, other, least, most):
    """Least on the thickest crown, most on the thinnest; whichever is the first."""
    for first, second in ((one, other), (other, one)):
        across = apart(GAUGED, reaching(first), reaching(second)).across
        assert across == pytest.approx((least * (820 - 12.7) / 820, most * (820 - 11.3) / 820))


@pytest.mark.parametrize(
    ("one", "other", "least", "most"),
    [
        ((10, 12), (30, 34), 18, 24),
        ((350, 352), (8, 10), 16, 20),  # across the datum
        ((-10, -8), (8, 10), 16, 20),
        ((0, 20), (10, 30), 0, 30),  # they overlap
        ((170, 190), (-10, 10), 160, 180),  # opposite
        ((150, 190), (-10, 30), 120, 180),
        ((0, 0), (179, 181), 179, 180),
        ((130, 230), (-50, 50), 80, 180),  # 200 degrees of play leave 80
        ((-180, 180), (10, 10), 0, 180),  # once around
        ((-180, 180), (-180, 180), 0, 180),
        ((-270, 270), (0, 0), 0, 180),
    ],
)
def test_the_angle_apart_is_taken_the_short_way_with_both_as_near_or_far_as_they_may_be(one, other, least, most):
    ends = [tuple(map(radians, each)) for each in (one, other)]
    for first, second in (ends, ends[::-1]):
        pair = apart(EXACT, reaching(around=first, radii=(300.0, 310.0)), reaching(around=second, radii=(302.0, 316.0)))
        assert pair.angle == pytest.approx((radians(least), radians(most)), abs=1e-9)
        assert pair.around == pytest.approx((radians(least) * 301.0, radians(most) * 313.0), abs=1e-6)


@pytest.mark.parametrize(
    ("one", "other", "apart_deg"), [(355, 15, 20), (15, 355, 20), (10, 30, 20), (100, 280, 180), (0, 190, 170)]
)
def test_the_stated_angle_is_the_short_way_whatever_the_ranges_are(one, other, apart_deg):
    for play in (0.0, pi):
        first, second = (
            reaching(around=(radians(each) - play, radians(each) + play), stated_around=radians(each))
            for each in (one, other)
        )
        assert apart(EXACT, first, second).around_rad == pytest.approx(radians(apart_deg))


def test_stated_distances_are_along_the_liner_at_the_mean_of_both_radii():
    one = reaching(stated=(30.0, 300.0), stated_around=radians(350.0))
    other = reaching(stated=(-10.0, 304.0), stated_around=radians(10.0))
    for pair in (apart(EXACT, one, other), apart(EXACT, other, one)):
        assert pair.stated_across == pytest.approx(40.0 * 808 / 820)
        assert pair.stated_around == pytest.approx(radians(20.0) * 302.0)
        assert pair.distance == pytest.approx(hypot(40.0 * 808 / 820, radians(20.0) * 302.0))


@pytest.mark.parametrize("unknown", ["stated", "stated_around"])
def test_what_was_never_entered_leaves_its_stated_distance_open(unknown):
    known = reaching(stated=(30.0, 300.0), stated_around=0.0)
    for pair in (apart(EXACT, replace(known, **{unknown: None}), known),
                 apart(EXACT, known, replace(known, **{unknown: None}))):
        assert pair.distance is None
        assert pair.stated_around is None
        assert (pair.stated_across is None) == (unknown == "stated")
        assert (pair.around_rad is None) == (unknown == "stated_around")
