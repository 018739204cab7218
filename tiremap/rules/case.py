"""What every check is asked about: the job, its facts as readings, the rule set and the stock."""

from dataclasses import dataclass
from functools import cached_property

from tiremap.model.job import Injury, Job, TireClass
from tiremap.model.rule_set import (
    AngleApart,
    AroundApart,
    CrownZone,
    HeadsApart,
    LargestInjury,
    Limit,
    RuleSet,
    bands_of,
    from_load_index,
    limit_for,
    loosest,
    tightest,
)
from tiremap.model.stock import Stock
from tiremap.rules.facts import TireFacts
from tiremap.rules.marks import MarkFacts


@dataclass(frozen=True)
class Case:
    """One job under one rule set that speaks of its class of tire."""

    job: Job
    facts: TireFacts
    rule_set: RuleSet
    tire_class: TireClass
    stock: Stock
    injuries: tuple[MarkFacts, ...]
    repairs: tuple[MarkFacts, ...]

    def injury(self, mark: MarkFacts) -> Injury:
        """The injury as it was entered."""
        return self._injuries[mark.id]

    @cached_property
    def _injuries(self) -> dict[str, Injury]:
        return {each.id: each for each in self.job.injuries}

    def limit(self, limits: tuple[Limit, ...]) -> Limit | None:
        """The limit that holds for this tire, or ``None`` where the set is silent.

        Where only a measured section width is known, the tightest of all it may stand for.
        """
        by_width = self.limits_by_width(limits)
        return tightest(by_width) if by_width else None

    def limits_by_width(self, limits: tuple[Limit, ...]) -> list[Limit]:
        """The limits that may hold for this tire by its section width, the narrowest first."""
        width = self.facts.nominal_width
        narrowest = limit_for(limits, self.tire_class, width.low)
        if narrowest is None:
            return []
        of_class = bands_of(limits, self.tire_class)
        return [narrowest, *(each for each in of_class if width.low <= each.section_width_over < width.high)]

    def limits_as_built(self, limits: tuple[Limit, ...]) -> list[Limit]:
        """The limits that may hold for this tire: all of its class while nobody knows how it is built."""
        built = self.job.tire.built
        of_class = bands_of(limits, self.tire_class)
        return [limit for limit in of_class if built is None or not limit.built or built in limit.built]

    @cached_property
    def heads_apart(self) -> HeadsApart:
        """The gap asked between two heads."""
        limit = self.limit(self.rule_set.heads_apart)
        assert limit is not None  # every class a set speaks of has one
        return limit

    @cached_property
    def largest_injury(self) -> LargestInjury:
        """The largest hole; where several may hold, the smallest of them."""
        return tightest(self._largest_injuries)  # every class a set speaks of has one

    @cached_property
    def loosest_injury(self) -> LargestInjury:
        """The largest hole that may be allowed, whatever of this tire's width and load index is unknown."""
        return loosest(self._largest_injuries)

    @cached_property
    def _largest_injuries(self) -> list[LargestInjury]:
        """The limits that may hold: by width where only a measured one is known, by load index where none is told."""
        limits, load_index = self.rule_set.largest_injuries, self.facts.load_index
        of_class = bands_of(limits, self.tire_class)
        starts = {limit.load_index_from for limit in of_class} if load_index is None else {load_index}
        by_load = (from_load_index(limits, self.tire_class, start) for start in sorted(starts))
        return [limit for each in by_load for limit in self.limits_by_width(each)]

    @cached_property
    def around_apart(self) -> list[AroundApart]:
        """The distances on the tread that may be asked between two repairs, as the tire may be built."""
        return self.limits_as_built(self.rule_set.around_apart)

    @cached_property
    def angles_apart(self) -> list[AngleApart]:
        """The angles that may be asked between two repairs, as the tire may be built."""
        return self.limits_as_built(self.rule_set.angles_apart)

    @cached_property
    def zone(self) -> CrownZone:
        """The crown zone of the rule set for this tire."""
        width = self.facts.nominal_width.stated
        zone = self.rule_set.crown_zone(self.tire_class, width if width is not None else 0.0)
        assert zone is not None  # assess asks only sets that speak of the class
        return zone
