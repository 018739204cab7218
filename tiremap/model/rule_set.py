"""A rule set: one body's limits, each with unit, operator, source and grade."""

from typing import Annotated, Literal, TypeVar

from pydantic import BaseModel, ConfigDict, Field, model_validator

from tiremap.model.job import TireClass

Grade = Literal["issuer", "second-hand", "common practice", "from memory", "assumed"]
Operator = Literal["<=", "<", ">=", ">"]
ZoneKind = Literal[
    "share_of_section_width",
    "share_of_tread_width",
    "inset_from_tread_edge",
    "inset_from_belt_edge",
    "whole_tread",
]
Text = Annotated[str, Field(min_length=1)]


class Sourced(BaseModel):
    """What every limit carries: whom it is for, where it comes from and how good that source is."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    classes: tuple[TireClass, ...]
    tighter: Literal["less", "more", "neither"]
    """Which way the value is tighter; ``neither`` for a limit that only chooses the kind of unit."""
    unit: Text
    source: Text
    grade: Grade


ANY_WIDTH = 10_000.0
"""Wider than any tire (mm): a crown zone without an upper bound. Guards, decides nothing."""

Limit = TypeVar("Limit", bound=Sourced)


class ZoneEdge(BaseModel):
    """One edge of a crown zone: ``value`` is mm for an inset, a share (0-1) for a share, 0 for the whole tread."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    kind: ZoneKind
    value: Annotated[float, Field(ge=0)]


class CrownZone(Sourced):
    """The band a hole may lie in, either side of the center plane; inclusive.

    Where ``refused_beyond`` stands, the band between the two edges is the tire maker's to decide. Widths over
    ``section_width_over`` up to and including ``section_width_up_to`` (mm, nominal) are meant, where given.
    """

    edge: ZoneEdge
    refused_beyond: ZoneEdge | None = None
    between_says: str = ""
    section_width_over: float = 0.0
    section_width_up_to: float = ANY_WIDTH


class LargestInjury(Sourced):
    """The largest hole, mm. ``holds_for``: ``prepared`` size, or ``hole`` where the source does not say which."""

    operator: Literal["<=", "<"]
    value: Annotated[float, Field(gt=0)]
    holds_for: Literal["prepared", "hole"]


class TreadDepthLimit(Sourced):
    """The least tread depth, mm, and where on the tread it is asked."""

    operator: Literal[">=", ">"]
    value: Annotated[float, Field(gt=0)]
    place: Text


class LeanForOnePiece(Sourced):
    """Lean (degrees) above which stem and patch are separate; chooses the unit, never answers."""

    operator: Literal["<="]
    value: Annotated[float, Field(gt=0, lt=90)]


class HeadsApart(Sourced):
    """The least gap between two heads, mm."""

    operator: Literal[">="]
    value: Annotated[float, Field(ge=0)]


class SecondRepairCaution(Sourced):
    """From this speed symbol's speed (km/h) up, a second repair is cautioned against."""

    operator: Literal[">="]
    value: Annotated[float, Field(gt=0)]


class RuleSet(BaseModel):
    """One body's limits. ``name`` is the stem of its file."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    name: Text
    title: Text
    issuer: Text
    deciding: Text
    """Who has the last word beyond this set."""
    crown_zones: tuple[CrownZone, ...]
    largest_injuries: tuple[LargestInjury, ...]
    tread_depths: tuple[TreadDepthLimit, ...]
    leans_for_one_piece: tuple[LeanForOnePiece, ...] = ()
    heads_apart: tuple[HeadsApart, ...]
    second_repairs: tuple[SecondRepairCaution, ...] = ()

    @model_validator(mode="after")
    def _each_class_has_its_limits(self) -> "RuleSet":
        for tire_class in self.classes:
            for limits, what in (
                (self.largest_injuries, "largest injury"),
                (self.tread_depths, "tread depth"),
                (self.heads_apart, "gap between heads"),
            ):
                if sum(tire_class in limit.classes for limit in limits) != 1:
                    raise ValueError(f"the class {tire_class} needs exactly one limit for the {what}")
            bands = self.bands(tire_class)
            starts = [0.0, *(band.section_width_up_to for band in bands[:-1])]
            whole = bands[-1].section_width_up_to == ANY_WIDTH
            if not whole or [band.section_width_over for band in bands] != starts:
                raise ValueError(f"the crown zones of the class {tire_class} leave a section width out or overlap")
        return self

    def bands(self, tire_class: TireClass) -> list[CrownZone]:
        """The crown zones of a class by growing section width."""
        zones = [zone for zone in self.crown_zones if tire_class in zone.classes]
        return sorted(zones, key=lambda zone: zone.section_width_over)

    @property
    def classes(self) -> tuple[TireClass, ...]:
        """The tire classes this set speaks of: those it gives a crown zone."""
        return tuple(dict.fromkeys(each for zone in self.crown_zones for each in zone.classes))

    def crown_zone(self, tire_class: TireClass, nominal_width_mm: float) -> CrownZone | None:
        """The crown zone for a class and nominal section width (mm), or ``None`` where the set is silent."""
        within = (zone for zone in self.bands(tire_class) if nominal_width_mm <= zone.section_width_up_to)
        return next(within, None)


def for_class(limits: tuple[Limit, ...], tire_class: TireClass | None) -> Limit | None:
    """The one limit of ``limits`` that holds for a class, or ``None``."""
    return next((limit for limit in limits if tire_class in limit.classes), None)
