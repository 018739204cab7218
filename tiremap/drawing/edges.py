"""Edges across the tire as they are drawn: each as a line, or as a band as wide as what is not known of it."""

from dataclasses import dataclass
from itertools import product

from tiremap.assessment import Assessment
from tiremap.geometry.section_data import assumed
from tiremap.model.rule_set import ZoneEdge
from tiremap.rules.facts import TireFacts
from tiremap.rules.reading import Reading
from tiremap.rules.zones import drawn_half_width, half_width, makers_inset, passing_edge, zone_readings


@dataclass(frozen=True)
class Edge:
    """Half-widths from the center plane, tread coordinate, mm: least, drawn and greatest."""

    low: float
    drawn: float
    high: float

    @property
    def estimated(self) -> bool:
        """True where it hangs on something never measured."""
        return self.high - self.low > 1e-6


def tread_edge(facts: TireFacts) -> Edge:
    """The tread edge: measured, or as wide as the estimate's range."""
    drawn = facts.drawn_tread_width / 2
    if facts.tread_width.stated is not None:
        return Edge(drawn, drawn, drawn)
    return Edge(facts.tread_width.low / 2, drawn, facts.tread_width.high / 2)


def belt_edge(facts: TireFacts) -> Edge:
    """The belt edge: measured, or as it lies inside the drawn tread edge."""
    width = facts.drawn_tread_width
    if facts.belt.stated is not None:
        return Edge(facts.belt.stated, facts.belt.stated, facts.belt.stated)
    ends = (facts.belt_half_width(width, facts.belt.low), facts.belt_half_width(width, facts.belt.high))
    return Edge(min(ends), width / 2 - assumed("crown", "belt_inset"), max(ends))


def zone_edge(assessment: Assessment) -> Edge | None:
    """The edge inside which a hole passes: of the rule set's crown zone, or the tire maker's where that is stricter.

    Of two edges it is the inner, or the outer where a belt that ends short puts that further in. ``None`` without a
    zone.
    """
    if assessment.zone is None:
        return None
    passing = _edge(*passing_edge(assessment.zone, assessment.job.tire), assessment.known_facts)
    outer = refused_beyond(assessment)
    if outer is None:
        return passing
    return Edge(min(passing.low, outer.low), min(passing.drawn, outer.drawn), min(passing.high, outer.high))


def refused_beyond(assessment: Assessment) -> Edge | None:
    """The outer edge of a zone that has two, until the tire maker's figure settles the band between them."""
    zone = assessment.zone
    if zone is None or zone.refused_beyond is None or makers_inset(assessment.job.tire) is not None:
        return None
    return _edge(zone.refused_beyond, 0.0, assessment.known_facts)


def _edge(edge: ZoneEdge, inset: float, facts: TireFacts) -> Edge:
    reach, drawn = half_width(edge, facts, inset=inset), drawn_half_width(edge, facts, inset)
    tread = tread_edge(facts)
    belt, width, grooves = zone_readings(edge, facts)

    def ends(reading: Reading) -> tuple[float, ...]:
        return (reading.low, reading.high) if reading.stated is None else (reading.stated,)

    every = [
        reach(2 * tread_half, *each)
        for tread_half in (tread.low, tread.high) for each in product(ends(belt), ends(width), ends(grooves))
    ]
    return Edge(min(drawn, *every), drawn, max(drawn, *every))
