"""The cut across a tire on its rim, drawn from the few dimensions a size code and a tape give.

Crown: circles about one center. Sidewall: the radial-ply equilibrium curve. Shoulder: tangent arcs. Bead: seated on
the rim contour. Section frame (x + outboard, r from the axle), mm. The drawing explains; no answer depends on it.
"""

from dataclasses import dataclass, field, replace
from functools import lru_cache

import numpy as np
from shapely import Polygon

from tiremap.geometry.air_volume import air_volume_l
from tiremap.geometry.cord_line import CordLine, cord_line_of
from tiremap.geometry.crown_form import CrownForm
from tiremap.geometry.frames import SectionPoint
from tiremap.geometry.half_section import HalfSection, half_section
from tiremap.geometry.layers import body_of, layers_of
from tiremap.geometry.paths import mirrored
from tiremap.geometry.rim import rim_contour, rim_form
from tiremap.geometry.section_data import assumed
from tiremap.geometry.section_inputs import (
    SectionCannotBeDrawn,
    SectionInputs,
    default_under_grooves,
    refuse_impossible,
)
from tiremap.geometry.section_places import nearest_tread_coordinate, place_on_liner, place_on_outer
from tiremap.geometry.sidewall_curve import SidewallCurve

__all__ = ["Section", "SectionCannotBeDrawn", "SectionInputs", "draw_section"]


@dataclass(frozen=True, eq=False)
class Section:
    """A drawn section. Lines are ``(n, 2)`` arrays of (x, r), mm, read-only; whole lines run from inboard to outboard.

    ``approximate``: no sidewall curve leaves the belt edge itself, or the belt is too wide to be drawn as measured.
    """

    inputs: SectionInputs
    thickness: float  # crown, tread surface to liner
    crown_radius: float
    belt_half_width: float
    sidewall: SidewallCurve  # the equilibrium curve of the cord line, outboard
    cord_line: np.ndarray  # outboard half, belt edge to flange contact
    outer: np.ndarray  # inboard toe over seat, flange, sidewall and crown to outboard toe
    liner: np.ndarray  # inboard toe to outboard toe
    body: Polygon  # the whole rubber body, which the layers tile
    layers: dict[str, Polygon]
    belts: list[np.ndarray]  # middle line of each belt, the outer (narrower) one first
    rim: np.ndarray  # contour from the inboard edge of the flange over the well to the outboard one
    air_volume_l: float
    widest_point_share_of_height: float  # of the cord line, above the rim diameter
    widest_half_width: float  # of the outer surface as drawn
    approximate: bool
    tread_edge_s: float  # tread coordinate of the outboard tread edge
    crown: CrownForm = field(repr=False)
    half: HalfSection = field(repr=False)

    @property
    def cord_radius_around(self) -> float:
        """Radius of the cord line in the crown from the axle: as at the belt edge."""
        return float(self.sidewall.radius(self.sidewall.phi_start))

    def outer_place(self, s: float, depth: float = 0.0) -> SectionPoint:
        """The point at the tread coordinate ``s``, ``depth`` mm along the inward normal.

        Past the tread edge ``s`` runs on down the sidewall; past the toe it stays there.
        """
        return place_on_outer(self.crown, self.half.outer, s, depth)

    def liner_place(self, s: float) -> SectionPoint:
        """The liner point under the tread coordinate ``s``: along the normal in crown and sidewall, between them in
        proportion, for there the normals cross before they reach the liner.
        """
        return place_on_liner(self.half.liner_feet, self.half.liner_lengths, self.half.liner, s)

    def tread_coordinate(self, x: float, r: float) -> float:
        """Tread coordinate ``s`` of the point of the outer surface nearest to ``(x, r)``."""
        return nearest_tread_coordinate(self.crown, self.half.outer, x, r)


@lru_cache(maxsize=64)
def draw_section(inputs: SectionInputs) -> Section:
    """Draw the section; raises `SectionCannotBeDrawn` where it is too low or no sidewall curve exists."""
    refuse_impossible(inputs)
    rim = rim_form(inputs.rim_width, inputs.rim_diameter)
    drawn = _wide_enough_for_tread(inputs)
    cord = cord_line_of(drawn, rim)
    crown = _crown_form(inputs, cord)
    half = half_section(crown, cord.curve, rim)
    body, layers = body_of(half), layers_of(half)
    if not all(shape.is_valid for shape in (body, *layers.values())):
        raise SectionCannotBeDrawn(
            f"The layers of this section cross: tread {inputs.tread_width:g} mm wide, crown {inputs.thickness:g} mm "
            f"thick, section {inputs.section_width:g} mm wide and {inputs.section_height:g} mm high.",
            "Check the tread width and the thickness; the answer does not need the drawing.",
        )
    liner, rim_line = mirrored(half.liner), mirrored(rim_contour(rim))
    outer = mirrored(half.outer.points)
    lines = [outer, liner, rim_line, cord.points(), *belt_middles(crown)]
    for line in lines:
        line.flags.writeable = False
    return Section(
        inputs=inputs,
        thickness=inputs.thickness,
        crown_radius=crown.radius,
        belt_half_width=inputs.belt_half_width_drawn,
        sidewall=cord.curve,
        cord_line=lines[3],
        outer=outer,
        liner=liner,
        body=body,
        layers=layers,
        belts=lines[4:],
        rim=rim_line,
        air_volume_l=air_volume_l(liner),
        widest_point_share_of_height=(cord.curve.rw - rim.radius) / inputs.section_height,
        widest_half_width=float(outer[:, 0].max()),
        approximate=cord.approximate or drawn is not inputs or crown.belt_half < inputs.belt_half_width_drawn,
        tread_edge_s=crown.tread_half,
        crown=crown,
        half=half,
    )


def _wide_enough_for_tread(inputs: SectionInputs) -> SectionInputs:
    """The inputs; where the tread reaches past the section width, with a section as wide as the tread."""
    tread_edge = CrownForm.edge_across(0.5 * inputs.tread_width, inputs.crown_radius_drawn)
    if tread_edge <= 0.5 * inputs.section_width:
        return inputs
    return replace(inputs, section_width=2.0 * tread_edge)


def _crown_form(inputs: SectionInputs, cord: CordLine) -> CrownForm:
    """Depths of the crown's layers. A crown thicker than the default has thicker base rubber; a thinner one thinner
    layers, all in proportion.
    """
    under = inputs.under_grooves_drawn
    thinner = min(under / default_under_grooves(), 1.0)
    belt, ply, liner = (thinner * assumed("crown", name) for name in ("belt", "body_ply", "liner"))
    ply_bottom = inputs.thickness - liner
    ply_top = ply_bottom - ply
    tread_half = 0.5 * inputs.tread_width
    tread_edge = CrownForm.edge_across(tread_half, inputs.crown_radius_drawn)
    belt_half = min(
        inputs.belt_half_width_drawn,
        tread_edge + assumed("shoulder", "belt_past_tread_edge"),
        cord.curve.xm - assumed("sidewall", "inside_widest_point"),
    )
    return CrownForm(
        top=0.5 * inputs.overall_diameter,
        radius=inputs.crown_radius_drawn,
        tread_half=tread_half,
        belt_half=belt_half,
        outer_belt_half=max(belt_half - assumed("crown", "outer_belt_inset"), 0.5 * belt_half),
        belts_top=ply_top - 2.0 * belt,
        belts_middle=ply_top - belt,
        ply_top=ply_top,
        ply_bottom=ply_bottom,
        thickness=inputs.thickness,
    )


def belt_middles(crown: CrownForm) -> list[np.ndarray]:
    """Middle line of each belt across the whole tire, the outer one first."""
    belt = crown.belts_middle - crown.belts_top
    outer, inner = crown.belts_middle - 0.5 * belt, crown.belts_middle + 0.5 * belt
    return [
        mirrored(crown.line(depth, crown.angle_at(half, depth)).points)
        for depth, half in ((outer, crown.outer_belt_half), (inner, crown.belt_half))
    ]
