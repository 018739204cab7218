"""From a margin to a reason: passed, refused, or to be measured first."""

from dataclasses import replace
from typing import NamedTuple

from tiremap.rules.margins import Margin, Question, margin_of
from tiremap.rules.reasons import Level, Reason, Settles, Turns, bounded


class Words(NamedTuple):
    """The three sentences a check can end in, without the measurement that would settle it."""

    passed: str
    refused: str
    open: str


class LimitSays(NamedTuple):
    """The limit as a reason shows it. ``grows`` is true where a larger value has the larger margin."""

    value: float | None
    unit: str
    source: str
    inclusive: bool = True
    grows: bool = False
    measured: str = ""


def weigh(
    code: str,
    question: Question,
    words: Words,
    limit: LimitSays,
    subject: tuple[str, ...] = (),
    refusing: Level = "refuse",
    settles: Settles | None = None,
    turns: Turns | None = None,
) -> Reason:
    """The reason a question ends in: a note where it passes, ``refusing`` where it is broken, else ``measure``.

    ``settles`` is the measurement that would settle it, where the check knows better than ``settling``; ``turns`` the
    entry that would have to be wrong where it refuses, likewise.
    """
    if question.inclusive != limit.inclusive:
        question = replace(question, inclusive=limit.inclusive)
    margin = margin_of(question)
    level, says = level_of(margin, limit.inclusive, words, refusing)
    if level == "refuse":
        return reason_for(code, level, says, margin, limit, subject, turns=turns, question=question)
    if level == "measure" and not margin.refuses(limit.inclusive):
        return reason_for(code, level, says, margin, limit, subject, settles, question=question)
    return reason_for(code, level, says, margin, limit, subject)


def level_of(margin: Margin, inclusive: bool, words: Words, refusing: Level) -> tuple[Level, str]:
    """Level and sentence for a margin."""
    if margin.passes(inclusive):
        return "note", words.passed
    if margin.refuses(inclusive):
        return refusing, words.refused
    return "measure", words.open


def reason_for(
    code: str,
    level: Level,
    says: str,
    margin: Margin,
    limit: LimitSays,
    subject: tuple[str, ...] = (),
    settles: Settles | None = None,
    asks: tuple[tuple[str, str], ...] = (),
    turns: Turns | None = None,
    question: Question | None = None,
) -> Reason:
    """A reason with the value that the stated margin means against its limit."""
    value = None
    if limit.value is not None and margin.stated is not None:
        value = limit.value + margin.stated if limit.grows else limit.value - margin.stated
    return Reason(
        code=code, level=level, says=says, source=limit.source, value=bounded(value), limit=limit.value,
        unit=limit.unit, measured=limit.measured, margin=bounded(margin.stated), margin_low=bounded(margin.low),
        margin_high=bounded(margin.high), subject=subject, settles=settles, asks=asks,
        turns=turns, question=question,
    )
