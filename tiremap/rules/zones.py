"""How far from the center plane a rule set's crown zone reaches, from raw readings.

No zone reaches past the tread edge: the crown lies between the tread edges. A share of the section width comes in
bands of that width; where only a measured width is known, every band it may fall in is asked.
"""

from collections.abc import Callable, Sequence

from tiremap.geometry.section_data import assumed
from tiremap.model.rule_set import CrownZone, ZoneEdge
from tiremap.rules.facts import TireFacts
from tiremap.rules.reading import Reading, exactly

HalfWidth = Callable[[float, float, float], float]
"""Half-width in mm for values of the readings tread width, belt and nominal section width."""


def half_width(edge: ZoneEdge, facts: TireFacts, bands: Sequence[CrownZone] = (), inset: float = 0.0) -> HalfWidth:
    """The half-width of a zone edge as a function of tread width, belt and nominal section width (mm).

    ``bands`` are the rule set's zones of the class, from which a share of the section width is taken. ``inset`` (mm)
    is what the tire maker asks for inside the tread edge, 0 where nothing was entered; the stricter holds.
    """
    value = edge.value
    shares = [(band.section_width_up_to, band.edge.value) for band in bands if band.edge.kind == edge.kind]

    def by_section_width(tread_width: float, belt: float, section_width: float) -> float:
        share = next((share for up_to, share in shares if section_width <= up_to), value)
        return share * section_width / 2

    def by_tread_width(tread_width: float, belt: float, section_width: float) -> float:
        return value * tread_width / 2

    def inside_belt_edge(tread_width: float, belt: float, section_width: float) -> float:
        return facts.belt_half_width(tread_width, belt) - value

    def inside_tread_edge(tread_width: float, belt: float, section_width: float) -> float:
        return tread_width / 2 - value

    of_kind = {
        "share_of_section_width": by_section_width,
        "share_of_tread_width": by_tread_width,
        "inset_from_belt_edge": inside_belt_edge,
        "inset_from_tread_edge": inside_tread_edge,
        "whole_tread": inside_tread_edge,
    }[edge.kind]
    return lambda tread_width, belt, section_width: min(
        of_kind(tread_width, belt, section_width), tread_width / 2 - inset
    )


def zone_readings(edge: ZoneEdge, facts: TireFacts) -> tuple[Reading, Reading]:
    """The belt and section width readings as this edge needs them; ones it does not read are settled."""
    belt = facts.belt if edge.kind == "inset_from_belt_edge" else exactly(0.0)
    width = facts.nominal_width if edge.kind == "share_of_section_width" else exactly(facts.dimensions.section_width_mm)
    return belt, width


def drawn_half_width(edge: ZoneEdge, facts: TireFacts, inset: float = 0.0) -> float:
    """The half-width to draw, mm, at the drawn tread width. Never for an answer."""
    belt = facts.belt.stated if facts.belt.stated is not None else assumed("crown", "belt_inset")
    width = facts.nominal_width.stated or facts.dimensions.section_width_mm
    return half_width(edge, facts, inset=inset)(facts.drawn_tread_width, belt, width)
