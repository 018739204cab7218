"""A reason: one check's outcome, as it is shown, printed and written to JSON."""

from collections.abc import Callable
from dataclasses import dataclass, field
from math import isinf
from typing import Literal

from tiremap.model.job import Answer
from tiremap.rules.margins import Question

Level = Literal["refuse", "measure", "caution", "note"]
LEVELS: tuple[Level, ...] = ("refuse", "measure", "caution", "note")
"""In order of weight."""


MAKER_WORD = "tire.maker_word"
"""The field where a maker's figure is entered with its source."""


@dataclass(frozen=True, slots=True)
class Settles:
    """The measurement that would settle a Measure first: which, and from where on it passes.

    ``at_least`` / ``at_most`` are in ``unit``, rounded to the safe side; ``tolerance`` is how well the stated value
    would have to be known. ``alone`` is false where something else must follow, named in ``then``. A place around
    passes ``away`` or more from ``away_from``, on either side of it.
    """

    field: str
    words: str
    unit: str
    at_least: float | None = None
    at_most: float | None = None
    tolerance: float | None = None
    alone: bool = True
    then: str | None = None
    then_field: str | None = None
    away: float | None = None
    away_from: str = ""


@dataclass(frozen=True, slots=True)
class Turns:
    """The entry that would have to be wrong for a refusal to fall: which, and from where on it would no longer refuse.

    ``at_least`` / ``at_most`` and ``stated``, the value taken, are in ``unit``; all are ``None`` where it is no figure.
    """

    field: str
    words: str
    unit: str = ""
    at_least: float | None = None
    at_most: float | None = None
    stated: float | None = None


@dataclass(frozen=True, slots=True)
class Reason:
    """One check's outcome. Margins in mm or in ``unit``; ``None`` where unknown (stated) or unbounded (low, high).

    ``subject`` holds the ids of the injuries and repairs it is about; empty for the tire itself.
    """

    code: str
    level: Level
    says: str
    source: str
    value: float | None = None
    limit: float | None = None
    unit: str | None = None
    measured: str = ""
    """From where value and limit are measured, such as "inside the tread edge"; words only."""
    margin: float | None = None
    margin_low: float | None = None
    margin_high: float | None = None
    subject: tuple[str, ...] = ()
    settles: Settles | None = None
    asks: tuple[tuple[str, str], ...] = ()
    """Field and words of what was never entered and could turn this check; empty unless it is to be measured."""
    turns: Turns | None = None
    """Of a refusal: the entry that would have to be wrong. ``None`` where no single one would change it."""
    advice: str = ""
    """What to measure, or what could change a refusal: the end of ``says``, once worked out."""
    past: str = ""
    """Of a refusal: how far past its limit, in words; part of ``advice``."""
    question: Question | None = field(default=None, repr=False, compare=False)
    """What ``settles`` or ``turns`` is worked out from, until it is; see ``settling.advised``."""
    settles_later: Callable[[], Settles | None] | None = field(default=None, repr=False, compare=False)
    """Works out ``settles`` where no question can: of a pair."""
    turns_later: Callable[[], Turns | None] | None = field(default=None, repr=False, compare=False)
    """Likewise ``turns``."""

    @property
    def leads_to(self) -> str | None:
        """The field to measure, or to check where it is refused."""
        found = self.settles or self.turns
        return None if found is None else found.field


def answer_of(reasons: list[Reason] | tuple[Reason, ...]) -> Answer:
    """The answer that reasons add up to: a refusal decides, else anything to measure, else Repairable."""
    levels = {reason.level for reason in reasons}
    if "refuse" in levels:
        return "not_repairable"
    return "measure_first" if "measure" in levels else "repairable"


def worst(answers: list[Answer]) -> Answer:
    """The worst of some answers; Repairable where there are none."""
    for answer in ("not_repairable", "measure_first"):
        if answer in answers:
            return answer
    return "repairable"


def bounded(value: float | None) -> float | None:
    """The value, or ``None`` where it is unbounded."""
    return None if value is None or isinf(value) else value


def heaviest(reasons: list[Reason]) -> Reason | None:
    """The first refusal, else the first to be measured, or ``None`` where there is neither."""
    open_or_refused = [reason for reason in reasons if reason.level in ("refuse", "measure")]
    return min(open_or_refused, key=lambda reason: LEVELS.index(reason.level), default=None)


def by_weight(reasons: list[Reason]) -> tuple[Reason, ...]:
    """Reasons in order of weight, otherwise in the order the checks were asked."""
    return tuple(sorted(reasons, key=lambda reason: LEVELS.index(reason.level)))
