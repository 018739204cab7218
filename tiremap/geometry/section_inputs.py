"""What a section is drawn from, and what is taken where nothing was measured. Everything in mm."""

import math
from dataclasses import dataclass, fields

from tiremap.errors import TiremapError
from tiremap.geometry.section_data import assumed


class SectionCannotBeDrawn(TiremapError):
    """These dimensions leave no section to draw. The tire is answered all the same."""


@dataclass(frozen=True)
class SectionInputs:
    """Dimensions of a tire on its rim, mm. None: the drawing's own default."""

    overall_diameter: float
    section_width: float  # on the rim used
    nominal_width: float
    rim_diameter: float
    rim_width: float
    tread_width: float  # tape over the crown, edge to edge
    belt_half_width: float | None = None
    crown_radius: float | None = None
    tread_depth: float | None = None
    under_grooves: float | None = None

    @property
    def section_height(self) -> float:
        """Rim to tread, mm."""
        return 0.5 * (self.overall_diameter - self.rim_diameter)

    @property
    def crown_radius_drawn(self) -> float:
        """Crown radius given, or the default share of the nominal width."""
        if self.crown_radius is not None:
            return self.crown_radius
        return assumed("crown", "radius_of_nominal_width") * self.nominal_width

    @property
    def belt_half_width_drawn(self) -> float:
        """Belt half-width given, or the tread half-width less the default inset."""
        if self.belt_half_width is not None:
            return self.belt_half_width
        return 0.5 * self.tread_width - assumed("crown", "belt_inset")

    @property
    def tread_depth_drawn(self) -> float:
        """Tread depth given, or the default of a new tire."""
        return assumed("crown", "tread_depth") if self.tread_depth is None else self.tread_depth

    @property
    def under_grooves_drawn(self) -> float:
        """Thickness under the grooves given, or the sum of the layers' defaults."""
        return default_under_grooves() if self.under_grooves is None else self.under_grooves

    @property
    def thickness(self) -> float:
        """Thickness of the crown, tread surface to liner."""
        return self.tread_depth_drawn + self.under_grooves_drawn


def default_under_grooves() -> float:
    """Thickness under the grooves of the default layers: base rubber, two belts, ply and liner."""
    layers = ("base_rubber", "belt", "belt", "body_ply", "liner")
    return sum(assumed("crown", layer) for layer in layers)


def default_thickness() -> float:
    """Thickness of the default crown."""
    return assumed("crown", "tread_depth") + default_under_grooves()


def refuse_impossible(inputs: SectionInputs) -> None:
    """Raise `SectionCannotBeDrawn` for dimensions no tire has, or that are too low to draw."""
    for each in fields(inputs):
        value = getattr(inputs, each.name)
        if value is None:
            continue
        if not math.isfinite(value) or value < 0.0 or (value == 0.0 and each.name != "tread_depth"):
            raise SectionCannotBeDrawn(
                f"The {each.name.replace('_', ' ')} of the section is {value:g} mm.", "It must be more than 0 mm."
            )
    least = assumed("domain", "section_height_min")
    if inputs.section_height < least:
        raise SectionCannotBeDrawn(
            f"The section is {inputs.section_height:g} mm high, too low to draw.",
            f"Sections of {least:g} mm or more are drawn; the answer does not need the drawing.",
        )
    if inputs.crown_radius_drawn <= 0.75 * max(inputs.tread_width, 2.0 * inputs.belt_half_width_drawn):
        raise SectionCannotBeDrawn(
            f"A crown radius of {inputs.crown_radius_drawn:g} mm is too small for a tread of "
            f"{inputs.tread_width:g} mm.",
            "It is usually two to five times the nominal width.",
        )
    if inputs.crown_radius_drawn - inputs.thickness <= inputs.belt_half_width_drawn:
        raise SectionCannotBeDrawn(
            f"A crown {inputs.thickness:g} mm thick leaves no room for belts {2.0 * inputs.belt_half_width_drawn:g} mm "
            f"wide on a crown radius of {inputs.crown_radius_drawn:g} mm.",
            "Take tread depth and thickness again; the answer does not need the drawing.",
        )
