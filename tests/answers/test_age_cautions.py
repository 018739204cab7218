"""Ages that are a caution in every set: 5 years (a maker's advice, second-hand), 10 years (two makers' pages)."""

import pytest

from tests.helpers.jobs import bench_job, crown_injury, measured_tire
from tiremap.assess import assess
from tiremap.model.rule_set_file import rule_set_names

ON_THE_BENCH = "2026-03-02"
OWN_LIMIT = "european_makers"
"""The set that refuses a passenger tire over ten years from manufacture itself."""


def said(date_code: str | None, rule_set: str = "united_kingdom") -> dict[str, tuple[str, str]]:
    tire = measured_tire(date_code=date_code)
    found = assess(bench_job(crown_injury(), rule_set=rule_set, tire=tire, date=ON_THE_BENCH))
    return {each.code: (each.level, each.says) for each in found.reasons if each.code.startswith("age")}


@pytest.mark.parametrize("rule_set", [name for name in rule_set_names() if name != OWN_LIMIT])
@pytest.mark.parametrize(
    ("date_code", "codes"),
    [
        (None, []), ("no code", []), ("4021", []), ("0121", ["age_yearly"]), ("4016", ["age_yearly"]),
        ("0115", ["age_replace"]),
    ],
)
def test_every_set_cautions_from_five_years_on_and_from_ten_on_asks_for_another_tire(rule_set, date_code, codes):
    found = said(date_code, rule_set)
    assert list(found) == codes
    assert {level for level, _ in found.values()} <= {"caution"}


def test_a_week_with_days_on_both_sides_may_be_that_old():
    assert "The tire may be 5 years" in said("0921")["age_yearly"][1]
    assert "The tire is 5 years" in said("0121")["age_yearly"][1]
    both = said("0916")  # five years for certain, ten perhaps
    assert "is 5 years" in both["age_yearly"][1]
    assert "may be 10 years" in both["age_replace"][1]


def test_a_year_that_cannot_be_read_whole_may_be_that_old_and_turns_no_answer():
    tire = measured_tire(date_code="231?")
    found = assess(bench_job(crown_injury(), tire=tire, date=ON_THE_BENCH))
    assert {each.code for each in found.reasons if each.level == "caution"} == {"age_yearly", "age_replace"}
    assert found.answer == "repairable"


def test_a_set_that_refuses_for_age_says_it_alone():
    assert said("0115", OWN_LIMIT).keys() == {"age"}
    assert said("0916", OWN_LIMIT).keys() == {"age", "age_yearly"}
    assert said("0121", OWN_LIMIT).keys() == {"age", "age_yearly"}
