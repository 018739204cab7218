"""A rule set: one body's limits, each with unit, operator, source and grade."""

from collections.abc import Sequence
from typing import Annotated, Literal, TypeVar

from pydantic import BaseModel, ConfigDict, Field, model_validator

from tiremap.model.job import Built, TireClass

Grade = Literal["issuer", "second-hand", "common practice", "from memory", "assumed"]
Operator = Literal["<=", "<", ">=", ">"]
ZoneKind = Literal[
    "share_of_section_width",
    "share_of_tread_width",
    "inset_from_tread_edge",
    "inset_from_belt_edge",
    "inside_outer_grooves",
    "whole_tread",
]
DepthPlace = Literal["whole_tread", "central_three_quarters"]
Text = Annotated[str, Field(min_length=1)]


ANY_WIDTH = 10_000.0
"""Wider than any tire (mm): a limit without an upper bound. Guards, decides nothing."""

class Sourced(BaseModel):
    """What every limit carries: whom it is for, where it comes from and how good that source is.

    ``built`` names the ways of building a tire it is for; empty for all of them. Nominal widths over
    ``section_width_over`` up to and including ``section_width_up_to`` (mm) are meant.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    classes: tuple[TireClass, ...]
    built: tuple[Built, ...] = ()
    section_width_over: float = 0.0
    section_width_up_to: float = ANY_WIDTH
    tighter: Literal["less", "more", "neither"]
    """Which way the value is tighter; ``neither`` for a limit that only chooses the kind of unit."""
    unit: Text
    source: Text
    grade: Grade


Limit = TypeVar("Limit", bound=Sourced)


class ValuedLimit(Sourced):
    """A limit with one value in its own unit, and how what is measured must stand to it."""

    operator: Operator
    value: float


class ZoneEdge(BaseModel):
    """One edge of a crown zone: ``value`` is mm for an inset, a share (0-1) for a share, 0 for the whole tread."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    kind: ZoneKind
    value: Annotated[float, Field(ge=0)]


class CrownZone(Sourced):
    """The band a hole may lie in, either side of the center plane; inclusive.

    Where ``refused_beyond`` stands, the band between the two edges is the tire maker's to decide.
    """

    edge: ZoneEdge
    refused_beyond: ZoneEdge | None = None
    between_says: str = ""


class LargestInjury(ValuedLimit):
    """The largest hole, mm. ``holds_for``: ``prepared`` size, or ``hole`` where the source does not say which.

    From the load index ``load_index_from`` up (single fitment) it takes the place of a limit for lower ones.
    """

    operator: Literal["<=", "<"]
    value: Annotated[float, Field(gt=0)]
    holds_for: Literal["prepared", "hole"]
    load_index_from: Annotated[int, Field(ge=0)] = 0


class TreadDepthLimit(ValuedLimit):
    """The least tread depth, mm, and where on the tread it is asked: nowhere less there, all around."""

    operator: Literal[">=", ">"]
    value: Annotated[float, Field(gt=0)]
    place: DepthPlace


class LeanForOnePiece(ValuedLimit):
    """Lean (degrees) above which stem and patch are separate; chooses the unit, never answers."""

    operator: Literal["<="]
    value: Annotated[float, Field(gt=0, lt=90)]


class HeadsApart(ValuedLimit):
    """The least gap between two heads, mm."""

    operator: Literal[">="]
    value: Annotated[float, Field(ge=0)]


class SecondRepairCaution(ValuedLimit):
    """From this speed symbol's speed (km/h) up, a second repair is cautioned against."""

    operator: Literal[">="]
    value: Annotated[float, Field(gt=0)]


class RepairCount(ValuedLimit):
    """The most repairs a tire may have, the new ones counted."""

    operator: Literal["<="]
    value: Annotated[int, Field(ge=1)]


class AroundApart(ValuedLimit):
    """The least distance around between two repairs, mm on the tread."""

    operator: Literal[">="]
    value: Annotated[float, Field(gt=0)]


class AngleApart(ValuedLimit):
    """The least angle between two repairs, degrees around."""

    operator: Literal[">="]
    value: Annotated[float, Field(gt=0, le=180)]


class SteepestLean(ValuedLimit):
    """The steepest lean that may be repaired at all, degrees in total."""

    operator: Literal["<="]
    value: Annotated[float, Field(gt=0, lt=90)]


class OldestTire(ValuedLimit):
    """The greatest age from manufacture, years."""

    operator: Literal["<="]
    value: Annotated[float, Field(gt=0)]


class SealantRefused(Sourced):
    """A tire in which liquid sealant was used is not repaired."""


class AxleCaution(Sourced):
    """An axle on which a repaired tire should not run."""

    axle: Literal["front"]


class RuleSet(BaseModel):
    """One body's limits. ``name`` is the stem of its file."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    name: Text
    title: Text
    issuer: Text
    deciding: Text
    """Who has the last word beyond this set."""
    parent: str | None = None
    """The published set a shop's own was copied from; ``None`` for a published one."""
    crown_zones: tuple[CrownZone, ...]
    largest_injuries: tuple[LargestInjury, ...]
    tread_depths: tuple[TreadDepthLimit, ...]
    leans_for_one_piece: tuple[LeanForOnePiece, ...] = ()
    heads_apart: tuple[HeadsApart, ...]
    second_repairs: tuple[SecondRepairCaution, ...] = ()
    repair_counts: tuple[RepairCount, ...] = ()
    around_apart: tuple[AroundApart, ...] = ()
    angles_apart: tuple[AngleApart, ...] = ()
    steepest_leans: tuple[SteepestLean, ...] = ()
    oldest_tires: tuple[OldestTire, ...] = ()
    sealant_refused: tuple[SealantRefused, ...] = ()
    axle_cautions: tuple[AxleCaution, ...] = ()

    @model_validator(mode="after")
    def _each_class_has_its_limits(self) -> "RuleSet":
        for tire_class in self.classes:
            for limits, what in (
                (self.crown_zones, "crown zone"),
                *((limits, "largest injury") for limits in self._largest_by_load_index(tire_class)),
                (self.tread_depths, "tread depth"),
                (self.heads_apart, "gap between heads"),
            ):
                if not _covers_every_width(bands_of(limits, tire_class)):
                    raise ValueError(f"the class {tire_class} needs one {what} for every section width, no overlap")
        return self

    def _largest_by_load_index(self, tire_class: TireClass) -> list[tuple[LargestInjury, ...]]:
        """The largest injuries of a class by the load index they hold from; those for any are always asked for."""
        starts = {0, *(limit.load_index_from for limit in bands_of(self.largest_injuries, tire_class))}
        return [from_load_index(self.largest_injuries, tire_class, start) for start in sorted(starts)]

    @model_validator(mode="after")
    def _bands_of_width_can_be_weighed(self) -> "RuleSet":
        """Of a tire whose width was taped several bands may hold, and each is asked: they must ask the same thing."""
        for tire_class in self.classes:
            zones, holes = self.bands(tire_class), bands_of(self.largest_injuries, tire_class)
            shares = all(zone.edge.kind == "share_of_section_width" and zone.refused_beyond is None for zone in zones)
            if len(zones) > 1 and not shares:
                raise ValueError(
                    f"the class {tire_class} may have several crown zones by section width only as shares of that "
                    "width (share_of_section_width), with one edge each"
                )
            if len({limit.holds_for for limit in holes}) > 1:
                raise ValueError(
                    f"the largest injuries of the class {tire_class} must all hold for the same size: holds_for "
                    "prepared, or hole"
                )
            if len({limit.place for limit in bands_of(self.tread_depths, tire_class)}) > 1:
                raise ValueError(
                    f"the tread depths of the class {tire_class} must all be asked at the same place: whole_tread, or "
                    "central_three_quarters"
                )
        return self

    def bands(self, tire_class: TireClass) -> list[CrownZone]:
        """The crown zones of a class by growing section width."""
        return bands_of(self.crown_zones, tire_class)

    @property
    def classes(self) -> tuple[TireClass, ...]:
        """The tire classes this set speaks of: those it gives a crown zone."""
        return tuple(dict.fromkeys(each for zone in self.crown_zones for each in zone.classes))

    def crown_zone(self, tire_class: TireClass, nominal_width_mm: float) -> CrownZone | None:
        """The crown zone for a class and nominal section width (mm), or ``None`` where the set is silent."""
        return limit_for(self.crown_zones, tire_class, nominal_width_mm)

    @property
    def limits(self) -> tuple[Sourced, ...]:
        """Every limit of the set, in the order of its file."""
        return tuple(limit for _, value in self if isinstance(value, tuple) for limit in value)


def bands_of(limits: tuple[Limit, ...], tire_class: TireClass | None) -> list[Limit]:
    """The limits of a class by growing section width."""
    of_class = (limit for limit in limits if tire_class in limit.classes)
    return sorted(of_class, key=lambda limit: limit.section_width_over)


def limit_for(limits: tuple[Limit, ...], tire_class: TireClass | None, nominal_width_mm: float) -> Limit | None:
    """The limit that holds for a class and nominal section width (mm), or ``None`` where the set is silent."""
    wide_enough = (
        limit for limit in limits if nominal_width_mm <= limit.section_width_up_to and tire_class in limit.classes
    )
    return min(wide_enough, key=lambda limit: limit.section_width_over, default=None)


def from_load_index(
    limits: tuple[LargestInjury, ...], tire_class: TireClass | None, load_index: int
) -> tuple[LargestInjury, ...]:
    """The limits of a class that hold at a load index: those from the highest one it reaches."""
    reached = [limit for limit in bands_of(limits, tire_class) if limit.load_index_from <= load_index]
    start = max((limit.load_index_from for limit in reached), default=0)
    return tuple(limit for limit in reached if limit.load_index_from == start)


def tightest(limits: Sequence[Limit]) -> Limit:
    """The limit that asks most, of one kind and at least one; the first where they ask the same or have no value."""
    return min(limits, key=_looseness)


def loosest(limits: Sequence[Limit]) -> Limit:
    """The limit that asks least; the first where they ask the same or have no value."""
    return max(limits, key=_looseness)


def _looseness(limit: Sourced) -> tuple[float, bool]:
    """Of a limit with a value: the greater, the less it asks; one that holds on its value asks less than one inside."""
    if not isinstance(limit, ValuedLimit) or limit.tighter == "neither":
        return 0.0, False
    return (limit.value if limit.tighter == "less" else -limit.value), "=" in limit.operator


def _covers_every_width(bands: list[Limit]) -> bool:
    starts = [0.0, *(band.section_width_up_to for band in bands[:-1])]
    ends_open = bool(bands) and bands[-1].section_width_up_to == ANY_WIDTH
    return ends_open and [band.section_width_over for band in bands] == starts
