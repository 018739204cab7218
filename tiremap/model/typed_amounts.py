"""Times between two readings and liters of air as people write them."""

import re

from tiremap.errors import TiremapError

_AMOUNT = re.compile(r"\s*(?P<number>\d{1,6}(?:[.,]\d{0,6})?|[.,]\d{1,6})\s*(?P<unit>[a-z]*)\.?\s*", re.IGNORECASE)
_CLOCKS = re.compile(r"\s*(\d{1,2}):(\d{2})\s*(?:-|–|to|until)\s*(\d{1,2}):(\d{2})\s*", re.IGNORECASE)
_HOURS = {
    "": 1.0, "h": 1.0, "hr": 1.0, "hrs": 1.0, "hour": 1.0, "hours": 1.0, "d": 24.0, "day": 24.0, "days": 24.0,
    "week": 168.0, "weeks": 168.0, "min": 1 / 60, "minute": 1 / 60, "minutes": 1 / 60,
}
_LITERS = {"": 1.0, "l": 1.0, "liter": 1.0, "liters": 1.0, "litre": 1.0, "litres": 1.0}
GREATEST_HOURS, GREATEST_LITERS = 100_000, 5_000
"""What the records hold at most."""


def read_hours(text: str) -> float:
    """Hours from ``24``, ``36 h``, ``45 min``, ``3 days``, or two clock times within a day, ``17:30 to 8:00``.

    Raises `TiremapError` for anything else.
    """
    right = "Right ones: 24 h, 45 min, 3 days, 17:30 to 8:00."
    clocks = _CLOCKS.fullmatch(text)
    if clocks is not None:
        hour, minute, hour_after, minute_after = map(int, clocks.groups())
        hours = _between(hour, minute, hour_after, minute_after, text, right)
    else:
        hours = _amount(text, _HOURS, "time between two readings", right)
    if not 0 < hours <= GREATEST_HOURS:
        raise TiremapError(f"{text!r} cannot lie between two readings.", right)
    return hours


def read_liters(text: str) -> float:
    """Liters from ``28`` or ``28 L``. Raises `TiremapError` for anything else."""
    right = "Right ones: 28 L; a car tire holds 20 to 60."
    liters = _amount(text, _LITERS, "air volume", right)
    if not 0 < liters <= GREATEST_LITERS:
        raise TiremapError(f"{text!r} is no air volume of a tire.", right)
    return liters


def _between(hour: int, minute: int, hour_after: int, minute_after: int, text: str, right: str) -> float:
    """Hours from one time of day to the next other one; the same time twice is a whole day."""
    if max(hour, hour_after) > 23 or max(minute, minute_after) > 59:
        raise TiremapError(f"{text!r} holds a time no clock shows.", right)
    minutes = (hour_after - hour) * 60 + minute_after - minute
    return (minutes if minutes > 0 else minutes + 24 * 60) / 60


def _amount(text: str, units: dict[str, float], what: str, right: str) -> float:
    match = _AMOUNT.fullmatch(text)
    factor = None if match is None else units.get(match["unit"].casefold())
    if match is None or factor is None:
        raise TiremapError(f"{text!r} is no {what}.", right)
    return float(match["number"].replace(",", ".")) * factor
