"""The bead as it sits on the rim, outboard half: outside, inside, and the ply around the core. mm and radians."""

import math

import numpy as np

from tiremap.geometry.paths import Path, arc, cross, joined, straight, two_arcs
from tiremap.geometry.rim import RimForm, seat_and_flange
from tiremap.geometry.section_data import assumed
from tiremap.geometry.sidewall_curve import angle_of


def bead_outside(form: RimForm, start: np.ndarray, way: np.ndarray, unloaded_angle: float) -> Path:
    """From the sidewall's outer surface onto the flange radius, down the rim contour and along the seat to the toe.

    A sidewall that comes in flatter than at the unloaded angle (``phi``, radians) meets the flange higher up.
    """
    # On a rim nearly as wide as the tire the sidewall comes down steeply and meets the flange lower.
    below_start = (form.flange_center[0] - start[0] + assumed("bead", "ply_off_flange")) / form.flange_radius
    flatter = max(unloaded_angle - angle_of(way), 0.0)
    touching = min(
        assumed("bead", "touches_flange_at") + flatter,
        assumed("bead", "touches_flange_at_most"),
        math.acos(min(max(below_start, -1.0), 1.0)),
    )
    on_the_rim = seat_and_flange(form, toe(form)[0], touching)
    onto = two_arcs(start, way, on_the_rim.points[0], on_the_rim.directions[0], 8)
    return joined(onto, on_the_rim)


def bead_inside(form: RimForm, start: np.ndarray, way: np.ndarray) -> Path:
    """From beside the core down to the toe."""
    leans = assumed("bead", "toe_leans")
    return two_arcs(start, way, toe(form), np.array([-math.sin(leans), -math.cos(leans)]), 8)


def ply_around_core(form: RimForm, start: np.ndarray, way: np.ndarray, half_ply: float) -> tuple[Path, Path]:
    """Middle of the ply from the sidewall to the core, and from there under the core and up its outer side."""
    core, radius = core_center(form), core_radius(form) + half_ply
    gap = start - core
    # Where a straight line from the start touches the inner side of the wrap.
    touches = math.atan2(gap[1], gap[0]) + math.acos(min(radius / math.hypot(*gap), 1.0))
    wrap = _wrap(core, radius, touches)
    flange, clear = form.flange_center, form.flange_radius + assumed("bead", "ply_off_flange") + half_ply
    if cross(wrap.directions[0], start - flange) <= -clear:
        return two_arcs(start, way, wrap.points[0], wrap.directions[0], 8), wrap
    # That line would run into the flange: over the flange first, then along the line that touches both circles.
    across, up = core - flange
    touches = math.atan2(up, across) % (2.0 * math.pi) - math.acos((clear - radius) / math.hypot(across, up))
    wrap = _wrap(core, radius, touches)
    over = flange + clear * np.array([math.cos(touches), math.sin(touches)])
    onto = two_arcs(start, way, over, wrap.directions[0], 8)
    return joined(onto, straight(over, wrap.points[0])), wrap


def _wrap(core: np.ndarray, radius: float, touches: float) -> Path:
    return arc(core, radius, touches, 2.0 * math.pi + assumed("bead", "turn_up_ends_at"), 21)


def core_outline(form: RimForm, wrap: Path) -> Path:
    """The part of the core the ply leaves free: from the end of the turn-up over the top to the inner side."""
    center = core_center(form)
    across, up = wrap.points[0] - center
    return arc(center, core_radius(form), assumed("bead", "turn_up_ends_at"), math.atan2(up, across), 13)


def core_center(form: RimForm) -> np.ndarray:
    """Center of the bead core."""
    across, up = assumed("bead", "core_across"), assumed("bead", "core_up")
    return np.array([form.half_width - across * base_width(form), form.radius + up * base_width(form)])


def core_radius(form: RimForm) -> float:
    """Radius of the bead core, mm."""
    return assumed("bead", "core_radius") * base_width(form)


def base_width(form: RimForm) -> float:
    """Heel to toe, mm."""
    return min(assumed("bead", "base"), form.seat_width - assumed("bead", "base_inside_seat"))


def toe(form: RimForm) -> np.ndarray:
    """The inner edge of the bead base, on the seat."""
    x = form.half_width - base_width(form)
    return np.array([x, form.seat_radius(x)])
