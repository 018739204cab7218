"""The lines of one half of a section, outboard, each from the center plane down to the bead. mm and radians.

Outside: crown, shoulder, sidewall, rim contour, toe. Ply: crown, turn under the belt edge, sidewall, around the core.
Liner: beside the ply, then down to the toe. In crown and sidewall the three are parallel.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from tiremap.geometry.bead import bead_inside, bead_outside, core_outline, ply_around_core
from tiremap.geometry.crown_form import CrownForm
from tiremap.geometry.paths import Path, joined, lengths_along
from tiremap.geometry.rim import RimForm
from tiremap.geometry.section_data import assumed, assumed_list
from tiremap.geometry.section_places import liner_feet
from tiremap.geometry.shoulder import Surface, landing_of, roundest_landing, surface_over
from tiremap.geometry.sidewall_curve import SidewallCurve, angle_of


@dataclass(frozen=True)
class Joints:
    """Where the lines of a half section are joined, so that the same rubber can be laid again under load."""

    sidewall_lengths: np.ndarray  # cord length from the start of the sidewall to each of its points, mm
    outside_landing: int
    ply_landing: int
    ply_turn: float  # mm along the ply's middle, from the center plane to where it leaves the belts
    ply_past_belts: bool
    bead_angle: float  # phi at which the sidewall goes over into the bead, radians
    tread_rubber_end: int
    ply_beside_tread_end: int


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
    ply_landed: int  # on ply and liner: where the turn under the belt edge meets the sidewall
    joints: Joints

    @cached_property
    def liner_lengths(self) -> np.ndarray:
        """Length along the liner at each of its points, mm, from the center plane."""
        return lengths_along(self.liner)

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
    cord = sidewall.path(phi)
    joints = _joints(crown, cord, widest, sidewall.length(sidewall.phi_start) - sidewall.length(phi))
    return laid_again(crown, cord, rim, joints)


def laid_again(crown: CrownForm, cord: Path, rim: RimForm, joints: Joints) -> HalfSection:
    """The lines of one half with its joints given: ``cord`` holds the sidewall's points at the joints' lengths."""
    outside = surface_over(_tread_line(crown), _outside_of(cord), joints.outside_landing)
    under_belts, shares = _under_belts(crown, joints.ply_turn, joints.ply_past_belts)
    ply = surface_over(under_belts, cord, joints.ply_landing)
    half_ply = 0.5 * (crown.ply_bottom - crown.ply_top)
    to_core, wrap = ply_around_core(rim, ply.path.points[-1], ply.path.directions[-1], half_ply)
    whole_ply = joined(ply.path, to_core)

    inside = _inside_distance(whole_ply, ply, crown.thickness - crown.ply_top - half_ply)
    beside_ply = whole_ply.aside(-inside)
    to_toe = bead_inside(rim, beside_ply[-1], whole_ply.directions[-1])
    liner = np.concatenate([beside_ply, to_toe.points[1:]])
    liner_top_bead = to_toe.aside(inside[-1] - half_ply)
    liner_top_bead[-1, 1] = rim.seat_radius(liner_top_bead[-1, 0])

    on_the_rim = bead_outside(rim, outside.path.points[-1], outside.path.directions[-1], joints.bead_angle)
    outer = _with_point_before_toe(joined(outside.path, on_the_rim), liner_top_bead[-1])
    return HalfSection(
        outer=outer,
        tread_rubber_end=joints.tread_rubber_end,
        bead_start=len(outside.path.points) - 1,
        liner_edge=len(outer.points) - 2,
        ply=whole_ply,
        ply_leaves_belt=shares,
        ply_beside_tread_end=joints.ply_beside_tread_end,
        ply_bead_start=len(ply.path.points) - 1,
        wrap=wrap,
        half_ply=half_ply,
        core_free=core_outline(rim, wrap),
        liner=liner,
        liner_top_bead=liner_top_bead,
        belts=_belts(crown, whole_ply.aside(half_ply), shares),
        liner_feet=liner_feet(crown, outside, ply, liner),
        ply_landed=ply.landed,
        joints=joints,
    )


def _joints(crown: CrownForm, cord: Path, widest: int, lengths: np.ndarray) -> Joints:
    """Choose where crown, shoulder and sidewall meet; ``widest`` is the index of the widest point on ``cord``."""
    tread, sidewall = _tread_line(crown), _outside_of(cord)
    outside_at = landing_of(tread, sidewall, widest, assumed("shoulder", "radius_outside"))
    outside_at = roundest_landing(tread, sidewall) if outside_at is None else outside_at
    turn, past_belts, ply_at = _ply_joint(crown, cord, widest)
    ply = surface_over(_under_belts(crown, turn, past_belts)[0], cord, ply_at).path
    tread_end, beside = _tread_rubber_ends(surface_over(tread, sidewall, outside_at), ply, crown.belt_half)
    return Joints(
        sidewall_lengths=lengths,
        outside_landing=outside_at,
        ply_landing=ply_at,
        ply_turn=turn,
        ply_past_belts=past_belts,
        bead_angle=angle_of(cord.directions[-1]),
        tread_rubber_end=tread_end,
        ply_beside_tread_end=beside,
    )


def _tread_line(crown: CrownForm) -> Path:
    return crown.line(0.0, crown.tread_half / crown.radius, 28)


def _outside_of(cord: Path) -> Path:
    """The sidewall's outer surface."""
    return Path(cord.aside(assumed("sidewall", "outside_cord")), cord.directions)


def _ply_joint(crown: CrownForm, cord: Path, widest: int) -> tuple[float, bool, int]:
    """Where the ply leaves the belts (mm along its middle), whether past their edge, and where it meets the cord."""
    middle = 0.5 * (crown.ply_top + crown.ply_bottom)
    radius = assumed("shoulder", "radius_inside")
    turn_at = min(
        crown.belt_half - assumed("shoulder", "ply_leaves_belt"),
        cord.points[widest, 0] - assumed("shoulder", "ply_turn_room"),
    )
    turn = (crown.radius - middle) * crown.angle_at(turn_at, middle)
    # A turn flatter than the crown would lift the ply into the belts.
    round_turn, hollow_turn = assumed_list("shoulder", "ply_flattest_turn")
    flattest = (round_turn * crown.radius, hollow_turn * crown.radius)
    landing = landing_of(_under_belts(crown, turn, False)[0], cord, widest, radius, flattest)
    if landing is not None:
        return turn, False, landing
    # The sidewall leaves so nearly in line with the crown that the ply follows the crown past the belts.
    past_belts = _under_belts(crown, turn, True)[0]
    landing = landing_of(past_belts, cord, widest, radius)
    return turn, True, roundest_landing(past_belts, cord) if landing is None else landing


def _under_belts(crown: CrownForm, turn: float, past_belts: bool) -> tuple[Path, int]:
    """Middle of the ply in the crown, and the index to which it lies against the inner belt."""
    middle = 0.5 * (crown.ply_top + crown.ply_bottom)
    if not past_belts:
        line = crown.line(middle, turn / (crown.radius - middle))
        return line, len(line.points) - 1
    edge = crown.angle_at(crown.belt_half, crown.ply_top)
    to_edge = crown.line(middle, edge)
    return joined(to_edge, crown.line(middle, edge + 1.0 / crown.radius, 2, edge)), len(to_edge.points) - 1


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
    inside: np.ndarray = np.interp(length, ends, [under_belts, assumed("sidewall", "inside_cord")])
    return inside


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
    angles, heights = np.arctan2(across, up), np.hypot(across, up)
    edge_reached = int(np.argmax(angles >= edge - 1e-9))
    under = np.append(angles[shares + 1 : edge_reached], edge) if edge_reached > shares else angles[:0]
    # Under load the ply can rise past the belts' edge and lift it.
    risen = np.interp(under, angles[: edge_reached + 1], heights[: edge_reached + 1])
    lifted = np.maximum(risen + assumed("shoulder", "belt_off_risen_ply"), crown.radius - crown.ply_top)
    beyond = lifted[:, None] * np.column_stack([np.sin(under), np.cos(under)]) + crown.center
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
