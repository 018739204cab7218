"""The limits of a rule set in words: what each asks, of which tires, from where and how good that source is."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor

from tiremap.model.job import Built, TireClass
from tiremap.model.rule_set import (
    ANY_WIDTH,
    CrownZone,
    DepthPlace,
    LargestInjury,
    RuleSet,
    Sourced,
    ValuedLimit,
    ZoneEdge,
)
from tiremap.model.units import hundredths

CLASS_WORDS: dict[TireClass, str] = {
    "passenger": "passenger", "light_truck": "light truck", "truck": "truck", "temporary_spare": "temporary spare",
}
BUILT_WORDS: dict[Built, str] = {
    "standard": "standard", "self_supporting": "self-supporting", "foam_lined": "foam-lined",
    "sealant_lined": "sealant-lined",
}
OPERATOR_WORDS = {"<=": "at most", "<": "less than", ">=": "at least", ">": "more than"}
HOLDS_FOR_WORDS = {
    "prepared": "the size after reaming", "hole": "the hole; the source does not say before or after reaming",
}
DEPTH_PLACE_WORDS: dict[DepthPlace, str] = {
    "whole_tread": "anywhere on the tread",
    "central_three_quarters": "over the central three-quarters of the tread, all around",
}
LIMIT_WORDS = {
    "crown_zones": "Crown zone",
    "largest_injuries": "Largest hole",
    "tread_depths": "Tread depth",
    "leans_for_one_piece": "Lean for a one-piece unit",
    "heads_apart": "Gap between heads",
    "second_repairs": "Speed from which a second repair is cautioned against",
    "repair_counts": "Number of repairs, the new ones counted",
    "around_apart": "Distance around between repairs, on the tread",
    "angles_apart": "Angle around between repairs",
    "steepest_leans": "Steepest lean",
    "oldest_tires": "Age of the tire",
    "sealant_refused": "Liquid sealant",
    "axle_cautions": "Axle",
}
"""What each kind of limit is about, by its key in the file."""


@dataclass(frozen=True, slots=True)
class LimitLine:
    """One limit in words. ``key`` is its place in the file, such as ``crown_zones.0``."""

    key: str
    about: str
    asks: str
    """Operator, value in hundredths, rounded to the strict side, and unit, such as ``at most 6 mm``, and of what."""
    tires: str
    """Classes, and section widths and ways of building where the limit is only for some."""
    source: str
    grade: str
    exactly: str = ""
    """The value as the file has it; to be searched, not shown."""

    @property
    def text(self) -> str:
        """All of it, to be searched."""
        return " ".join((self.about, self.asks, self.exactly, self.tires, self.source, self.grade))

    @property
    def on_whose_word(self) -> str:
        """Grade and source; a source often begins with its grade, which is not said twice."""
        return self.source if self.source.startswith(self.grade) else f"{self.grade}: {self.source}"


def limit_lines(rule_set: RuleSet) -> tuple[LimitLine, ...]:
    """Every limit of a rule set, those of one kind together, in the order of its file."""
    return tuple(
        LimitLine(
            f"{field}.{number}", LIMIT_WORDS[field], _asks(limit), _tires(limit), limit.source, limit.grade,
            f"{limit.value:g}" if isinstance(limit, ValuedLimit) else "",
        )
        for field, limits in rule_set
        if isinstance(limits, tuple)
        for number, limit in enumerate(limits)
        if isinstance(limit, Sourced)
    )


def _asks(limit: Sourced) -> str:
    if isinstance(limit, CrownZone):
        return _zone(limit)
    if not isinstance(limit, ValuedLimit):
        axle = getattr(limit, "axle", None)
        return "refused where it was used" if axle is None else f"cautioned against on the {axle} axle"
    figure = hundredths(limit.value, floor if limit.operator.startswith("<") else ceil)
    asks = f"{OPERATOR_WORDS[limit.operator]} {figure:g} {limit.unit}"
    holds_for = getattr(limit, "holds_for", None)
    if holds_for is not None:
        asks += f", {HOLDS_FOR_WORDS[holds_for]}"
    place = getattr(limit, "place", None)
    if place is not None:
        asks += f", {DEPTH_PLACE_WORDS[place]}"
    return f"{asks}; chooses the unit, never refuses" if limit.tighter == "neither" else asks


def _zone(zone: CrownZone) -> str:
    inner = f"{_edge(zone.edge)}, the edge itself allowed"
    if zone.refused_beyond is None:
        return inner
    return f"{inner}; refused farther out than {_outer(zone.refused_beyond)}; {zone.between_says}"


def _edge(edge: ZoneEdge) -> str:
    if edge.kind == "whole_tread":
        return "the whole tread, edge to edge"
    if edge.kind == "inside_outer_grooves" and not edge.value:
        return "between the inner walls of the two outermost grooves"
    if _is_inset(edge):
        return f"at least {edge.value:g} mm inside the {_named(edge)}"
    return f"the central {100 * edge.value:g} % of the {_named(edge)}"


def _outer(edge: ZoneEdge) -> str:
    if edge.kind == "whole_tread":
        return "the tread edge"
    if _is_inset(edge):
        return f"{edge.value:g} mm inside the {_named(edge)}" if edge.value else f"the {_named(edge)}"
    return _edge(edge)


def _is_inset(edge: ZoneEdge) -> bool:
    return edge.kind in ("inset_from_tread_edge", "inset_from_belt_edge", "inside_outer_grooves")


def _named(edge: ZoneEdge) -> str:
    return {
        "share_of_section_width": "nominal section width", "share_of_tread_width": "tread width",
        "inset_from_tread_edge": "tread edge", "inset_from_belt_edge": "belt edge",
        "inside_outer_grooves": "outer groove's inner wall",
    }[edge.kind]


def _tires(limit: Sourced) -> str:
    parts = [_listed([CLASS_WORDS[each] for each in limit.classes])]
    over, up_to = limit.section_width_over, limit.section_width_up_to
    if over and up_to < ANY_WIDTH:
        parts.append(f"section width over {over:g} to {up_to:g} mm")
    elif over:
        parts.append(f"section width over {over:g} mm")
    elif up_to < ANY_WIDTH:
        parts.append(f"section width up to {up_to:g} mm")
    if isinstance(limit, LargestInjury) and limit.load_index_from:
        parts.append(f"load index {limit.load_index_from} and up")
    if limit.built:
        parts.append(f"built {_listed([BUILT_WORDS[each] for each in limit.built])}")
    return "; ".join(parts)


def _listed(words: Sequence[str]) -> str:
    return ", ".join(words)
