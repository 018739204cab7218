"""How many repairs a tire may have: New Zealand allows a passenger tire 3, a self-supporting one 2."""

import pytest

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, measured_tire
from tiremap.assess import assess


def counted(repairs: int, rule_set: str = "new_zealand", **tire):
    """The reason of a tire with so many repairs, the hole to be repaired among them, far from one another."""
    apart = 360.0 / repairs
    earlier = [earlier_repair(f"R{each}", around_deg=each * apart) for each in range(1, repairs)]
    job = bench_job(crown_injury(), *earlier, rule_set=rule_set, tire=measured_tire(**tire))
    [reason] = [each for each in assess(job).all_reasons if each.code == "repair_count"]
    return reason


@pytest.mark.parametrize(
    ("repairs", "level", "least", "most"),
    [(1, "note", 1, 2), (2, "note", 0, 1), (3, "measure", -1, 0), (4, "refuse", -2, -1)],
)
def test_until_it_is_known_how_the_tire_is_built_only_what_holds_either_way_is_answered(repairs, level, least, most):
    reason = counted(repairs)
    assert reason.level == level
    assert (reason.value, reason.limit) == (repairs, 2)
    assert (reason.margin, reason.margin_low, reason.margin_high) == (least, least, most)
    asks_how_it_is_built = (("tire.built", "whether the tire is self-supporting"),)
    assert reason.asks == (asks_how_it_is_built if level == "measure" else ())
    assert (reason.settles is not None and reason.settles.field == "tire.built") == (level == "measure")


@pytest.mark.parametrize(
    ("built", "repairs", "level"),
    [
        ("standard", 3, "note"), ("standard", 4, "refuse"),
        ("self_supporting", 2, "note"), ("self_supporting", 3, "refuse"),
    ],
)
def test_the_last_repair_allowed_passes_and_the_next_is_refused(built, repairs, level):
    assert counted(repairs, built=built).level == level


@pytest.mark.parametrize(("repairs", "level"), [(2, "note"), (3, "refuse")])
def test_japan_allows_two_however_the_tire_is_built(repairs, level):
    assert counted(repairs, "japan").level == level


def test_a_tire_without_any_mark_is_asked_nothing():
    assert [each for each in assess(bench_job(rule_set="japan")).all_reasons if each.code == "repair_count"] == []
