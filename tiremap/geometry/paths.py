"""Lines in the section that know their direction at every point, and arcs that join them without a kink.

Section frame, mm. Half lines run from the center plane outboard and down to the bead, so "left of the way" is
outward, away from the cavity.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np


@dataclass(frozen=True)
class Path:
    """Points ``(n, 2)`` and unit directions ``(n, 2)`` of a smooth line."""

    points: np.ndarray
    directions: np.ndarray

    @property
    def outward(self) -> np.ndarray:
        """Unit normals to the left of the way: away from the cavity."""
        return np.column_stack([-self.directions[:, 1], self.directions[:, 0]])

    def aside(self, distance: float | np.ndarray) -> np.ndarray:
        """Points ``distance`` mm outward of the line (inward where negative)."""
        moved: np.ndarray = self.points + np.reshape(distance, (-1, 1)) * self.outward
        return moved

    def lengths(self) -> np.ndarray:
        """Length along the line at each point, mm, from its first. To be read, not changed."""
        return self._lengths

    @cached_property
    def _lengths(self) -> np.ndarray:
        return lengths_along(self.points)

    def part(self, first: int, last: int | None = None) -> "Path":
        """The points from ``first`` up to ``last`` (not included)."""
        return Path(self.points[first:last], self.directions[first:last])


def joined(*paths: Path) -> Path:
    """Paths end to end; a point shared by two neighbors is kept once."""
    points, directions = [paths[0].points], [paths[0].directions]
    for path in paths[1:]:
        start = int(np.hypot(*(path.points[0] - points[-1][-1])) < 1e-9)
        points.append(path.points[start:])
        directions.append(path.directions[start:])
    return Path(np.concatenate(points), np.concatenate(directions))


def arc(center: np.ndarray, radius: float, start: float, end: float, count: int) -> Path:
    """A circle's arc from the angle ``start`` to ``end`` (radians from the first axis; falling = clockwise)."""
    angles = np.linspace(start, end, count)
    outward = np.column_stack([np.cos(angles), np.sin(angles)])
    turn = np.sign(end - start)
    return Path(center + radius * outward, turn * np.column_stack([-outward[:, 1], outward[:, 0]]))


def straight(start: np.ndarray, end: np.ndarray, count: int = 2) -> Path:
    """A straight line from ``start`` to ``end``."""
    share = np.linspace(0.0, 1.0, count)[:, None]
    way = (end - start) / np.hypot(*(end - start))
    return Path(start + share * (end - start), np.repeat(way[None], count, axis=0))


def two_arcs(start: np.ndarray, way_out: np.ndarray, end: np.ndarray, way_in: np.ndarray, count: int = 10) -> Path:
    """Two arcs, tangent to each other, that leave ``start`` along ``way_out`` and reach ``end`` along ``way_in``.

    Each arc has ``count`` points. They exist for any two ends; both bend the same way where the ends allow it.
    """
    reach, middle_way = two_arc_frame(start, way_out, end[None], way_in[None])
    meeting = 0.5 * (start + reach[0] * way_out + end - reach[0] * way_in)
    return joined(
        _arc_along(start, way_out, meeting, middle_way[0], count),
        _arc_along(meeting, middle_way[0], end, way_in, count),
    )


def two_arc_frame(
    start: np.ndarray, way_out: np.ndarray, ends: np.ndarray, ways_in: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Tangent length ``(n,)`` and direction at the meeting point ``(n, 2)`` of the two arcs to each of ``ends``."""
    gap = ends - start
    along = gap @ way_out + np.sum(gap * ways_in, axis=1)
    turn = np.maximum(1.0 - ways_in @ way_out, 1e-12)
    reach = (np.sqrt(along**2 + 2.0 * turn * np.sum(gap * gap, axis=1)) - along) / (2.0 * turn)
    middle = gap - reach[:, None] * (ways_in + way_out)
    return reach, middle / np.maximum(np.hypot(middle[:, 0], middle[:, 1]), 1e-12)[:, None]


def cross(first: np.ndarray, second: np.ndarray) -> np.ndarray:
    """The turn from ``first`` to ``second``: the sine for unit vectors, + counterclockwise."""
    turn: np.ndarray = first[..., 0] * second[..., 1] - first[..., 1] * second[..., 0]
    return turn


def lengths_along(points: np.ndarray) -> np.ndarray:
    """Length along a polyline at each of its points, mm, from its first."""
    steps = np.diff(points, axis=0)
    return np.concatenate([[0.0], np.cumsum(np.hypot(steps[:, 0], steps[:, 1]))])


def mirrored(points: np.ndarray) -> np.ndarray:
    """A half line (center plane first) as the whole line, inboard end first."""
    return np.concatenate([(points * (-1.0, 1.0))[:0:-1], points])


def _arc_along(start: np.ndarray, way_out: np.ndarray, end: np.ndarray, way_in: np.ndarray, count: int) -> Path:
    turn = np.arctan2(cross(way_out, way_in), way_out @ way_in)
    if abs(turn) < 1e-7:
        return straight(start, end, count)
    normal = np.array([-way_out[1], way_out[0]])
    gap = end - start
    radius = (gap @ gap) / (2.0 * (gap @ normal))  # + to the left of the way
    center = start + radius * normal
    first = np.arctan2(*(start - center)[::-1])
    path = arc(center, abs(radius), first, first + turn, count)
    return Path(np.concatenate([path.points[:-1], end[None]]), path.directions)
