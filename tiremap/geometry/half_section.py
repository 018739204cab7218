"""The lines of one half of a section, outboard, each from the center plane down to the bead. mm and radians.

Outside: crown, shoulder, sidewall, rim contour, toe. Ply: crown, turn under the belt edge, sidewall, around the core.
Liner: beside the ply, then down to the toe. In crown and sidewall the three are parallel.
"""

from dataclasses import dataclass

import numpy as np

from tiremap.geometry.bead import bead_inside, bead_outside, core_outline, ply_around_core
from tiremap.geometry.crown_form import CrownForm
from tiremap.geometry.paths import Path, joined
from tiremap.geometry.rim import RimForm
from tiremap.geometry.section_data import assumed
from tiremap.geometry.section_places import liner_feet
from tiremap.geometry.shoulder import Surface, landing_of, roundest_landing, surface_over
from tiremap.geometry.sidewall_curve import SidewallCurve


@dataclass(frozen=True)
class HalfSection:
    """Lines ``(n, 2)`` of the outboard half and where one part of them turns into the next (indices)."""

    outer: Path
    tread_rubber_end: int  # on outer
    bead_start: int  # on outer
    liner_edge: int  # on outer: the point on the seat where the liner's layer ends

    ply: Path  # middle of the ply, center plane to bead core
    ply_leaves_belt: int
    ply_beside_tread_end: int
    ply_bead_start: int
    wrap: Path  # the ply around the core
    half_ply: float
    core_free: Path

    liner: np.ndarray
    liner_top_bead: np.ndarray  # upper side of the liner's layer from the core to the seat
    belts: tuple[np.ndarray, np.ndarray, np.ndarray]  # over the outer belt; the step to the inner belt's edge; under it
    liner_feet: tuple[np.ndarray, np.ndarray]  # tread coordinate, length along the liner

    @property
    def ply_top(self) -> np.ndarray:
        """Outer side of the ply, center plane to bead core."""
        return self.ply.aside(self.half_ply)

    @property
    def ply_bottom(self) -> np.ndarray:
        """Cavity side of the ply."""
        return self.ply.aside(-self.half_ply)


def half_section(crown: CrownForm, sidewall: SidewallCurve, rim: RimForm) -> HalfSection:
    """Lay the lines of one half from crown, cord line and rim."""
    phi, widest = _angles(sidewall)
    cord = Path(sidewall.points(phi), np.column_stack([np.sin(phi), -np.cos(phi)]))
    outside = _outside(crown, cord, widest)
    ply, shares = _ply(crown, cord, widest)
    half_ply = 0.5 * (crown.ply_bottom - crown.ply_top)
    to_core, wrap = ply_around_core(rim, ply.path.points[-1], ply.path.directions[-1], half_ply)
    whole_ply = joined(ply.path, to_core)

    inside = _inside_distance(whole_ply, ply, crown.thickness - crown.ply_top - half_ply)
    beside_ply = whole_ply.aside(-inside)
    to_toe = bead_inside(rim, beside_ply[-1], whole_ply.directions[-1])
    liner = np.concatenate([beside_ply, to_toe.points[1:]])
    liner_top_bead = to_toe.aside(inside[-1] - half_ply)
    liner_top_bead[-1, 1] = rim.seat_radius(liner_top_bead[-1, 0])

    on_the_rim = bead_outside(rim, outside.path.points[-1], outside.path.directions[-1])
    outer = _with_point_before_toe(joined(outside.path, on_the_rim), liner_top_bead[-1])
    tread_end, ply_there = _tread_rubber_ends(outside, ply.path, crown.belt_half)
    return HalfSection(
        outer=outer,
        tread_rubber_end=tread_end,
        bead_start=len(outside.path.points) - 1,
        liner_edge=len(outer.points) - 2,
        ply=whole_ply,
        ply_leaves_belt=shares,
        ply_beside_tread_end=ply_there,
        ply_bead_start=len(ply.path.points) - 1,
        wrap=wrap,
        half_ply=half_ply,
        core_free=core_outline(rim, wrap),
        liner=liner,
        liner_top_bead=liner_top_bead,
        belts=_belts(crown, whole_ply.aside(half_ply), shares),
        liner_feet=liner_feet(crown, outside, ply, liner),
    )


def _outside(crown: CrownForm, cord: Path, widest: int) -> Surface:
    sidewall = Path(cord.aside(assumed("sidewall", "outside_cord")), cord.directions)
    tread = crown.line(0.0, crown.tread_half / crown.radius, 28)
    landing = landing_of(tread, sidewall, widest, assumed("shoulder", "radius_outside"))
    return surface_over(tread, sidewall, roundest_landing(tread, sidewall) if landing is None else landing)


def _ply(crown: CrownForm, cord: Path, widest: int) -> tuple[Surface, int]:
    """Middle of the ply to where the bead begins, and the index to which it lies against the inner belt."""
    middle = 0.5 * (crown.ply_top + crown.ply_bottom)
    radius = assumed("shoulder", "radius_inside")
    turn_at = min(
        crown.belt_half - assumed("shoulder", "ply_leaves_belt"),
        cord.points[widest, 0] - assumed("shoulder", "ply_turn_room"),
    )
    under_belts = crown.line(middle, crown.angle_at(turn_at, middle))
    # A turn flatter than the crown would lift the ply into the belts.
    round_turn, hollow_turn = assumed("shoulder", "ply_flattest_turn")
    flattest = (round_turn * crown.radius, hollow_turn * crown.radius)
    landing = landing_of(under_belts, cord, widest, radius, flattest)
    if landing is not None:
        return surface_over(under_belts, cord, landing), len(under_belts.points) - 1
    # The sidewall leaves so nearly in line with the crown that the ply follows the crown past the belts.
    edge = crown.angle_at(crown.belt_half, crown.ply_top)
    to_edge = crown.line(middle, edge)
    past_belts = joined(to_edge, crown.line(middle, edge + 1.0 / crown.radius, 2, edge))
    landing = landing_of(past_belts, cord, widest, radius)
    landing = roundest_landing(past_belts, cord) if landing is None else landing
    return surface_over(past_belts, cord, landing), len(to_edge.points) - 1


def _angles(sidewall: SidewallCurve) -> tuple[np.ndarray, int]:
    """Angles of the sidewall's points from its start to where the bead begins, and the index of the widest point."""
    above = min(assumed("bead", "above_contact"), assumed("bead", "above_contact_share") * sidewall.cord_length)
    bead = sidewall.phi_flange + above * sidewall.c * float(sidewall.radius(sidewall.phi_flange))
    upper = np.linspace(sidewall.phi_start, 0.0, 25)
    lower = np.linspace(0.0, min(bead, -0.01), 17)
    return np.concatenate([upper, lower[1:]]), len(upper) - 1


def _inside_distance(whole_ply: Path, ply: Surface, under_belts: float) -> np.ndarray:
    """Distance from the middle of the ply to the liner's surface: even in the crown and in the sidewall."""
    length = whole_ply.lengths()
    ends = [length[ply.crown_end], length[ply.landed]]
    return np.interp(length, ends, [under_belts, assumed("sidewall", "inside_cord")])


def _with_point_before_toe(outer: Path, point: np.ndarray) -> Path:
    return Path(
        np.concatenate([outer.points[:-1], point[None], outer.points[-1:]]),
        np.concatenate([outer.directions, outer.directions[-1:]]),
    )


def _belts(crown: CrownForm, ply_top: np.ndarray, shares: int) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """The belts' outline in three lines; underneath it keeps the ply's own points to ``shares``, so that the layers
    share them, and beyond has a point above each of the ply's, so that two lines so close cannot cross.
    """
    outer_to = crown.angle_at(crown.outer_belt_half, crown.belts_top)
    step_to = crown.angle_at(crown.belt_half, crown.belts_middle)
    edge = crown.angle_at(crown.belt_half, crown.ply_top)
    across, up = (ply_top - crown.center).T
    angles = np.arctan2(across, up)
    edge_reached = int(np.argmax(angles >= edge - 1e-9))
    angles = np.append(angles[shares + 1 : edge_reached], edge) if edge_reached > shares else angles[:0]
    beyond = (crown.radius - crown.ply_top) * np.column_stack([np.sin(angles), np.cos(angles)]) + crown.center
    return (
        crown.line(crown.belts_top, outer_to).points,
        crown.line(crown.belts_middle, step_to, 3, outer_to).points,
        np.concatenate([ply_top[: shares + 1], beyond]),
    )


def _tread_rubber_ends(outside: Surface, ply: Path, belt_edge: float) -> tuple[int, int]:
    """Where tread rubber meets sidewall rubber: the point outside, and the point on the ply past the belts."""
    outer, tread_edge, landed = outside.path, outside.crown_end, outside.landed
    length, outward = outer.lengths(), outer.outward
    share = assumed("shoulder", "tread_rubber_ends_at")
    wanted = (1.0 - share) * length[tread_edge] + share * length[landed]
    past_the_belt = int(np.argmax(ply.points[:, 0] > belt_edge + 0.5))
    for end in range(max(int(np.searchsorted(length, wanted)), tread_edge + 1), landed + 1):
        gaps = outer.points[end] - ply.points[past_the_belt:]
        away = np.hypot(gaps[:, 0], gaps[:, 1])
        nearest = int(np.argmin(away))
        # Further down where the way in would run along a hollow shoulder instead of into the rubber.
        if gaps[nearest] @ outward[end] > 0.7 * away[nearest]:
            break
    return end, past_the_belt + nearest
