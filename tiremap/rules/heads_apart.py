"""Do the heads of two repairs keep clear of each other?"""

from dataclasses import replace
from functools import partial

from tiremap.rules.around_again import around_settles, around_turns
from tiremap.rules.case import Case
from tiremap.rules.margins import Margin
from tiremap.rules.pairs import Apart
from tiremap.rules.reading import Reading
from tiremap.rules.reasons import Reason, Settles
from tiremap.rules.settling import not_alone
from tiremap.rules.weighing import LimitSays, Words, level_of, reason_for


def heads_apart(case: Case, pair: Apart) -> list[Reason]:
    """Whether two heads overlap. Margin: mm of gap beyond the rule set's."""
    limit = case.heads_apart
    margin = less(pair.gap(), limit.value)
    both = f"{pair.first.title} and {pair.second.title}"
    words = Words(
        f"The heads of {both} keep clear of each other.",
        f"The heads of {both} overlap.",
        f"The heads of {both} may overlap.",
    )
    says = LimitSays(limit.value, "mm", limit.source, grows=True)
    asks: tuple[tuple[str, str], ...] = ()
    settles = None
    level, sentence = level_of(margin, True, words, "refuse")
    if level == "measure":
        unsettled = _unsettled(pair)
        settles = _settles(unsettled)
        asks = tuple((each.field, each.words) for each in unsettled if each.stated is None)
    reason = reason_for("heads_overlap", level, sentence, margin, says, _ids(pair), settles, asks)
    if level == "measure":
        around = partial(around_settles, case.facts, pair, lambda each: each.gap().low - limit.value)
        alone = not asks or (settles is not None and settles.field.endswith(".around"))
        reason = replace(reason, settles_later=around if alone else lambda: settles)
    elif level == "refuse":
        turns = partial(around_turns, case.facts, pair, lambda each: each.gap().high - limit.value)
        reason = replace(reason, turns_later=turns)
    return [reason]


def less(margin: Margin, limit: float) -> Margin:
    """A gap counted from a limit on."""
    stated = None if margin.stated is None else margin.stated - limit
    return Margin(stated, margin.low - limit, margin.high - limit)


def _ids(pair: Apart) -> tuple[str, ...]:
    return (pair.first.id, pair.second.id)


def _unsettled(pair: Apart) -> list[Reading]:
    """The readings of a pair that are not exact: never entered first, then by eye, then taped; each in bench order."""
    readings: list[Reading] = []
    for mark in (pair.first, pair.second):
        placed = [mark.outside_reading, mark.inside_reading, mark.around]
        readings += [*placed, mark.head.radius, *([mark.lean_around] if mark.is_injury else [])]
    unsettled = [each for each in dict.fromkeys(readings) if each.field and not each.settled]
    return sorted(unsettled, key=lambda each: (each.stated is not None, not each.estimated))


def _settles(unsettled: list[Reading]) -> Settles | None:
    if not unsettled:
        return None
    first, rest = unsettled[0], unsettled[1:]
    then = next((each for each in rest if each.field != first.field and each.estimated), None)
    return not_alone(first, "mm", then)
