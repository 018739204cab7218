"""The sidewall's cord line under load: its upper end comes down, its length and its lower end stay.

The loaded line is of the same family (`sidewall_curve`). With the angles ``phi`` at both ends given, the two radii
there give the curvature constant and the widest point::

    c = 2 (sin phi_start - sin phi_flange) / (r_start^2 - r_flange^2)
    rw^2 = r_start^2 - 2 sin(phi_start) / c

so two angles are sought that keep the distance across and the cord length. They are carried on from the unloaded
curve in small steps: by angles, because ``phi`` at the belt passes 90 degrees (near 13 mm on 205/55R16), where a
solution by radii has two branches. Section frame, outboard side; mm and radians.
"""

import math
from typing import NamedTuple

import numpy as np

from tiremap.geometry.frames import SectionPoint
from tiremap.geometry.loaded_data import loaded_data
from tiremap.geometry.sidewall_curve import NODES, WEIGHTS, SidewallCurve

_MISS = 1e-9
"""mm; a thousandth of what cord length and flange are kept to by the tests."""
_TRIES = 20
_NUDGE = 1e-7


class _Kept(NamedTuple):
    """What the load leaves as it is."""

    cord_length: float
    flange: SectionPoint


def sidewall_under_load(unloaded: SidewallCurve, start: SectionPoint) -> SidewallCurve | None:
    """The curve of the same cord length and flange contact from ``start``, or None where the steps lose it.

    None too where ``start`` is not above the flange, or the curve would nowhere be widest. Where ``start`` is the
    unloaded one this is the unloaded curve itself.
    """
    above, flange = (_place(unloaded, phi) for phi in (unloaded.phi_start, unloaded.phi_flange))
    kept = _Kept(unloaded.cord_length, flange)
    angles = np.array([unloaded.phi_start, unloaded.phi_flange])
    steps = math.ceil(math.hypot(start.x - above.x, start.r - above.r) / loaded_data("load", "step"))
    for step in range(1, steps + 1):
        share = step / steps
        there = SectionPoint(above.x + share * (start.x - above.x), above.r + share * (start.r - above.r))
        found = _angles_from(kept, there, angles)
        if found is None:
            return None
        angles = found
    return unloaded if steps == 0 else _curve_between(kept, start, angles)


def _place(curve: SidewallCurve, phi: float) -> SectionPoint:
    return SectionPoint(float(curve.across(phi)), float(curve.radius(phi)))


def _angles_from(kept: _Kept, start: SectionPoint, angles: np.ndarray) -> np.ndarray | None:
    """Newton from the angles of the step before."""
    for _ in range(_TRIES):
        missed = _missed(kept, start, angles)
        if missed is None:
            return None
        if np.abs(missed).max() < _MISS:
            return angles
        turned = [_missed(kept, start, angles + nudge) for nudge in np.eye(2) * _NUDGE]
        if any(each is None for each in turned):
            return None
        slopes = np.column_stack([(each - missed) / _NUDGE for each in turned])
        angles = angles - np.linalg.solve(slopes, missed)
    return None


def _missed(kept: _Kept, start: SectionPoint, angles: np.ndarray) -> np.ndarray | None:
    """How far cord length and distance across are off, mm; None where no curve has these angles."""
    c, rw_squared = _constants(start.r, kept.flange.r, angles)
    first, last = angles
    inner = last + (first - last) * NODES
    squared = rw_squared + 2.0 * np.sin(inner) / c if c > 0.0 else np.array([-1.0])
    if squared.min() <= 0.0:
        return None
    curvature = c * np.sqrt(squared)
    length = (first - last) * float((1.0 / curvature) @ WEIGHTS)
    inward = (first - last) * float((np.sin(inner) / curvature) @ WEIGHTS)
    return np.array([length - kept.cord_length, inward - (kept.flange.x - start.x)])


def _constants(start: float, flange: float, angles: np.ndarray) -> tuple[float, float]:
    """``c`` and ``rw^2`` of the curve that has these radii at these angles; ``c`` 0 or less where there is none."""
    if start <= flange:
        return 0.0, 0.0
    first, last = np.sin(angles)
    c = 2.0 * (first - last) / (start**2 - flange**2)
    return c, start**2 - 2.0 * first / c if c > 0.0 else 0.0


def _curve_between(kept: _Kept, start: SectionPoint, angles: np.ndarray) -> SidewallCurve | None:
    c, rw_squared = _constants(start.r, kept.flange.r, angles)
    if rw_squared <= 0.0:
        return None
    at_widest = SidewallCurve(c, 0.0, math.sqrt(rw_squared), float(angles[0]), float(angles[1]))
    return SidewallCurve(
        c, start.x - float(at_widest.across(angles[0])), at_widest.rw, at_widest.phi_start, at_widest.phi_flange
    )
