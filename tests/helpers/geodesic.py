"""A disc on a surface of revolution, by following its radii as geodesics: the independent check on footprints.

The surface is the liner of a crown of even thickness: the meridian is a circle of radius ``rho`` about a point
``offset`` from the axle, so ``r(u) = offset + rho cos(u / rho)`` at the arc length ``u`` from the center plane.
Nothing of the package is used here.
"""

from typing import NamedTuple

import numpy as np


class GeodesicDisc(NamedTuple):
    """Outline as arc length across (mm) and angle around (radians, 0 at the center), one row each; true area, mm2."""

    across: np.ndarray
    around: np.ndarray
    area: float


def geodesic_disc(
    overall_diameter: float,
    thickness: float,
    crown_radius: float,
    across: float,
    radius: float,
    directions: int = 360,
    steps: int = 60,
) -> GeodesicDisc:
    """The disc of ``radius`` about the point ``across`` mm (along the liner) from the center plane; classic RK4.

    Along each radius: u'' = r r' a'^2, a'' = -2 (r'/r) u' a'. Neighboring radii part by J with J'' = -K J,
    K = -r''/r, J(0) = 0, J'(0) = 1; the area is the integral of J over length and direction.
    """
    rho = crown_radius - thickness
    offset = overall_diameter / 2 - crown_radius

    def slope(state: np.ndarray) -> np.ndarray:
        u, _, du, da, parting, dparting, _ = state
        r, dr, ddr = offset + rho * np.cos(u / rho), -np.sin(u / rho), -np.cos(u / rho) / rho
        return np.array([du, da, r * dr * da**2, -2 * dr / r * du * da, dparting, ddr / r * parting, parting])

    heading = np.linspace(0, 2 * np.pi, directions, endpoint=False)
    zero, one = np.zeros(directions), np.ones(directions)
    r_start = offset + rho * np.cos(across / rho)
    state = np.array([across * one, zero, np.cos(heading), np.sin(heading) / r_start, zero, one, zero])
    step = radius / steps
    for _ in range(steps):
        k1 = slope(state)
        k2 = slope(state + step / 2 * k1)
        k3 = slope(state + step / 2 * k2)
        k4 = slope(state + step * k3)
        state = state + step / 6 * (k1 + 2 * k2 + 2 * k3 + k4)
    return GeodesicDisc(state[0], state[1], float(state[6].mean() * 2 * np.pi))
