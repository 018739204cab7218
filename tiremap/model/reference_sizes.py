"""Tires on which crown zones of different kinds are compared, and how far a zone reaches on each."""

from dataclasses import dataclass
from functools import cache

from tiremap.model.job import TireClass
from tiremap.model.rule_set import ZoneEdge
from tiremap.model.size_code import read_size_code
from tiremap.model.tread_width import tread_width_estimate
from tiremap.model.zone_reach import zone_reach
from tiremap.resources import read_toml


@dataclass(frozen=True, slots=True)
class ReferenceTire:
    """A size with what a crown zone is measured from, mm: as it is drawn where nobody measured."""

    size_code: str
    nominal_width: float
    tread_width: float
    belt_half_width: float
    between_outer_grooves: float


@cache
def reference_tires(tire_class: TireClass) -> tuple[ReferenceTire, ...]:
    """The reference tires of a class; none for a class no rule set speaks of."""
    of_class = read_toml("dimensions", "reference_sizes.toml").get(tire_class, {})
    return tuple(_reference_tire(code) for code in of_class.get("sizes", ()))


def half_width_on(edge: ZoneEdge, tire: ReferenceTire) -> float:
    """How far from the center plane the edge of a crown zone lies on a reference tire, mm; at most the tread edge."""
    widths = tire.tread_width, tire.belt_half_width, tire.nominal_width, tire.between_outer_grooves
    return zone_reach(edge.kind, edge.value, *widths)


def _reference_tire(code: str) -> ReferenceTire:
    size = read_size_code(code)
    tread_width = tread_width_estimate(size).drawn_mm
    drawn = read_toml("dimensions", "section.toml")["crown"]
    belt_half_width = tread_width / 2 - drawn["belt_inset"]["value"]
    between_grooves = tread_width * drawn["between_outer_grooves"]["value"]
    return ReferenceTire(code, size.nominal_width_mm, tread_width, belt_half_width, between_grooves)
