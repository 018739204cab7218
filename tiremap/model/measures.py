"""Measurements as they were taken: value, unit, from where, how, and a tolerance of their own if one was given.

Nothing here converts to another origin: 35 mm taped from the outboard edge stays that, so that it does not come to
depend on a tread width it never needed. Lengths are 0 or more; only a place from the center is signed
(+ outboard). ``minus`` and ``plus`` are the tolerance in the measurement's own unit; ``None`` means the one that
``resources/dimensions/tolerances.toml`` gives for how it was taken.
"""

from typing import Annotated, Literal

from pydantic import Field, model_validator

from tiremap.model.record import Record
from tiremap.model.units import MM_PER_INCH

LengthUnit = Literal["mm", "in"]
AroundUnit = Literal["deg", "mm", "in", "h"]
How = Literal["tape", "gauge", "rule", "object", "probe", "protractor", "clock", "eye", "exact"]
Origin = Literal["center", "outboard_edge", "inboard_edge"]

NotNegative = Annotated[float, Field(ge=0, le=10_000)]
Reach = Annotated[float, Field(ge=-10_000, le=10_000)]
"""A reading no tape at this bench can exceed; guards arithmetic, decides nothing."""


class Taken(Record):
    """What all measurements share: how they were taken and, if given, their own tolerance (own unit)."""

    how: How
    minus: NotNegative | None = None
    plus: NotNegative | None = None


class Length(Taken):
    """A length of 0 or more, as taken."""

    value: Annotated[float, Field(ge=0, le=10_000)]
    unit: LengthUnit = "mm"

    @property
    def mm(self) -> float:
        """The stated value in millimeters."""
        return in_mm(self.value, self.unit)


class HoleSize(Length):
    """A hole's diameter. By gauge ``value`` is the largest that enters, ``stops`` the smallest that does not."""

    stops: NotNegative | None = None

    @model_validator(mode="after")
    def _what_stops_is_a_larger_gauge(self) -> "HoleSize":
        if self.stops is not None and (self.how != "gauge" or self.stops <= self.value):
            raise ValueError("stops is a gauge larger than the one that enters, as in value 4, stops 4.5, how gauge")
        return self


class Across(Taken):
    """A place across the tread: from a tread edge (+ inward) or from the center (+ outboard)."""

    value: Reach
    unit: LengthUnit = "mm"
    origin: Origin

    @property
    def mm(self) -> float:
        """The stated reading in millimeters, still from its own origin."""
        return in_mm(self.value, self.unit)


class BeadToes(Taken):
    """A place on the liner, taped along the liner from each of the two bead toes."""

    from_outboard: NotNegative
    from_inboard: NotNegative
    unit: LengthUnit = "mm"

    @property
    def s_liner_mm(self) -> float:
        """Arc length across the liner from the center plane, mm, + outboard: half the difference."""
        return in_mm(self.from_inboard - self.from_outboard, self.unit) / 2


class Around(Taken):
    """A place around the tire from the datum, clockwise seen from outboard: degrees, tape on the tread, clock hour."""

    value: Reach
    unit: AroundUnit = "deg"


class Lean(Taken):
    """One part of the lean, degrees: across + when the inside end lies outboard, around + towards growing angle."""

    value: Annotated[float, Field(gt=-90, lt=90)]


def in_mm(value: float, unit: str) -> float:
    """A length in millimeters; ``unit`` is ``mm`` or ``in``."""
    return value * MM_PER_INCH if unit == "in" else value
