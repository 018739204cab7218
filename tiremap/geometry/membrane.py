"""The sidewall as a plain membrane: the circular arc of the same length between the same ends.

The older and simpler picture of a sidewall (Rotta 1949), shown beside the radial-ply curve to compare with. mm.
"""

import math

import numpy as np

from tiremap.geometry.bracketing import root_between
from tiremap.geometry.sidewall_curve import SidewallCurve


def arc_radius(curve: SidewallCurve) -> float:
    """Radius of the arc as long as the curve's cord, from its start to its flange contact."""
    ends = curve.points(np.array([curve.phi_start, curve.phi_flange]))
    return radius_of_arc(curve.cord_length, math.dist(*ends))


def radius_of_arc(length: float, chord: float) -> float:
    """Radius of an arc of that length over that chord; infinite where both are alike."""
    if length <= chord * (1.0 + 1e-12):
        return math.inf
    half = root_between(lambda angle: math.sin(angle) / angle - chord / length, 1e-6, math.pi - 1e-6)
    return math.inf if half is None else length / (2.0 * half)
