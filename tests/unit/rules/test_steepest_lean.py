"""A lean too steep to be repaired at all, under New Zealand's 45 degrees, through a crown known exactly."""

from math import atan, degrees, radians, tan

import pytest

from tests.helpers.jobs import bench_job, crown_injury, evenly_worn, from_center, measured_tire
from tiremap.assess import assess
from tiremap.model.measures import Across, BeadToes, Lean, Length
from tiremap.rules.reasons import Reason


def exact(value: float, **more) -> Length:
    return Length(value=value, how="exact", **more)


def exact_lean(value: float) -> Lean:
    return Lean(value=value, how="exact")


def at(value: float, minus: float = 0.0, plus: float = 0.0) -> Across:
    return from_center(value, how="exact", minus=minus, plus=plus)


def told(rule_set: str = "new_zealand", under_grooves: Length | None = None, **fields) -> list[Reason]:
    """What is told of the lean of a hole through 12 mm of crown, which does not lean where it is not said to."""
    usual = {"outside": at(30.0), "lean_across": exact_lean(0.0), "lean_around": exact_lean(0.0)}
    tire = measured_tire(
        tread_width=exact(170.0), under_grooves=under_grooves or exact(6.0), **evenly_worn(exact(6.0))
    )
    found = assess(bench_job(crown_injury(**{**usual, **fields}), rule_set=rule_set, tire=tire))
    return [each for each in found.mark("1").reasons if each.code == "steepest_lean"]


def margins(reason: Reason) -> tuple[float | None, float | None, float | None]:
    return reason.margin, reason.margin_low, reason.margin_high


def test_a_rule_set_without_a_figure_says_nothing():
    assert told("united_kingdom", lean_across=exact_lean(80.0)) == []


@pytest.mark.parametrize("part", ["lean_across", "lean_around"])
@pytest.mark.parametrize(
    ("lean", "level", "says"),
    [
        (0.0, "note", "Injury 1 does not lean too steeply: at most 45 degrees."),
        (45.0, "note", "Injury 1 does not lean too steeply: at most 45 degrees."),
        (-45.0, "note", "Injury 1 does not lean too steeply: at most 45 degrees."),
        (45.1, "refuse", "Injury 1 leans too steeply: at most 45 degrees."),
        (-45.1, "refuse", "Injury 1 leans too steeply: at most 45 degrees."),
    ],
)
def test_up_to_the_limit_a_lean_passes_and_past_it_is_refused(part, lean, level, says):
    (reason,) = told(**{part: exact_lean(lean)})
    assert (reason.level, reason.limit, reason.unit) == (level, 45.0, "deg")
    assert reason.says.startswith(says)
    assert margins(reason) == (pytest.approx(45.0 - abs(lean), abs=1e-9),) * 3
    assert reason.value == pytest.approx(abs(lean))


def test_a_lean_that_may_be_too_steep_is_measured():
    (reason,) = told(lean_across=Lean(value=42.0, how="probe"))
    assert reason.level == "measure"
    assert reason.says.startswith("Injury 1 may lean too steeply: at most 45 degrees. Measure ")
    assert margins(reason) == (pytest.approx(3.0), pytest.approx(-2.0), pytest.approx(8.0))


def test_both_parts_of_a_lean_add_up_as_their_tangents_do():
    (reason,) = told(lean_across=exact_lean(-35.0), lean_around=exact_lean(35.0))
    assert margins(reason) == (pytest.approx(45.0 - degrees(atan(tan(radians(35.0)) * 2**0.5))),) * 3


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_between_two_ends_the_lean_is_steepest_at_their_far_sides_and_may_be_none(way):
    inside = at(way * 32.0, minus=5.0, plus=5.0)
    (reason,) = told(outside=at(way * 30.0), inside=inside, lean_across=None)
    steepest = max(5.0 + 2.0 * way, 5.0 - 2.0 * way)
    stated, low = (45.0 - degrees(atan(off / 12.0)) for off in (2.0, steepest))
    assert margins(reason) == (pytest.approx(stated), pytest.approx(low), pytest.approx(45.0))


def test_upright_may_be_reached_by_the_crown_s_thickness_alone():
    """Taped along the liner, the inside end lies under 30 mm where the crown is 12 mm thick, not at 8 or 16."""
    half_difference = 30.0 * 808.0 / 820.0
    toes = BeadToes(
        from_outboard=200.0 - half_difference, from_inboard=200.0 + half_difference, how="exact", minus=0.0, plus=0.0
    )
    (reason,) = told(inside=toes, lean_across=None, under_grooves=exact(6.0, minus=4.0, plus=4.0))
    off_at = {thick: abs(30.0 - half_difference * 820.0 / (820.0 - thick)) for thick in (8.0, 16.0)}
    at_8, at_16 = (45.0 - degrees(atan(off / thick)) for thick, off in off_at.items())
    assert reason.margin_low == pytest.approx(at_8)
    assert at_8 < at_16 < 44.5 < reason.margin_high <= 45.0
    assert reason.margin_high == pytest.approx(45.0, abs=0.005)  # found by one division, on a line bent a hair
