"""Measurements and other entries as a technician would read them out: exactly as they were taken, nothing rounded."""

import json
from datetime import datetime
from typing import Any

from tiremap.model.after_repair import Pressure, Temperature, Torque
from tiremap.model.job import Finding, RepairsLookedFor
from tiremap.model.measures import Across, Around, BeadToes, HoleSize, Lean, Length, Taken
from tiremap.model.record import Record

UNITS = {"_mm": " mm", "_in": " in", "_l": " L", "hours": " h"}
"""What a bare number is in, by the end of its field's name."""
_LONGEST = 60
"""Signs of a text this program does not know; the rest is in the file."""


def entry_in_words(value: Any, field: str = "") -> str:
    """One entry in words; ``field`` is the name of its field, which tells what a bare number is in."""
    match value:
        case bool():
            return "yes" if value else "no"
        case int() | float():
            return f"{_exactly(value)}{next((unit for end, unit in UNITS.items() if field.endswith(end)), '')}"
        case datetime():
            return f"{value:%Y-%m-%d %H:%M:%S}"
        case str():
            return value or "nothing"
        case Taken():
            return f"{_reading(value)}, {value.how}{_tolerance(value)}"
        case Finding() | RepairsLookedFor():
            return f"{value.state.replace('_', ' ')}{', answered with all others' if value.together else ''}"
        case Pressure() | Torque():
            return f"{_exactly(value.value)} {value.unit}"
        case Temperature():
            return f"{_exactly(value.value)} °{value.unit}"
    return in_short(value)


def in_short(value: Any) -> str:
    """Anything as it stands in the file, cut where it is long."""
    text = as_it_stands(value)
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 1]}…"


def as_it_stands(value: Any) -> str:
    """Anything as it stands in the file, on one line."""
    plain = value.model_dump(mode="json") if isinstance(value, Record) else value
    return json.dumps(plain, ensure_ascii=False, sort_keys=True, default=str)


def _reading(taken: Taken) -> str:
    match taken:
        case BeadToes():
            return f"{_exactly(taken.from_outboard)} and {_exactly(taken.from_inboard)} {taken.unit} from bead toes"
        case Across():
            return f"{_exactly(taken.value)} {taken.unit} from {taken.origin.replace('_', ' ')}"
        case HoleSize() if taken.stops is not None:
            return f"{_exactly(taken.value)} to {_exactly(taken.stops)} {taken.unit}"
        case Length():
            return f"{_exactly(taken.value)} {taken.unit}"
        case Around() if taken.unit != "deg":
            return f"{_exactly(taken.value)} {taken.unit}"
        case Around() | Lean():
            return f"{_exactly(taken.value)}°"
    raise TypeError(type(taken))


def _tolerance(taken: Taken) -> str:
    """Its own tolerance, if it has one."""
    if taken.minus is None and taken.plus is None:
        return ""
    minus, plus = ("usual" if each is None else _exactly(each) for each in (taken.minus, taken.plus))
    return f" ±{plus}" if minus == plus else f" −{minus} +{plus}"


def _exactly(number: float) -> str:
    """A number with every digit it has: two that differ never read the same."""
    return repr(number).removesuffix(".0").replace("-", "−")
