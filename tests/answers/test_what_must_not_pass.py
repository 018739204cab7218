"""Ways in which something unknown, slipped or improper could look Repairable, and may not."""

import pytest
from pydantic import ValidationError

from tests.helpers.jobs import (
    all_fine,
    bench_job,
    crown_injury,
    earlier_repair,
    evenly_worn,
    from_center,
    hole,
    measured_tire,
    probed,
)
from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.edits.change import changed
from tiremap.errors import TiremapError
from tiremap.model.job import Checks, Finding, MakerWord, RepairsLookedFor, Tire, TypedDimensions
from tiremap.model.measures import Across, BeadToes, HoleSize, Lean, Length
from tiremap.model.stock import BeyondTheHead, RepairUnit, Stock
from tiremap.rules.condition import condition_checks
from tiremap.storage.shop_rule_sets import copy_rule_set, write_limit

EXACT_UPRIGHT = Lean(value=0.0, how="exact")
SMALL = {"size_outside": hole(3.0, how="exact"), "size_inside": None, "lean_across": EXACT_UPRIGHT}


def levels(found: Assessment, code: str) -> set[str]:
    return {reason.level for reason in found.all_reasons if reason.code == code}


def stock_of(*units: RepairUnit) -> Stock:
    beyond = BeyondTheHead(border=6.0, pre_cleaned=10.0, sealed=3.0, source="a test", grade="assumed")
    return Stock(cutter="equals the stem", source="a test", grade="assumed", beyond_the_head=beyond, units=units)


@pytest.mark.parametrize("kind", ["plug_only", "patch_only", "string"])
def test_an_improper_earlier_repair_refuses_the_tire(kind):
    found = assess(bench_job(crown_injury(), earlier_repair(kind=kind)))
    assert found.answer == "not_repairable"
    assert levels(found, "improper_repair") == {"refuse"}


FORGOTTEN = ({"kind": "unknown"}, {"inside": None}, {"around_deg": None}, {"head_length": None})


@pytest.mark.parametrize("forgotten", FORGOTTEN)
def test_an_earlier_repair_of_unknown_kind_place_or_head_is_looked_at_first(forgotten):
    found = assess(bench_job(crown_injury(), earlier_repair(**forgotten)))
    assert found.answer == "measure_first"
    assert levels(found, "repair_unknown") == {"measure"}


def test_all_marked_with_nothing_marked_is_answered_anew():
    nothing = changed(all_fine(), earlier_repairs=RepairsLookedFor(state="all_marked"))
    found = assess(bench_job(crown_injury(), checks=nothing))
    assert found.answer == "measure_first"
    assert levels(found, "earlier_repairs") == {"measure"}


@pytest.mark.parametrize("check", [check.name for check in condition_checks()])
def test_each_condition_check_refuses_when_found_and_is_asked_for_when_nobody_looked(check):
    found = assess(bench_job(crown_injury(), checks=changed(all_fine(), **{check: Finding(state="found")})))
    assert found.answer == "not_repairable"
    assert levels(found, f"condition_{check}") == {"refuse"}
    skipped = assess(bench_job(crown_injury(), checks=changed(all_fine(), **{check: None})))
    assert skipped.answer == "measure_first"
    assert [each.field for each in skipped.needed] == [f"checks.{check}"]


def test_every_check_of_the_job_file_is_one_that_is_asked():
    asked = {check.name for check in condition_checks()} | {"inspected", "earlier_repairs"}
    assert set(Checks.model_fields) == asked


def test_a_stricter_figure_of_the_tire_maker_decides_in_every_set():
    word = MakerWord(source="the tire maker's bulletin", zone_inset=Length(value=45.0, how="exact"))
    for rule_set in ("north_america", "united_kingdom"):
        found = assess(bench_job(crown_injury(across_mm=50.0), rule_set=rule_set, tire=measured_tire(maker_word=word)))
        assert levels(found, "place") == {"refuse"}
    small = MakerWord(source="the tire maker's bulletin", largest_prepared_size=Length(value=3.0, how="exact"))
    found = assess(bench_job(crown_injury(), tire=measured_tire(maker_word=small)))
    assert levels(found, "prepared_size") == {"refuse"}


def test_no_word_of_a_maker_reaches_beyond_what_the_issuer_refuses():
    word = MakerWord(source="somebody", zone_inset=Length(value=0.0, how="exact"), head_past_tread_edge=True)
    truck = measured_tire("315/80R22.5 156/150L", tread_width_mm=260.0, maker_word=word)
    there = crown_injury(outside=Across(value=15.0, how="exact", origin="outboard_edge"))
    assert levels(assess(bench_job(there, rule_set="north_america", tire=truck)), "place") == {"refuse"}


def test_a_cutter_says_nothing_of_a_hole_nobody_measured():
    reamed = crown_injury(size_outside=None, size_inside=None, size_prepared=Length(value=5.0, how="exact"))
    for rule_set in ("north_america", "united_kingdom"):
        assert assess(bench_job(reamed, rule_set=rule_set)).answer == "measure_first"
    with pytest.raises(ValidationError, match="cutter"):
        crown_injury(size_prepared=Length(value=0.0, how="exact"))


def test_a_tolerance_entered_for_a_cutter_or_beside_two_gauges_counts():
    """The United Kingdom allows 6 mm prepared; North America 6.35 mm of the hole."""
    def answer(rule_set: str, **sizes) -> str:
        return assess(bench_job(crown_injury(size_inside=None, **sizes), rule_set=rule_set)).answer

    small = hole(3.0, how="exact")
    assert answer("united_kingdom", size_outside=small, size_prepared=Length(value=6.0, how="rule")) == "repairable"
    worn = Length(value=6.0, how="rule", minus=1.0, plus=1.0)
    assert answer("united_kingdom", size_outside=small, size_prepared=worn) == "measure_first"
    larger = Length(value=7.1, how="rule", minus=1.0, plus=1.0)
    assert answer("united_kingdom", size_outside=small, size_prepared=larger) == "not_repairable"
    assert answer("north_america", size_outside=hole(5.0, stops=5.5)) == "repairable"
    assert answer("north_america", size_outside=hole(5.0, stops=5.5, plus=2.0)) == "measure_first"
    assert answer("north_america", size_outside=hole(6.5, stops=7.0)) == "not_repairable"
    assert answer("north_america", size_outside=hole(6.5, stops=7.0, minus=1.0)) == "measure_first"


def test_a_measured_section_width_may_stand_for_a_narrower_nominal_one():
    # 205/55R16 measures 224 mm on a 7.5 in rim; by its code the zone reaches 71.75 mm
    typed = TypedDimensions(overall_diameter_mm=632.0, section_width_mm=224.0, rim_diameter_mm=406.0, rim_width_in=7.5)
    tire = measured_tire(None, tread_width_mm=200.0, typed_dimensions=typed, tire_class="passenger")
    found = assess(bench_job(crown_injury(across_mm=72.0, **SMALL), tire=tire))
    assert levels(found, "place") == {"measure"}
    # 157 typed may be a 155, whose share is 60 % and not 65 %
    narrow = TypedDimensions(overall_diameter_mm=578.0, section_width_mm=157.0, rim_diameter_mm=330.0, rim_width_in=4.5)
    tire = measured_tire(None, tread_width_mm=150.0, typed_dimensions=narrow, tire_class="passenger")
    assert levels(assess(bench_job(crown_injury(across_mm=46.5, **SMALL), tire=tire)), "place") == {"measure"}


def test_a_tread_taped_wider_than_the_tire_is_taped_again():
    slipped = measured_tire(tread_width_mm=270.0)
    found = assess(bench_job(crown_injury(across_mm=82.0), rule_set="north_america", tire=slipped))
    assert found.answer == "measure_first"
    assert levels(found, "tread_width") == {"measure"}


def test_no_zone_reaches_past_the_tread_edge():
    word = MakerWord(source="the repair-material maker", head_past_tread_edge=True)
    tire = measured_tire(tread_width_mm=132.0, maker_word=word)
    found = assess(bench_job(crown_injury(across_mm=68.0, **SMALL), tire=tire))  # the zone alone would reach 71.75
    assert levels(found, "place") != {"note"}


def test_an_oblong_head_of_the_next_cutter_is_not_lost_beside_a_round_one():
    stock = stock_of(
        RepairUnit(stem_mm=4.0, head_length_mm=40.0), RepairUnit(stem_mm=6.0, head_length_mm=80.0, head_width_mm=50.0)
    )
    size = HoleSize(value=4.0, how="rule")
    hole_there = crown_injury(size_outside=size, size_inside=None, lean_across=EXACT_UPRIGHT, lean_around=EXACT_UPRIGHT)
    other = earlier_repair(around_deg=60.0 / 304.0 * 180.0 / 3.141592653589793)
    found = assess(bench_job(hole_there, other, rule_set="north_america"), stock=stock)
    assert levels(found, "heads_overlap") == {"measure"}


def test_a_thicker_stem_with_a_smaller_head_is_refused_when_read():
    with pytest.raises(ValidationError, match="smaller head"):
        stock_of(
            RepairUnit(stem_mm=4.0, head_length_mm=60.0),
            RepairUnit(stem_mm=6.0, head_length_mm=80.0, head_width_mm=40.0),
        )


def test_a_stock_without_small_cutters_asks_for_another_unit_and_never_refuses_a_small_hole():
    found = assess(bench_job(crown_injury(**SMALL)), stock=stock_of(RepairUnit(stem_mm=8.0, head_length_mm=60.0)))
    assert found.answer == "measure_first"
    assert levels(found, "no_unit_in_stock") == {"measure"}


def test_what_was_seen_by_eye_is_never_as_good_as_a_tape():
    tire = measured_tire(tread_width=Length(value=170.0, how="eye"))
    found = assess(bench_job(crown_injury(across_mm=54.0), rule_set="north_america", tire=tire))
    assert levels(found, "place") == {"measure"}


def test_a_gauge_that_stops_is_larger_than_the_one_that_enters():
    with pytest.raises(ValidationError, match="stops"):
        HoleSize(value=5.0, stops=4.0, how="gauge")
    with pytest.raises(ValidationError, match="stops"):
        HoleSize(value=4.0, stops=5.0, how="eye")


@pytest.mark.parametrize("size_code", ["T125/70R15", "ST205/75R15"])
def test_nobody_s_choice_makes_a_spare_or_trailer_tire_into_a_passenger_tire(size_code):
    tire = measured_tire(size_code, tread_width_mm=100.0, tire_class="passenger")
    found = assess(bench_job(crown_injury(), rule_set="north_america", tire=tire))
    assert levels(found, "class_not_covered") == {"measure"}


def test_the_known_part_of_a_lean_is_enough_to_ask_for_stem_and_patch():
    steep = crown_injury(lean_across=probed(40.0), lean_around=None)
    assert levels(assess(bench_job(steep)), "lean_chooses_unit") == {"note"}
    by_its_ends = crown_injury(across_mm=0.0, inside=from_center(12.0), lean_across=None)  # 12 mm over a 12 mm crown
    assert levels(assess(bench_job(by_its_ends)), "lean_chooses_unit") == {"note"}


def test_zr_alone_promises_enough_speed_for_the_second_repair_caution():
    found = assess(bench_job(crown_injury(), earlier_repair(), tire=measured_tire("205/55ZR16")))
    assert levels(found, "second_repair") == {"caution"}


def test_a_hopeless_place_between_a_trucks_two_edges_asks_for_the_makers_word_and_not_for_a_tape():
    truck = measured_tire("315/80R22.5 156/150L", tread_width_mm=260.0)
    there = crown_injury(outside=Across(value=33.0, how="exact", origin="outboard_edge"))
    found = assess(bench_job(there, rule_set="north_america", tire=truck))
    place = next(reason for reason in found.all_reasons if reason.code == "place")
    assert (place.level, place.settles.field) == ("measure", "tire.maker_word")


def test_a_large_hole_in_the_middle_reaches_outside_and_does_not_lie_in_the_shoulder():
    found = assess(bench_job(crown_injury(size_outside=hole(200.0, how="exact"), size_inside=None)))
    place = next(reason for reason in found.all_reasons if reason.code == "place")
    assert place.level == "refuse"
    assert "shoulder" not in place.says


def test_a_reading_no_tape_can_give_is_refused_and_not_computed_with():
    with pytest.raises(ValidationError):
        BeadToes(from_outboard=1e308, from_inboard=0.0, unit="in", how="tape")


def test_injuries_of_a_tire_without_a_size_are_listed_and_measure_first():
    record = assess(bench_job(crown_injury(), tire=measured_tire(None))).as_record()
    assert [(each["id"], each["answer"]) for each in record["injuries"]] == [("1", "measure_first")]


def test_a_single_hole_without_its_way_around_has_its_area_all_the_same():
    known = assess(bench_job(crown_injury())).buffed_area_mm2
    assert assess(bench_job(crown_injury(around_deg=None))).buffed_area_mm2 == pytest.approx(known)


def test_pairs_keep_their_distances_where_no_rule_set_is_chosen():
    checks = all_fine(repairs=True)
    job = bench_job(crown_injury(), earlier_repair(), checks=checks).model_copy(update={"rule_set": None})
    (pair,) = assess(job).as_record()["pairs"]
    assert pair["around_deg"] == pytest.approx(180.0)
    assert [reason["level"] for reason in pair["reasons"]] == ["measure"]


def test_a_hole_beyond_the_edge_of_a_belt_that_ends_short_is_not_passed_by_its_distance_from_the_tread_edge():
    # 170 mm tread: 1 in inside the edge is 59.6 mm from the center; New Zealand refuses beyond the belt edge, here 45
    belt = Length(value=90.0, how="exact")
    tire = measured_tire(belt_width=belt, built="standard")
    for across, level in ((50.0, "refuse"), (43.4, "note"), (44.5, "measure")):
        there = crown_injury(outside=from_center(across, how="tape" if level == "measure" else "exact"), **SMALL)
        assert levels(assess(bench_job(there, rule_set="new_zealand", tire=tire)), "place") == {level}


def test_a_cutter_at_a_size_that_refuses_is_not_passed_by_the_smaller_hole():
    # makers' pages: less than 6 mm; whether of the hole or of the reamed hole they do not say, and 5.5 takes a 6
    in_time = measured_tire(date_code="1024")
    size = {**SMALL, "size_outside": hole(5.5, how="exact")}
    found = assess(bench_job(crown_injury(**size), rule_set="european_makers", tire=in_time, date="2026-01-01"))
    assert levels(found, "prepared_size") == {"measure"}
    reamed = {**SMALL, "size_prepared": Length(value=5.9, how="exact")}
    found = assess(bench_job(crown_injury(**reamed), rule_set="european_makers", tire=in_time, date="2026-01-01"))
    assert levels(found, "prepared_size") == set()


def test_a_hole_or_head_of_no_size_at_all_is_not_measured():
    nothing = HoleSize(value=0.0, how="exact")
    assert assess(bench_job(crown_injury(**{**SMALL, "size_outside": nothing}))).answer == "measure_first"
    no_head = earlier_repair(head_length=Length(value=0.0, how="exact"))
    assert levels(assess(bench_job(crown_injury(), no_head)), "repair_unknown") == {"measure"}


def test_a_hole_that_only_a_wider_tire_may_have_asks_for_the_width_and_is_not_refused():
    # Australia, light truck: 6 mm up to 185 mm wide, 8 mm over it; 200 mm measured may stand for 171 to 210
    typed = TypedDimensions(overall_diameter_mm=700.0, section_width_mm=200.0, rim_diameter_mm=406.0, rim_width_in=6.0)
    tire = measured_tire(None, tread_width_mm=150.0, typed_dimensions=typed, tire_class="light_truck")
    for size, level in ((5.0, "note"), (7.0, "measure"), (8.5, "refuse")):
        there = crown_injury(**{**SMALL, "size_outside": hole(size, how="exact")})
        assert levels(assess(bench_job(there, rule_set="australia", tire=tire)), "hole_size") == {level}


def typed_width(section_width_mm: float, tire_class: str, overall_diameter_mm: float = 632.0, **fields) -> Tire:
    typed = TypedDimensions(
        overall_diameter_mm=overall_diameter_mm, section_width_mm=section_width_mm, rim_diameter_mm=406.0,
        rim_width_in=6.0,
    )
    return measured_tire(None, typed_dimensions=typed, tire_class=tire_class, **fields)


def test_a_shop_s_smaller_hole_on_wide_tires_is_asked_of_every_tire_that_may_be_one_and_refuses_none_that_may_not():
    """Light truck, Australia: 6 mm up to 185 mm wide; over it the shop takes 5 mm, where Australia takes 8."""
    copy_rule_set("australia", "our_shop")
    write_limit("our_shop", "largest_injuries", 2, 5.0, "the foreman")
    for size, level in ((5.0, "note"), (5.5, "measure"), (6.1, "refuse")):
        there = crown_injury(**{**SMALL, "size_outside": hole(size, how="exact")})
        taped = assess(bench_job(there, rule_set="our_shop", tire=typed_width(200.0, "light_truck", 700.0)))
        assert levels(taped, "hole_size") == {level}
        wide = measured_tire("205/70R15C 106/104R")
        assert levels(assess(bench_job(there, rule_set="our_shop", tire=wide)), "hole_size") == {
            "note" if size <= 5.0 else "refuse"
        }
        if level == "measure":
            (says,) = [each.says for each in taped.all_reasons if each.code == "hole_size"]
            assert "for a tire over 185 mm wide, and may be small enough for a narrower one: at most 6" in says


@pytest.mark.parametrize("across", [51.0, -51.0])
def test_a_shop_s_narrower_zone_on_wide_tires_is_asked_of_every_tire_that_may_be_one(across):
    """Passenger, United Kingdom: 65 % up to 200 mm wide; over it the shop takes 50 %, where the set takes 70.

    205 mm measured may stand for 174 to 213. Just over 200 mm a half of it reaches 50 mm from the center: a 4 mm hole
    at 51 mm is then 3 mm outside. At 174 mm, 65 % still reaches 56.7 mm.
    """
    copy_rule_set("united_kingdom", "our_shop")
    write_limit("our_shop", "crown_zones", 2, 0.5, "the foreman")
    exact = Length(value=170.0, how="exact")
    there = crown_injury(outside=from_center(across, how="exact"), **{**SMALL, "size_outside": hole(4.0, how="exact")})
    known = {"tread_width": exact, "under_grooves": Length(value=6.0, how="exact"),
             **evenly_worn(Length(value=6.0, how="exact"))}
    taped = assess(bench_job(there, rule_set="our_shop", tire=typed_width(205.0, "passenger", **known)))
    (reason,) = [each for each in taped.all_reasons if each.code == "place"]
    assert (reason.level, round(reason.margin_low, 6)) == ("measure", 50.0 - 51.0 - 2.0)
    assert reason.margin_low <= reason.margin <= reason.margin_high
    by_code = assess(bench_job(there, rule_set="our_shop", tire=measured_tire(**known)))
    assert levels(by_code, "place") == {"refuse"}
    # at 200 mm, 65 % reaches 65: a hole at 60 may yet be inside, and is not refused
    further = changed(there, outside=from_center(60.0 if across > 0 else -60.0, how="exact"))
    (reason,) = [
        each for each in assess(bench_job(further, rule_set="our_shop", tire=typed_width(205.0, "passenger", **known)))
        .all_reasons if each.code == "place"
    ]
    assert (reason.level, round(reason.margin_high, 6)) == ("measure", 65.0 - 60.0 - 2.0)


def test_a_lean_by_eye_that_contradicts_both_ends_is_told_whichever_way_it_leans():
    """80 degrees outboard by eye, and an inside end 20 mm further inboard: one of the three is wrong."""
    tire = measured_tire(**evenly_worn(Length(value=6.0, how="gauge")))
    for way in (1, -1):
        there = crown_injury(
            outside=from_center(0.0), inside=from_center(-20.0 * way), lean_across=Lean(value=80.0 * way, how="eye")
        )
        assert levels(assess(bench_job(there, rule_set="north_america", tire=tire)), "ends_disagree") == {"measure"}


def test_a_leaning_hole_in_tread_deeper_than_the_shallowest_found_is_not_passed_by_the_shallowest():
    # 170 mm tread less 1 in each side: 59.6 mm. At 20 degrees 2 mm of tread and 6 mm under it carry the hole 2.9 mm
    # outboard, and a tread as deep as new 5.6 mm
    exact = {"how": "exact"}
    worn, under = Length(value=2.0, **exact), Length(value=6.0, **exact)
    leaning = {**SMALL, "lean_across": Lean(value=20.0, **exact), "lean_around": EXACT_UPRIGHT}
    there = crown_injury(outside=from_center(53.5, **exact), **leaning)
    for depths, level in (({"tread_depth": worn}, "measure"), (evenly_worn(worn), "note")):
        tire = measured_tire(under_grooves=under, **depths)
        found = assess(bench_job(there, rule_set="north_america", tire=tire))
        assert levels(found, "place") == {level}
    inside = changed(there, inside=from_center(56.4, **exact), lean_across=None)
    tire = measured_tire(under_grooves=under, tread_depth=worn)
    assert levels(assess(bench_job(inside, rule_set="north_america", tire=tire)), "place") == {"note"}


@pytest.mark.parametrize("taken", [305.0, 309.0, 1000.0])
@pytest.mark.parametrize("how", ["exact", "tape"])
def test_a_crown_thicker_than_the_section_is_high_is_a_slip_of_the_pen_and_answers_nothing(taken, how):
    """205/55R16: a section 113 mm high on a radius of 316 mm; 30.5 typed without its point passed as 305."""
    tire = measured_tire(under_grooves=Length(value=taken, how=how), **evenly_worn(Length(value=7.0, how="exact")))
    for marks in ((crown_injury(),), (crown_injury(), earlier_repair())):
        with pytest.raises(TiremapError, match="does not fit on a section 113 mm high") as refused:
            assess(bench_job(*marks, tire=tire))
        assert "under the grooves" in refused.value.right
