"""Places on a section by tread coordinate, and the tread coordinate of a place. Section frame, mm.

In the crown the outer surface is a circle and everything is exact; past the tread edge it is read off the drawn line.
"""

import math

import numpy as np

from tiremap.geometry.crown_form import CrownForm
from tiremap.geometry.frames import SectionPoint
from tiremap.geometry.paths import Path, lengths_along
from tiremap.geometry.shoulder import Surface


def place_on_outer(crown: CrownForm, outer: Path, s: float, depth: float) -> SectionPoint:
    """The point at the tread coordinate ``s``, ``depth`` along the inward normal."""
    if abs(s) <= crown.tread_half:
        angle = s / crown.radius
        x, r = crown.center + (crown.radius - depth) * np.array([math.sin(angle), math.cos(angle)])
        return SectionPoint(float(x), float(r))
    length = outer.lengths()
    x, r = _at(length, outer.points, abs(s))
    across, up = _at(length, outer.outward, abs(s))
    size = math.hypot(across, up)
    return SectionPoint(math.copysign(x - depth * across / size, s), r - depth * up / size)


def place_on_liner(
    feet: tuple[np.ndarray, np.ndarray], lengths: np.ndarray, liner: np.ndarray, s: float
) -> SectionPoint:
    """The liner point under the tread coordinate ``s``; ``liner`` is the outboard half, its points at ``lengths``."""
    along = float(np.interp(abs(s), *feet))
    return place_between(lengths, liner, math.copysign(along, s))


def place_between(lengths: np.ndarray, points: np.ndarray, along: float) -> SectionPoint:
    """The place at the length ``along`` (+ outboard) on an outboard half whose points lie at ``lengths``."""
    x, r = _at(lengths, points, abs(along))
    return SectionPoint(math.copysign(x, along), r)


def nearest_tread_coordinate(crown: CrownForm, outer: Path, x: float, r: float) -> float:
    """Tread coordinate of the outer surface's point nearest to ``(x, r)``."""
    place = np.array([abs(x), r])
    starts, steps = outer.points[:-1], np.diff(outer.points, axis=0)
    squared = np.sum(steps * steps, axis=1)
    share = np.clip(np.sum((place - starts) * steps, axis=1) / squared, 0.0, 1.0)
    away = np.hypot(*(starts + share[:, None] * steps - place).T)
    nearest = int(np.argmin(away))
    s = float(outer.lengths()[nearest] + share[nearest] * math.sqrt(squared[nearest]))
    if s < crown.tread_half:
        across, up = place - crown.center
        s = min(crown.radius * math.atan2(across, up), crown.tread_half)
    return math.copysign(s, x)


def liner_feet(crown: CrownForm, outside: Surface, ply: Surface, liner: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Pairs of tread coordinate and length along the liner that belong together, outboard half, both growing.

    By normals in crown and sidewall; between them, where the normals of the outer surface cross before they reach the
    liner, only the two ends: places there are in proportion.
    """
    liner_length, outer_length = lengths_along(liner), outside.path.lengths()
    over = liner[: ply.landed + 1] - crown.center
    feet = crown.radius * np.arctan2(over[:, 0], over[:, 1])
    steps = np.diff(liner[: ply.landed + 1], axis=0)
    flat = np.concatenate([[True], -steps[:, 1] < steps[:, 0]])
    in_crown = int(np.argmin(np.append((feet <= crown.tread_half) & flat, False)))

    sidewall = np.arange(max(ply.landing, outside.landing), ply.landing + len(ply.path.points) - ply.landed)
    s = np.concatenate([feet[:in_crown], outer_length[sidewall - outside.landing + outside.landed]])
    along = np.concatenate([liner_length[:in_crown], liner_length[sidewall - ply.landing + ply.landed]])
    # Below the sidewall the liner's end lies as far on as the outer surface's place beside it.
    rest = liner_length[-1] - along[-1]
    return np.append(s, s[-1] + rest), np.append(along, liner_length[-1])


def _at(length: np.ndarray, points: np.ndarray, along: float) -> tuple[float, float]:
    return float(np.interp(along, length, points[:, 0])), float(np.interp(along, length, points[:, 1]))
