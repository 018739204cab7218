"""How far from the center plane a rule set's crown zone reaches, from raw readings."""

from collections.abc import Callable

from tiremap.geometry.section_data import assumed
from tiremap.model.rule_set import ZoneEdge
from tiremap.rules.facts import TireFacts
from tiremap.rules.reading import Reading, exactly

HalfWidth = Callable[[float, float, float], float]
"""Half-width in mm for values of the readings tread width, belt and section width."""


def half_width(edge: ZoneEdge, facts: TireFacts) -> HalfWidth:
    """The half-width of a zone edge, as a function of tread width, belt and section width readings (mm)."""
    value = edge.value
    if edge.kind == "share_of_section_width":
        return lambda tread_width, belt, section_width: value * section_width / 2
    if edge.kind == "share_of_tread_width":
        return lambda tread_width, belt, section_width: value * tread_width / 2
    if edge.kind == "inset_from_belt_edge":
        return lambda tread_width, belt, section_width: facts.belt_half_width(tread_width, belt) - value
    return lambda tread_width, belt, section_width: tread_width / 2 - value  # inset, and the whole tread (value 0)


def zone_readings(edge: ZoneEdge, facts: TireFacts) -> tuple[Reading, Reading]:
    """The belt and section width readings as this edge needs them; ones it does not read are settled."""
    belt = facts.belt if edge.kind == "inset_from_belt_edge" else exactly(0.0)
    width = facts.nominal_width if edge.kind == "share_of_section_width" else exactly(facts.dimensions.section_width_mm)
    return belt, width


def drawn_half_width(edge: ZoneEdge, facts: TireFacts) -> float:
    """The half-width to draw, mm, at the drawn tread width. Never for an answer."""
    belt = facts.belt.stated if facts.belt.stated is not None else assumed("crown", "belt_inset")
    width = facts.nominal_width.stated or facts.dimensions.section_width_mm
    return half_width(edge, facts)(facts.drawn_tread_width, belt, width)

