"""The dimensions a technician works to: closed forms on exact tires, and what is said of what nobody measured."""

from math import cos, pi, radians, tan

import pytest

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, evenly_worn, hole, measured_tire, probed
from tiremap.assess import assess
from tiremap.model.measures import Across, Around, HoleSize, Lean, Length
from tiremap.model.stock import RepairUnit
from tiremap.repair_dimensions import RepairDimensions, repair_dimensions
from tiremap.workshop.stock import house_stock

TREAD, THICKNESS = 170.0, 14.0
DIAMETER = 632.0
"""205/55R16: 16 in and twice 113 mm."""
BORDER, PRE_CLEANED, SEALED = 6.0, 10.0, 3.0


def exact(value: float) -> Length:
    return Length(value=value, how="exact")


def exactly_at(across: float, **fields):
    """A 4 mm hole there at 90 degrees, everything exact."""
    usual = dict(
        outside=Across(value=across, origin="center", how="exact"), around=Around(value=90.0, how="exact"),
        lean_across=Lean(value=0.0, how="exact"), lean_around=Lean(value=0.0, how="exact"),
        size_outside=HoleSize(value=4.0, how="exact"), size_inside=HoleSize(value=4.0, how="exact"),
    )
    return crown_injury(**{**usual, **fields})


def exact_tire(**fields):
    usual = dict(tread_width=exact(TREAD), **evenly_worn(exact(7.0)), under_grooves=exact(7.0))
    return measured_tire(**{**usual, **fields})


def only(*marks, stock=None, **fields) -> RepairDimensions:
    job = bench_job(*marks, **{"tire": exact_tire(), **fields})
    return repair_dimensions(assess(job, stock=stock))[0]


@pytest.mark.parametrize("lean", [0.0, 12.0, 24.0])
def test_the_channel_is_the_thickness_over_the_cosine_of_the_lean(lean):
    found = only(exactly_at(20.0, lean_across=Lean(value=lean, how="exact")))
    for length in (found.channel.low, found.channel.stated, found.channel.high):
        assert length == pytest.approx(THICKNESS / cos(radians(lean)), abs=1e-9)


def test_a_lean_both_ways_adds_as_its_tangents_do():
    leans = {"lean_across": Lean(value=15.0, how="exact"), "lean_around": Lean(value=-20.0, how="exact")}
    found = only(exactly_at(20.0, **leans))
    assert found.channel.stated == pytest.approx(
        THICKNESS * (1 + tan(radians(15)) ** 2 + tan(radians(20)) ** 2) ** 0.5, abs=1e-9
    )


def test_the_channel_of_any_true_lean_lies_within_the_range_of_a_probed_one():
    """A probe is taken to 5 degrees; the crown is 12 mm, known exactly here."""
    tire = exact_tire(**evenly_worn(exact(6.0)), under_grooves=exact(6.0))
    found = only(exactly_at(20.0, lean_across=probed(3.0), lean_around=probed(-8.0)), tire=tire)
    assert found.channel.low == pytest.approx(12 / cos(radians(3)), abs=1e-9)  # upright across, 3 degrees around
    assert found.channel.high == pytest.approx(12 * (1 + tan(radians(8)) ** 2 + tan(radians(13)) ** 2) ** 0.5, abs=1e-9)
    for across in (-2.0, 0.0, 3.0, 8.0):
        for around in (-13.0, -8.0, -3.0):
            lean = {"lean_across": Lean(value=across, how="exact"), "lean_around": Lean(value=around, how="exact")}
            true = only(exactly_at(20.0, **lean), tire=tire).channel.stated
            assert found.channel.low - 1e-9 <= true <= found.channel.high + 1e-9


def test_where_both_ends_were_measured_the_lean_is_theirs():
    injury = exactly_at(20.0, inside=Across(value=26.0, origin="center", how="exact"), lean_across=None)
    assert only(injury).channel.stated == pytest.approx((THICKNESS**2 + 6.0**2) ** 0.5, abs=1e-9)


def test_without_a_lean_the_channel_has_no_greatest_length_and_no_stem_is_long_enough():
    found = only(exactly_at(20.0, lean_across=None))
    assert found.channel.low == pytest.approx(THICKNESS)
    assert found.channel.stated is None and found.channel.high is None and found.stem_at_least is None


def test_the_stem_is_longer_than_the_longest_channel_and_says_by_how_much_one_in_stock_is_short():
    short = house_stock().model_copy(
        update={"units": (RepairUnit(stem_mm=4.0, head_length_mm=40.0, stem_length_mm=20.0),)}
    )
    found = only(exactly_at(0.0), stock=short)
    assert found.stem_at_least == pytest.approx(24.0)  # 14 mm and 10 mm to pull and cut
    assert found.stem_short == pytest.approx(4.0)
    assert only(exactly_at(0.0)).stem_short is None  # nobody entered how long the stems of the stock are


@pytest.mark.parametrize(("lean", "kind"), [(0.0, "one_piece"), (20.0, "one_piece"), (20.5, "stem_and_patch")])
def test_the_lean_at_the_top_of_its_tolerance_chooses_the_kind(lean, kind):
    """25 degrees (association guidelines, North America); a probe is taken to 5 degrees. It never answers."""
    injury = exactly_at(10.0, lean_across=probed(lean))
    assert only(injury).kind == kind


def test_a_lean_known_in_part_can_be_too_much_but_never_little_enough():
    assert only(exactly_at(10.0, lean_around=None)).kind is None
    assert only(exactly_at(10.0, lean_around=None, lean_across=probed(30.0))).kind == "stem_and_patch"


def test_a_kind_the_shop_does_not_stock_is_said():
    only_one_piece = house_stock().model_copy(update={"made": ("one_piece",)})
    leaning = exactly_at(10.0, lean_across=probed(30.0))
    assert not only(leaning, stock=only_one_piece).kind_in_stock
    assert only(exactly_at(10.0), stock=only_one_piece).kind_in_stock


def test_every_outline_is_the_head_and_its_border_wherever_the_hole_is():
    """Head 20 + 5 x 4 = 40 mm across by the house stock; a disc on the liner has the area of a flat one within 1 %."""
    found = only(exactly_at(35.0))
    radii = {"head": 20.0, "buffed": 20.0 + BORDER, "pre_cleaned": 20.0 + PRE_CLEANED,
             "sealed": 20.0 + BORDER + SEALED}
    assert {each.name for each in found.outlines} == set(radii)
    for name, radius in radii.items():
        outline = found.outline(name)
        assert (outline.across, outline.around) == (radius, radius)
        assert outline.area_mm2 == pytest.approx(pi * radius**2, rel=0.01)


def test_an_outline_is_found_again_with_a_tape_from_edge_and_datum():
    """At the crown's own thickness a reach on the liner is a little longer on the tread, around most of all."""
    found = only(exactly_at(0.0))
    buffed = found.outline("buffed")
    assert found.from_outboard_edge == pytest.approx(TREAD / 2)
    assert found.from_datum == pytest.approx(pi * DIAMETER / 4)
    near, far = buffed.from_outboard_edge
    assert near + far == pytest.approx(TREAD)
    assert (far - near) / 2 == pytest.approx(26.0 * 820 / (820 - THICKNESS), rel=1e-3)  # crown radius 4 x 205 mm
    first, last = buffed.from_datum
    assert (last - first) / 2 == pytest.approx(26.0 * (DIAMETER / 2) / (DIAMETER / 2 - THICKNESS), rel=1e-9)
    assert (first + last) / 2 == pytest.approx(found.from_datum)


def test_the_middle_follows_a_leaning_hole_inside():
    found = only(exactly_at(20.0, lean_across=Lean(value=20.0, how="exact")))
    assert found.from_outboard_edge == pytest.approx(TREAD / 2 - 20.0 - THICKNESS * tan(radians(20)), abs=0.01)


def test_a_place_taped_from_the_outboard_edge_needs_no_tread_width_and_one_from_the_center_does():
    tire = exact_tire(tread_width=None)
    taped = Across(value=58.0, origin="outboard_edge", how="exact")
    assert only(exactly_at(0.0, outside=taped), tire=tire).from_outboard_edge == pytest.approx(58.0)
    assert only(exactly_at(0.0), tire=tire).from_outboard_edge is None


def test_where_the_lean_around_is_unknown_no_place_around_is_given_to_measure_by():
    found = only(exactly_at(0.0, lean_around=None))
    assert found.from_datum is None and found.around_deg is None
    assert found.outline("buffed").from_datum is None and found.from_outboard_edge is not None


def test_the_gap_to_a_neighbor_is_the_distance_less_both_heads():
    found = only(exactly_at(0.0), earlier_repair(
        "R1", inside=Across(value=0.0, origin="center", how="exact"), around=Around(value=120.0, how="exact"),
        head_length=exact(40.0),
    ))
    [neighbor] = found.neighbors
    apart = radians(30) * (DIAMETER / 2 - THICKNESS) - 40.0
    assert neighbor.id == "R1"
    assert neighbor.gap_mm.stated == pytest.approx(apart, abs=0.01)


def test_a_turned_head_is_named_where_it_would_clear_the_belt_edge():
    oblong = house_stock().model_copy(
        update={"units": (RepairUnit(stem_mm=4.0, head_length_mm=80.0, head_width_mm=30.0, head_along="across"),)}
    )
    found = only(exactly_at(50.0), stock=oblong, tire=exact_tire(belt_width=exact(160.0)))
    assert not found.belt_edge.is_clear  # 80 - 50 - 40
    [way] = found.would_clear
    assert way.clears_belt_edge and way.unit.head_along == "around"
    assert only(exactly_at(10.0), stock=oblong, tire=exact_tire(belt_width=exact(160.0))).would_clear == ()


def test_a_turned_head_that_would_not_clear_the_belt_edge_either_is_not_named():
    oblong = house_stock().model_copy(
        update={"units": (RepairUnit(stem_mm=4.0, head_length_mm=80.0, head_width_mm=70.0, head_along="across"),)}
    )
    found = only(exactly_at(50.0), stock=oblong, tire=exact_tire(belt_width=exact(160.0)))
    assert found.belt_edge.high < 0 and found.would_clear == ()  # 80 - 50 - 40; turned 80 - 50 - 35


def test_a_thinner_unit_is_named_where_gauging_the_hole_could_settle_it():
    """4.9 to 6.9 mm by the object's own shank takes a cutter of 5 to 8 mm: heads of 45 to 60 mm by the house stock."""
    found = only(
        exactly_at(57.0, size_outside=hole(5.9, how="object"), size_inside=None),
        tire=exact_tire(belt_width=exact(160.0)),
    )
    assert found.belt_edge.low == pytest.approx(80 - 57 - 30)
    [way] = found.would_clear
    assert way.unit.stem_mm == 5.0 and way.clears_belt_edge  # 80 - 57 - 22.5


def test_cement_grows_with_the_ground_and_is_a_thin_coat():
    small = only(exactly_at(0.0)).cement_ml
    large = only(exactly_at(0.0, size_outside=HoleSize(value=6.0, how="exact"))).cement_ml
    area_cm2 = pi * 2.6**2
    assert small.stated == pytest.approx(area_cm2 * 0.015, rel=0.01)  # 0.15 mm wet, from memory
    assert small.low < small.stated < small.high
    assert large.stated > small.stated


def test_a_refused_injury_has_no_dimensions():
    job = bench_job(exactly_at(80.0), tire=exact_tire())
    assert repair_dimensions(assess(job)) == ()


def test_without_guidance_there_are_no_dimensions():
    assert repair_dimensions(assess(bench_job(exactly_at(0.0), rule_set=None))) == ()


def test_an_unmeasured_hole_has_neither_unit_nor_ground():
    found = only(exactly_at(0.0, size_outside=None, size_inside=None))
    assert found.unit is None and found.outlines == () and found.cement_ml is None and found.orientation == ""
    assert found.as_record()["unit"] is None
