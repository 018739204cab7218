"""What the loaded section takes that nobody measured: read from ``resources/dimensions/loaded.toml``."""

import math
from functools import cache

from tiremap.resources import read_toml


@cache
def loaded_data(subject: str, name: str) -> float:
    """The value of one entry, in its own unit."""
    value: float = read_toml("dimensions", "loaded.toml")[subject][name]["value"]
    return value


def greatest_load(section_height: float) -> float:
    """How far the belt edge can be let down, mm."""
    return loaded_data("load", "greatest") * section_height


def usual_load(section_height: float) -> float:
    """How far the belt edge comes down where nobody chose a load, mm."""
    return loaded_data("load", "usual") * section_height


def turns_per_km(overall_diameter: float, load: float) -> float:
    """Turns of the wheel over one kilometer at a deflection of ``load`` mm."""
    rolling_radius = 0.5 * overall_diameter - loaded_data("turns", "of_the_deflection") * load
    return 1e6 / (2.0 * math.pi * rolling_radius)
