"""The body-cord line of a tire: where the sidewall curve starts, how wide it is, and where the rim takes over.

Where no curve leaves the belt edge (a narrow tread on a low section, a belt wider than the widest point) the start
moves along the crown, a straight cord joins it to the belt edge, and the section is approximate.
"""

import math
from dataclasses import dataclass

import numpy as np

from tiremap.geometry.frames import SectionPoint
from tiremap.geometry.rim import RimForm
from tiremap.geometry.section_data import assumed
from tiremap.geometry.section_inputs import SectionCannotBeDrawn, SectionInputs, default_thickness
from tiremap.geometry.sidewall_curve import SidewallCurve, sidewall_leaving_at, sidewall_through


@dataclass(frozen=True)
class CordLine:
    """The cord line, outboard: the belt edge it comes from, its equilibrium curve, whether the start was moved."""

    belt_edge: SectionPoint
    curve: SidewallCurve
    approximate: bool

    def points(self, count: int = 49) -> np.ndarray:
        """Points ``(n, 2)`` from belt edge to flange contact; the first stretch is straight where approximate."""
        phi = np.linspace(self.curve.phi_start, self.curve.phi_flange, count)
        points = self.curve.points(phi)
        return np.concatenate([[self.belt_edge], points]) if self.approximate else points


def cord_line_of(inputs: SectionInputs, rim: RimForm) -> CordLine:
    """Solve the cord line; raises `SectionCannotBeDrawn` where there is none."""
    xm = 0.5 * inputs.section_width - assumed("sidewall", "outside_cord")
    xb = inputs.belt_half_width_drawn
    flange, moved = _flange_contact_under(xm, rim)
    start_x = min(xb, xm - assumed("sidewall", "inside_widest_point"))
    start = SectionPoint(start_x, cord_radius(inputs, start_x))
    curve = sidewall_through(start, xm, flange)
    approximate = curve is None or start_x < xb or moved
    if curve is None:
        steepest = assumed("sidewall", "steepest_start")
        curve = sidewall_leaving_at(steepest, lambda x: cord_radius(inputs, x), start_x, xm, flange)
    if curve is None:
        raise SectionCannotBeDrawn(
            f"No sidewall fits between a tread of {inputs.tread_width:g} mm and a rim of {inputs.rim_width:g} mm "
            f"on a section {inputs.section_width:g} mm wide and {inputs.section_height:g} mm high.",
            "Check the tread width, the rim and the section width; the answer does not need the drawing.",
        )
    return CordLine(SectionPoint(xb, cord_radius(inputs, xb)), curve, approximate)


def flange_contact(rim: RimForm) -> SectionPoint:
    """Where the rim flange takes the cords over."""
    return SectionPoint(rim.half_width + assumed("sidewall", "flange_across"), rim.radius + rim.flange_height)


def _flange_contact_under(xm: float, rim: RimForm) -> tuple[SectionPoint, bool]:
    """The flange contact, moved inside the widest point where the rim is nearly as wide as the tire."""
    contact = flange_contact(rim)
    furthest = xm - assumed("sidewall", "inside_widest_point")
    if contact.x <= furthest:
        return contact, False
    if furthest < contact.x - assumed("sidewall", "flange_contact_room"):
        raise SectionCannotBeDrawn(
            f"The rim, {2.0 * rim.half_width:g} mm wide, is too wide for a section of "
            f"{2.0 * (xm + assumed('sidewall', 'outside_cord')):g} mm.",
            "Check the rim width and the section width; the answer does not need the drawing.",
        )
    return SectionPoint(furthest, contact.r), True


def cord_radius(inputs: SectionInputs, x: float) -> float:
    """Radius of the cord line at the belt edge, or carried on along the crown to ``x``.

    At default thickness and crown radius it is one figure below the overall diameter; a thicker or rounder crown
    carries the belt edge down with it.
    """
    xb = inputs.belt_half_width_drawn
    default_radius = assumed("crown", "radius_of_nominal_width") * inputs.nominal_width
    rounder = _drop(xb, inputs.crown_radius_drawn) - _drop(min(xb, default_radius), default_radius)
    thicker = inputs.thickness - default_thickness()
    at_belt_edge = 0.5 * inputs.overall_diameter - assumed("sidewall", "belt_edge_depth") - rounder - thicker
    return at_belt_edge - _drop(x, inputs.crown_radius_drawn) + _drop(xb, inputs.crown_radius_drawn)


def _drop(x: float, radius: float) -> float:
    return radius - math.sqrt(max(radius * radius - x * x, 0.0))
