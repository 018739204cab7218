"""Is the tire too old: tire makers say ten years from manufacture at most, counted by every day its code allows.

1016 is week 10 of 2016: from Sunday 6 March (counted as in the US) to Sunday 13 March (ISO 8601).
"""

from datetime import date

import pytest

from tests.helpers.jobs import bench_job, crown_injury, measured_tire
from tiremap.assess import assess
from tiremap.rules.reasons import Reason, Settles, Turns

THE_CODE = Settles("tire.date_code", "the date code", "")
SOURCE = "two tire makers: replace at ten years from manufacture"
YOUNG = "The tire is young enough: at most 10 years from manufacture."
OLD = "The tire is too old: at most 10 years from manufacture."
PERHAPS = "The tire may be too old: at most 10 years from manufacture. Read the whole date code."


def ages(date_code: str | None, day: str | None, rule_set: str = "european_makers") -> list[Reason]:
    job = bench_job(crown_injury(), rule_set=rule_set, tire=measured_tire(date_code=date_code), date=day)
    return [each for each in assess(job, advise=False).reasons if each.code == "age"]


def age(date_code: str | None, day: str | None) -> Reason:
    (reason,) = ages(date_code, day)
    return reason


DAY = 1 / 365
"""Of a year without a 29 February."""


@pytest.mark.parametrize(
    ("day", "level", "says", "low", "high"),
    [
        ("2021-03-13", "note", YOUNG, 5 - 7 * DAY, 5.0),  # 5 years and 7 days, or 5 years
        ("2026-03-06", "note", YOUNG, 0.0, 7 * DAY),  # ten years on the day are not too old
        ("2026-03-07", "measure", PERHAPS, -DAY, 6 * DAY),
        ("2026-03-13", "measure", PERHAPS, -7 * DAY, 0.0),
        ("2026-03-14", "refuse", OLD, -8 * DAY, -DAY),
    ],
)
def test_ten_years_are_counted_to_the_day_from_every_day_the_code_allows(day, level, says, low, high):
    reason = age("1016", day)
    assert (reason.level, reason.says, reason.source) == (level, says, SOURCE)
    assert (reason.margin_low, reason.margin_high) == pytest.approx((low, high), abs=1e-9)
    assert (reason.margin, reason.value, reason.limit, reason.unit) == (None, None, 10.0, "years")
    assert reason.settles == (THE_CODE if level == "measure" else None)
    assert reason.turns == (Turns("tire.date_code", "the date code") if level == "refuse" else None)


def test_on_the_first_day_a_code_allows_the_age_is_known():
    reason = age("1016", "2016-03-06")
    assert (reason.margin_low, reason.margin, reason.margin_high, reason.value) == (10.0, 10.0, 10.0, 0.0)


@pytest.mark.parametrize("code", [None, "", "9916", "no code"])
def test_an_age_nobody_knows_is_asked_for(code):
    reason = age(code, "2026-03-02")
    assert (reason.level, reason.source, reason.settles) == ("measure", SOURCE, THE_CODE)
    assert reason.asks == (("tire.date_code", "the date code"),)
    assert reason.says.startswith("The tire's age is unknown: ")
    assert reason.says.endswith("at most 10 years.") == (not code)


@pytest.mark.parametrize("code", [None, "1001"])
def test_a_set_that_gives_no_age_asks_for_none(code):
    assert ages(code, "2026-03-02", "united_kingdom") == []


@pytest.mark.parametrize("written", [None, "", "2 March 2026", "02.03.2026"])
def test_without_a_date_written_year_first_the_age_is_that_of_today(written):
    day = date.today()
    found = age("1016", written)
    today = day if date.today() == day else date.today()
    told = age("1016", today.isoformat())
    assert (found.margin_low, found.margin_high) == (told.margin_low, told.margin_high)
