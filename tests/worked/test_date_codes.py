"""Weeks whose days a published source gives, and the days the rules changed."""

from datetime import date

import pytest

from tiremap.model.date_code import read_date_code

TODAY = date(2026, 11, 25)


def test_week_01_of_2009_covers_the_days_of_the_published_example():
    # 49 CFR 574.5(b)(3), its own example: 0109 is Sunday, January 4 to Saturday, January 10, 2009.
    code = read_date_code("0109", TODAY)
    assert code.built_from <= date(2009, 1, 4)
    assert code.built_to == date(2009, 1, 10)


def test_week_01_of_2009_also_covers_the_iso_week():
    # ISO 8601: week 2009-W01 begins on Monday, December 29, 2008.
    assert read_date_code("0109", TODAY).built_from == date(2008, 12, 29)


def test_four_digits_became_binding_on_the_first_day_of_week_27():
    # Four digits from July 2, 2000 (from memory), the Sunday that begins week 27 by 49 CFR 574.5(b)(3).
    assert read_date_code("2700", TODAY).built_from == date(2000, 7, 2)


def test_three_digits_end_on_the_day_before():
    # ISO week 26 of 2000 ends on July 2, one day too late for three digits.
    assert read_date_code("260", TODAY).built_to == date(2000, 7, 1)


@pytest.mark.parametrize(
    ("code", "first", "last"),
    [
        # ISO 8601: 2020 and 2015 have a week 53 (they hold 53 Thursdays); by Sundays they have 52.
        ("5320", date(2020, 12, 28), date(2021, 1, 3)),
        ("5315", date(2015, 12, 28), date(2016, 1, 3)),
        # 49 CFR 574.5: 2017 and 2000 hold 53 Sundays, the last on December 31; by ISO they have 52 weeks.
        ("5317", date(2017, 12, 31), date(2018, 1, 6)),
        ("5300", date(2000, 12, 31), date(2001, 1, 6)),
    ],
)
def test_week_53_exists_in_years_that_have_one_by_either_calendar(code, first, last):
    read = read_date_code(code, TODAY)
    assert (read.built_from, read.built_to) == (first, last)


@pytest.mark.parametrize(
    ("typed", "week", "years"),
    [("408", 40, (1978, 1998)), ("031", 3, (1981, 1991)), ("439", 43, (1979, 1999))],
)
def test_three_digits_leave_the_decade_open(typed, week, years):
    # 031 is 1981 or 1991 by a vehicle maker's manual of 2006; 439 may be 1999 by dealers' guides; 408 from memory.
    code = read_date_code(typed, TODAY)
    assert (code.week, code.year) == (week, None)
    assert (code.built_from.year, code.built_to.year) == years


def test_a_triangle_names_the_nineties():
    # Dealers' guides: the triangle means the 1990s. By ISO from September 28, by Sundays from October 4.
    code = read_date_code("408◁", TODAY)
    assert (code.week, code.year) == (40, 1998)
    assert (code.built_from, code.built_to) == (date(1998, 9, 28), date(1998, 10, 10))
