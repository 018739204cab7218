"""Where one rule set is looser than another, limit by limit.

Every limit says which way its value is tighter; a limit the other has and this one lacks is looser. Crown zones of
different kinds are compared by how far they reach on the reference tires, both edges where a zone has two.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import product
from math import inf
from typing import get_args

from tiremap.model.job import Built, TireClass
from tiremap.model.reference_sizes import ReferenceTire, half_width_on, reference_tires
from tiremap.model.rule_set import (
    LargestInjury,
    RuleSet,
    Sourced,
    TreadDepthLimit,
    ValuedLimit,
    bands_of,
    from_load_index,
    limit_for,
)
from tiremap.model.rule_set_words import DEPTH_PLACE_WORDS

ZONE_NAMES = {"edge": "crown zone", "refused_beyond": "crown zone, outer edge"}

NAMES = {
    "largest_injuries": "largest injury",
    "tread_depths": "tread depth",
    "heads_apart": "gap between heads",
    "second_repairs": "speed from which a second repair is cautioned",
    "repair_counts": "number of repairs",
    "around_apart": "distance around between repairs",
    "angles_apart": "angle between repairs",
    "steepest_leans": "steepest lean",
    "oldest_tires": "oldest tire",
    "sealant_refused": "refusal of liquid sealant",
    "axle_cautions": "axle to keep off",
}
"""The limits that answer or caution, by their field. What only chooses the kind of unit is not among them."""

AS_BUILT = ("repair_counts", "around_apart", "angles_apart")
"""Limits that may differ by how the tire is built, and not by its width."""

ASKED_MOST = {"holds_for": "prepared", "place": "whole_tread"}
"""What else a limit says, and which word asks the most.

A prepared size is never below the hole's, and the shallowest of the whole tread never above that of its center.
"""

OPERATORS = {"<=": "at most", "<": "less than", ">=": "at least", ">": "more than"}


@dataclass(frozen=True, slots=True)
class Asked:
    """What a rule set asks at one spot. ``looseness`` grows as it gets looser; ``says`` is its sentence part."""

    looseness: tuple[float, bool]
    says: str
    limit: Sourced | None = None


@dataclass(frozen=True, slots=True)
class Spot:
    """Tires of one class that a limit treats alike: ``where`` says which, empty for all of the class.

    ``key`` is the limit's field in the file; ``name`` what a technician calls it.
    """

    key: str
    name: str
    where: str
    ask: Callable[[RuleSet], Asked]


def looser_than(rule_set: RuleSet, parent: RuleSet) -> tuple[str, ...]:
    """A sentence for each limit in which a rule set is looser than its parent; empty where it is in none."""
    found: dict[tuple[str, str], list[str]] = {}
    for tire_class in rule_set.classes:
        name = tire_class.replace("_", " ")
        if tire_class not in parent.classes:
            found.setdefault(("Class", f"answered here, not under {parent.title}"), []).append(name)
            continue
        for spot, here, there in _looser(rule_set, parent, tire_class):
            says = f"{here.says} here, {there.says} under {parent.title}"
            of = found.setdefault((spot.name.capitalize(), says), [])
            who = f"{name}, {spot.where}" if spot.where else name
            if who not in of:
                of.append(who)
    return tuple(f"{name} ({'; '.join(of)}): {says}." for (name, says), of in found.items())


def beyond_the_loosest(rule_set: RuleSet, others: Sequence[RuleSet]) -> str:
    """A sentence naming the first limit looser than the loosest of some rule sets; empty where there is none."""
    for tire_class in rule_set.classes:
        name = tire_class.replace("_", " ")
        speaking = [other for other in others if tire_class in other.classes]
        if not speaking:
            return f"crown_zones: no published set speaks of the class {name}"
        for zone in rule_set.bands(tire_class):
            if not any(rule_set.crown_zone(tire_class, t.nominal_width) == zone for t in reference_tires(tire_class)):
                return f"crown_zones: no reference size lies in the band to {zone.section_width_up_to:g} mm ({name})"
        for spot in _spots(tire_class, [rule_set, *speaking]):
            here = spot.ask(rule_set)
            loosest = max(speaking, key=partial(_looseness, spot))
            allowed = spot.ask(loosest)
            if here.looseness > allowed.looseness:
                of = f"{name}, {spot.where}" if spot.where else name
                return f"{spot.key} ({of}): {here.says}; the loosest allowed is {loosest.name}'s: {allowed.says}"
    return ""


def _looseness(spot: Spot, rule_set: RuleSet) -> tuple[float, bool]:
    return spot.ask(rule_set).looseness


def _looser(rule_set: RuleSet, parent: RuleSet, tire_class: TireClass) -> Iterator[tuple[Spot, Asked, Asked]]:
    """The spots where the rule set asks less; of a crown zone's edge only the size on which it differs most.

    Where neither zone has a second edge, the one is told once.
    """
    most: dict[str, tuple[float, Spot, Asked, Asked]] = {}
    for spot in _spots(tire_class, [rule_set, parent]):
        here, there = spot.ask(rule_set), spot.ask(parent)
        if not (here.looseness > there.looseness or _asks_less(here.limit, there.limit)):
            continue
        if spot.key in NAMES:
            yield spot, here, there
            continue
        excess = here.looseness[0] - there.looseness[0]
        if spot.name not in most or excess > most[spot.name][0]:
            most[spot.name] = (excess, spot, here, there)
    told: list[tuple[str, tuple[float, bool], tuple[float, bool]]] = []
    for _, spot, here, there in most.values():
        reaches = (spot.where, here.looseness, there.looseness)
        if reaches not in told:
            told.append(reaches)
            yield spot, here, there


def _asks_less(limit: Sourced | None, other: Sourced | None) -> bool:
    """Whether a limit of the same kind is asked of less, or of something else, whatever its value."""
    if limit is None or other is None:
        return False
    words = ((getattr(limit, what, most), getattr(other, what, most), most) for what, most in ASKED_MOST.items())
    return any(word not in (others, most) for word, others, most in words)


def _spots(tire_class: TireClass, rule_sets: Sequence[RuleSet]) -> Iterator[Spot]:
    """Everything that can differ between some rule sets for a class of tire."""
    for tire in reference_tires(tire_class):
        for edge, name in ZONE_NAMES.items():
            yield Spot("crown_zones", name, f"on {tire.size_code}", _zone_asker(tire_class, tire, edge))
    for field, name in NAMES.items():
        if field in AS_BUILT:
            for built in get_args(Built):
                where = f"{built.replace('_', '-')} tires"
                yield Spot(field, name, where, _as_built_asker(field, tire_class, built, max))
                yield Spot(field, name, where, _as_built_asker(field, tire_class, built, min))
            continue
        limits = [limit for each in rule_sets for limit in bands_of(getattr(each, field), tire_class)]
        widths = {limit.section_width_up_to for limit in limits}
        starts = {0, *(limit.load_index_from for limit in limits if isinstance(limit, LargestInjury))}
        for load_index, width in product(sorted(starts), sorted(widths)):
            wide = f"to {width:g} mm wide" if len(widths) > 1 and width < max(widths) else ""
            heavy = f"load index {load_index} and up" if load_index else ""
            where = ", ".join(filter(None, [wide, heavy]))
            yield Spot(field, name, where, _asker(field, tire_class, width, load_index))


def _zone_asker(tire_class: TireClass, tire: ReferenceTire, which: str) -> Callable[[RuleSet], Asked]:
    def ask(rule_set: RuleSet) -> Asked:
        zone = rule_set.crown_zone(tire_class, tire.nominal_width)
        assert zone is not None  # a class a set speaks of has a zone at every width
        reach = half_width_on(getattr(zone, which) or zone.edge, tire)
        words = "passed to" if which == "edge" else "refused beyond"
        return Asked((round(reach, 6), False), f"{words} {reach:.2f} mm from the center")

    return ask


def _asker(field: str, tire_class: TireClass, width: float, load_index: int) -> Callable[[RuleSet], Asked]:
    def ask(rule_set: RuleSet) -> Asked:
        limits = getattr(rule_set, field)
        if field == "largest_injuries":
            limits = from_load_index(limits, tire_class, load_index)
        return _asked(limit_for(limits, tire_class, width))

    return ask


def _as_built_asker(
    field: str, tire_class: TireClass, built: Built, pick: Callable[..., Asked]
) -> Callable[[RuleSet], Asked]:
    """What is asked of tires built that way: the loosest limit refuses, the strictest passes."""

    def ask(rule_set: RuleSet) -> Asked:
        of_class = bands_of(getattr(rule_set, field), tire_class)
        asked = [_asked(limit) for limit in of_class if not limit.built or built in limit.built]
        return pick(asked, key=lambda each: each.looseness) if asked else _asked(None)

    return ask


def _asked(limit: Sourced | None) -> Asked:
    if limit is None:
        return Asked((inf, False), "no limit")
    if limit.tighter == "neither" or not isinstance(limit, ValuedLimit):
        return Asked((0.0, False), "a limit", limit)
    value, operator = limit.value, limit.operator
    says = f"{OPERATORS[operator]} {value:g} {limit.unit}"
    if isinstance(limit, LargestInjury):
        says += " prepared" if limit.holds_for == "prepared" else " of the hole"
    if isinstance(limit, TreadDepthLimit):
        says += f" {DEPTH_PLACE_WORDS[limit.place]}"
    return Asked((value if limit.tighter == "less" else -value, "=" in operator), says, limit)
