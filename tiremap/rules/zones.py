"""How far from the center plane a rule set's crown zone reaches, from raw readings.

No zone reaches past the tread edge: the crown lies between the tread edges. A share of the section width comes in
bands of that width; where only a measured width is known, every band it may fall in is asked.
"""

from collections.abc import Callable, Sequence
from math import inf, nextafter

from tiremap.geometry.section_data import assumed
from tiremap.model.job import Tire
from tiremap.model.rule_set import CrownZone, ZoneEdge
from tiremap.model.zone_reach import zone_reach
from tiremap.rules.facts import TireFacts
from tiremap.rules.reading import Reading, exactly

HalfWidth = Callable[[float, float, float, float], float]
"""Half-width in mm for values of the readings tread width, belt, nominal section width and between outer grooves."""


def half_width(edge: ZoneEdge, facts: TireFacts, bands: Sequence[CrownZone] = (), inset: float = 0.0) -> HalfWidth:
    """The half-width of a zone edge as a function of tread width and of the `zone_readings`, mm.

    ``bands`` are the rule set's zones of the class, from which a share of the section width is taken. ``inset`` (mm)
    is what the tire maker asks for inside the tread edge, 0 where nothing was entered; the stricter holds.
    """
    shares = [(band.section_width_up_to, band.edge.value) for band in bands if band.edge.kind == edge.kind]
    by_band = edge.kind == "share_of_section_width"

    def reach(tread_width: float, belt: float, section_width: float, grooves: float) -> float:
        value = edge.value
        if by_band:
            value = next((share for up_to, share in shares if section_width <= up_to), value)
        belt_half_width = facts.belt_half_width(tread_width, belt)
        half = zone_reach(edge.kind, value, tread_width, belt_half_width, section_width, grooves)
        return min(half, tread_width / 2 - inset)

    return reach


def band_ends(bands: Sequence[CrownZone]) -> tuple[float, ...]:
    """The section widths at which one band ends, and those a hair wider, in the next: there a share's reach steps."""
    ends = [band.section_width_up_to for band in bands]
    return (*ends, *(nextafter(end, inf) for end in ends))


def zone_readings(edge: ZoneEdge, facts: TireFacts) -> tuple[Reading, Reading, Reading]:
    """Belt, section width and groove distance as this edge needs them; ones it does not read are settled."""
    belt = facts.belt if edge.kind == "inset_from_belt_edge" else exactly(0.0)
    width = facts.nominal_width if edge.kind == "share_of_section_width" else exactly(facts.dimensions.section_width_mm)
    grooves = facts.between_outer_grooves if edge.kind == "inside_outer_grooves" else exactly(0.0)
    return belt, width, grooves


def passing_edge(zone: CrownZone, tire: Tire) -> tuple[ZoneEdge, float]:
    """The edge inside which a hole passes without a further word, and the tire maker's inset (mm, 0 without one).

    It is the outer of two edges once the maker's figure was entered: that figure settles the band between them.
    """
    inset = makers_inset(tire)
    edge = zone.edge if zone.refused_beyond is None or inset is None else zone.refused_beyond
    return edge, inset or 0.0


def makers_inset(tire: Tire) -> float | None:
    """How far inside the tread edge the tire maker asks a hole to stay, mm, or ``None`` where nothing was entered."""
    word = tire.maker_word
    return word.zone_inset.mm if word is not None and word.zone_inset is not None else None


def drawn_half_width(edge: ZoneEdge, facts: TireFacts, inset: float = 0.0) -> float:
    """The half-width to draw, mm, at the drawn tread width. Never for an answer."""
    belt = facts.belt.stated if facts.belt.stated is not None else assumed("crown", "belt_inset")
    width = facts.nominal_width.stated or facts.dimensions.section_width_mm
    grooves = facts.between_outer_grooves.stated
    if grooves is None:
        grooves = assumed("crown", "between_outer_grooves") * facts.drawn_tread_width
    return half_width(edge, facts, inset=inset)(facts.drawn_tread_width, belt, width, grooves)


def drawn_passing_half_width(zone: CrownZone, tire: Tire, facts: TireFacts) -> float:
    """The half-width (mm) inside which a hole passes, to draw: inside both edges of a zone that has two."""
    edge, inset = passing_edge(zone, tire)
    half = drawn_half_width(edge, facts, inset)
    if zone.refused_beyond is None or makers_inset(tire) is not None:
        return half
    return min(half, drawn_half_width(zone.refused_beyond, facts))
