"""What a field can hold: how its text is read into a measurement as taken, and how one is shown again. No Qt here."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from tiremap.edits.change import made
from tiremap.errors import TiremapError
from tiremap.model.measures import Across, Around, BeadToes, HoleSize, How, Lean, Length, LengthUnit, Origin, Taken
from tiremap.model.typed_measures import read_angle, read_around, read_length
from tiremap.resources import read_toml
from tiremap.ui import wording
from tiremap.ui.language import marked, tr

_FROM = re.compile(r"(?P<reading>.+?)\s+(?:from\s+)?(?:the\s+)?(?P<origin>outboard|inboard|center)(?:\s+edge)?", re.I)
_TOES = re.compile(r"(?P<outboard>.+?)\s+and\s+(?P<inboard>.+?)(?:\s+from\s+(?:the\s+)?bead\s+toes)?", re.I)
_GAUGES = re.compile(r"(?P<enters>.+?)\s+to\s+(?P<stops>.+)", re.I)
_GAUGES_DASHED = re.compile(r"(?P<enters>[\d.,]+)\s*[-–]\s*(?P<stops>[\d.,]+(?:\s*mm)?)", re.I)
_ORIGINS: dict[str, Origin] = {"outboard": "outboard_edge", "inboard": "inboard_edge", "center": "center"}


@dataclass(frozen=True)
class Typed:
    """What stood around a text when it was typed: the unit on show, how it was measured, from where."""

    text: str
    unit: LengthUnit = "mm"
    how: How = "tape"
    origin: Origin = "outboard_edge"


@dataclass(frozen=True)
class Kind:
    """A kind of field. ``table`` names its tolerances; ``example`` shows what may be typed."""

    table: str
    read: Callable[[Typed], Taken]
    show: Callable[[Any, LengthUnit], str]
    example: str
    has_origin: bool = False

    @property
    def hows(self) -> tuple[How, ...]:
        """The ways of measuring it, the usual one first; by eye is never offered, it comes from the drawing."""
        tables = ("around_deg", "around_mm") if self.table == "around" else (self.table,)
        tolerances = read_toml("dimensions", "tolerances.toml")
        return tuple(dict.fromkeys(how for table in tables for how in tolerances[table] if how != "eye"))

    def table_for(self, how: How) -> str:
        """The table of tolerances a way of measuring is listed in."""
        if self.table != "around":
            return self.table
        return "around_mm" if how == "tape" else "around_deg"


def length_kind(table: str, example: str) -> Kind:
    """A plain length, such as a tread width."""
    return Kind(table, _read_length, _show_length, example)


def _read_length(typed: Typed) -> Length:
    return made(Length, **read_length(typed.text, typed.unit)._asdict(), how=typed.how)


def _show_length(taken: Length, unit: LengthUnit) -> str:
    return wording.length(taken.value, taken.unit, unit)


def _read_hole(typed: Typed) -> HoleSize:
    """One size, or two gauges as in ``4 to 5`` or ``4-5``: the largest that enters and the smallest that does not."""
    text = typed.text.strip()
    gauges = _GAUGES.fullmatch(text) or _GAUGES_DASHED.fullmatch(text)
    if gauges is None:
        return made(HoleSize, **read_length(typed.text, typed.unit)._asdict(), how=typed.how)
    stops = read_length(gauges["stops"], typed.unit)
    enters = read_length(gauges["enters"], stops.unit)
    if enters.unit != stops.unit:
        raise TiremapError(
            tr('"{typed}": the two gauges are in different units.', typed=typed.text), tr("A right one: 4 to 5 mm.")
        )
    if stops.value <= enters.value:
        raise TiremapError(
            tr('"{typed}": the gauge that stops is larger than the one that enters.', typed=typed.text),
            tr("A right one: 4 to 5 mm."),
        )
    return made(HoleSize, value=enters.value, unit=enters.unit, stops=stops.value, how="gauge")


def _show_hole(taken: HoleSize, unit: LengthUnit) -> str:
    if taken.stops is None:
        return _show_length(taken, unit)
    enters = wording.length(taken.value, taken.unit, unit).rpartition(" ")[0]
    return f"{enters} to {wording.length(taken.stops, taken.unit, unit)}"


def _read_across(typed: Typed) -> Across | BeadToes:
    """A place across; ``from outboard``, ``from center`` or two bead toes behind it override the chosen origin."""
    toes = _TOES.fullmatch(typed.text.strip())
    if toes is not None:
        inboard = read_length(toes["inboard"], typed.unit)
        outboard = read_length(toes["outboard"], inboard.unit)
        if inboard.unit != outboard.unit:
            raise TiremapError(
                tr('"{typed}": the two tapings are in different units.', typed=typed.text),
                tr("A right one: 118 and 122."),
            )
        return made(
            BeadToes, from_outboard=outboard.value, from_inboard=inboard.value, unit=inboard.unit, how=typed.how
        )
    told = _FROM.fullmatch(typed.text.strip())
    text = told["reading"] if told else typed.text
    origin = _ORIGINS[told["origin"].lower()] if told else typed.origin
    reading = read_length(text, typed.unit, signed=True)
    return made(Across, **reading._asdict(), origin=origin, how=typed.how)


def _read_around(typed: Typed) -> Around:
    """A place around; its unit tells how it was measured, unless that was chosen to fit."""
    reading = read_around(typed.text)
    how: How = {"deg": "protractor", "h": "clock"}.get(reading.unit, "tape")  # type: ignore[assignment]
    return made(Around, **reading._asdict(), how=how)


def _read_lean(typed: Typed) -> Lean:
    return made(Lean, value=read_angle(typed.text), how=typed.how)


def _show_lean(taken: Lean, unit: LengthUnit) -> str:
    return f"{wording.number(taken.value, 1)}°"


TREAD_WIDTH = length_kind("tread_width", marked("170, or 6 3/4 in"))
TREAD_DEPTH = length_kind("tread_depth", marked("6, or 8/32 in"))
BETWEEN_OUTER_GROOVES = length_kind("between_outer_grooves", "120")
CRACK_DEPTH = length_kind("crack_depth", marked("1, or 1/32 in"))
UNDER_GROOVES = length_kind("under_grooves", "3")
BELT_WIDTH = length_kind("belt_width", "150")
HEAD = length_kind("head", "45")
CUTTER = length_kind("cutter", "6")
HOLE = Kind("hole", _read_hole, _show_hole, marked("5, or 4 to 5 (enters, stops)"))
ACROSS = Kind("across", _read_across, wording.place_across, marked("35 mm, or 1 3/8 in"), has_origin=True)
AROUND = Kind("around", _read_around, wording.place_around, marked("90, 400 mm or 3:30"))
LEAN = Kind("lean", _read_lean, _show_lean, marked("12, or upright"))
