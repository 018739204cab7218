"""What is entered once a tire has been mended: steps ticked, two pressures of a leak check, the wheel's refit."""

from datetime import datetime
from typing import Annotated, Literal

from pydantic import Field

from tiremap.model.record import Record

UnitKind = Literal["one_piece", "stem_and_patch"]
PressureUnit = Literal["kPa", "psi", "bar"]
TemperatureUnit = Literal["C", "F"]
TorqueUnit = Literal["N.m", "ft-lb"]
NutCount = Literal[4, 5, 6, 8, 10]


class Pressure(Record):
    """A gauge pressure as it was read."""

    value: Annotated[float, Field(ge=0, le=10_000)]
    unit: PressureUnit


class Temperature(Record):
    """A temperature as it was read."""

    value: Annotated[float, Field(ge=-100, le=300)]
    unit: TemperatureUnit


class Torque(Record):
    """A tightening torque as it was read."""

    value: Annotated[float, Field(gt=0, le=2_000)]
    unit: TorqueUnit


class LeakCheck(Record):
    """Two readings of one tire's pressure, ``hours`` apart. What was not read is ``None``."""

    before: Pressure | None = None
    after: Pressure | None = None
    hours: Annotated[float, Field(gt=0, le=100_000)] | None = None
    before_temperature: Temperature | None = None
    after_temperature: Temperature | None = None
    gauge: Pressure | None = None
    """How far the gauge may be off, either way; ``None`` takes what is usual."""
    air_volume_l: Annotated[float, Field(gt=0, le=5_000)] | None = None
    """Liters of air, where they are known better than from the section."""


class Refit(Record):
    """How the wheel goes back on: what the vehicle's manual says of it. What was not looked up is ``None``."""

    nuts: NutCount | None = None
    thread: str | None = None
    """Such as M12x1.5."""
    stud_class: str | None = None
    """Property class of the stud or bolt, such as 10.9."""
    torque: Torque | None = None
    """The vehicle's own figure."""
    torque_source: str = ""
    """Where the vehicle's figure was read."""
    tightened: datetime | None = None
    """When the wheel was tightened; it is checked again after the distance the cautions name."""
