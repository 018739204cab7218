"""Is the tire too old to be repaired, where the rule set gives an age?

The age is counted from the days its date code allows to the job's date, or to today where the job has none. A code that
was not entered or cannot be read leaves the age unknown.
"""

from dataclasses import replace
from datetime import date
from functools import lru_cache

from tiremap.errors import TiremapError
from tiremap.model.date_code import age_years, read_date_code
from tiremap.rules.case import Case
from tiremap.rules.margins import Margin
from tiremap.rules.reasons import Reason, Settles, Turns
from tiremap.rules.weighing import LimitSays, Words, level_of, reason_for

FIELD = "tire.date_code"

_AGES_KEPT = 64
"""How many ages are kept: two checks of a tire ask for the same, and every edit of a job asks again."""


def oldest_tire(case: Case) -> list[Reason]:
    """Age from manufacture against the rule set's. Margin: years left."""
    limit = case.limit(case.rule_set.oldest_tires)
    if limit is None:
        return []
    says = LimitSays(limit.value, "years", limit.source)
    code = case.job.tire.date_code
    if not code:
        return [_asked(f"The tire's age is unknown: at most {limit.value:g} years.", limit.source)]
    try:
        youngest, oldest = age_of(code, case.job.date)
    except TiremapError as error:
        return [_asked(f"The tire's age is unknown: {error}", limit.source)]
    words = Words(
        f"The tire is young enough: at most {limit.value:g} years from manufacture.",
        f"The tire is too old: at most {limit.value:g} years from manufacture.",
        f"The tire may be too old: at most {limit.value:g} years from manufacture. Read the whole date code.",
    )
    margin = Margin(None if oldest != youngest else limit.value - oldest, limit.value - oldest, limit.value - youngest)
    level, sentence = level_of(margin, True, words, "refuse")
    settles = Settles(FIELD, "the date code", "") if level == "measure" else None
    reason = reason_for("age", level, sentence, margin, says, settles=settles)
    return [replace(reason, turns=Turns(FIELD, "the date code")) if level == "refuse" else reason]


def age_of(date_code: str, job_date: str | None) -> tuple[float, float]:
    """The least and greatest age in years on the job's date, or today. Raises `TiremapError` for a code unread."""
    return _age_on(date_code, _day_of(job_date))


@lru_cache(_AGES_KEPT)
def _age_on(date_code: str, day: date) -> tuple[float, float]:
    return age_years(read_date_code(date_code, day), day)


def _asked(says: str, source: str) -> Reason:
    settles = Settles(FIELD, "the date code", "")
    return Reason("age", "measure", says, source, settles=settles, asks=((FIELD, settles.words),))


def _day_of(written: str | None) -> date:
    """The job's date where it is written year first (2026-03-02), else today."""
    try:
        return date.fromisoformat(written or "")
    except ValueError:
        return date.today()
