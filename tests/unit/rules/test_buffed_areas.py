"""Buffing 6 mm beyond a head of 40 mm: what it runs into, worked out on a tire known exactly."""

import pytest

from tests.helpers.jobs import (
    bench_job,
    crown_injury,
    earlier_repair,
    evenly_worn,
    from_center,
    hole,
    measured_tire,
)
from tiremap.assess import assess
from tiremap.model.job import Injury, Job, Repair
from tiremap.model.measures import Around, Lean, Length
from tiremap.rules.reasons import Reason

PER_LINER = 820.0 / 808.0
"""Mm on the tread for one on the liner 12 mm below it: the crown's radius is 4 x 205 mm."""

GROUND = "The head of repair R1 would be ground when buffing for injury 1."
MAY_BE_GROUND = "The head of repair R1 may be ground when buffing for injury 1."
OVERLAP = "The buffed areas of injury 1 and repair R1 overlap."
MAY_OVERLAP = "The buffed areas of injury 1 and repair R1 may overlap."


def exact(value: float, plus: float = 0.0) -> Length:
    return Length(value=value, how="exact", plus=plus)


def exact_hole(id: str, across: float) -> Injury:
    """A 4 mm hole, which takes a head of 40 mm."""
    size, upright = hole(4.0, how="exact"), Lean(value=0.0, how="exact")
    return crown_injury(
        id, outside=from_center(across, how="exact"), around=Around(value=0.0, how="exact"), lean_across=upright,
        lean_around=upright, size_outside=size, size_inside=size,
    )


def exact_repair(id: str, across: float, head: Length | None) -> Repair:
    inside = from_center(across, how="exact")
    return earlier_repair(id, inside=inside, around=Around(value=0.0, how="exact"), head_length=head)


def job(*marks: Injury | Repair) -> Job:
    tire = measured_tire(tread_width=exact(170.0), under_grooves=exact(6.0), **evenly_worn(exact(6.0)))
    return bench_job(*marks, tire=tire)


def buffed(*marks: Injury | Repair) -> list[Reason]:
    (pair,) = assess(job(*marks)).pairs
    return [each for each in pair.reasons if each.code in ("earlier_head_buffed", "buffed_overlap")]


def beside_a_repair(apart: float, head: Length | None) -> list[Reason]:
    """A hole beside an earlier repair, centers ``apart`` mm along the liner."""
    across = apart * PER_LINER / 2
    return buffed(exact_hole("1", -across), exact_repair("R1", across, head))


@pytest.mark.parametrize("gap", [12.0, 12.1, 30.0])
def test_where_two_borders_have_room_nothing_is_told(gap):
    assert beside_a_repair(40.0 + gap, exact(40.0)) == []


@pytest.mark.parametrize(
    ("gap", "code", "says", "margin"),
    [
        (11.9, "buffed_overlap", OVERLAP, -0.1),
        (6.0, "buffed_overlap", OVERLAP, -6.0),  # the hole's border ends at the earlier head
        (5.9, "earlier_head_buffed", GROUND, -0.1),
        (0.5, "earlier_head_buffed", GROUND, -5.5),
    ],
)
def test_an_earlier_head_within_one_border_would_be_ground_and_within_two_the_areas_overlap(gap, code, says, margin):
    (reason,) = beside_a_repair(40.0 + gap, exact(40.0))
    assert (reason.code, reason.level, reason.says, reason.limit) == (code, "caution", says, 0.0)
    assert reason.subject == ("1", "R1")
    assert [reason.margin, reason.margin_low, reason.margin_high, reason.value] == [pytest.approx(margin)] * 4


@pytest.mark.parametrize(
    ("head", "says", "low", "high"),
    [
        # centers 50.5 mm apart, of which the hole's head and border take 26
        (exact(50.0, plus=2.0), GROUND, -1.5, -0.5),
        (exact(49.0, plus=2.0), MAY_BE_GROUND, -1.0, 0.0),  # at best the border just reaches it
        (exact(48.0, plus=2.0), MAY_BE_GROUND, -0.5, 0.5),
        # or with the repair's own border 32
        (exact(38.0, plus=2.0), OVERLAP, -1.5, -0.5),
        (exact(37.0, plus=2.0), MAY_OVERLAP, -1.0, 0.0),
        (exact(36.0, plus=2.0), MAY_OVERLAP, -0.5, 0.5),
    ],
)
def test_what_holds_at_best_as_well_is_told_for_sure(head, says, low, high):
    (reason,) = buffed(exact_hole("1", -25.625), exact_repair("R1", 25.625, head))  # 51.25 x 808 / 820 = 50.5
    assert reason.says == says
    assert (reason.margin_low, reason.margin_high) == (pytest.approx(low), pytest.approx(high))


def test_an_earlier_head_of_unknown_size_may_overlap_and_is_not_said_to_be_ground():
    (reason,) = beside_a_repair(60.0, None)
    assert (reason.code, reason.says, reason.margin_low) == ("buffed_overlap", MAY_OVERLAP, None)


@pytest.mark.parametrize(
    ("marks", "says"),
    [
        (
            [exact_hole("1", -22.0 * PER_LINER), exact_hole("2", 22.0 * PER_LINER)],
            "The buffed areas of injury 1 and injury 2 overlap.",
        ),
        (
            [exact_repair("R1", -22.0 * PER_LINER, exact(40.0)), exact_repair("R2", 22.0 * PER_LINER, exact(40.0))],
            "The buffed areas of repair R1 and repair R2 overlap.",
        ),
    ],
)
def test_of_two_holes_or_two_earlier_repairs_no_head_is_said_to_be_ground(marks, says):
    (reason,) = buffed(*marks)  # 44 mm apart: a gap of 4 mm, less than one border
    assert (reason.code, reason.says) == ("buffed_overlap", says)
    assert reason.margin == pytest.approx(-8.0)
