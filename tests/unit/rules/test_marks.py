"""What the checks know of one mark, worked out by hand on a 205/55R16.

That tire is 632 mm across, its tread 170 mm wide, its crown 12 mm thick, and round across with a radius of
4 x 205 = 820 mm.
"""

from math import atan, degrees, inf, pi, radians, tan

import pytest

from tests.helpers.jobs import (
    at_angle,
    bench_job,
    crown_injury,
    earlier_repair,
    from_center,
    from_outboard_edge,
    hole,
    measured_tire,
    probed,
    taped,
)
from tiremap.assess import assess
from tiremap.model.measures import Across, Around, BeadToes, HoleSize, Lean, Length
from tiremap.model.prepared import Prepared
from tiremap.model.stock import RepairUnit
from tiremap.rules.facts import tire_facts
from tiremap.rules.marks import HeadSize, Place, injury_facts, repair_facts, total_lean_deg, whole_hole
from tiremap.rules.reading import UNBOUNDED, Reading

FACTS = tire_facts(bench_job())
NO_LEAN = {"lean_across": None, "lean_around": None}
SMALL = RepairUnit(stem_mm=4.0, head_length_mm=40.0)
LONG = RepairUnit(stem_mm=6.0, head_length_mm=60.0, head_width_mm=44.0, head_along="across")
LONGER = RepairUnit(stem_mm=8.0, head_length_mm=80.0, head_width_mm=50.0)
PREPARED = Prepared(4.0, 4.0, 4.0, SMALL, SMALL, SMALL, foreseen=False)


def injury(prepared: Prepared = PREPARED, **fields):
    return injury_facts(crown_injury(**fields), FACTS, prepared)


def repair(**fields):
    return repair_facts(earlier_repair(**fields), FACTS)


def ends(reading: Reading) -> tuple[float, float | None, float]:
    return reading.low, reading.stated, reading.high


def test_what_a_mark_is_called():
    assert (injury().title, repair().title) == ("injury 1", "repair R1")
    assert (injury().is_injury, repair().is_injury) == (True, False)


# --- the channel ------------------------------------------------------------------------------------------------

HERE, IN_10 = from_center(30.0), from_center(10.0)


@pytest.mark.parametrize(("outside", "inside", "values", "told"), [
    (HERE, None, (30.0, 0.5), (30.0, 36.0, 0.5)),  # the place and the lean: 12 x 0.5 = 6 mm further out
    (HERE, None, (-30.0, -0.5), (-30.0, -36.0, -0.5)),
    (None, HERE, (0.5, 30.0), (24.0, 30.0, 0.5)),  # the lean and where it comes out
    (None, HERE, (-0.5, 30.0), (36.0, 30.0, -0.5)),
    (HERE, IN_10, (30.0, 24.0), (30.0, 24.0, -0.5)),  # both ends: the lean follows
    (None, None, (30.0, 0.5), (30.0, 36.0, 0.5)),
    (from_outboard_edge(35.0), None, (35.0, 0.0), (50.0, 50.0, 0.0)),  # half of 170 less 35
    (Across(value=35.0, origin="inboard_edge", how="tape"), None, (35.0, 0.0), (-50.0, -50.0, 0.0)),
    (None, BeadToes(from_outboard=0.0, from_inboard=161.6, how="tape"), (0.0, 80.8), (82.0, 82.0, 0.0)),  # x 820 / 808
])
def test_the_two_ends_of_a_channel_follow_from_what_was_measured(outside, inside, values, told):
    mark = injury(outside=outside, inside=inside)
    found = mark.channel_ends(FACTS, 170.0, *values, 12.0)
    assert found == pytest.approx(told)
    assert mark.ends_on(FACTS)(170.0, *values, 12.0) == found


def test_a_mark_on_another_tire_starts_anew():
    wider, mark = tire_facts(bench_job(tire=measured_tire("225/45R17"))), injury(outside=None, inside=HERE)
    assert mark.ends_on(FACTS) is mark.ends_on(FACTS)
    mark.kept_on(FACTS)["seen"] = True
    assert mark.kept_on(FACTS)["seen"] and mark.kept_on(wider) == {}
    assert mark.kept_on(FACTS) == {}
    liner = injury(outside=None, inside=BeadToes(from_outboard=0.0, from_inboard=161.6, how="tape"))
    assert liner.ends_on(FACTS)(170.0, 0.0, 80.8, 12.0)[1] == pytest.approx(80.8 * 820 / 808)
    assert liner.ends_on(wider)(170.0, 0.0, 80.8, 12.0)[1] == pytest.approx(80.8 * 900 / 888)


BOTH, OUT, IN, NEITHER = (HERE, IN_10), (HERE, None), (None, IN_10), (None, None)


@pytest.mark.parametrize(("given", "follows"), [(BOTH, True), (OUT, False), (IN, False), (NEITHER, False)])
def test_a_lean_follows_from_both_ends_alone(given, follows):
    outside, inside = given
    assert injury(outside=outside, inside=inside).lean_follows is follows


@pytest.mark.parametrize("edge", ["outboard_edge", "inboard_edge"])
def test_a_mark_hangs_on_the_tread_s_width_where_an_end_was_taken_from_a_tread_edge(edge):
    taken = Across(value=35.0, origin=edge, how="tape")
    assert injury(outside=taken).hangs_on_tread_width
    assert injury(outside=HERE, inside=taken).hangs_on_tread_width
    assert injury(outside=taken, inside=HERE).hangs_on_tread_width
    assert not injury(outside=HERE, inside=IN_10).hangs_on_tread_width
    assert not injury(outside=None).hangs_on_tread_width
    toes = BeadToes(from_outboard=10.0, from_inboard=10.0, how="tape")
    assert not injury(outside=None, inside=toes).hangs_on_tread_width


def test_which_readings_place_the_two_ends():
    both, out, within, neither = (injury(outside=one, inside=other) for one, other in (BOTH, OUT, IN, NEITHER))
    assert (both.outside_reading.field, both.inside_reading.field) == ("injury.1.outside", "injury.1.inside")
    assert (out.outside_reading.field, out.inside_reading.field) == ("injury.1.outside", "injury.1.lean_across")
    assert (within.outside_reading.field, within.inside_reading.field) == ("injury.1.lean_across", "injury.1.inside")
    unplaced = neither.outside_reading
    assert (unplaced.field, unplaced.words) == ("injury.1.outside", "the place of injury 1")
    assert ends(unplaced) == (-UNBOUNDED, None, UNBOUNDED)
    assert neither.inside_reading.field == "injury.1.lean_across"


@pytest.mark.parametrize(("fields", "told"), [
    ({"outside": HERE, "lean_across": Lean(value=45.0, how="probe")}, (30.0, 42.0)),  # 12 mm in, 12 mm aside
    ({"outside": HERE, **NO_LEAN}, (30.0, 30.0)),  # upright where no lean was taken
    ({"outside": HERE, "inside": IN_10}, (30.0, 10.0)),
    ({"outside": None, "inside": HERE, "lean_across": Lean(value=45.0, how="probe")}, (18.0, 30.0)),
    ({"outside": None, "inside": None, **NO_LEAN}, (0.0, 0.0)),  # on the center until it is placed
])
def test_where_the_two_ends_are_drawn(fields, told):
    assert injury(**fields).stated_ends(FACTS) == pytest.approx(told)


def test_without_a_measured_crown_the_drawing_s_thickness_carries_the_lean():
    """8 mm of tread as drawn and 6.5 to the liner: 1.5 of rubber, two belts of 1.2, a ply of 1.1, a liner of 1.5."""
    facts = tire_facts(bench_job(tire=measured_tire(tread_depth=None, under_grooves=None)))
    leaning = crown_injury(across_mm=30.0, lean_across=Lean(value=45.0, how="probe"))
    assert injury_facts(leaning, facts, PREPARED).stated_ends(facts) == pytest.approx((30.0, 44.5))


def test_a_lean_around_carries_the_inside_end_on_around_the_liner():
    """12 mm in at a slope of one half are 6 mm on, on a circle of 316 less 12 mm."""
    assert injury().around_shift(FACTS, 12.0, 0.5) == pytest.approx(6.0 / 304.0)
    leaning = injury(around_deg=90.0, lean_around=Lean(value=degrees(atan(0.5)), how="probe"))
    assert leaning.stated_around_inside(FACTS) == pytest.approx(pi / 2 + 6.0 / 304.0)
    assert injury(around_deg=90.0, lean_around=None).stated_around_inside(FACTS) == pytest.approx(pi / 2)
    assert injury(around_deg=None).stated_around_inside(FACTS) is None
    assert repair(around_deg=180.0).stated_around_inside(FACTS) == pytest.approx(pi)


@pytest.mark.parametrize(("across", "around", "total"), [
    (0.3, 0.4, degrees(atan(0.5))), (-0.3, 0.4, degrees(atan(0.5))),
    (1.0, 0.0, 45.0), (0.0, -1.0, 45.0), (0.0, 0.0, 0.0),
])
def test_a_lean_in_two_parts_is_one_of_their_slopes_together(across, around, total):
    assert total_lean_deg(across, around) == pytest.approx(total)


# --- lean -------------------------------------------------------------------------------------------------------


def lean_across(value: float, how: str = "eye"):
    job = bench_job(crown_injury(lean_across=Lean(value=value, how=how), lean_around=probed(0.0)))
    return assess(job).mark("1").facts.lean_across


def test_by_eye_a_lean_of_80_degrees_may_be_65_or_flat():
    reading = lean_across(80.0)
    assert (reading.low, reading.high) == (pytest.approx(tan(radians(65.0))), UNBOUNDED)
    mirrored = lean_across(-80.0)
    assert (mirrored.low, mirrored.high) == (-UNBOUNDED, -reading.low)


def test_exactly_at_a_right_angle_the_tangent_is_no_huge_number_but_no_bound():
    assert lean_across(75.0).high == UNBOUNDED
    assert lean_across(74.0).high == pytest.approx(tan(radians(89.0)))
    assert lean_across(-75.0).low == -UNBOUNDED


def test_a_lean_is_told_in_whole_degrees_and_carried_as_its_tangent():
    mark = injury(lean_across=Lean(value=10.0, how="eye"), lean_around=Lean(value=-10.0, how="probe"))
    across, around = mark.lean_across, mark.lean_around
    assert ends(across) == pytest.approx((tan(radians(-5.0)), tan(radians(10.0)), tan(radians(25.0))))
    assert ends(around) == pytest.approx((tan(radians(-15.0)), tan(radians(-10.0)), tan(radians(-5.0))))
    assert (across.words, around.words) == ("the lean of injury 1 across", "the lean of injury 1 around")
    assert (across.field, around.field) == ("injury.1.lean_across", "injury.1.lean_around")
    assert (across.estimated, around.estimated) == (True, False)
    for reading in (across, around, injury(**NO_LEAN).lean_across):
        assert (reading.tangent, reading.step, reading.unit, reading.entered) == (True, 1.0, "deg", True)


def test_a_lean_nobody_took_may_be_any():
    for reading in (injury(**NO_LEAN).lean_across, injury(**NO_LEAN).lean_around):
        assert (ends(reading), reading.estimated) == ((-UNBOUNDED, None, UNBOUNDED), True)


# --- the hole ---------------------------------------------------------------------------------------------------

UNSEEN = HoleSize(value=0.0, how="exact")


@pytest.mark.parametrize(("outside", "inside", "told"), [
    (None, None, (0.0, None, inf)),
    (UNSEEN, None, (0.0, None, inf)), (UNSEEN, UNSEEN, (0.0, None, inf)),  # no size at all is no measurement
    (hole(4.0, stops=5.0), None, (4.0, 4.0, 5.0)), (None, hole(4.0, stops=5.0), (4.0, 4.0, 5.0)),
    (UNSEEN, hole(4.0, stops=5.0), (4.0, 4.0, 5.0)),
    (hole(4.0, stops=5.0), hole(3.0, stops=6.0), (4.0, 4.0, 6.0)),  # the larger of each
    (hole(0.0, stops=0.5), None, (0.0, 0.0, 0.5)),  # nothing enters, but it is no more than half a millimeter
    (hole(4.0, how="rule"), hole(5.5, how="rule"), (4.5, 5.5, 6.5)),
])
def test_the_whole_hole_is_the_larger_of_its_two_ends(outside, inside, told):
    assert whole_hole(crown_injury(size_outside=outside, size_inside=inside)) == told


def test_a_hole_of_no_size_is_not_read_and_one_of_any_size_is():
    assert injury(size_outside=UNSEEN, size_inside=None).hole_outside is None
    assert injury(size_outside=UNSEEN, size_inside=None).hole_inside is None
    least = injury(size_outside=hole(0.0, stops=0.5)).hole_outside
    assert ends(least) == (0.0, 0.0, 0.5)


def test_the_sizes_of_a_hole_outside_and_inside_are_two_readings():
    mark = injury(size_outside=hole(4.0, stops=5.0), size_inside=hole(3.0, how="eye"))
    outside, inside = mark.hole_outside, mark.hole_inside
    assert (ends(outside), ends(inside)) == ((4.0, 4.0, 5.0), (1.0, 3.0, 5.0))
    assert (outside.field, outside.words) == ("injury.1.size_outside", "the size of injury 1 outside")
    assert (inside.field, inside.words) == ("injury.1.size_inside", "the size of injury 1 inside")
    assert (outside.estimated, inside.estimated) == (False, True)
    assert (outside.step, outside.entered) == (0.1, True)


@pytest.mark.parametrize(("outside", "inside", "field", "words"), [
    (hole(4.0, stops=5.0), hole(4.0, stops=6.0), "size_inside", "the size of injury 1 inside"),
    (hole(4.0, stops=6.0), hole(4.0, stops=5.0), "size_outside", "the size of injury 1 outside"),
    (hole(4.0, stops=5.0), hole(4.0, stops=5.0), "size_outside", "the size of injury 1 outside"),
    (None, hole(4.0, stops=5.0), "size_inside", "the size of injury 1 inside"),
    (None, None, "size_outside", "the size of injury 1"),
    (UNSEEN, None, "size_outside", "the size of injury 1"),
])
def test_the_channel_is_to_be_measured_where_the_hole_may_be_larger(outside, inside, field, words):
    channel = injury(size_outside=outside, size_inside=inside).channel
    assert (channel.field, channel.words) == (f"injury.1.{field}", words)


def test_the_channel_is_as_wide_as_prepared_in_the_steps_of_the_cutters_and_is_no_entry_itself():
    known = injury(Prepared(4.0, 4.0, 6.0, SMALL, SMALL, LONG, foreseen=True, cutters=(4.0, 6.0))).channel
    assert (ends(known), known.steps, known.estimated, known.entered) == ((4.0, 4.0, 6.0), (4.0, 6.0), False, False)
    unknown = injury(Prepared(0.0, None, inf, None, SMALL, None, foreseen=True)).channel
    assert (ends(unknown), unknown.estimated) == ((0.0, None, UNBOUNDED), True)


# --- the head ---------------------------------------------------------------------------------------------------


def test_the_head_of_a_hole_is_that_of_the_units_its_least_stated_and_greatest_size_take():
    mark = injury(Prepared(4.0, 6.0, 8.0, LONG, SMALL, LONGER, foreseen=True))
    assert ends(mark.head.radius) == (20.0, 22.0, 25.0)
    assert mark.head.half_across == (0.0, 8.0, 0.0)  # (60 less 44) / 2
    assert mark.head.half_around == (0.0, 0.0, 15.0)  # (80 less 50) / 2
    assert (mark.head.radius.field, mark.head.radius.words) == (mark.channel.field, mark.channel.words)
    assert (mark.head.radius.step, mark.head.radius.estimated) == (0.0, False)
    assert mark.prepared_hole.high_unit is LONGER


@pytest.mark.parametrize(("unit", "across", "around"), [(LONG, 8.0, 0.0), (LONGER, 0.0, 15.0)])
def test_a_long_head_that_every_size_takes_is_as_long_at_its_least_and_its_greatest(unit, across, around):
    head = injury(Prepared(6.0, 6.0, 6.0, unit, unit, unit, foreseen=False)).head
    assert (head.half_across, head.half_around) == ((across,) * 3, (around,) * 3)


def test_a_hole_no_unit_fits_has_a_head_without_bound():
    mark = injury(Prepared(4.0, None, inf, None, None, None, foreseen=True))
    assert ends(mark.head.radius) == (0.0, None, UNBOUNDED)
    assert (mark.head.half_across, mark.head.half_around) == ((0.0, 0.0, 0.0), (0.0, 0.0, 0.0))
    assert mark.head.radius.estimated


def test_a_head_reaches_across_by_its_ends_radius_and_half_its_axis():
    radius = Reading("f", "w", 19.0, 20.0, 21.0, step=0.0)
    assert ends(HeadSize(radius).reach_across) == (19.0, 20.0, 21.0)
    reach = HeadSize(radius, half_across=(4.0, 5.0, 6.0), half_around=(7.0, 8.0, 9.0)).reach_across
    assert (ends(reach), reach.field, reach.words, reach.step) == ((23.0, 25.0, 27.0), "f", "w", 0.0)
    unknown = HeadSize(radius._replace(stated=None), half_across=(4.0, 5.0, 6.0)).reach_across
    assert ends(unknown) == (23.0, None, 27.0)


@pytest.mark.parametrize("length", [None, Length(value=0.0, how="exact"), taped(0.0)])
def test_the_head_of_a_repair_nobody_measured_may_be_of_any_size(length):
    head = repair(head_length=length).head
    assert ends(head.radius) == (0.0, None, UNBOUNDED)
    assert (head.radius.field, head.radius.words) == ("repair.R1.head_length", "the head of repair R1")
    assert (head.radius.step, head.half_across, head.half_around) == (0.0, (0.0, 0.0, 0.0), (0.0, 0.0, 0.0))


def test_a_round_head_reaches_half_its_diameter_with_half_its_tolerance():
    head = repair(head_length=taped(40.0)).head
    assert (ends(head.radius), head.radius.step, head.radius.estimated) == ((19.0, 20.0, 21.0), 0.0, False)
    assert (head.half_across, head.half_around) == ((0.0, 0.0, 0.0), (0.0, 0.0, 0.0))
    assert repair(head_length=Length(value=0.5, how="exact")).head.radius.stated == 0.25
    by_eye = repair(head_length=Length(value=40.0, how="eye")).head.radius
    assert (ends(by_eye), by_eye.estimated) == ((15.0, 20.0, 25.0), True)


def test_a_long_head_has_its_axis_the_way_it_lies():
    """70 by 40 mm, each to 2 mm by tape: round ends of 20 mm, their centers 15 mm to either side."""
    long = {"head_length": taped(70.0), "head_width": taped(40.0)}
    around, across = repair(**long).head, repair(**long, head_along="across").head
    for head in (around, across):
        assert (ends(head.radius), head.radius.field) == ((19.0, 20.0, 21.0), "repair.R1.head_length")
    assert (around.half_across, around.half_around) == ((0.0, 0.0, 0.0), (15.0, 15.0, 15.0))
    assert (across.half_across, across.half_around) == ((15.0, 15.0, 15.0), (0.0, 0.0, 0.0))
    wider = repair(head_length=taped(30.0), head_width=taped(40.0)).head
    assert wider.half_around == (0.0, 0.0, 0.0)  # never less than round


# --- place ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("taken", "told", "origin", "where"), [
    (from_center(30.0), (28.0, 30.0, 32.0), "center", "from the center, outboard +"),
    (from_center(-30.0), (-32.0, -30.0, -28.0), "center", "from the center, outboard +"),
    (from_outboard_edge(35.0, minus=1.0, plus=3.0), (34.0, 35.0, 38.0), "outboard_edge",
     "from the outboard tread edge"),
    (from_center(1.0, unit="in", minus=0.5, plus=1.0), (12.7, 25.4, 50.8), "center", "from the center, outboard +"),
    (Across(value=35.0, origin="inboard_edge", how="tape"), (33.0, 35.0, 37.0), "inboard_edge",
     "from the inboard tread edge"),
    (BeadToes(from_outboard=200.0, from_inboard=260.0, how="tape"), (26.0, 30.0, 34.0), "liner",
     "along the liner from the center, outboard +"),
])
def test_a_place_across_is_read_from_where_it_was_taken(taken, told, origin, where):
    mark = injury(outside=None, inside=taken)
    assert mark.inside.origin == origin and ends(mark.inside.reading) == pytest.approx(told)
    assert mark.inside.reading.words == f"where injury 1 comes out inside ({where})"
    assert (mark.inside.reading.field, mark.inside.reading.step) == ("injury.1.inside", 0.1)
    placed = repair(inside=taken)
    assert placed.inside.reading.words == f"the place of repair R1 across ({where})"
    if not isinstance(taken, BeadToes):
        outside = injury(outside=taken).outside.reading
        assert (outside.field, outside.words) == ("injury.1.outside", f"the place of injury 1 across ({where})")


def test_a_place_by_eye_is_an_estimate_and_one_nobody_took_is_none():
    assert injury(outside=from_center(0.0, how="eye")).outside.reading.estimated
    assert not injury(outside=from_center(0.0)).outside.reading.estimated
    assert injury(outside=None).outside is None and injury().inside is None


@pytest.mark.parametrize(("taken", "told_deg", "unit", "step", "shown"), [
    (at_angle(90.0), (88.0, 90.0, 92.0), "deg", 1.0, 90.0),
    (Around(value=90.0, how="eye"), (75.0, 90.0, 105.0), "deg", 1.0, 90.0),
    (Around(value=3.0, unit="h", how="clock"), (75.0, 90.0, 105.0), "h", 0.25, 3.0),
    (Around(value=316.0, unit="mm", how="exact"), (degrees(1.0),) * 3, "mm", 1.0, 316.0),  # one radius on: a radian
    (Around(value=10.0, unit="in", how="exact"), (degrees(254.0 / 316.0),) * 3, "mm", 1.0, 254.0),
])
def test_a_place_around_is_read_in_radians_and_told_in_its_own_unit(taken, told_deg, unit, step, shown):
    reading = injury(around=taken).around
    assert ends(reading) == pytest.approx(tuple(radians(end) for end in told_deg))
    assert (reading.field, reading.words) == ("injury.1.around", "the place of injury 1 around the tire")
    assert (reading.unit, reading.step, reading.tangent) == (unit, step, False)
    assert reading.shown(reading.stated) == pytest.approx(shown)
    assert reading.estimated is (taken.how in ("eye", "clock"))


def test_a_place_around_nobody_took_may_be_anywhere():
    for reading in (injury(around_deg=None).around, repair(around_deg=None).around):
        assert (ends(reading), reading.step, reading.unit) == ((-pi, None, pi), 0.0, "deg")
        assert reading.shown(pi) == pytest.approx(180.0) and reading.estimated


def test_the_crown_at_a_hole_is_told_by_where_it_comes_out_and_then_by_the_thickness_under_the_grooves():
    not_out, out = injury(inside=None).thickness, injury(inside=IN_10).thickness
    assert (not_out.field, not_out.words) == ("injury.1.inside", "where injury 1 comes out inside")
    assert (out.field, out.words) == ("tire.under_grooves", "the thickness under the grooves")
    assert ends(not_out) == ends(out) == ends(FACTS.thickness)


def test_an_earlier_repair_is_upright_has_no_hole_and_lies_where_its_head_does():
    mark = repair(across_mm=30.0)
    assert mark.outside is mark.hole_outside is mark.hole_inside is mark.prepared is None
    assert [ends(each) for each in (mark.lean_across, mark.lean_around, mark.channel)] == [(0.0, 0.0, 0.0)] * 3
    assert (mark.inside.reading.field, mark.around.field) == ("repair.R1.inside", "repair.R1.around")
    assert mark.around.words == "the place of repair R1 around the tire"
    assert (mark.thickness.field, ends(mark.thickness)) == ("", ends(FACTS.thickness))
    assert mark.stated_ends(FACTS) == (30.0, 30.0)


def test_an_earlier_repair_nobody_placed_may_lie_anywhere_across():
    place = repair(inside=None).inside
    assert isinstance(place, Place) and place.origin == "center"
    assert ends(place.reading) == (-UNBOUNDED, None, UNBOUNDED)
    assert (place.reading.field, place.reading.words) == ("repair.R1.inside", "the place of repair R1 across")
