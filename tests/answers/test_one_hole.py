"""This tire, this hole, this answer: readable at the bench."""

from math import ceil, sqrt

import pytest

from tests.helpers.jobs import bench_job, crown_injury, from_center, from_outboard_edge, hole, measured_tire, probed
from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.model.job import Checks, Finding, Injury, Job, MakerWord, RepairsLookedFor, Tire
from tiremap.model.measures import Across, Around, BeadToes, Length
from tiremap.rules.reasons import Reason


def reason(assessment: Assessment, code: str) -> Reason:
    """The one reason of that code."""
    found = [each for each in assessment.all_reasons if each.code == code]
    assert len(found) == 1, [each.code for each in assessment.all_reasons]
    return found[0]


def american(*holes: Injury, **fields) -> Job:
    return bench_job(*holes, rule_set="north_america", **fields)


def test_a_small_hole_near_the_center_is_repairable():
    found = assess(american(crown_injury(across_mm=10.0)))
    assert found.answer == "repairable"
    # tread 170: the zone reaches 85 - 25.4 = 59.6; the hole 10 + 4/2 = 12
    assert found.injuries[0].margin_mm == pytest.approx(59.6 - 12.0)


def test_a_click_far_past_the_shoulder_is_refused_before_anything_is_measured():
    click = Injury(id="1", outside=Across(value=140.0, how="eye", origin="center"))
    found = assess(Job(rule_set="north_america", tire=Tire(size_code="205/55R16"), injuries=(click,)))
    assert found.answer == "not_repairable"
    place = reason(found, "place")
    assert place.margin is None  # lean and size were never entered
    # at best the tread is 0.976 x 205 wide, the click 10 mm nearer and the smallest cutter, 3 mm, is enough
    assert place.margin_high == pytest.approx(1.22 * 0.80 * 205 / 2 - 25.4 - 130.0 - 1.5)


def test_a_fresh_click_in_the_crown_is_measure_first_and_says_what_is_needed():
    click = Injury(id="1", outside=Across(value=20.0, how="eye", origin="center"))
    found = assess(Job(rule_set="north_america", tire=Tire(size_code="205/55R16"), injuries=(click,)))
    assert found.answer == "measure_first"
    assert {each.field for each in found.needed} == {
        "checks.inspected", "checks.run_flat_ring", "checks.earlier_repairs", "tire.tread_depth", "tire.tread_width",
        "injury.1.size_outside", "injury.1.lean_across",
    }


def test_a_hole_taped_35_mm_from_the_edge_does_not_ask_for_the_tread_width():
    taped = crown_injury(outside=from_outboard_edge(35.0))
    found = assess(american(taped, tire=measured_tire(tread_width=None)))
    assert found.answer == "repairable"
    assert reason(found, "place").margin == pytest.approx(35.0 - 25.4 - 2.0)
    assert "tire.tread_width" not in {each.field for each in found.needed}


def test_an_estimated_tread_width_is_measured_first_with_the_width_at_which_the_answer_turns():
    ends = {"lean_across": None, "inside": from_center(48.0)}
    taped = crown_injury(across_mm=48.0, size_outside=hole(4.0, how="exact"), size_inside=None, **ends)
    found = assess(american(taped, tire=measured_tire(tread_width=None)))
    place = reason(found, "place")
    assert place.level == "measure"
    assert place.settles.field == "tire.tread_width"
    # at worst one end is at 50, the other 4 mm off over a crown of 5.8 + 5.5 mm, so the 4 mm disc reaches further
    turns_at = 2 * (50.0 + 25.4 + 2.0 * sqrt(1 + (4.0 / 11.3) ** 2))  # 155.04, rounded up to the millimeter
    assert place.settles.at_least == ceil(turns_at) == 156
    assert f"{place.settles.at_least:g} mm or more" in place.says


def test_a_hole_that_starts_inside_the_zone_and_leans_out_of_it_is_refused():
    leaning = crown_injury(outside=from_outboard_edge(31.0), lean_across=probed(40.0))
    found = assess(american(leaning, tire=measured_tire(under_grooves=Length(value=9.0, how="gauge"))))
    place = reason(found, "place")
    assert place.level == "refuse"
    assert "shoulder" in place.says
    assert "inward" in place.says


def test_the_disc_of_a_leaning_hole_reaches_further_across():
    upright = assess(american(crown_injury(across_mm=20.0))).injuries[0].margin_mm
    around_only = assess(american(crown_injury(across_mm=20.0, lean_around=probed(30.0)))).injuries[0].margin_mm
    assert around_only == pytest.approx(upright)  # a lean around does not reach across
    across = assess(american(crown_injury(across_mm=-20.0, lean_across=probed(30.0)))).injuries[0].margin_mm
    # leans toward the center: the outside end decides, with a disc of 4 / 2 / cos 30
    assert across == pytest.approx(upright + 2.0 - 2.0 / 0.8660254, abs=1e-6)


def test_two_thirty_seconds_refuse_and_a_little_more_passes_with_an_exact_gauge():
    def at(depth: float) -> Reason:
        tread = Length(value=depth, unit="in", how="exact")
        return reason(assess(american(crown_injury(), tire=measured_tire(tread_depth=tread))), "tread_depth")

    assert at(2 / 32).level == "refuse"  # 2/32 in = 1.5875 mm is itself worn out
    assert at(2 / 32).limit == 1.5875
    assert at(2.1 / 32).level == "note"


def test_in_the_united_kingdom_tread_of_1_6_mm_is_just_enough():
    tread = Length(value=1.6, how="exact")
    found = assess(bench_job(crown_injury(), tire=measured_tire(tread_depth=tread)))
    assert reason(found, "tread_depth").level == "note"


def test_a_quarter_inch_hole_is_the_largest_in_north_america():
    def at(inches: float) -> Assessment:
        size = hole(inches, unit="in", how="exact")
        return assess(american(crown_injury(size_outside=size, size_inside=size)))

    assert at(0.25).answer == "repairable"  # 6.35 mm, inclusive
    assert at(0.26).answer == "not_repairable"


def test_a_hole_between_two_cutters_is_gauged_first_under_a_limit_on_the_prepared_size():
    size = hole(5.9, how="exact").model_copy(update={"how": "gauge", "minus": 0.25, "plus": 0.25})
    found = assess(bench_job(crown_injury(size_outside=size, size_inside=None)))
    size_reason = reason(found, "hole_size")
    assert size_reason.level == "measure"
    assert (size_reason.margin_low, size_reason.margin_high) == pytest.approx((6.0 - 6.35, 0.0))
    assert size_reason.settles.at_most == 6.0
    assert "6.35" in size_reason.says


def test_the_same_hole_passes_where_the_limit_is_a_quarter_inch():
    size = hole(5.9, how="exact").model_copy(update={"how": "gauge", "minus": 0.25, "plus": 0.25})
    assert assess(american(crown_injury(size_outside=size, size_inside=None))).answer == "repairable"


def test_after_reaming_the_cutter_used_is_answered_again_and_can_turn_the_answer():
    before = crown_injury(size_outside=hole(5.5, how="exact"), size_inside=None)
    assert assess(bench_job(before)).answer == "repairable"
    after = before.model_copy(update={"size_prepared": Length(value=6.35, how="exact")})
    assert assess(bench_job(after)).answer == "not_repairable"


def test_a_prepared_size_beyond_a_limit_that_does_not_say_which_size_it_means_is_measured_first():
    reamed = crown_injury(size_outside=hole(6.0, how="exact"), size_inside=None)
    reamed = reamed.model_copy(update={"size_prepared": Length(value=8.0, how="exact")})
    assert reason(assess(american(reamed)), "prepared_size").level == "measure"
    allowed = MakerWord(source="bulletin seen by the shop", largest_prepared_size=Length(value=8.0, how="exact"))
    settled = assess(american(reamed, tire=measured_tire(maker_word=allowed)))
    assert settled.answer == "repairable"


def test_a_size_nobody_measured_is_unknown():
    found = assess(american(crown_injury(size_outside=None, size_inside=None)))
    assert found.answer == "measure_first"
    size = reason(found, "hole_size")
    assert (size.value, size.margin, size.margin_low) == (None, None, None)
    assert found.buffed_area_mm2 is None


def test_no_rule_set_is_a_silent_default():
    found = assess(bench_job(crown_injury()).model_copy(update={"rule_set": None}))
    assert found.answer == "measure_first"
    assert [each.code for each in found.reasons] == ["no_rule_set"]


def test_a_job_with_no_injury_is_measure_first():
    found = assess(american())
    assert found.answer == "measure_first"
    assert reason(found, "nothing_marked").level == "measure"


@pytest.mark.parametrize(
    ("size_code", "rule_set"),
    [("T125/80R16", "north_america"), ("T125/80R16", "united_kingdom"), ("315/80R22.5 156/150L", "united_kingdom")],
)
def test_a_class_the_rule_set_does_not_speak_of_is_measure_first(size_code, rule_set):
    tire = measured_tire(size_code, tread_width_mm=100.0)
    found = assess(bench_job(crown_injury(), rule_set=rule_set, tire=tire))
    assert found.answer == "measure_first"
    assert [each.code for each in found.reasons] == ["class_not_covered"]


def test_a_truck_tire_between_one_and_one_and_a_half_inches_asks_for_the_makers_limit():
    def from_edge(mm: float, **tire) -> Assessment:
        hole_there = crown_injury(outside=Across(value=mm, how="exact", origin="outboard_edge"))
        truck = measured_tire("315/80R22.5 156/150L", tread_width_mm=260.0, **tire)
        return assess(american(hole_there, tire=truck))

    upright = 12.0  # room for the probe's 5 degrees through the crown, the hole and the gauge step
    assert reason(from_edge(38.1 + upright), "place").level == "note"
    between = reason(from_edge(32.0), "place")
    assert between.level == "measure"
    assert "maker" in between.says
    assert reason(from_edge(20.0), "place").level == "refuse"
    word = MakerWord(source="the tire maker's bulletin", zone_inset=Length(value=20.0, how="exact"))
    assert reason(from_edge(32.0, maker_word=word), "place").level == "note"


def test_damage_found_refuses_and_not_looked_at_is_measured_first():
    singles = set(Checks.model_fields) - {"inspected", "earlier_repairs"}
    sound = {name: Finding(state="fine") for name in singles}

    def with_checks(**checks) -> Assessment:
        return assess(american(crown_injury(), checks=Checks(**{**sound, **checks})))

    none = RepairsLookedFor(state="none")
    assert with_checks(inspected=Finding(state="found"), earlier_repairs=none).answer == "not_repairable"
    assert with_checks(earlier_repairs=none).answer == "measure_first"
    assert with_checks(inspected=Finding(state="fine")).answer == "measure_first"
    assert with_checks(inspected=Finding(state="fine"), earlier_repairs=none).answer == "repairable"


def test_a_head_past_the_tread_edge_is_never_refused_and_the_makers_word_settles_it():
    tire = {"tread_width_mm": 170.0}
    near = crown_injury(across_mm=66.0, size_outside=hole(3.0, how="exact"), size_inside=None)
    found = assess(bench_job(near, tire=measured_tire("205/55R16", **tire)))
    head = reason(found, "head_at_tread_edge")
    # 170/2 - 66 - 35/2 = 1.5 as stated; the tape, the probe and a millimeter of tread width may take more
    assert head.margin == pytest.approx(170.0 / 2 - 66.0 - 35.0 / 2)
    assert head.level == "measure"
    word = MakerWord(source="the repair-material maker", head_past_tread_edge=True)
    settled = assess(bench_job(near, tire=measured_tire("205/55R16", **tire, maker_word=word)))
    assert reason(settled, "head_at_tread_edge").level == "caution"


def test_lean_above_25_degrees_at_the_top_of_its_tolerance_asks_for_stem_and_patch_and_never_answers():
    at_20 = assess(american(crown_injury(lean_across=probed(19.0))))
    at_22 = assess(american(crown_injury(lean_across=probed(22.0))))  # 22 + 5 by probe
    assert "lean_chooses_unit" not in {each.code for each in at_20.all_reasons}
    assert reason(at_22, "lean_chooses_unit").level == "note"
    assert at_22.answer == "repairable"


def test_outside_inside_and_lean_that_cannot_all_be_true_are_measured_again():
    odd = crown_injury(across_mm=0.0, inside=from_center(20.0), lean_across=probed(0.0))
    found = assess(american(odd))
    assert reason(found, "ends_disagree").level == "measure"
    fine = crown_injury(across_mm=0.0, inside=from_center(2.0), lean_across=probed(10.0))
    assert "ends_disagree" not in {each.code for each in assess(american(fine)).all_reasons}


def test_the_inside_end_can_be_taped_from_the_two_bead_toes():
    toes = BeadToes(from_outboard=200.0, from_inboard=240.0, how="tape")
    found = assess(american(crown_injury(outside=None, inside=toes)))
    # s_liner = 20; the crown is 12 mm thick on a radius of 4 x 205
    s = 20.0 * 820.0 / (820.0 - 12.0)
    assert found.injuries[0].inside == pytest.approx(s)
    assert found.injuries[0].margin_mm == pytest.approx(85.0 - 25.4 - s - 2.0)


def test_a_single_injury_needs_no_way_around():
    assert assess(american(crown_injury(around_deg=None))).answer == "repairable"


def test_a_clock_hour_and_a_tape_reading_place_the_same_hole():
    # tread circumference of 205/55R16: 632 pi = 1985.5 mm; three hours are a quarter of it
    clock = crown_injury(around=Around(value=3.0, unit="h", how="clock"))
    tape = crown_injury(around=Around(value=632 * 3.141592653589793 / 4, unit="mm", how="tape"))
    one, other = (assess(american(each)).injuries[0].around for each in (clock, tape))
    assert one == pytest.approx(other)
