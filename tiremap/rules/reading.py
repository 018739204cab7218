"""One quantity as the checks see it: the least and the greatest it may be, and what was stated.

A reading that was never entered has no stated value and spans everything possible. Lean is carried as its tangent,
because a margin is straight in the tangent and not in the angle.
"""

import math
from typing import NamedTuple

UNBOUNDED = 1e7
"""Stands for no bound at all, in mm or as a tangent."""

ENDLESS = UNBOUNDED / 100
"""A margin (mm) past this came from a reading without bound, and is reported as unbounded."""


class Reading(NamedTuple):
    """``low`` <= ``stated`` <= ``high``; mm, or the tangent of an angle where ``tangent``.

    ``field`` is where the user enters it (``tire.tread_width``, ``injury.1.outside``), ``words`` what it is called
    in a sentence. ``step`` is the fineness of a turning value in shown units; 0 where its value would say nothing. A
    reading that follows a measurement in steps (the cutter a hole takes) lists them in ``steps``, growing. One worked
    out from entries (a channel) is not ``entered`` itself. ``per_shown`` is how much of the reading one ``unit`` is.

    Hundreds are made for an answer, and a named tuple is made in a quarter of the time of a frozen dataclass.
    """

    field: str
    words: str
    low: float
    stated: float | None
    high: float
    estimated: bool = False
    tangent: bool = False
    step: float = 0.1
    steps: tuple[float, ...] = ()
    entered: bool = True
    unit: str = "mm"
    per_shown: float = 1.0

    @property
    def settled(self) -> bool:
        """True where nothing is left to measure: one value only."""
        return self.low == self.high

    def fixed(self, value: float) -> "Reading":
        """The same reading if it were known to be exactly ``value``."""
        return self.ranging(value, value, value)

    def ranging(self, low: float, stated: float | None, high: float) -> "Reading":
        """The same reading with other values. Asked so often that `dataclasses.replace` would show."""
        return self._with(self.field, self.words, low, stated, high)

    def called(self, field: str, words: str) -> "Reading":
        """The same reading entered elsewhere, and called so in a sentence."""
        return self._with(field, words, self.low, self.stated, self.high)

    def _with(self, field: str, words: str, low: float, stated: float | None, high: float) -> "Reading":
        return Reading(
            field, words, low, stated, high, self.estimated, self.tangent, self.step, self.steps,
            self.entered, self.unit, self.per_shown,
        )

    def as_stated(self) -> "Reading":
        """The same reading without its tolerance; one never entered keeps its whole range."""
        return self if self.stated is None else self.fixed(self.stated)

    def shown(self, value: float) -> float:
        """A value of this reading as a person reads it, in ``unit``: degrees for a tangent."""
        return math.degrees(math.atan(value)) if self.tangent else value / self.per_shown

    def raw(self, shown: float) -> float:
        """The value of this reading that a person reads as ``shown``."""
        return math.tan(math.radians(shown)) if self.tangent else shown * self.per_shown


def unknown(field: str, words: str, low: float, high: float, **more: object) -> Reading:
    """A reading nobody took, spanning ``low`` to ``high``."""
    return Reading(field, words, low, None, high, estimated=True, **more)  # type: ignore[arg-type]


def exactly(value: float) -> Reading:
    """A figure that is given, not measured."""
    return Reading("", "", value, value, value)
