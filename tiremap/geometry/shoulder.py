"""The shoulder: crown and sidewall joined by two arcs tangent to both, so that no surface has a notch or a kink.

The cord line may turn where it leaves the belt; the surfaces do not, and rubber fills the wedge. Used for the outer
surface and for the ply (the liner follows the ply). The first arc always turns down; the second goes on turning, or
on high sections with a broad tread runs out hollow into the sidewall.
"""

import math
from dataclasses import dataclass

import numpy as np

from tiremap.geometry.paths import Path, cross, joined, two_arc_frame, two_arcs
from tiremap.geometry.section_data import assumed, assumed_list


@dataclass(frozen=True)
class Surface:
    """Crown, shoulder and sidewall as one path, and the indices of its joints."""

    path: Path
    crown_end: int
    landed: int  # where the shoulder meets the sidewall, on this path
    landing: int  # and on the sidewall's own line


def surface_over(crown: Path, sidewall: Path, landing: int) -> Surface:
    """Join the end of ``crown`` to the point ``landing`` of ``sidewall``."""
    arcs = two_arcs(crown.points[-1], crown.directions[-1], sidewall.points[landing], sidewall.directions[landing])
    path = joined(crown, arcs, sidewall.part(landing))
    crown_end = len(crown.points) - 1
    return Surface(path, crown_end, crown_end + len(arcs.points) - 1, landing)


def landing_of(
    crown: Path, sidewall: Path, widest: int, radius: float, flattest: tuple[float, float] = (math.inf, math.inf)
) -> int | None:
    """Which sidewall point to join: without a hollow before with one, round before tight, high up before low down.

    ``widest`` is the index of the widest point on ``sidewall``; ``radius`` the least radius wanted, ``flattest`` the
    greatest allowed of the first arc, without and with a hollow after it, mm. None where no point will do.
    """
    first, second, furthest = _arcs_to_each(crown, sidewall)
    index = np.arange(len(first))
    high_up = index <= assumed("shoulder", "lands_within") * widest
    above = index <= widest
    least = np.minimum(first, second) / radius
    *rounder, tightest = (least >= step for step in assumed_list("shoulder", "round_steps"))
    steps = assumed_list("shoulder", "hollow_steps")
    hollow = [(first >= turn * radius) & (-second >= run * radius) for turn, run in steps]
    shapes = [arcs & high_up for arcs in rounder] + [arcs & above for arcs in (*rounder, tightest)] + hollow
    # The last points are left out: the sidewall keeps a stretch of its own above the bead.
    possible = (first > 0.0) & (first < np.where(second > 0.0, *flattest)) & (index < len(first) - 2)
    widest_yet = max(sidewall.points[widest, 0], crown.points[-1, 0])
    for overhang in (1e-6, assumed("shoulder", "overhang")):
        within = possible & (furthest <= widest_yet + overhang)
        for shape in shapes:
            if (within & shape).any():
                return int(np.argmax(within & shape))
    return None


def roundest_landing(crown: Path, sidewall: Path) -> int:
    """The sidewall point whose tighter arc is the least tight: for shapes out of the ordinary."""
    first, second, _ = _arcs_to_each(crown, sidewall)
    return int(np.argmax(np.minimum(first, np.abs(second))[:-2]))


def _arcs_to_each(crown: Path, sidewall: Path) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """For the two arcs to each sidewall point: the radius of the first (0 where it would not turn down) and of the
    second (negative where hollow), and how far off the center plane they reach.
    """
    start, way = crown.points[-1], crown.directions[-1]
    reach, middle = two_arc_frame(start, way, sidewall.points, sidewall.directions)
    first_turn = -cross(np.broadcast_to(way, middle.shape), middle)
    second_turn = -cross(middle, sidewall.directions)
    # radius = tangent length / tan(half the turn), and tan(half the turn) = sin / (1 + cos)
    cosine = np.sum(middle * sidewall.directions, axis=1)
    first = reach * (1.0 + middle @ way) / np.where(np.abs(first_turn) < 1e-9, 1e-9, first_turn)
    second = reach * (1.0 + cosine) / np.where(np.abs(second_turn) < 1e-9, 1e-9, second_turn)
    first = np.where((first_turn > 0.0) & (middle @ way > -0.5) & (cosine > 0.0), first, 0.0)

    past_upright_first = start[0] + first * (1.0 + way[1])
    ends, ways = sidewall.points, sidewall.directions
    past_upright_second = ends[:, 0] + np.where(ways[:, 0] < 0.0, second * (1.0 + ways[:, 1]), 0.0)
    furthest = np.where(middle[:, 0] < 0.0, past_upright_first, past_upright_second)
    return first, second, furthest
