"""From when on an age is a caution, to the day: five years and ten years from manufacture.

1021 is week 10 of 2021, from Sunday 7 March (as in the US) to Sunday 14 March (ISO 8601); 1016 is week 10 of 2016,
from 6 to 13 March.
"""

import pytest

from tests.helpers.jobs import bench_job, crown_injury, measured_tire
from tiremap.assess import assess
from tiremap.model.rule_set import RuleSet
from tiremap.model.rule_set_file import rule_set_named
from tiremap.rules.reasons import Reason

YEARLY = "years or more from manufacture: it may have been in use as long, and is to be inspected yearly."
REPLACE = "years or more from manufacture: makers ask for it to be replaced."
DAY = 1 / 365
"""Of a year without a 29 February."""


def refusing_over(years: float) -> RuleSet:
    """A set that refuses a tire older than so many years."""
    makers = rule_set_named("european_makers")
    (limit,) = makers.oldest_tires
    return makers.model_copy(update={"oldest_tires": (limit.model_copy(update={"value": years}),)})


def cautions(date_code: str | None, day: str, rule_set: RuleSet | None = None) -> list[Reason]:
    job = bench_job(crown_injury(), tire=measured_tire(date_code=date_code), date=day)
    return [each for each in assess(job, rule_set, advise=False).reasons if each.code.startswith("age_")]


@pytest.mark.parametrize(
    ("date_code", "day", "says"),
    [
        ("1021", "2026-03-06", []),
        ("1021", "2026-03-07", [f"The tire may be 5 {YEARLY}"]),
        ("1021", "2026-03-13", [f"The tire may be 5 {YEARLY}"]),
        ("1021", "2026-03-14", [f"The tire is 5 {YEARLY}"]),
        ("1016", "2026-03-05", [f"The tire is 5 {YEARLY}"]),
        ("1016", "2026-03-06", [f"The tire is 5 {YEARLY}", f"The tire may be 10 {REPLACE}"]),
        ("1016", "2026-03-12", [f"The tire is 5 {YEARLY}", f"The tire may be 10 {REPLACE}"]),
        ("1016", "2026-03-13", [f"The tire is 10 {REPLACE}"]),  # ten at least: one caution says enough
        ("1016", "2030-01-01", [f"The tire is 10 {REPLACE}"]),
        (None, "2026-03-06", []), ("no code", "2026-03-06", []),
    ],
)
def test_it_is_said_from_the_first_day_a_tire_may_be_that_old(date_code, day, says):
    assert [each.says for each in cautions(date_code, day)] == says


def test_a_caution_is_told_with_its_age_in_years_and_how_far_from_it_the_tire_may_be():
    yearly, replace = cautions("1016", "2026-03-06")  # from 10 years down to 9 and 358 days
    assert (yearly.code, yearly.level, yearly.limit, yearly.unit) == ("age_yearly", "caution", 5.0, "years")
    assert (replace.code, replace.level, replace.limit, replace.unit) == ("age_replace", "caution", 10.0, "years")
    assert (yearly.margin_low, yearly.margin_high) == pytest.approx((-5.0, -5.0 + 7 * DAY))
    assert (replace.margin_low, replace.margin_high) == pytest.approx((0.0, 7 * DAY))
    assert {(each.value, each.margin) for each in (yearly, replace)} == {(None, None)}  # not known to the day
    assert yearly.source == (
        "a tire maker's advice, as its dealers give it: after five years in use, a yearly inspection"
    )
    assert replace.source == "two tire makers' pages: replace at ten years from manufacture"


@pytest.mark.parametrize(
    ("years", "day", "codes"),
    [
        (10.0, "2026-03-06", ["age_yearly", "age_replace"]),  # ten years on the day are not refused
        (10.0, "2026-03-07", ["age_yearly"]),  # may be refused for its age: that says more
        (10.0, "2026-03-13", []),
        (6.0, "2022-03-06", ["age_yearly"]),
        (6.0, "2022-03-13", ["age_yearly"]),  # six years at least, and six are not refused
        (6.0, "2022-03-14", []),  # refused for its age
        (12.0, "2028-03-06", ["age_replace"]),
        (12.0, "2028-03-07", []),
        (5.0, "2021-03-06", ["age_yearly"]),
    ],
)
def test_a_caution_is_left_to_a_rule_set_that_refuses_for_age(years, day, codes):
    assert [each.code for each in cautions("1016", day, refusing_over(years))] == codes
