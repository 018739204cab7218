"""Where one more unit could go on a job's tire: closed forms, and what is said beside them."""

import math

import pytest

from tests.helpers.jobs import all_fine, bench_job, crown_injury, earlier_repair, evenly_worn, measured_tire, probed
from tiremap.assess import assess
from tiremap.edits.change import changed
from tiremap.free_places import FreePlaces, smallest_unit_for, where_a_repair_could_go
from tiremap.model.job import Finding, Job, MakerWord, Repair, RepairsLookedFor, Tire
from tiremap.model.measures import Across, Around, Length
from tiremap.model.rule_set import ZoneEdge
from tiremap.model.rule_set_file import rule_set_named, rule_set_names
from tiremap.model.stock import RepairUnit
from tiremap.workshop.stock import house_stock

UNIT = RepairUnit(stem_mm=6.0, head_length_mm=50.0)
DIAMETER, CROWN_RADIUS, THICKNESS, TREAD = 632.0, 820.0, 14.0, 170.0
"""205/55R16: 16 in and twice 113 mm, 55 % of 205 mm; crown radius 4 times the width (assumed by the drawing)."""
TURN = 2 * math.pi


def exact(value: float) -> Length:
    return Length(value=value, how="exact")


def exact_tire(**fields) -> Tire:
    usual = dict(tread_width=exact(TREAD), **evenly_worn(exact(7.0)), under_grooves=exact(7.0), built="standard")
    return measured_tire(**{**usual, **fields})


def exact_repair(id: str = "R1", across: float = 0.0, around: float = 180.0, head: float = 40.0, **fields) -> Repair:
    return earlier_repair(
        id, inside=Across(value=across, origin="center", how="exact"), around=Around(value=around, how="exact"),
        head_length=exact(head), **fields,
    )


def free_on(*marks, unit: RepairUnit = UNIT, tire: Tire | None = None, **fields) -> FreePlaces:
    return where_a_repair_could_go(assess(bench_job(*marks, tire=tire or exact_tire(), **fields)), unit)


def band_area(half_width: float) -> float:
    """2 pi times the integral of r ds over the liner's arc, mm2: r = D/2 - Rc + rho cos(v), ds = rho dv."""
    rho, v = CROWN_RADIUS - THICKNESS, half_width / CROWN_RADIUS
    return 2 * TURN * rho * ((DIAMETER / 2 - CROWN_RADIUS) * v + rho * math.sin(v))


@pytest.mark.parametrize(("rule_set", "zone"), [
    ("united_kingdom", 0.70 * 205 / 2),     # 70 % of the section width of 205 mm
    ("european_makers", 0.75 * TREAD / 2),  # three quarters of the tread
    ("north_america", TREAD / 2 - 25.4),    # an inch inside the tread edge
])
def test_on_a_sound_tire_the_zone_less_half_the_stem_is_free(rule_set, zone):
    half_width = min(zone - 6.0 / 2, TREAD / 2 - 50.0 / 2)  # the head of 50 mm stays inside the tread edge
    free = free_on(rule_set=rule_set)
    assert free.area_mm2 == pytest.approx(band_area(half_width), rel=1e-9)
    assert free.widest_gap == pytest.approx((0, TURN))
    assert free.widest_gap_mm == pytest.approx(math.pi * DIAMETER)
    assert free.empty_because is None and not free.unknown


def test_a_small_head_may_go_where_the_channel_may():
    free = free_on(rule_set="united_kingdom", unit=RepairUnit(stem_mm=3.0, head_length_mm=20.0))
    assert free.area_mm2 == pytest.approx(band_area(0.70 * 205 / 2 - 1.5), rel=1e-9)


def test_an_oblong_head_along_the_tread_may_go_further_across_than_one_laid_across():
    around, across = (RepairUnit(stem_mm=6.0, head_length_mm=70.0, head_width_mm=40.0, head_along=along)
                      for along in ("around", "across"))
    assert free_on(unit=around).area_mm2 == pytest.approx(band_area(TREAD / 2 - 20.0), rel=1e-9)
    assert free_on(unit=across).area_mm2 == pytest.approx(band_area(TREAD / 2 - 35.0), rel=1e-9)


def test_one_repair_takes_the_disc_of_both_heads_out_of_the_band():
    radius = 40.0 / 2 + 50.0 / 2
    taken = band_area(TREAD / 2 - 25.0) - free_on(exact_repair()).area_mm2
    assert taken == pytest.approx(math.pi * radius**2, rel=1e-3)


def test_japan_asks_400_mm_around_on_the_tread_to_either_side():
    free = free_on(exact_repair(around=180.0), rule_set="japan")
    start, end = free.widest_gap
    assert free.widest_gap_mm == pytest.approx(math.pi * DIAMETER - 2 * 400.0)
    assert math.degrees(start) == pytest.approx(180.0 + 400.0 / (DIAMETER / 2) * 180 / math.pi)  # 72.5 degrees on
    assert end > TURN  # the free stretch runs on over the datum
    assert free.area_mm2 == pytest.approx(band_area(TREAD / 2 - 25.4 - 3.0) * (end - start) / TURN, rel=1e-6)


@pytest.mark.parametrize("rule_set", rule_set_names())
def test_turning_the_tire_changes_nothing(rule_set):
    here = free_on(exact_repair("R1", 20.0, 90.0), rule_set=rule_set)
    over_the_datum = free_on(exact_repair("R1", 20.0, 359.0), rule_set=rule_set)
    assert over_the_datum.area_mm2 == pytest.approx(here.area_mm2, rel=1e-7)
    assert over_the_datum.widest_gap_mm == pytest.approx(here.widest_gap_mm, rel=1e-7)


def test_at_the_count_limit_nothing_is_free_and_the_reason_says_so():
    two = free_on(exact_repair("R1", around=0.0), exact_repair("R2", around=180.0), rule_set="japan")
    assert two.region.is_empty and two.area_mm2 == 0 and two.widest_gap is None
    assert two.empty_because == (
        "One more repair is one too many. The tire would have 3 repairs; at most 2 are allowed."
    )
    assert two.says[0] == two.empty_because


def test_how_the_tire_is_built_is_taken_at_its_strictest_while_nobody_knows():
    repair = exact_repair()
    standard, unknown = (free_on(repair, rule_set="new_zealand", tire=exact_tire(built=built))
                         for built in ("standard", None))
    assert unknown.area_mm2 < standard.area_mm2
    assert "how the tire is built" in unknown.unknown and unknown.taken_at_worst
    assert not standard.taken_at_worst


def test_a_maker_s_figure_opens_the_band_between_two_edges():
    word = MakerWord(source="the maker's bulletin", zone_inset=exact(30.0))
    inner, settled = (free_on(rule_set="australia", tire=exact_tire(maker_word=each)) for each in (None, word))
    assert inner.area_mm2 == pytest.approx(band_area(TREAD / 2 - 25.4 - 3.0), rel=1e-9)
    assert settled.area_mm2 == pytest.approx(band_area(TREAD / 2 - 30.0 - 3.0), rel=1e-9)


def test_a_head_may_pass_the_tread_edge_where_the_repair_maker_allows_it():
    word = MakerWord(source="the repair maker's table", head_past_tread_edge=True)
    free = free_on(rule_set="united_kingdom", tire=exact_tire(maker_word=word))
    assert free.area_mm2 == pytest.approx(band_area(0.70 * 205 / 2 - 3.0), rel=1e-9)


def test_the_tolerance_of_the_tape_is_taken_off():
    taped = free_on(tire=exact_tire(tread_width=Length(value=TREAD, minus=4.0, plus=4.0, how="tape")))
    assert taped.area_mm2 == pytest.approx(band_area((TREAD - 4.0) / 2 - 25.0), rel=1e-9)
    assert not taped.taken_at_worst  # measured, if coarsely


def test_a_tread_width_nobody_measured_leaves_what_is_certainly_free():
    free = free_on(tire=exact_tire(tread_width=None))
    assert 0 < free.area_mm2 < free_on().area_mm2
    assert free.unknown == ("the tread width",)
    assert free.says == ("Unknown and taken at its worst: the tread width.",)


def test_in_a_zone_between_the_outer_grooves_these_are_measured_or_named_as_unknown():
    set_of = rule_set_named("north_america")
    edge = ZoneEdge(kind="inside_outer_grooves", value=3.0)
    set_of = set_of.model_copy(update={
        "crown_zones": tuple(zone.model_copy(update={"edge": edge}) for zone in set_of.crown_zones),
    })

    def free(between: Length | None) -> FreePlaces:
        job = bench_job(tire=exact_tire(between_outer_grooves=between), rule_set="north_america")
        return where_a_repair_could_go(assess(job, set_of), UNIT)

    measured, unknown = free(exact(120.0)), free(None)
    assert measured.area_mm2 == pytest.approx(band_area(120.0 / 2 - 3.0 - 3.0), rel=1e-9)
    assert not measured.taken_at_worst
    assert unknown.unknown == ("the distance between the outer grooves",)


def test_a_repair_of_unknown_place_across_closes_its_angles_over_the_whole_width():
    free = free_on(exact_repair(around=180.0, head=40.0).model_copy(update={"inside": None}))
    reach = (20.0 + 25.0 + 0.01) / (DIAMETER / 2 - THICKNESS)
    # The head may lie far out, where the liner is smaller and the same way takes a larger angle.
    assert free.widest_gap[1] - free.widest_gap[0] == pytest.approx(TURN - 2 * reach, rel=0.01)
    assert free.widest_gap[1] - free.widest_gap[0] < TURN - 2 * reach


def test_a_repair_of_unknown_way_around_leaves_what_lies_beside_its_whole_ring():
    lost = exact_repair(across=-60.0, head=40.0).model_copy(update={"around": None})
    free = free_on(lost)
    across = 45.01 * CROWN_RADIUS / (CROWN_RADIUS - THICKNESS) - 60.0  # 45 mm along the liner from it, on the tread
    half = TREAD / 2 - 25.0
    assert across < 0  # so that the free band reaches over the center plane
    assert free.area_mm2 == pytest.approx((band_area(half) + band_area(-across)) / 2, rel=1e-4)
    assert free.widest_gap == pytest.approx((0, TURN))


def test_a_repair_with_a_head_of_unknown_size_leaves_nothing_certain():
    free = free_on(exact_repair().model_copy(update={"head_length": None}))
    assert free.region.is_empty
    assert "unknown size" in free.empty_because
    assert "the head of repair R1" in free.unknown


def test_an_improper_repair_is_kept_clear_of_and_the_tire_is_said_to_be_refused():
    sound, plug = free_on(exact_repair()), free_on(exact_repair(kind="plug_only"))
    assert plug.area_mm2 == pytest.approx(sound.area_mm2)
    assert plug.says[0].startswith("The tire itself is refused. Repair R1 is a plug without a patch")
    assert not sound.says


def test_a_tire_refused_for_its_condition_says_so_beside_its_region():
    checks = changed(all_fine(), bulge=Finding(state="found"), earlier_repairs=RepairsLookedFor(state="none"))
    free = free_on(checks=checks)
    assert not free.region.is_empty
    assert free.says[0].startswith("The tire itself is refused. ")


def test_a_stem_larger_than_the_guidance_allows_is_named():
    free = free_on(unit=house_stock().units[-1], rule_set="united_kingdom")
    assert not free.region.is_empty
    assert free.says == ("A hole reamed to 10 mm does not pass United Kingdom anywhere: at most 6 mm.",)


def test_every_injury_counts_and_keeps_the_next_head_away():
    injury = crown_injury(across_mm=10.0, lean_across=probed(0.0))
    assert free_on(injury).area_mm2 < free_on().area_mm2


@pytest.mark.parametrize("job", [
    Job(), Job(rule_set="japan"), Job(tire=measured_tire()),
    bench_job(rule_set="european_makers", tire=measured_tire("LT245/75R16")),
], ids=["fresh", "no size", "no guidance", "class not spoken of"])
def test_where_no_guidance_can_be_asked_nothing_is_free_and_the_reason_is_the_answer_s(job):
    assessment = assess(job)
    free = where_a_repair_could_go(assessment, UNIT)
    assert free.region.is_empty
    assert free.empty_because == assessment.reasons[0].says


def test_the_unit_offered_first_is_what_the_chosen_hole_takes():
    assessment = assess(bench_job(crown_injury("1"), crown_injury("2", around_deg=90.0, size_outside=None,
                                                                  size_inside=None), exact_repair()))
    takes = assessment.mark("1").unit
    assert smallest_unit_for(assessment, "1") == takes is not None
    smallest = assessment.stock.units[0]
    assert [smallest_unit_for(assessment, each) for each in ("2", "R1", None)] == [smallest] * 3


def test_a_head_wider_than_the_tread_has_no_place_and_is_told_so():
    free = free_on(unit=RepairUnit(stem_mm=6.0, head_length_mm=TREAD + 1.0))
    assert free.region.is_empty
    assert free.empty_because == "No width is left: hole and head do not fit inside their limits."


def test_a_tread_depth_nobody_measured_is_named_as_unknown_beside_another_head():
    tire = measured_tire(tread_depth=None)
    free = where_a_repair_could_go(assess(bench_job(earlier_repair(), tire=tire)), UNIT)
    assert "the tread depth" in free.unknown


def test_a_tape_so_coarse_that_the_liner_may_lie_at_the_axle_leaves_no_place_and_says_why():
    """8 mm and up to 300 more: a crown of up to 315 mm under a radius of 316 mm."""
    tire = exact_tire(under_grooves=Length(value=8.0, how="tape", plus=300.0))
    free = free_on(exact_repair(), tire=tire)
    assert free.region.is_empty and "No liner lies" in free.empty_because
