"""The sidewall's cord line: the radial-ply equilibrium curve between belt edge and rim flange.

Between belt edge and flange the radial cords carry the pressure alone, so the curvature of the meridian is
proportional to the radius, ``kappa = c * r`` (Purdy; Clark (ed.), Mechanics of Pneumatic Tires, US DOT 1981).
With ``phi`` the angle of the meridian from the radial direction, 0 at the widest point ``(xm, rw)``::

    sin(phi) = c (r^2 - rw^2) / 2         r(phi) = sqrt(rw^2 + 2 sin(phi) / c)
    x(phi) = xm - integral_0^phi sin(p) / (c r(p)) dp
    length(phi) = integral_0^phi 1 / (c r(p)) dp

Section frame, outboard side; mm and radians. ``phi`` is positive above the widest point and negative below.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from tiremap.geometry.bracketing import root_between
from tiremap.geometry.frames import SectionPoint
from tiremap.geometry.paths import Path

NODES, WEIGHTS = np.polynomial.legendre.leggauss(24)
NODES, WEIGHTS = 0.5 * (NODES + 1.0), 0.5 * WEIGHTS  # on [0, 1]; the integrands have no singularity

_RIGHT_ANGLE = 0.5 * math.pi
_NEWTON_STEPS = 5
"""The length is so nearly straight in the angle that four reach 1e-12 mm."""


@dataclass(frozen=True)
class SidewallCurve:
    """One equilibrium curve: ``c`` 1/mm^2, widest point ``(xm, rw)`` mm, its ends as angles ``phi`` in radians."""

    c: float
    xm: float
    rw: float
    phi_start: float
    phi_flange: float

    def radius(self, phi: np.ndarray | float) -> np.ndarray:
        """Radius from the axle, mm."""
        return np.sqrt(self.rw**2 + 2.0 * np.sin(phi) / self.c)

    def across(self, phi: np.ndarray | float) -> np.ndarray:
        """Distance from the center plane, mm."""
        phi = np.asarray(phi, dtype=float)
        inner = phi[..., None] * NODES
        return self.xm - phi * (np.sin(inner) / (self.c * self.radius(inner)) @ WEIGHTS)

    def length(self, phi: np.ndarray | float) -> np.ndarray:
        """Cord length from the widest point, mm, negative below it."""
        phi = np.asarray(phi, dtype=float)
        inner = phi[..., None] * NODES
        return phi * (1.0 / (self.c * self.radius(inner)) @ WEIGHTS)

    @property
    def cord_length(self) -> float:
        """Cord length from the start of the curve to the flange contact, mm."""
        return float(self.length(self.phi_start) - self.length(self.phi_flange))

    def points(self, phi: np.ndarray) -> np.ndarray:
        """Points ``(n, 2)`` at the angles ``phi``."""
        return np.column_stack([self.across(phi), self.radius(phi)])

    def path(self, phi: np.ndarray) -> Path:
        """The curve at the angles ``phi``, from the belt edge downward."""
        return Path(self.points(phi), np.column_stack([np.sin(phi), -np.cos(phi)]))

    def curvature(self, phi: np.ndarray | float) -> np.ndarray:
        """Curvature in the section at the angles ``phi``, 1/mm."""
        return self.c * self.radius(phi)

    def angles_at(self, lengths: np.ndarray) -> np.ndarray:
        """The angles ``phi`` at cord lengths (mm) from the start of the curve."""
        from_widest = self.length(self.phi_start) - np.asarray(lengths, dtype=float)
        phi = self.phi_start + (self.phi_flange - self.phi_start) * np.asarray(lengths) / self.cord_length
        for _ in range(_NEWTON_STEPS):  # d length / d phi = 1 / curvature
            phi = phi - (self.length(phi) - from_widest) * self.curvature(phi)
        return phi


def angle_of(way: np.ndarray) -> float:
    """The angle ``phi`` at which a curve runs that way, radians: 0 straight down."""
    return math.atan2(way[0], -way[1])


def sidewall_through(start: SectionPoint, xm: float, flange: SectionPoint) -> SidewallCurve | None:
    """The curve from ``start`` (belt edge) over the width ``xm`` to the ``flange`` contact, or None if there is none.

    For a trial ``rw`` the angle at the start is bracketed so that the curve meets the belt edge; then ``rw`` is
    bracketed on the flange. (A general least-squares start failed on one size in five.)
    """
    wanted = xm - start.x
    if wanted <= 0.0 or xm <= flange.x or start.r <= flange.r:
        return None

    def angle_at_start(rw: float) -> float:
        angle = root_between(lambda phi: _reach_above(phi, rw, start.r) - wanted, 1e-6, _RIGHT_ANGLE, 1e-12)
        return _RIGHT_ANGLE if angle is None else angle

    slack = 1e-6 * (start.r - flange.r)
    highest = root_between(
        lambda rw: _reach_above(_RIGHT_ANGLE, rw, start.r) - wanted, flange.r + slack, start.r - slack
    )
    if highest is None:
        return None
    return _meeting_the_flange(xm, flange, highest, lambda rw: (angle_at_start(rw), start.r))


def sidewall_leaving_at(
    phi_start: float, start_radius: Callable[[float], float], nearest: float, xm: float, flange: SectionPoint
) -> SidewallCurve | None:
    """The curve that leaves the crown at the angle ``phi_start``, wherever that is between ``nearest`` and ``xm``.

    ``start_radius(x)`` is the radius of the cord line carried on along the crown. For sections on which no curve
    leaves the belt edge itself; None if there is none here either.
    """
    if xm <= max(nearest, flange.x):
        return None

    def start_across(rw: float) -> float:
        def miss(x: float) -> float:
            return x + _reach_above(phi_start, rw, max(start_radius(x), rw + 1e-6)) - xm

        x = root_between(miss, nearest, xm)
        return nearest if x is None else x

    top = min(start_radius(nearest), start_radius(xm))
    highest = top - 1e-3 * (top - flange.r)
    if highest <= flange.r:
        return None
    return _meeting_the_flange(xm, flange, highest, lambda rw: (phi_start, start_radius(start_across(rw))))


def _meeting_the_flange(
    xm: float, flange: SectionPoint, highest: float, leaving: Callable[[float], tuple[float, float]]
) -> SidewallCurve | None:
    """Bracket ``rw`` between flange and ``highest``; ``leaving(rw)`` gives the angle and radius at the start."""

    def constant(rw: float) -> float:
        phi, r = leaving(rw)
        return 2.0 * math.sin(phi) / (r * r - rw * rw)

    def miss(rw: float) -> float:
        c = constant(rw)
        sine = 0.5 * c * (rw * rw - flange.r**2)
        # Past a right angle the curve ends above the flange; the surplus keeps the bracket's function rising.
        surplus = max(sine - 1.0, 0.0) * (xm - flange.x)
        return _reach_below(math.asin(min(sine, 1.0)), c, rw) + surplus - (xm - flange.x)

    lowest = flange.r + 1e-6 * (highest - flange.r)
    rw = root_between(miss, lowest, highest)
    if rw is None:
        return None
    c = constant(rw)
    sine = 0.5 * c * (rw * rw - flange.r**2)
    if sine >= 1.0:
        return None
    return SidewallCurve(c, xm, rw, leaving(rw)[0], -math.asin(sine))


def _reach_above(phi: float, rw: float, start_radius: float) -> float:
    """How far across the curve runs from the widest point up to the angle ``phi`` at ``start_radius``, mm."""
    sine = math.sin(phi)
    gap = start_radius**2 - rw * rw
    sines = np.sin(phi * NODES)
    return phi * gap / (2.0 * sine) * float((sines / np.sqrt(rw * rw + gap * sines / sine)) @ WEIGHTS)


def _reach_below(phi: float, c: float, rw: float) -> float:
    """How far across the curve runs from the widest point down to the angle ``-phi``, mm."""
    sines = np.sin(phi * NODES)
    return phi / c * float((sines / np.sqrt(rw * rw - 2.0 * sines / c)) @ WEIGHTS)
