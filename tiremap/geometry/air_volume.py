"""Air volume of a tire on its rim, by Pappus: ``V = 2 pi r_centroid area``."""

import math

import numpy as np


def turned_volume(outline: np.ndarray) -> float:
    """Volume (mm^3) swept by a closed outline ``(n, 2)`` of (x, r) points turned once around the axle, r = 0.

    Exact for a polygon. The outline may run either way and need not repeat its first point.
    """
    x, r = outline.T
    next_x, next_r = np.roll(x, -1), np.roll(r, -1)
    # area * r_centroid of a polygon, as a sum over its edges
    moment = np.sum((x * next_r - next_x * r) * (r + next_r)) / 6.0
    return float(2.0 * math.pi * abs(moment))


def air_volume_l(liner: np.ndarray) -> float:
    """Liters of air between the liner (toe to toe, mm) and a straight line from toe to toe.

    The well of the rim is left out: its place and width differ from wheel to wheel. It adds 1-2 L on a car wheel.
    """
    return turned_volume(liner) / 1e6
