"""Weather cracks found, measured, joined up or not: 2/32 in deep or joined up refuses (common practice, no source)."""

import pytest

from tests.helpers.jobs import all_fine, bench_job, crown_injury, measured_tire
from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.edits.change import changed
from tiremap.model.job import Finding
from tiremap.model.measures import Length

FOUND, FINE = Finding(state="found"), Finding(state="fine")
LIMIT_MM = 2 / 32 * 25.4
CODES = ("condition_cracks", "crack_depth", "cracks_joined")


def exact(mm: float | None) -> Length | None:
    return None if mm is None else Length(value=mm, how="exact")


def with_cracks(check: Finding | None, depth: Length | None, joined: bool | None) -> Assessment:
    tire = measured_tire(crack_depth=depth, cracks_joined=joined)
    return assess(bench_job(crown_injury(), checks=changed(all_fine(), cracks=check), tire=tire))


def said(found: Assessment) -> dict[str, str]:
    return {each.code: each.level for each in found.reasons if each.code in CODES}


SHALLOW, DEEP = 1.0, 2.0


@pytest.mark.parametrize(
    ("check", "depth", "joined", "levels"),
    [
        (FOUND, None, None, {"condition_cracks": "refuse"}),
        (FOUND, DEEP, None, {"crack_depth": "refuse"}),
        (FOUND, DEEP, False, {"crack_depth": "refuse"}),
        (FOUND, DEEP, True, {"crack_depth": "refuse", "cracks_joined": "refuse"}),
        (FOUND, SHALLOW, None, {"crack_depth": "caution", "cracks_joined": "measure"}),
        (FOUND, SHALLOW, False, {"crack_depth": "caution"}),
        (FOUND, SHALLOW, True, {"crack_depth": "caution", "cracks_joined": "refuse"}),
        (FOUND, None, False, {"crack_depth": "measure"}),
        (FOUND, None, True, {"cracks_joined": "refuse"}),
        (FINE, None, None, {}),
        (FINE, SHALLOW, None, {"crack_depth": "caution"}),
        (FINE, DEEP, None, {"crack_depth": "refuse"}),
        (FINE, DEEP, False, {"crack_depth": "refuse"}),
        (FINE, None, True, {"cracks_joined": "refuse"}),
        (None, DEEP, False, {"crack_depth": "refuse"}),
        (None, SHALLOW, False, {"crack_depth": "caution"}),
        (None, None, True, {"cracks_joined": "refuse"}),
    ],
)
def test_what_was_measured_of_cracks_decides_and_what_is_missing_is_asked(check, depth, joined, levels):
    found = with_cracks(check, exact(depth), joined)
    assert said(found) == levels
    refused = "refuse" in levels.values()
    asked = "measure" in levels.values() or check is None
    assert found.answer == ("not_repairable" if refused else "measure_first" if asked else "repairable")


def test_a_depth_does_not_answer_the_check_nobody_did():
    found = with_cracks(None, exact(SHALLOW), False)
    assert [each.field for each in found.needed] == ["checks.cracks"]


@pytest.mark.parametrize(("mm", "level", "margin"), [(LIMIT_MM, "refuse", 0.0), (LIMIT_MM - 0.01, "caution", 0.01)])
def test_cracks_exactly_two_thirty_seconds_deep_are_refused(mm, level, margin):
    (reason,) = [each for each in with_cracks(FOUND, exact(mm), False).reasons if each.code == "crack_depth"]
    assert (reason.level, reason.unit) == (level, "mm")
    assert reason.margin == pytest.approx(margin, abs=1e-9)


def test_two_thirty_seconds_typed_in_inches_are_as_deep():
    assert said(with_cracks(FOUND, Length(value=2 / 32, unit="in", how="exact"), False)) == {"crack_depth": "refuse"}


@pytest.mark.parametrize("check", [FOUND, FINE])
def test_a_depth_that_may_be_either_side_of_the_limit_is_measured_better_and_passes_where_it_says(check):
    gauged = Length(value=1.5, how="gauge")  # 0.2 mm of tolerance either way
    (reason,) = [each for each in with_cracks(check, gauged, False).reasons if each.code == "crack_depth"]
    assert (reason.level, reason.settles.field) == ("measure", "tire.crack_depth")
    assert reason.settles.at_most == 1.5  # 1.5875 rounded to the safe side
    assert with_cracks(check, exact(reason.settles.at_most), False).answer == "repairable"


def test_an_unknown_depth_is_asked_with_the_value_from_where_on_it_passes():
    found = with_cracks(FOUND, None, False)
    assert [each.field for each in found.needed] == ["tire.crack_depth"]
    (reason,) = [each for each in found.reasons if each.code == "crack_depth"]
    assert reason.settles.at_most == 1.5


def test_joined_up_is_asked_where_the_cracks_are_shallow():
    assert [each.field for each in with_cracks(FOUND, exact(SHALLOW), None).needed] == ["tire.cracks_joined"]


@pytest.mark.parametrize("depth", [SHALLOW, DEEP])
def test_a_tire_is_not_called_free_of_cracks_that_were_measured(depth):
    sound = [each for each in with_cracks(FINE, exact(depth), None).reasons if each.code == "condition"]
    assert sound
    assert all("cracks" not in each.says for each in sound)
