"""Tires on which crown zones of different kinds are compared, and how far a zone reaches on each."""

from dataclasses import dataclass
from functools import cache

from tiremap.model.job import TireClass
from tiremap.model.rule_set import ZoneEdge
from tiremap.model.size_code import read_size_code
from tiremap.model.tread_width import tread_width_estimate
from tiremap.resources import read_toml


@dataclass(frozen=True, slots=True)
class ReferenceTire:
    """A size with what a crown zone is measured from, mm: as it is drawn where nobody measured."""

    size_code: str
    nominal_width: float
    tread_width: float
    belt_half_width: float


@cache
def reference_tires(tire_class: TireClass) -> tuple[ReferenceTire, ...]:
    """The reference tires of a class; none for a class no rule set speaks of."""
    of_class = read_toml("dimensions", "reference_sizes.toml").get(tire_class, {})
    return tuple(_reference_tire(code) for code in of_class.get("sizes", ()))


def half_width_on(edge: ZoneEdge, tire: ReferenceTire) -> float:
    """How far from the center plane the edge of a crown zone lies on a reference tire, mm; at most the tread edge."""
    tread_edge = tire.tread_width / 2
    reach = {
        "share_of_section_width": edge.value * tire.nominal_width / 2,
        "share_of_tread_width": edge.value * tread_edge,
        "inset_from_belt_edge": tire.belt_half_width - edge.value,
        "inset_from_tread_edge": tread_edge - edge.value,
        "whole_tread": tread_edge - edge.value,
    }[edge.kind]
    return min(reach, tread_edge)


def _reference_tire(code: str) -> ReferenceTire:
    size = read_size_code(code)
    tread_width = tread_width_estimate(size).drawn_mm
    belt_inset = read_toml("dimensions", "section.toml")["crown"]["belt_inset"]["value"]
    return ReferenceTire(code, size.nominal_width_mm, tread_width, tread_width / 2 - belt_inset)
