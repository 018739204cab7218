"""Where an earlier repair lies: in the tread, surely beyond its edge, or near enough to it that nobody can say."""

import pytest

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, evenly_worn, from_center, measured_tire
from tiremap.assess import assess, verdict
from tiremap.assessment import Assessment
from tiremap.model.measures import Across, BeadToes, Length
from tiremap.model.rule_set_file import rule_set_names
from tiremap.rules.reasons import Reason

SIX = Length(value=6.0, how="exact")
EXACT = {**evenly_worn(SIX), "under_grooves": SIX, "tread_width": Length(value=170.0, how="exact")}


def found(inside: Across | BeadToes | None, rule_set: str = "north_america", **tire) -> Assessment:
    """A sound hole on the center, with a repair there on the opposite side; the tread is exactly 170 mm wide."""
    known = {"sealant_used": False, "built": "standard", "date_code": "1024"}
    repair = earlier_repair(inside=inside, around_deg=270.0)
    tire = measured_tire(**{**known, **EXACT, **tire})
    return assess(bench_job(crown_injury(), repair, rule_set=rule_set, tire=tire, date="2026-03-02"))


def said(inside: Across | BeadToes | None, **tire) -> list[Reason]:
    return [reason for reason in found(inside, **tire).reasons if reason.code == "repair_place"]


def exactly(mm: float) -> Across:
    return from_center(mm, how="exact")


@pytest.mark.parametrize("side", [1, -1])
@pytest.mark.parametrize(
    ("mm", "levels"),
    [
        (0.0, []), (59.6, []), (59.61, ["caution"]), (85.0, ["caution"]), (85.01, ["refuse"]), (130.0, ["refuse"]),
    ],
)
def test_the_center_of_its_head_lies_in_the_tread_or_the_tire_is_refused(mm, levels, side):
    """170 / 2 = 85 mm to the tread edge, less 25.4 mm to the crown zone of North America."""
    assert [reason.level for reason in said(exactly(side * mm))] == levels


@pytest.mark.parametrize("rule_set", rule_set_names())
def test_one_on_the_sidewall_refuses_the_tire_by_every_guidance(rule_set):
    on_the_sidewall = found(exactly(130.0), rule_set)
    assert on_the_sidewall.answer == verdict(on_the_sidewall.job).answer == "not_repairable"
    assert found(exactly(30.0), rule_set).answer == "repairable"


def test_the_margin_is_to_the_tread_edge():
    (reason,) = said(exactly(90.0))
    assert (reason.margin_low, reason.margin_high) == pytest.approx((-5.0, -5.0))
    assert (reason.limit, reason.value, reason.measured) == (0.0, pytest.approx(-5.0), "inside the tread edge")
    assert reason.says.startswith("Repair R1 lies beyond the tread edge")


def test_near_the_edge_it_is_measured_first():
    """84 +- 2 mm by tape lies on both sides of 85."""
    (reason,) = said(from_center(84.0))
    assert (reason.level, found(from_center(84.0)).answer) == ("measure", "measure_first")
    assert reason.settles.field == "repair.R1.inside"


def test_the_tread_s_width_is_asked_where_nobody_took_it():
    (reason,) = said(exactly(80.0), tread_width=None)
    assert (reason.level, reason.settles.field) == ("measure", "tire.tread_width")


def test_along_the_liner_it_is_the_place_on_the_tread_above_that_counts():
    """Toes 20 / 188 mm away: 84 mm along the liner is 84 x 820 / (820 - 12) = 85.25 mm across the tread."""
    toes = BeadToes(from_outboard=20.0, from_inboard=188.0, how="exact")
    assert [reason.level for reason in said(toes)] == ["refuse"]
    assert [reason.level for reason in said(exactly(84.0))] == ["caution"]


def test_one_of_unknown_place_is_asked_for_by_another_check():
    assert said(None) == []
