"""``tiremap leak``: what two pressures, hours apart, say of a tire."""

import json

from tiremap.commands.section import section_record
from tiremap.errors import TiremapError
from tiremap.model.after_repair import LeakCheck, PressureUnit
from tiremap.model.pressures import read_pressure, read_temperature
from tiremap.workshop.leak import LeakFound, leak_found, places_to_look
from tiremap.workshop.leak_words import leak_lines


def print_leak(
    size: str | None, volume_l: float | None, before: str, after: str, hours: float, before_temp: str | None,
    after_temp: str | None, *, as_json: bool,
) -> int:
    """Print what two readings tell; 0. Raises `TiremapError` for a bad quantity, size or time."""
    if not 0 < hours <= 100_000:
        raise TiremapError(f"{hours:g} hours cannot lie between two readings.", "More than 0, such as 24.")
    first = read_pressure(before)
    check = LeakCheck(
        before=first, after=read_pressure(after), hours=hours,
        before_temperature=None if before_temp is None else read_temperature(before_temp),
        after_temperature=None if after_temp is None else read_temperature(after_temp),
    )
    found = leak_found(check, _volume(size, volume_l), volume_exact=volume_l is not None)
    print(json.dumps(found.as_record()) if as_json else _in_words(found, first.unit))
    return 0


def _volume(size: str | None, volume_l: float | None) -> float:
    if volume_l is not None:
        return volume_l
    volume: float | None = section_record(size or "")["air_volume_l"]
    if volume is None:
        raise TiremapError(f"The section of {size!r} cannot be drawn, so its volume is not known.", "Give --volume-l.")
    return volume


def _in_words(found: LeakFound, unit: PressureUnit) -> str:
    looks = (f"  {number}. {where} ({why})" for number, (where, why) in enumerate(places_to_look(), start=1))
    return "\n".join((*leak_lines(found, unit), "Where to look first:", *looks))
