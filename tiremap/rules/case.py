"""What every check is asked about: the job, its facts as readings, the rule set and the stock."""

from dataclasses import dataclass

from tiremap.model.job import Injury, Job, TireClass
from tiremap.model.rule_set import CrownZone, Limit, RuleSet, bands_of, limit_for
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
        return next(each for each in self.job.injuries if each.id == mark.id)

    def limit(self, limits: tuple[Limit, ...]) -> Limit | None:
        """The limit that holds for this tire, or ``None`` where the set is silent.

        Where only a measured section width is known, the narrowest it may stand for chooses: limits grow with width.
        """
        return limit_for(limits, self.tire_class, self.facts.nominal_width.low)

    def limits_as_built(self, limits: tuple[Limit, ...]) -> list[Limit]:
        """The limits that may hold for this tire: all of its class while nobody knows how it is built."""
        built = self.job.tire.built
        of_class = bands_of(limits, self.tire_class)
        return [limit for limit in of_class if built is None or not limit.built or built in limit.built]

    @property
    def zone(self) -> CrownZone:
        """The crown zone of the rule set for this tire."""
        width = self.facts.nominal_width.stated
        zone = self.rule_set.crown_zone(self.tire_class, width if width is not None else 0.0)
        assert zone is not None  # assess asks only sets that speak of the class
        return zone
