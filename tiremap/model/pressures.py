"""Pressures, temperatures and torques as people write them, and in one unit each."""

import re
from typing import Literal, TypeVar

from tiremap.errors import TiremapError
from tiremap.model.after_repair import Pressure, Temperature, Torque

KPA = {"kPa": 1.0, "psi": 6.894757293168, "bar": 100.0}
"""kPa in one of each; psi exact to the digits of the international pound and inch."""
NM_PER_FT_LB = 1.3558179483314004
"""Newton meters in a foot-pound, exact to the digits of the international pound and foot."""
ZERO_C = 273.15
GREATEST = 10_000
"""What a pressure's record holds at most, in any unit."""

_QUANTITY = re.compile(r"\s*(?P<sign>[-+−]?)\s*(?P<number>\d{1,6}(?:[.,]\d{0,6})?|[.,]\d{1,6})\s*(?P<unit>.*?)\s*")
PressureUnit = Literal["kPa", "psi", "bar"]
TemperatureUnit = Literal["C", "F"]
TorqueUnit = Literal["N.m", "ft-lb"]

_PRESSURES: dict[str, PressureUnit] = {"kpa": "kPa", "psi": "psi", "psig": "psi", "bar": "bar", "lb": "psi"}
_TEMPERATURES: dict[str, TemperatureUnit] = {
    "c": "C", "°c": "C", "f": "F", "°f": "F", "celsius": "C", "fahrenheit": "F",
}
_TORQUES: dict[str, TorqueUnit] = {
    "n.m": "N.m", "nm": "N.m", "n·m": "N.m", "n m": "N.m", "ft-lb": "ft-lb", "ft.lb": "ft-lb", "ft lb": "ft-lb",
    "lb-ft": "ft-lb", "ftlb": "ft-lb", "lbf.ft": "ft-lb",
}

U = TypeVar("U", bound=str)
Q = TypeVar("Q", Pressure, Temperature, Torque)


def kpa(pressure: Pressure) -> float:
    """A gauge pressure in kPa."""
    return pressure.value * KPA[pressure.unit]


def kelvin(temperature: Temperature) -> float:
    """A temperature in kelvin."""
    celsius = temperature.value if temperature.unit == "C" else (temperature.value - 32.0) / 1.8
    return celsius + ZERO_C


def newton_meters(torque: Torque) -> float:
    """A torque in N.m."""
    return torque.value * (NM_PER_FT_LB if torque.unit == "ft-lb" else 1.0)


def read_pressure(text: str, unit: PressureUnit | None = None) -> Pressure:
    """A gauge pressure such as ``33 psi``, ``230 kPa`` or ``2.3 bar``; ``unit`` where none is written.

    Raises `TiremapError` for anything else.
    """
    value, found = _read(text, _PRESSURES, unit, "pressure", "33 psi, 230 kPa or 2.3 bar")
    if value < 0:
        raise TiremapError(f"{text!r} is below the air outside.", "A gauge pressure is 0 or more, such as 230 kPa.")
    if value > GREATEST:
        raise TiremapError(f"{text!r} is no pressure of a tire.", "Right ones: 33 psi, 230 kPa, 2.3 bar.")
    return Pressure(value=value, unit=found)


def read_temperature(text: str, unit: TemperatureUnit | None = None) -> Temperature:
    """A temperature such as ``20 C`` or ``68 F``; ``unit`` where none is written. Raises as `read_pressure`."""
    value, found = _read(text, _TEMPERATURES, unit, "temperature", "20 C or 68 F")
    if not -100 <= value <= 300:
        raise TiremapError(f"{text!r} is no temperature of a tire.", "Right ones: 20 C, 68 F.")
    return Temperature(value=value, unit=found)


def read_torque(text: str, unit: TorqueUnit | None = None) -> Torque:
    """A torque such as ``110 N.m`` or ``80 ft-lb``; ``unit`` where none is written. Raises as `read_pressure`."""
    value, found = _read(text, _TORQUES, unit, "torque", "110 N.m or 80 ft-lb")
    if not 0 < value <= 2000:
        raise TiremapError(f"{text!r} is no tightening torque of a wheel.", "Right ones: 110 N.m, 80 ft-lb.")
    return Torque(value=value, unit=found)


def _read(text: str, units: dict[str, U], usual: U | None, what: str, right: str) -> tuple[float, U]:
    match = _QUANTITY.fullmatch(text)
    if match is None:
        raise TiremapError(f"{text!r} is no {what}.", f"Right ones: {right}.")
    written = match["unit"].casefold()
    found = units.get(written) if written else usual
    if found is None:
        lacks = "has no unit" if not written else f"has a unit that is not known, {match['unit']!r}"
        raise TiremapError(f"The {what} {text!r} {lacks}.", f"Right ones: {right}.")
    number = float(match["number"].replace(",", "."))
    return (-number if match["sign"] in ("-", "−") else number), found
