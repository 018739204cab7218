"""What the lean of a hole means for its unit, and whether it agrees with the hole's two ends."""

from math import atan, degrees, hypot, radians, tan

import pytest

from tests.helpers.jobs import bench_job, crown_injury, evenly_worn, from_center, from_outboard_edge, measured_tire
from tiremap.assess import assess
from tiremap.assessment import AssessedMark, Assessment, case_of
from tiremap.model.measures import Across, Lean, Length
from tiremap.rules.lean import known_lean_deg, lean_is_whole
from tiremap.rules.reasons import Reason


def exact_lean(value: float) -> Lean:
    return Lean(value=value, how="exact")


def assessed(**fields) -> tuple[Assessment, AssessedMark]:
    """A hole through a crown of exactly 12 mm, on a tread of exactly 170 mm; not leaning around."""
    six, tread = Length(value=6.0, how="exact"), Length(value=170.0, how="exact")
    tire = measured_tire(tread_width=tread, under_grooves=six, **evenly_worn(six))
    usual = {"lean_across": None, "lean_around": exact_lean(0.0)}
    found = assess(bench_job(crown_injury(**{**usual, **fields}), tire=tire))
    return found, found.mark("1")


def told(code: str, **fields) -> list[Reason]:
    return [each for each in assessed(**fields)[1].reasons if each.code == code]


def known(**fields) -> tuple[float, float] | None:
    found, mark = assessed(**fields)
    return known_lean_deg(case_of(found), mark.facts)


def ends(outside: float, inside: float) -> dict[str, Across]:
    """Both ends exactly at mm from the center."""
    return {"outside": from_center(outside, how="exact"), "inside": from_center(inside, how="exact")}


@pytest.mark.parametrize("lean", [25.0, -25.0])
def test_up_to_25_degrees_no_unit_is_asked_for(lean):
    assert told("lean_chooses_unit", lean_across=exact_lean(lean)) == []


@pytest.mark.parametrize(
    ("lean", "stated", "most"),
    [(exact_lean(25.01), 25.01, 25.01), (exact_lean(-40.0), 40.0, 40.0), (Lean(value=22.0, how="probe"), 22.0, 27.0)],
)
def test_above_25_degrees_stem_and_patch_are_separate(lean, stated, most):
    (reason,) = told("lean_chooses_unit", lean_across=lean)
    says = f"Injury 1 leans up to {most:.0f} degrees: stem and patch are separate, not one piece."
    assert (reason.level, reason.says, reason.limit, reason.unit) == ("note", says, 25.0, "deg")
    assert reason.value == pytest.approx(stated)
    assert (reason.margin, reason.margin_low) == (pytest.approx(25.0 - stated), pytest.approx(25.0 - most))


@pytest.mark.parametrize("lean", [30.0, -30.0])
@pytest.mark.parametrize(("part", "other"), [("lean_across", "lean_around"), ("lean_around", "lean_across")])
def test_of_a_lean_half_known_that_half_is_known(part, other, lean):
    assert known(**{part: exact_lean(lean), other: None}) == (pytest.approx(30.0), pytest.approx(30.0))


def test_of_a_lean_never_entered_nothing_is_known():
    assert known(lean_across=None, lean_around=None) is None


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_the_steepest_is_the_further_end_of_the_tolerance_whichever_way_it_leans(way):
    taken = Lean(value=way * 20.0, how="probe", minus=3.0 if way > 0 else 4.0, plus=4.0 if way > 0 else 3.0)
    assert known(lean_across=taken) == (pytest.approx(20.0), pytest.approx(24.0))


def test_both_parts_of_a_lean_add_up_as_their_tangents_do():
    total = degrees(atan(hypot(tan(radians(20.0)), tan(radians(30.0)))))
    assert known(lean_across=exact_lean(20.0), lean_around=exact_lean(-30.0))[0] == pytest.approx(total)


@pytest.mark.parametrize(("outside", "inside"), [(4.0, 13.0), (13.0, 4.0), (-4.0, -13.0), (-3.0, 6.0), (6.0, -3.0)])
def test_of_two_ends_9_mm_apart_through_12_mm_the_lean_follows(outside, inside):
    lean = degrees(atan(9.0 / 12.0))
    assert known(**ends(outside, inside)) == (pytest.approx(lean), pytest.approx(lean))


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_of_two_ends_with_tolerances_the_steepest_lean_is_between_their_far_sides(way):
    stated, most = known(outside=from_center(-4.0 * way), inside=from_center(5.0 * way))  # 2 mm by tape, each
    assert (stated, most) == (pytest.approx(degrees(atan(9.0 / 12.0))), pytest.approx(degrees(atan(13.0 / 12.0))))


@pytest.mark.parametrize(
    ("fields", "whole"),
    [
        ({"lean_across": exact_lean(0.0)}, True),
        ({"lean_across": exact_lean(0.0), "lean_around": None}, False),
        ({}, False),
        (ends(0.0, 3.0), True),
        ({**ends(0.0, 3.0), "lean_around": None}, False),
    ],
)
def test_a_lean_is_whole_where_both_its_parts_are_known(fields, whole):
    found, mark = assessed(**fields)
    assert lean_is_whole(case_of(found), mark.facts) is whole


@pytest.mark.parametrize(
    ("outside", "inside", "lean", "off"),
    [
        (0.0, 20.0, 0.0, 20.0),
        (0.0, -20.0, 0.0, 20.0),
        (5.0, 25.0, 45.0, 8.0),  # 20 mm outward, where the lean carries it 12 mm
        (-5.0, -25.0, -45.0, 8.0),
        (5.0, -15.0, 45.0, 32.0),
        (30.0, 30.0, -45.0, 12.0),
    ],
)
def test_ends_that_do_not_fit_the_lean_are_measured_again(outside, inside, lean, off):
    (reason,) = told("ends_disagree", **ends(outside, inside), lean_across=exact_lean(lean))
    assert (reason.level, reason.limit, reason.unit) == ("measure", 0.0, "mm")
    assert [reason.margin, reason.margin_low, reason.margin_high] == [pytest.approx(-off)] * 3
    assert reason.value == pytest.approx(off)
    assert reason.says.startswith(
        "Injury 1: outside, inside and lean do not fit together, even at the ends of their tolerances. "
        "Measure all three again."
    )
    assert (reason.settles.field, reason.settles.alone) == ("injury.1.inside", False)


@pytest.mark.parametrize(
    ("outside", "inside", "lean"), [(0.0, 0.0, 0.0), (5.0, 17.0, 45.0), (-5.0, -17.0, -45.0), (17.0, 5.0, -45.0)]
)
def test_ends_that_fit_the_lean_are_not_measured_again(outside, inside, lean):
    assert told("ends_disagree", **ends(outside, inside), lean_across=exact_lean(lean)) == []


@pytest.mark.parametrize(("inside", "again"), [(4.0, False), (4.1, True), (-4.0, False), (-4.1, True)])
def test_ends_no_further_off_than_their_tolerances_together_still_fit(inside, again):
    fields = {"outside": from_center(0.0), "inside": from_center(inside), "lean_across": exact_lean(0.0)}
    assert bool(told("ends_disagree", **fields)) is again  # 2 mm by tape, each


def test_an_end_from_an_edge_and_one_from_the_center_are_laid_side_by_side():
    """85 mm to the edge less 60: 25 mm from the center."""
    fields = {"outside": from_outboard_edge(60.0, how="exact"), "inside": from_center(25.0, how="exact")}
    assert told("ends_disagree", **fields, lean_across=exact_lean(0.0)) == []
    (reason,) = told("ends_disagree", **fields, lean_across=exact_lean(45.0))
    assert reason.margin == pytest.approx(-12.0)
