"""Air through a small hole: isentropic flow, choked and not, and the hole that lets a given leak through.

Throughput is pressure times volume per time (Pa m3/s) at the temperature of the air in the tire: what a leak test
counts. Checked against the table "discharge of air through an orifice" within 0.5 %.
"""

from math import pi, sqrt

from tiremap.resources import read_toml


def throughput(diameter_mm: float, inside_pa: float, outside_pa: float, kelvin: float, coefficient: float) -> float:
    """Throughput (Pa m3/s) of a round hole; pressures absolute. 0 where nothing drives it."""
    return _per_area(inside_pa, outside_pa, kelvin) * coefficient * pi * (diameter_mm / 1000) ** 2 / 4


def hole_mm(leak_pa_m3_s: float, inside_pa: float, outside_pa: float, kelvin: float, coefficient: float) -> float:
    """Diameter (mm) of the round hole that lets a leak through; 0 for none."""
    per_area = _per_area(inside_pa, outside_pa, kelvin) * coefficient
    if leak_pa_m3_s <= 0 or per_area <= 0:
        return 0.0
    return 1000 * sqrt(4 * leak_pa_m3_s / per_area / pi)


def _per_area(inside: float, outside: float, kelvin: float) -> float:
    """Throughput for each square meter of hole at coefficient 1."""
    if inside <= outside:
        return 0.0
    air = read_toml("workshop", "leak.toml")["air"]
    k, specific = air["heat_ratio"], air["gas_constant"] * kelvin
    choked = (2 / (k + 1)) ** (k / (k - 1))
    ratio = max(outside / inside, choked)
    speed = sqrt(2 * k / (k - 1) / specific * (ratio ** (2 / k) - ratio ** ((k + 1) / k)))
    return float(inside * speed * specific)
