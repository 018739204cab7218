"""What every check is asked about: the job, its facts as readings, the rule set and the stock."""

from dataclasses import dataclass

from tiremap.model.job import Job, TireClass
from tiremap.model.rule_set import CrownZone, RuleSet
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

    @property
    def zone(self) -> CrownZone:
        """The crown zone of the rule set for this tire."""
        width = self.facts.nominal_width.stated
        zone = self.rule_set.crown_zone(self.tire_class, width if width is not None else 0.0)
        assert zone is not None  # assess asks only sets that speak of the class
        return zone
