"""When a tire was built, as far as the date code at the end of its identification number says.

Four digits are week and year: 2318 is week 23 of 2018. Three digits, until July 2000, are the week and the last digit
of the year; their decade stays open unless a small triangle names the 1990s.

Weeks are counted in two ways, and the code does not say which its maker used:

- 49 CFR 574.5(b)(3): from Sunday; week 01 is the first full week of the year, and the last may end in the next year;
- ISO 8601: from Monday; week 01 is the one with the first Thursday. Common practice outside the US, no source.

A code may mean any day it covers by either. Week 53 exists where either has one. Figures: ``date_code.toml``.
"""

from datetime import date, timedelta
from functools import lru_cache
from typing import NamedTuple

from pydantic import BaseModel, ConfigDict

from tiremap.model.identification_number import UNREAD, DateCodeError, DateSigns, date_signs
from tiremap.resources import read_toml


class DateCode(BaseModel):
    """What a date code says. ``text`` is the code or the whole number as typed.

    ``built_from`` and ``built_to`` are the first and last day it allows, never later than the day it was read.
    ``week`` and ``year`` are ``None`` where the code leaves them open. ``full``: the whole number is there.
    """

    model_config = ConfigDict(frozen=True)

    text: str
    built_from: date
    built_to: date
    week: int | None
    year: int | None
    full: bool


class _Span(NamedTuple):
    year: int
    week: int | None
    first: date
    last: date


def read_date_code(text: str, today: date | None = None) -> DateCode:
    """The date code in a typed text: an identification number, or the code alone. Raises ``DateCodeError``.

    ``?``, ``.``, ``_`` or ``*`` stand for a digit that cannot be read. Where no digit of the week can, the answer is
    the calendar year: 1 January to 31 December. ``today`` bounds the answer; it is the system's date unless given.
    """
    today = today or date.today()
    typed = date_signs(text)
    _refuse_open_signs(typed)
    weeks = _weeks(typed)
    first_day, last_day = _bounds(typed, today)
    spans = [span for year in _years(typed, today) for span in _spans(year, weeks)]
    allowed = [
        span._replace(first=max(span.first, first_day), last=min(span.last, last_day))
        for span in spans
        if span.last >= first_day and span.first <= last_day
    ]
    if not allowed:
        raise _nothing_fits(typed, spans, today)
    return DateCode(
        text=text,
        built_from=min(span.first for span in allowed),
        built_to=max(span.last for span in allowed),
        week=_only({span.week for span in allowed}),
        year=_only({span.year for span in allowed}),
        full=typed.whole,
    )


def age_years(code: DateCode, today: date) -> tuple[float, float]:
    """The least and greatest age in years: since ``built_to`` and since ``built_from``.

    Whole years are birthdays, so a limit of ten years is met on the day. Raises ``DateCodeError`` for a ``today``
    before the tire was built.
    """
    if today < code.built_from:
        words = f'"{code.text}" was built on {code.built_from} or later; {today} is before that.'
        raise DateCodeError(words, "Give a day after the tire was built.", position=0)
    return _years_between(min(code.built_to, today), today), _years_between(code.built_from, today)


@lru_cache(maxsize=256)
def week_days(year: int, week: int) -> tuple[date, date] | None:
    """The first and last day of a week by either way of counting; ``None`` where the year has no such week."""
    starts = [start for start in (_us_week_start(year, week), _iso_week_start(year, week)) if start is not None]
    return (min(starts), max(starts) + timedelta(days=6)) if starts else None


def _us_week_start(year: int, week: int) -> date | None:
    new_year = date(year, 1, 1)
    first_sunday = new_year + timedelta(days=7 - new_year.isoweekday())
    start = first_sunday + timedelta(weeks=week - 1)
    return start if start.year == year else None


def _iso_week_start(year: int, week: int) -> date | None:
    try:
        return date.fromisocalendar(year, week, 1)
    except ValueError:
        return None


def _refuse_open_signs(typed: DateSigns) -> None:
    if set(typed.signs) == {UNREAD}:
        raise typed.error("no digit of the date code can be read.", 0)
    if typed.triangle and len(typed.signs) == 4:
        raise typed.error("a triangle stands behind three digits (the 1990s), not behind four.", 3)
    if len(typed.signs) == 3 and not typed.triangle and UNREAD in typed.signs:
        right = "Write four signs, as in 23?? or ??18; three are for a code of three digits, all of them readable."
        raise typed.error("with a sign unread, three signs do not say which kind of code this is.", 0, right)


def _weeks(typed: DateSigns) -> list[int]:
    """The weeks the first two signs allow; none where neither can be read."""
    signs = typed.signs[:2]
    if signs == UNREAD * 2:
        return []
    greatest = read_toml("dimensions", "date_code.toml")["week"]["greatest"]
    weeks = _fitting(signs, 1, greatest)
    if not weeks:
        raise typed.error(f"the week is {signs}, outside 01 to {greatest}; the week comes before the year.", 0)
    return weeks


def _years(typed: DateSigns, today: date) -> list[int]:
    """The years the signs behind the week allow. Week 01 of next year can begin in this one."""
    marks = read_toml("dimensions", "date_code.toml")
    first, last = marks["four_digits"]["first_year"], today.year + 1
    if typed.triangle:
        first, last = marks["triangle"]["first_year"], marks["triangle"]["last_year"]
    elif len(typed.signs) == 3:
        first, last = marks["three_digits"]["first_day"].year, marks["three_digits"]["last_day"].year
    signs = typed.signs[2:]
    return _fitting(signs, first, last)


def _bounds(typed: DateSigns, today: date) -> tuple[date, date]:
    """The days between which tires bore this kind of code."""
    if len(typed.signs) == 4:
        return date.min, today
    three = read_toml("dimensions", "date_code.toml")["three_digits"]
    return three["first_day"], min(three["last_day"], today)


def _spans(year: int, weeks: list[int]) -> list[_Span]:
    if not weeks:
        return [_Span(year, None, date(year, 1, 1), date(year, 12, 31))]
    found = ((week, week_days(year, week)) for week in weeks)
    return [_Span(year, week, *days) for week, days in found if days is not None]


def _nothing_fits(typed: DateSigns, spans: list[_Span], today: date) -> DateCodeError:
    week, year = typed.signs[:2], typed.signs[2:]
    if len(typed.signs) == 3:
        first, last = _bounds(typed, today)
        return typed.error(f"no week {week} of a year ending in {year} lies between {first} and {last}.", 0)
    if not spans and _years(typed, today):
        return typed.error(f"20{year} has no week {week}, by whichever way weeks are counted.", 0)
    told = f"20{year}" if week == UNREAD * 2 else f"week {week} of 20{year}"
    return typed.error(f"{told} is still to come; today is {today}.", 2)


@lru_cache(maxsize=256)
def _fitting(signs: str, first: int, last: int) -> list[int]:
    """The whole numbers from first to last whose last digits the signs allow. Callers must not change the list."""
    return [number for number in range(first, last + 1) if _fits(signs, f"{number:02}"[-len(signs) :])]


def _fits(signs: str, digits: str) -> bool:
    return all(sign in (UNREAD, digit) for sign, digit in zip(signs, digits, strict=True))


def _only(found: set[int | None]) -> int | None:
    return next(iter(found)) if len(found) == 1 else None


def _years_between(start: date, end: date) -> float:
    """Whole years by birthdays, and the part of the year since the last one."""
    whole = end.year - start.year - ((end.month, end.day) < (start.month, start.day))
    last, coming = _birthday(start, whole), _birthday(start, whole + 1)
    return whole + (end - last) / (coming - last)


def _birthday(start: date, years: int) -> date:
    """The day so many years later; 1 March stands for 29 February in a common year."""
    try:
        return start.replace(year=start.year + years)
    except ValueError:
        return date(start.year + years, 3, 1)
