"""The section in the contact patch: a teaching model of what a load does to it. No answer depends on it.

The belt edge comes down and the belt flattens; the sidewall keeps its cord length (`loaded_sidewall`). The rubber is
laid again from the same joints as the unloaded section, so every point of it is the same piece of rubber.
Section frame, mm.
"""

import math
from dataclasses import dataclass, field, replace
from functools import lru_cache

import numpy as np
from shapely import Geometry, Polygon, make_valid

from tiremap.geometry.bending import Bending, bending_of
from tiremap.geometry.crown_form import CrownForm
from tiremap.geometry.frames import SectionPoint
from tiremap.geometry.half_section import HalfSection, laid_again
from tiremap.geometry.layers import body_of, layers_of
from tiremap.geometry.loaded_data import greatest_load, loaded_data
from tiremap.geometry.loaded_sidewall import sidewall_under_load
from tiremap.geometry.paths import mirrored
from tiremap.geometry.rim import rim_form
from tiremap.geometry.section import Section, SectionCannotBeDrawn, belt_middles
from tiremap.geometry.section_places import place_between
from tiremap.geometry.sidewall_curve import SidewallCurve


@dataclass(frozen=True, eq=False)
class LoadedSection:
    """A section whose belt edge has come down by ``load`` mm. Lines and layers as in `Section`, point by point."""

    unloaded: Section
    load: float
    flatness: float  # of the belt, 0 as unloaded to 1 flat
    sidewall: SidewallCurve
    outer: np.ndarray
    liner: np.ndarray
    body: Polygon
    layers: dict[str, Geometry]
    belts: list[np.ndarray]
    bending: Bending
    _half: HalfSection = field(repr=False)

    def outer_place(self, s: float) -> SectionPoint:
        """Where the outer surface's place at the tread coordinate ``s`` has gone; past the sidewall it stays there."""
        end = self._half.bead_start + 1
        return place_between(self.unloaded.half.outer.lengths()[:end], self._half.outer.points[:end], s)

    def liner_place(self, s: float) -> SectionPoint:
        """Where the liner's place under the tread coordinate ``s`` has gone."""
        end = self._half.ply_bead_start + 1
        return place_between(self.unloaded.half.liner_lengths[:end], self._half.liner[:end], self.liner_length(s))

    def liner_length(self, s: float) -> float:
        """Length along the unloaded liner, center plane to the place under ``s``, mm, + outboard."""
        return math.copysign(float(np.interp(abs(s), *self.unloaded.half.liner_feet)), s)

    @property
    def liner_half(self) -> np.ndarray:
        """The outboard half of the liner, center plane to toe."""
        return self._half.liner

    @property
    def ground(self) -> float:
        """Radius at which the tread touches the ground, mm from the axle."""
        return float(self.outer[:, 1].max())

    @property
    def widest_radius_of_curvature(self) -> float:
        """Radius to which the cord line is bent at its widest point, mm."""
        return 1.0 / (self.sidewall.c * self.sidewall.rw)


@lru_cache(maxsize=64)
def load_section(section: Section, load: float) -> LoadedSection:
    """The section with its belt edge let down by ``load`` mm; raises `SectionCannotBeDrawn` where that has no shape.

    Without load every line is the unloaded one itself.
    """
    greatest = greatest_load(section.inputs.section_height)
    if not 0.0 <= load <= greatest:
        raise SectionCannotBeDrawn(
            f"A load that lets the belt edge down by {load:g} mm is not shown on this tire.",
            f"From 0 to {greatest:.1f} mm is, a quarter of the section's height.",
        )
    flatness = min(load / (loaded_data("load", "belt_flat_at") * section.inputs.section_height), 1.0)
    crown = _flattened(section.crown, flatness, load)
    curve = _sidewall(section, crown, load)
    half = section.half if load == 0.0 else _laid(section, crown, curve)
    body = body_of(half)
    if not body.is_valid:
        raise _no_shape(load)
    # Layers that touch themselves at a point, as where a low section's ply meets the belts' edge, are still drawn.
    layers = {name: make_valid(shape) for name, shape in layers_of(half).items()}
    return LoadedSection(
        unloaded=section,
        load=load,
        flatness=flatness,
        sidewall=curve,
        outer=mirrored(half.outer.points),
        liner=mirrored(half.liner),
        body=body,
        layers=layers,
        belts=belt_middles(crown),
        bending=bending_of(section.half, section.sidewall, curve, section.cord_radius_around, flatness),
        _half=half,
    )


def _flattened(crown: CrownForm, flatness: float, load: float) -> CrownForm:
    """The crown with its curvature taken off and its belt edge ``load`` mm lower; every width stays along the arc."""
    if load == 0.0:
        return crown
    radius = min(crown.radius / max(1.0 - flatness, 1e-9), _FLAT)
    edge = crown.angle_at(crown.belt_half, crown.ply_top) * (crown.radius - crown.ply_top)
    risen = _drop(edge, crown.radius - crown.ply_top) - _drop(edge, radius - crown.ply_top)
    return replace(
        crown,
        top=crown.top - load - risen,
        radius=radius,
        belt_half=_across(edge, radius - crown.ply_top),
        outer_belt_half=_across(
            crown.angle_at(crown.outer_belt_half, crown.belts_top) * (crown.radius - crown.belts_top),
            radius - crown.belts_top,
        ),
    )


_FLAT = 1e6
"""mm; a crown of that radius departs from a straight line by less than 0.02 mm."""


def _sidewall(section: Section, crown: CrownForm, load: float) -> SidewallCurve:
    unloaded = section.sidewall
    wider = crown.belt_half - section.crown.belt_half
    x, r = unloaded.across(unloaded.phi_start), unloaded.radius(unloaded.phi_start)
    curve = sidewall_under_load(unloaded, SectionPoint(float(x) + wider, float(r) - load)) if load else unloaded
    if curve is None:
        raise _no_shape(load)
    return curve


def _laid(section: Section, crown: CrownForm, curve: SidewallCurve) -> HalfSection:
    rim = rim_form(section.inputs.rim_width, section.inputs.rim_diameter)
    joints = section.half.joints
    return laid_again(crown, curve.path(curve.angles_at(_lengths(section, curve))), rim, joints)


def _lengths(section: Section, curve: SidewallCurve) -> np.ndarray:
    """Cord lengths of the sidewall's points under load: the same rubber from where the outer shoulder lands.

    Above it the ply lands where it runs the same way as unloaded, for past a right angle its turn would lift it into
    the belts.
    """
    joints, unloaded = section.half.joints, section.sidewall
    lengths = joints.sidewall_lengths
    landed = lengths[joints.ply_landing]
    kept = lengths[max(joints.outside_landing, joints.ply_landing + 1)]
    angle = float(unloaded.angles_at(landed))
    moved = float(curve.length(curve.phi_start) - curve.length(angle))
    ends = [0.0, landed, kept, lengths[-1]]
    loaded: np.ndarray = np.interp(lengths, ends, [0.0, min(moved, 0.9 * kept), kept, lengths[-1]])
    return loaded


def _no_shape(load: float) -> SectionCannotBeDrawn:
    return SectionCannotBeDrawn(
        f"This section has no shape to show with its belt edge {load:.1f} mm lower.", "Show it with less load."
    )


def _drop(length: float, radius: float) -> float:
    """How far a circle comes down from its top over an arc of that length, mm."""
    return radius * (1.0 - math.cos(length / radius))


def _across(length: float, radius: float) -> float:
    return radius * math.sin(length / radius)
