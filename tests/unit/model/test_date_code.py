"""Date codes and identification numbers: what is read, what stays open, what is refused and where."""

from datetime import date, timedelta

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tiremap.errors import TiremapError
from tiremap.model.date_code import DateCode, age_years, read_date_code, week_days
from tiremap.model.identification_number import DateCodeError

TODAY = date(2026, 11, 25)
DAYS = st.dates(date(2000, 7, 2), TODAY)


def refused(typed, today=TODAY):
    with pytest.raises(DateCodeError) as caught:
        read_date_code(typed, today)
    return caught.value


def days(typed, today=TODAY):
    code = read_date_code(typed, today)
    return code.built_from, code.built_to


def built(first, last):
    return DateCode(text="", built_from=first, built_to=last, week=None, year=None, full=False)


@pytest.mark.parametrize(
    ("typed", "full"),
    [
        ("2318", False),
        ("DOT 2318", False),
        (" 23 18 ", False),
        ("23/18", False),
        ("2 3 1 8", False),
        ("DOT XXXX XXXX 2318", True),
        ("dot xxxx xxxx 2318", True),
        ("DOT: XXXX-XXXX-2318", True),
        ("DOTXXXX XXXX2318", True),
        ("dotxxxxxxxx2318", True),
        ("XXX XXXXXX 2318", True),
        ("XXX XXXXXX 23 18", True),
        ("X X X X X X X X X 2 3 1 8", True),
        ("XXX 2318", True),  # a retreaded tire has 7 signs in all: 80 FR 19553
        ("XX 2318", False),
        ("DOT ??? ?????? 2318", False),
        ("DOT XXX XXXX?X 2318", False),
        ("1234567892318", True),
    ],
)
def test_a_number_says_the_same_date_however_it_was_copied(typed, full):
    code = read_date_code(typed, TODAY)
    assert (code.text, code.week, code.year, code.full) == (typed, 23, 2018, full)
    # ISO: Monday, June 4 to 10. By Sundays (the first is January 7): June 10 to 16.
    assert (code.built_from, code.built_to) == (date(2018, 6, 4), date(2018, 6, 16))


@pytest.mark.parametrize(
    ("typed", "first", "last"),
    [
        ("0100", date(2000, 1, 2), date(2000, 1, 9)),
        ("2700", date(2000, 7, 2), date(2000, 7, 9)),
        ("5219", date(2019, 12, 23), date(2020, 1, 4)),
        ("0120", date(2019, 12, 30), date(2020, 1, 11)),
        ("5220", date(2020, 12, 21), date(2021, 1, 2)),
        ("0121", date(2021, 1, 3), date(2021, 1, 10)),
    ],
)
def test_a_week_at_new_year_covers_its_days_in_both_years(typed, first, last):
    assert days(typed) == (first, last)


def test_week_53_is_refused_where_the_year_has_none():
    assert read_date_code("5320", TODAY).week == 53
    assert "2021 has no week 53" in refused("5321").what


@pytest.mark.parametrize(
    ("typed", "position", "words"),
    [
        ("", 0, "missing"),
        ("DOT", 3, "missing"),
        ("◁", 1, "missing"),
        ("0018", 0, "the week is 00, outside 01 to 53"),
        ("5418", 0, "the week is 54"),
        ("DOT XXXX XXXX 9?18", 14, "the week is 9?"),
        ("4826x", 4, "letter X"),
        ("23B8", 2, "letter B"),
        ("DOT XXXX XXXX 231O", 17, "letter O"),
        ("DOT XXXX XXXX", 9, "letter X"),
        ("DOTXXXXXXXX318", 10, "letter X"),
        ("23180", 4, "5 signs"),
        ("DOT XXXX XXXX 23180", 18, "5 signs"),
        ("18", 2, "2 signs"),
        ("DOT XXXX XXXX 8", 15, "one sign"),
        ("????", 0, "no digit"),
        ("23?", 0, "do not say which kind"),
        ("2318◁", 3, "behind three digits"),
        ("◁231", 0, "only behind"),
        ("2399", 2, "week 23 of 2099 is still to come"),
        ("??27", 2, "2027 is still to come"),
        ("530", 0, "no week 53 of a year ending in 0"),
        ("2318 €", 5, "cannot stand"),
        ("٢٣18", 0, "cannot stand"),
        ("DOT XXX XXXXXX X 2318", 20, "14 letters and digits"),
    ],
)
def test_what_is_no_date_code_is_refused_at_its_place(typed, position, words):
    error = refused(typed)
    assert error.position == position
    assert words in error.what
    assert error.right


def test_a_side_without_a_date_sends_the_reader_to_the_other_sidewall():
    assert "other sidewall" in refused("DOT XXXX XXXX").right


def test_a_week_to_come_is_refused_until_its_first_possible_day():
    # Week 48 of 2026 begins on Sunday, November 29 in the US, but on Monday, November 23 by ISO.
    assert "still to come" in refused("4826", date(2026, 11, 22)).what
    assert days("4826", date(2026, 11, 23)) == (date(2026, 11, 23), date(2026, 11, 23))


def test_week_01_may_be_marked_in_the_last_days_of_the_year_before():
    # ISO week 01 of 2020 begins on Monday, December 30, 2019.
    assert "still to come" in refused("0120", date(2019, 12, 29)).what
    assert days("0120", date(2019, 12, 31)) == (date(2019, 12, 30), date(2019, 12, 31))


@pytest.mark.parametrize("typed", ["??18", "..18", "__18", "**18", "DOT XXXX XXXX ..18", "DOTXXXXXXXX??18", "?? 18"])
def test_a_year_alone_is_its_calendar_year(typed):
    code = read_date_code(typed, TODAY)
    assert (code.built_from, code.built_to) == (date(2018, 1, 1), date(2018, 12, 31))
    assert (code.week, code.year, code.full) == (None, 2018, False)


def test_this_year_alone_ends_today():
    assert days("??26") == (date(2026, 1, 1), TODAY)


def test_a_week_alone_reaches_from_2000_to_the_last_such_week():
    code = read_date_code("23??", TODAY)
    assert (code.week, code.year) == (23, None)
    assert (code.built_from, code.built_to) == (date(2000, 6, 4), date(2026, 6, 13))
    # November is over week 23 but not over week 50: the last one then was that of 2025.
    assert days("50??")[1] == date(2025, 12, 20)


def test_one_unread_digit_leaves_the_rest_standing():
    assert read_date_code("2?18", TODAY).year == 2018
    assert days("2?18") == (week_days(2018, 20)[0], week_days(2018, 29)[1])
    assert read_date_code("231?", TODAY).week == 23
    assert days("231?") == (week_days(2010, 23)[0], week_days(2019, 23)[1])


@pytest.mark.parametrize("typed", ["5?20", "?320", "53?0"])
def test_an_unread_digit_keeps_week_53_of_a_year_that_has_one(typed):
    first, last = days(typed)
    assert first <= date(2020, 12, 28)
    assert last >= date(2021, 1, 3)


def test_three_digits_never_name_a_decade():
    code = read_date_code("DOT XXXX XXX 318", TODAY)
    assert (code.week, code.year, code.full) == (31, None, True)
    assert (code.built_from, code.built_to) == (week_days(1978, 31)[0], week_days(1998, 31)[1])


def test_three_digits_ending_in_0_may_be_of_early_2000_but_not_of_late():
    assert days("100")[1] == week_days(2000, 10)[1]
    assert days("300")[1] == week_days(1990, 30)[1]


def test_three_digits_are_not_older_than_the_number_itself():
    assert days("101")[0] == week_days(1981, 10)[0]
    assert days("301")[0] == week_days(1971, 30)[0]


@pytest.mark.parametrize("triangle", "◁▷△<>")
def test_a_triangle_behind_three_digits_names_the_nineties(triangle):
    for typed in (f"318{triangle}", f"XXXX XXX 318 {triangle}"):
        code = read_date_code(typed, TODAY)
        assert (code.week, code.year) == (31, 1998)
        assert (code.built_from, code.built_to) == week_days(1998, 31)


def test_a_triangle_lets_an_unread_digit_stand():
    assert read_date_code("??8◁", TODAY).year == 1998
    assert days("??8◁") == (date(1998, 1, 1), date(1998, 12, 31))
    assert days("31?◁") == (week_days(1990, 31)[0], week_days(1999, 31)[1])


def test_an_age_is_counted_by_birthdays():
    code = built(date(2016, 11, 25), date(2016, 11, 26))
    least, greatest = age_years(code, TODAY)
    assert greatest == 10
    assert least == 9 + 364 / 365


def test_a_birthday_on_29_february_is_kept_on_1_march():
    leap_day = built(date(2016, 2, 29), date(2016, 2, 29))
    assert age_years(leap_day, date(2017, 3, 1)) == (1, 1)
    assert age_years(leap_day, date(2017, 2, 28))[1] < 1
    assert age_years(leap_day, date(2020, 2, 29)) == (4, 4)


def test_an_age_is_never_negative_and_a_day_before_the_tire_is_refused():
    code = built(date(2026, 11, 23), date(2026, 12, 5))
    assert age_years(code, TODAY) == (0, 2 / 365)
    with pytest.raises(DateCodeError, match="before that"):
        age_years(code, date(2026, 11, 22))


@given(DAYS)
def test_a_tire_marked_by_iso_weeks_was_built_in_its_range(day):
    year, week, _ = day.isocalendar()
    first, last = days(f"{week:02}{year % 100:02}")
    assert first <= day <= last


@given(DAYS)
def test_a_tire_marked_by_full_weeks_from_sunday_was_built_in_its_range(day):
    # Counted backward, Sunday by Sunday, not by the formula.
    sunday = day
    while sunday.isoweekday() != 7:
        sunday -= timedelta(days=1)
    week, earlier = 1, sunday - timedelta(weeks=1)
    while earlier.year == sunday.year:
        week, earlier = week + 1, earlier - timedelta(weeks=1)
    first, last = days(f"{week:02}{sunday.year % 100:02}")
    assert first <= day <= last


@given(DAYS, st.integers(0, 3))
def test_an_unread_digit_never_makes_the_range_narrower(day, place):
    year, week, _ = day.isocalendar()
    whole = f"{week:02}{year % 100:02}"
    partial = f"{whole[:place]}?{whole[place + 1 :]}"
    assert days(partial)[0] <= days(whole)[0]
    assert days(partial)[1] >= days(whole)[1]


@given(DAYS)
def test_a_tire_ages_a_day_at_a_time_between_its_least_and_greatest(day):
    code = built(day - timedelta(days=6), day)
    today, tomorrow = age_years(code, TODAY), age_years(code, TODAY + timedelta(days=1))
    assert 0 <= today[0] <= today[1]
    assert today[0] < tomorrow[0] and today[1] < tomorrow[1]


@given(st.text() | st.text("DOT 0123456789?.-◁Xx", max_size=18) | st.from_regex(r"[0-9?]{3,4}[<◁]?", fullmatch=True))
@example("DOT" * 400)
@example("5399")
@example("\x00")
def test_junk_gives_a_date_code_or_its_error_and_nothing_else(typed):
    try:
        code = read_date_code(typed, TODAY)
    except TiremapError as error:
        assert isinstance(error, DateCodeError)
        assert 0 <= error.position <= len(typed)
        assert error.what and error.right and len(error.what) < 250
    else:
        assert code.built_from <= code.built_to <= TODAY
        assert code.week is None or 1 <= code.week <= 53
