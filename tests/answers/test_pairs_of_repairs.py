"""Two repairs side by side: distances, overlaps and what they mean."""

from math import acos, hypot, pi, radians, sqrt, tan

import pytest

from tests.helpers.jobs import (
    all_fine,
    at_angle,
    bench_job,
    crown_injury,
    earlier_repair,
    evenly_worn,
    from_center,
    from_outboard_edge,
    gauged,
    hole,
    measured_tire,
    taped,
)
from tiremap.assess import assess
from tiremap.assessment import AssessedPair, Assessment
from tiremap.model.measures import Around, Lean, Length

D, THICKNESS = 632.0, 12.0  # 6 mm of tread and 6 under the grooves, as measured
R0 = D / 2 - THICKNESS


def exact_hole(id: str, across_mm: float, around_deg: float):
    size = hole(4.0, how="exact")
    return crown_injury(
        id, across_mm, size_outside=size, size_inside=size, around=Around(value=around_deg, how="exact")
    )


def one_pair(*marks, **fields) -> tuple[Assessment, AssessedPair]:
    usual = {"rule_set": "north_america", "tire": measured_tire(**evenly_worn(gauged(6.0)))}
    found = assess(bench_job(*marks, **{**usual, **fields}))
    assert len(found.pairs) == 1
    return found, found.pairs[0]


def test_the_distance_of_two_holes_on_the_center_plane_is_the_liner_arc_between_them():
    _, pair = one_pair(exact_hole("1", 0.0, 10.0), exact_hole("2", 0.0, 30.0))
    assert pair.distance_mm == pytest.approx(radians(20.0) * R0)
    assert pair.around_deg == pytest.approx(20.0)
    assert pair.around_tread_mm == pytest.approx(radians(20.0) * D / 2)


def test_the_short_way_around_crosses_the_datum():
    _, pair = one_pair(exact_hole("1", 0.0, 355.0), exact_hole("2", 0.0, 15.0))
    assert pair.around_deg == pytest.approx(20.0)


def test_japan_s_400_mm_are_72_5_degrees_on_a_205_55r16():
    # tread circumference 632 pi = 1985.5 mm; 400 mm of it (JATMA limit, as reproduced by a member company)
    _, pair = one_pair(exact_hole("1", 0.0, 0.0), exact_hole("2", 0.0, 360.0 * 400.0 / (632.0 * pi)))
    assert pair.around_deg == pytest.approx(72.5, abs=0.05)
    assert pair.around_tread_mm == pytest.approx(400.0)


def test_overlapping_heads_are_refused_with_the_area_they_share():
    across = 30.0
    found, pair = one_pair(exact_hole("1", -across / 2, 0.0), exact_hole("2", across / 2, 0.0))
    assert found.answer == "not_repairable"
    w = across * (820.0 - THICKNESS) / 820.0  # along the liner, crown radius 4 x 205
    a = 20.0  # a 40 mm head for a 4 mm stem
    lens = 2 * a * a * acos(w / (2 * a)) - w / 2 * sqrt(4 * a * a - w * w)
    assert pair.distance_mm == pytest.approx(w)
    assert pair.head_overlap_mm2 == pytest.approx(lens, rel=0.01)


def test_heads_that_keep_clear_pass_and_their_buffed_areas_are_a_caution():
    gap = 10.0  # less than two borders of 6 mm
    angle = (40.0 + gap) / R0
    found, pair = one_pair(exact_hole("1", 0.0, 0.0), exact_hole("2", 0.0, angle * 180 / pi))
    assert found.answer == "repairable"
    reason = next(each for each in pair.reasons if each.code == "heads_overlap")
    assert reason.margin == pytest.approx(gap, abs=0.01)
    buffed = next(each for each in pair.reasons if each.code == "buffed_overlap")
    assert (buffed.level, buffed.margin) == ("caution", pytest.approx(gap - 12.0, abs=0.01))
    assert pair.head_overlap_mm2 == 0
    assert pair.buffed_overlap_mm2 > 0


def test_two_holes_taped_from_the_same_edge_share_one_tread_width():
    def at(mm: float, id: str):
        return crown_injury(id, outside=from_outboard_edge(mm), around=at_angle(10.0), lean_around=None)

    known, _ = one_pair(at(40.0, "1"), at(120.0, "2"), tire=measured_tire())
    unknown, _ = one_pair(at(40.0, "1"), at(120.0, "2"), tire=measured_tire(tread_width=None))
    for one, other in zip(known.pairs, unknown.pairs, strict=True):
        a, b = (next(r for r in each.reasons if r.code == "heads_overlap") for each in (one, other))
        assert a.margin_low == pytest.approx(b.margin_low, abs=0.05)


def test_a_pair_whose_way_around_is_unknown_is_measured_first():
    found, pair = one_pair(crown_injury("1", 0.0, None), crown_injury("2", 5.0, 40.0))
    assert pair.distance_mm is None
    reason = next(each for each in pair.reasons if each.code == "heads_overlap")
    assert reason.level == "measure"
    assert reason.settles.field == "injury.1.around"
    assert found.answer == "measure_first"


def test_an_earlier_repair_of_unknown_head_is_not_skipped():
    found, pair = one_pair(crown_injury(), earlier_repair(around_deg=20.0, head_length=None))
    assert found.answer == "measure_first"
    assert next(each for each in pair.reasons if each.code == "heads_overlap").settles.field == "repair.R1.head_length"


def test_an_oblong_head_counts_by_its_axis():
    near = earlier_repair("R1", 0.0, 10.0, head_length=taped(80.0), head_width=taped(40.0), head_along="around")
    turned = earlier_repair("R1", 0.0, 10.0, head_length=taped(80.0), head_width=taped(40.0), head_along="across")
    _, along = one_pair(exact_hole("1", 0.0, 0.0), near)
    _, across = one_pair(exact_hole("1", 0.0, 0.0), turned)
    w = radians(10.0) * R0
    gaps = [next(r.margin for r in pair.reasons if r.code == "heads_overlap") for pair in (along, across)]
    assert gaps[0] == pytest.approx(w - 20.0 - 20.0 - 20.0)  # less half the axis, less both radii
    assert gaps[1] == pytest.approx(w - 20.0 - 20.0)


def test_an_answer_of_no_earlier_repairs_beside_a_marked_one_must_be_given_anew():
    none = all_fine(repairs=False)
    found = assess(bench_job(crown_injury(), earlier_repair(), rule_set="north_america", checks=none))
    assert found.answer == "measure_first"
    assert "earlier_repairs" in {each.code for each in found.reasons if each.level == "measure"}


def test_a_second_repair_in_a_v_rated_tire_is_a_caution_in_the_united_kingdom():
    tire = measured_tire("205/55R16 91V")
    found = assess(bench_job(crown_injury(), earlier_repair(), tire=tire))
    caution = next(each for each in found.reasons if each.code == "second_repair")
    assert (caution.level, caution.value, caution.limit) == ("caution", 240.0, 240.0)
    slow = assess(bench_job(crown_injury(), earlier_repair(), tire=measured_tire("205/55R16 91H")))
    assert "second_repair" not in {each.code for each in slow.reasons}


def test_buffed_area_of_one_head_is_the_disc_grown_by_the_border():
    found = assess(bench_job(exact_hole("1", 0.0, 0.0), rule_set="north_america"))
    assert found.buffed_area_mm2 == pytest.approx(pi * (20.0 + 6.0) ** 2, rel=0.01)
    assert found.sealed_area_mm2 == pytest.approx(pi * (20.0 + 6.0 + 3.0) ** 2, rel=0.01)


def test_the_distance_counts_both_ways_at_once():
    _, pair = one_pair(exact_hole("1", 0.0, 0.0), exact_hole("2", 40.0, 10.0))
    across = 40.0 * (820.0 - THICKNESS) / 820.0
    # the liner radius at 40 mm is a little less than on the center plane
    assert pair.distance_mm == pytest.approx(hypot(across, radians(10.0) * R0), rel=0.003)


BORDER = 6.0  # mm buffed beyond the head, house stock


def beside_a_head(gap_mm: float, **fields):
    """The reasons of a hole whose 40 mm head lies ``gap_mm`` from an earlier 40 mm head, all exact, on the center."""
    angle = (40.0 + gap_mm) / R0 * 180 / pi
    where = {"inside": from_center(0.0, how="exact"), "around": Around(value=angle, how="exact")}
    head = {"head_length": Length(value=40.0, how="exact"), **fields}
    tire = measured_tire(**evenly_worn(gauged(6.0)))
    found = assess(bench_job(exact_hole("1", 0.0, 0.0), earlier_repair(**where, **head), tire=tire))
    return {each.code: each for each in found.pairs[0].reasons}


def test_an_earlier_head_within_the_border_of_the_new_one_would_be_ground_and_says_so_alone():
    said = beside_a_head(4.0)
    assert said["earlier_head_buffed"].level == "caution"
    assert said["earlier_head_buffed"].margin == pytest.approx(4.0 - BORDER, abs=0.01)
    assert "repair R1 would be ground when buffing for injury 1" in said["earlier_head_buffed"].says
    assert "buffed_overlap" not in said


def test_an_earlier_head_past_the_border_leaves_the_overlap_of_buffed_areas():
    said = beside_a_head(8.0)
    assert "earlier_head_buffed" not in said
    assert said["buffed_overlap"].margin == pytest.approx(8.0 - 2 * BORDER, abs=0.01)
    assert not beside_a_head(2 * BORDER + 2.0).keys() & {"earlier_head_buffed", "buffed_overlap"}


def test_an_earlier_head_taped_near_the_border_may_be_ground():
    near = beside_a_head(6.5, head_length=taped(40.0))["earlier_head_buffed"]  # its edge lies 1 mm either way
    assert near.margin > 0 > near.margin_low
    assert "may be ground" in near.says
    assert "earlier_head_buffed" not in beside_a_head(9.0, head_length=taped(40.0))


def test_an_earlier_head_of_unknown_size_may_overlap_as_any_other():
    said = beside_a_head(8.0, head_length=None)
    assert "earlier_head_buffed" not in said
    assert "may overlap" in said["buffed_overlap"].says


def test_two_new_holes_have_no_earlier_head_to_grind():
    angle = 44.0 / R0 * 180 / pi
    _, pair = one_pair(exact_hole("1", 0.0, 0.0), exact_hole("2", 0.0, angle))
    codes = {each.code for each in pair.reasons}
    assert "buffed_overlap" in codes
    assert "earlier_head_buffed" not in codes


def test_two_leaning_holes_may_lie_in_tread_of_different_depth():
    """3 mm is the shallowest anywhere; both lean 30 degrees the same way, and with 9.5 mm at one the heads overlap."""
    upright, exact = Lean(value=0.0, how="exact"), {"how": "exact"}
    fields = {
        "lean_across": Lean(value=30.0, how="exact"), "lean_around": upright, "size_inside": None,
        "size_outside": hole(2.5, how="exact"), "around": Around(value=90.0, how="exact"),
    }
    tire = measured_tire(
        tread_width=Length(value=168.0, **exact), tread_depth=Length(value=3.0, **exact),
        under_grooves=Length(value=6.0, **exact),
    )
    holes = [crown_injury(id, outside=from_center(mm, how="exact"), **fields) for id, mm in (("1", -35.0), ("2", 1.0))]
    (overlap,) = [each for each in assess(bench_job(*holes, tire=tire)).all_reasons if each.code == "heads_overlap"]
    assert overlap.level == "measure"
    # thickness 9 to 15.5 mm each: apart at least 36 - 6.5 tan 30 = 32.25 on the tread, and the heads want 35
    assert overlap.margin_low == pytest.approx((36 - 6.5 * tan(radians(30.0))) * (820 - 15.5) / 820 - 35.0, abs=0.05)
