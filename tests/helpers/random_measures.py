"""Measurements, texts and times from a random generator: mostly as a bench enters them, now and then unusable.

A seeded `random.Random` repeats a walk; Hypothesis hands in one of its own, which it can shrink. What is unusable comes
as plain fields, since no record can hold it: the edits must refuse it with words.
"""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from random import Random
from typing import Any

from tiremap.model.after_repair import Pressure, Temperature, Torque
from tiremap.model.job import MakerWord
from tiremap.model.measures import Across, Around, BeadToes, HoleSize, Lean, Length

SIZES = (
    "205/55R16 91V", "225/45R17 94W", "155/80R13 79T", "LT245/75R16 120/116S", "185R14C 102/100R",
    "315/80R22.5 156/150L", "T125/70D15 95M",
)
NO_SIZES = ("", "  ", "205", "205/55", "0/0R0", "205/55R16 205/55R16", "naïve", "\ud800", "9" * 400)
WORDS = ("", " ", "7", "KM", "screw", "M12x1.5", "a note\nof two lines", "ñ→🙂", "\x00", "\ud83d", "x" * 60)
NO_NUMBERS = (float("nan"), float("inf"), -float("inf"), -1.0, 1e300, -0.0, 10_001.0)
ONE_IN_UNUSABLE = 12
START = datetime(2026, 3, 1, 8, 0, tzinfo=UTC)


def maybe(draw: Random, of: Callable[[Random], Any]) -> Any:
    """Unknown, one time in four; else as drawn."""
    return None if draw.randrange(4) == 0 else of(draw)


def number(draw: Random, least: float, most: float) -> float:
    """A number in a range: whole, to a tenth, or with all its digits; now and then one that cannot be used."""
    if draw.randrange(ONE_IN_UNUSABLE) == 0:
        return draw.choice(NO_NUMBERS)
    value = draw.uniform(least, most)
    return draw.choice((float(round(value)), round(value, 1), value))


def made_or_fields(kind: type, **fields: Any) -> Any:
    """The record, or its fields where no record can hold them."""
    try:
        return kind(**fields)
    except ValueError:
        return fields


def taken(draw: Random, *how: str) -> dict[str, Any]:
    """How it was taken, and mostly no tolerance of its own."""
    own = draw.randrange(4) == 0
    ends = {"minus": round(draw.uniform(0, 5), 1), "plus": round(draw.uniform(0, 5), 1)} if own else {}
    return {"how": draw.choice(how), **ends}


def length(least: float, most: float) -> Callable[[Random], Any]:
    """Lengths between two ends, mm, some in inches."""

    def drawn(draw: Random) -> Any:
        unit, per_unit = draw.choice((("mm", 1.0), ("mm", 1.0), ("in", 25.4)))
        value = number(draw, least / per_unit, most / per_unit)
        return made_or_fields(Length, value=value, unit=unit, **taken(draw, "tape", "gauge", "rule", "exact"))

    return drawn


def hole_size(draw: Random) -> Any:
    """A hole's diameter, by gauge mostly with the one that stops."""
    value = number(draw, 0.5, 9)
    stops = value + draw.choice((0.5, 1.0, 0.0)) if draw.randrange(2) else None
    how = "gauge" if stops is not None else draw.choice(("rule", "object", "eye", "gauge"))
    return made_or_fields(HoleSize, value=value, stops=stops, how=how)


def across(draw: Random) -> Any:
    """A place across, from the center or from an edge."""
    origin = draw.choice(("center", "outboard_edge", "inboard_edge"))
    value = number(draw, -100 if origin == "center" else 0, 100)
    return made_or_fields(Across, value=value, origin=origin, **taken(draw, "tape", "rule", "eye", "exact"))


def on_the_liner(draw: Random) -> Any:
    """A place on the liner: as `across`, or from both bead toes."""
    if draw.randrange(2):
        return across(draw)
    toes = {"from_outboard": number(draw, 100, 350), "from_inboard": number(draw, 100, 350)}
    return made_or_fields(BeadToes, **toes, **taken(draw, "tape", "exact"))


def around(draw: Random) -> Any:
    """A place around: degrees, tape along the tread, or clock hours."""
    ways = (("deg", 400, "protractor"), ("deg", 360, "eye"), ("mm", 2500, "tape"), ("h", 12, "clock"))
    unit, most, how = draw.choice(ways)
    return made_or_fields(Around, value=number(draw, 0, most), unit=unit, **taken(draw, how))


def lean(draw: Random) -> Any:
    """One part of a lean; at 90 degrees there is no channel any more."""
    value = draw.choice((0.0, number(draw, -30, 30), number(draw, -95, 95)))
    return made_or_fields(Lean, value=value, **taken(draw, "probe", "eye"))


def maker_word(draw: Random) -> Any:
    """A maker's figures with their source, sometimes without."""
    return made_or_fields(
        MakerWord, source=draw.choice(("bulletin 12", "")), zone_inset=maybe(draw, length(0, 60)),
        largest_prepared_size=maybe(draw, length(3, 12)), head_past_tread_edge=bool(draw.randrange(2)),
    )


def pressure(draw: Random) -> Any:
    """A gauge pressure."""
    unit, most = draw.choice((("kPa", 350), ("psi", 50), ("bar", 3.5)))
    return made_or_fields(Pressure, value=number(draw, 0, most), unit=unit)


def temperature(draw: Random) -> Any:
    """A temperature."""
    return made_or_fields(Temperature, value=number(draw, -20, 60), unit=draw.choice(("C", "F")))


def torque(draw: Random) -> Any:
    """A tightening torque."""
    return made_or_fields(Torque, value=number(draw, 20, 250), unit=draw.choice(("N.m", "ft-lb")))


def one_of(*values: Any) -> Callable[[Random], Any]:
    """One of these."""
    return lambda draw: draw.choice(values)


words = one_of(*WORDS)


def moment(draw: Random) -> datetime:
    """Some minute of a working week."""
    return START + timedelta(minutes=draw.randrange(7 * 24 * 60))
