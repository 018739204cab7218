"""The rim contour a tire sits on: flange, bead seat and well, outboard half.

J flange after JIS D 4218 / ISO 4000-2. Rims of half-inch codes have a 15-degree seat and no J flange: outline only.
Section frame, mm and radians.
"""

import math
from dataclasses import dataclass

import numpy as np

from tiremap.geometry.paths import Path, arc, joined, straight
from tiremap.geometry.section_data import assumed, assumed_list, from_step_table


@dataclass(frozen=True)
class RimForm:
    """A rim's dimensions; ``half_width`` is to the upright face of the flange. mm; ``seat_taper`` radians."""

    half_width: float
    radius: float
    flange_height: float
    flange_radius: float
    flange_width: float
    seat_width: float
    seat_taper: float
    heel_radius: float
    well_depth: float

    @property
    def flange_center(self) -> np.ndarray:
        """Center of the flange radius."""
        return np.array([self.half_width + self.flange_radius, self.radius + self.flange_height - self.flange_radius])

    def seat_radius(self, x: float) -> float:
        """Radius of the bead seat (its line carried on) at ``x``."""
        return self.radius - (self.half_width - x) * math.tan(self.seat_taper)


def rim_form(rim_width: float, rim_diameter: float) -> RimForm:
    """The rim of this width and nominal diameter (mm)."""
    fifteen = has_fifteen_degree_seat(rim_diameter)
    return RimForm(
        half_width=0.5 * rim_width,
        radius=0.5 * rim_diameter,
        flange_height=assumed("rim", "fifteen_degree_flange_height" if fifteen else "flange_height"),
        flange_radius=assumed("rim", "flange_radius"),
        flange_width=assumed("rim", "flange_width"),
        seat_width=from_step_table(assumed_list("rim", "seat_width"), rim_width),
        seat_taper=assumed("rim", "fifteen_degree_seat_taper" if fifteen else "seat_taper"),
        heel_radius=assumed("rim", "heel_radius"),
        well_depth=from_step_table(assumed_list("rim", "well_depth"), rim_diameter),
    )


def has_fifteen_degree_seat(rim_diameter: float) -> bool:
    """Whether the diameter (mm) is that of a half-inch code (16.5, 17.5, 19.5, 22.5, 24.5)."""
    return round(2.0 * rim_diameter / 25.4) % 2 == 1


def seat_and_flange(form: RimForm, seat_from: float, flange_to: float) -> Path:
    """The contour a bead lies against, flange first: from the angle ``flange_to`` on the flange radius (radians up
    from the upright face) down the face, round the heel and along the seat to ``x = seat_from``.
    """
    flange = arc(form.flange_center, form.flange_radius, math.pi - flange_to, math.pi, 12)
    # The heel ends where the upright face does; on a low 15-degree flange that leaves it little room.
    upright = form.flange_height - form.flange_radius
    radius = min(form.heel_radius, upright / (1.0 / math.cos(form.seat_taper) - math.tan(form.seat_taper)))
    across = form.half_width - radius
    up = form.seat_radius(across) + radius / math.cos(form.seat_taper)
    heel = arc(np.array([across, up]), radius, 0.0, -0.5 * math.pi + form.seat_taper, 10)
    toe = np.array([seat_from, form.seat_radius(seat_from)])
    return joined(flange, heel, straight(heel.points[-1], toe))


def rim_contour(form: RimForm) -> np.ndarray:
    """The contour ``(n, 2)`` of the outboard half, from the well on the center plane to the edge of the flange."""
    seat_end = form.half_width - form.seat_width
    contact = seat_and_flange(form, max(seat_end, 0.0), 0.5 * math.pi).points[::-1]
    edge = [form.half_width + form.flange_width, form.radius + form.flange_height]
    floor = form.radius - form.well_depth
    wall = (contact[0, 1] - floor) * math.tan(assumed("rim", "well_slope"))
    well = [[0.0, floor], [max(seat_end - wall, 0.0), floor]]
    return np.concatenate([well, contact, [edge]])
