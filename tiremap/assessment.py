"""Everything true about a job under one rule set: what `tiremap.assess` finds and everything else shows."""

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cache, cached_property
from itertools import combinations
from math import comb
from typing import Any, overload

from shapely.geometry.base import BaseGeometry

from tiremap.geometry.footprints import Head, united
from tiremap.geometry.frames import TreadPoint
from tiremap.geometry.liner_strip import Strip, true_area
from tiremap.geometry.section_inputs import SectionInputs
from tiremap.model.job import Answer, Job
from tiremap.model.rule_set import CrownZone, RuleSet
from tiremap.model.stock import RepairUnit, Stock
from tiremap.rules.case import Case
from tiremap.rules.facts import TireFacts
from tiremap.rules.marks import MarkFacts
from tiremap.rules.reasons import Reason, answer_of, by_weight, worst
from tiremap.workshop.ground import Ground, shared_area


@dataclass(frozen=True)
class AssessedMark:
    """An injury or earlier repair where it is drawn: at its stated places, upright where the lean is unknown.

    ``outside`` / ``inside`` are tread coordinates (mm); ``inside_place`` is the center of the head, ``None`` while the
    way around is unknown. ``unit`` and ``ground`` are ``None`` while the size, and so the head, is unknown.
    """

    facts: MarkFacts
    outside: float
    inside: float
    around: float | None
    inside_place: TreadPoint | None
    unit: RepairUnit | None
    head: Head | None
    """The head to be fitted, or of the earlier repair."""
    ground: Ground | None
    answer: Answer | None
    """``None`` for an earlier repair."""
    margin_mm: float | None
    reasons: tuple[Reason, ...]

    @property
    def id(self) -> str:
        """The mark's id, unique in its job."""
        return self.facts.id


@dataclass(frozen=True)
class AssessedPair:
    """Two marks' separation. Distances mm along the liner, ``around_tread_mm`` on the tread; ``None`` unknown."""

    first: str
    second: str
    distance_mm: float | None
    around_deg: float | None
    around_tread_mm: float | None
    grounds: tuple[Ground, Ground] | None
    """Around both heads; ``None`` while one of them has no place or no head."""
    told: tuple[Reason, ...]
    """What the checks say, still without what to measure or to check again."""
    finish: Callable[[Reason], Reason] = field(default=lambda reason: reason, repr=False, compare=False)
    """Adds to a reason what to measure or to check again."""

    @cached_property
    def reasons(self) -> tuple[Reason, ...]:
        """What the checks say, whole. Of many marks far more pairs are refused than anybody reads."""
        return tuple(map(self.finish, self.told))

    @cached_property
    def head_overlap_mm2(self) -> float | None:
        """Liner that both heads cover; none where not even their buffed areas meet."""
        if self.grounds is None or not self.buffed_overlap_mm2:
            return self.buffed_overlap_mm2
        return shared_area(*self.grounds, 0.0)

    @cached_property
    def buffed_overlap_mm2(self) -> float | None:
        """Liner that lies in both buffed areas."""
        return None if self.grounds is None else shared_area(*self.grounds, self.grounds[0].beyond.border)


class Pairs(Sequence[AssessedPair]):
    """Every pair of marks, in the order of the marks; equal to a tuple of the same.

    Each is worked out, by the numbers of its marks, once it is asked for: of many marks they are far more than anybody
    reads.
    """

    def __init__(
        self, ids: Sequence[str], near: Sequence[tuple[int, int]], answered: Callable[[tuple[int, int]], AssessedPair]
    ) -> None:
        self._near, self._answered = near, cache(answered)
        self._number_of = {id: number for number, id in enumerate(ids)}

    def near_in_turn(self) -> Iterator[AssessedPair]:
        """Those that a check says more of than that they keep clear, each worked out as it is reached."""
        return map(self._answered, self._near)

    @cached_property
    def near(self) -> tuple[AssessedPair, ...]:
        """All of `near_in_turn`."""
        return tuple(self.near_in_turn())

    def with_mark(self, id: str) -> tuple[AssessedPair, ...]:
        """Those that a mark is in; none for an id that no mark has."""
        its = self._number_of.get(id)
        if its is None:
            return ()
        before, after = range(its), range(its + 1, len(self._number_of))
        return (*(self._answered((each, its)) for each in before), *(self._answered((its, each)) for each in after))

    def among(self, ids: Collection[str]) -> tuple[AssessedPair, ...]:
        """Those of which both marks are among some."""
        numbers = sorted(self._number_of[id] for id in ids if id in self._number_of)
        return tuple(map(self._answered, combinations(numbers, 2)))

    @cached_property
    def _every(self) -> tuple[AssessedPair, ...]:
        return tuple(map(self._answered, combinations(range(len(self._number_of)), 2)))

    def __len__(self) -> int:
        return comb(len(self._number_of), 2)

    @overload
    def __getitem__(self, at: int) -> AssessedPair: ...

    @overload
    def __getitem__(self, at: slice) -> tuple[AssessedPair, ...]: ...

    def __getitem__(self, at: int | slice) -> AssessedPair | tuple[AssessedPair, ...]:
        return self._every[at]

    def __iter__(self) -> Iterator[AssessedPair]:
        return iter(self._every)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Pairs | tuple) and self._every == tuple(other)

    __hash__ = None  # type: ignore[assignment]  # how Python says that it cannot be hashed


@dataclass(frozen=True)
class Needed:
    """Something never entered that can still turn the answer: its field and what it is called."""

    field: str
    words: str


@dataclass(frozen=True)
class Assessment:
    """A job assessed under one rule set.

    ``facts``, ``strip`` and ``section_inputs`` are ``None`` while the tire's size is unknown; ``zone`` where the rule
    set is not chosen or does not speak of the tire's class. Areas are true areas of liner, mm2; shapes and areas are
    worked out when they are asked for.
    """

    job: Job
    rule_set: RuleSet | None
    stock: Stock
    answer: Answer
    reasons: tuple[Reason, ...]
    injuries: tuple[AssessedMark, ...]
    repairs: tuple[AssessedMark, ...]
    pairs: Sequence[AssessedPair]
    facts: TireFacts | None
    strip: Strip | None
    section_inputs: SectionInputs | None
    zone: CrownZone | None
    zone_half_width_mm: float | None
    """Half-width of the crown zone as drawn, at the drawn tread width; never for an answer."""
    needed: tuple[Needed, ...]
    deciding: Reason | None = None
    """The heaviest reason, where it refuses or must be measured; a Repairable has none."""
    asked: bool = False
    """Whether a rule set could be asked at all."""

    @property
    def known_facts(self) -> TireFacts:
        """The facts of a tire that is drawn: its size is known."""
        assert self.facts is not None
        return self.facts

    @property
    def known_strip(self) -> Strip:
        """The liner strip of a tire that is drawn."""
        assert self.strip is not None
        return self.strip

    @cached_property
    def buffed_outline(self) -> BaseGeometry | None:
        """The united buffed ground of every injury not refused; ``None`` while one of them has no unit."""
        return self._united(lambda ground: ground.buffed)

    @cached_property
    def buffed_area_mm2(self) -> float | None:
        """Area of `buffed_outline`."""
        return self._area(self.buffed_outline)

    @cached_property
    def sealed_area_mm2(self) -> float | None:
        """Area of the united sealed ground, likewise."""
        return self._area(self._united(lambda ground: ground.sealed))

    def _area(self, outline: BaseGeometry | None) -> float | None:
        return None if outline is None else float(true_area(self.known_strip, outline))

    def _united(self, worked: Callable[[Ground], BaseGeometry]) -> BaseGeometry | None:
        """An outline around the head of every injury not refused, united.

        A single one has the same ground wherever around the tire it lies; of several, one without its way around
        leaves the union unknown.
        """
        to_repair = [mark for mark in self.injuries if mark.answer != "not_repairable"] if self.asked else None
        if to_repair is None:
            return None
        grounds = [mark.ground for mark in to_repair if mark.ground is not None]
        if len(grounds) < len(to_repair):
            only = to_repair[0]
            if len(to_repair) > 1 or only.head is None:
                return None
            grounds = [Ground(self.known_strip, TreadPoint(only.inside, 0.0), only.head, self.stock.beyond_the_head)]
        return united(self.known_strip, map(worked, grounds))

    @property
    def marks(self) -> tuple[AssessedMark, ...]:
        """Injuries, then earlier repairs."""
        return (*self.injuries, *self.repairs)

    def mark(self, mark_id: str) -> AssessedMark | None:
        """The mark of that id, or ``None``."""
        return next((mark for mark in self.marks if mark.id == mark_id), None)

    def pairs_with(self, mark_id: str) -> tuple[AssessedPair, ...]:
        """Every pair that mark is in, in the order of the others."""
        if isinstance(self.pairs, Pairs):
            return self.pairs.with_mark(mark_id)
        return tuple(pair for pair in self.pairs if mark_id in (pair.first, pair.second))

    def pairs_among(self, ids: Collection[str]) -> tuple[AssessedPair, ...]:
        """Every pair of marks with those ids."""
        if isinstance(self.pairs, Pairs):
            return self.pairs.among(ids)
        return tuple(pair for pair in self.pairs if pair.first in ids and pair.second in ids)

    def pair(self, first: str, second: str) -> AssessedPair | None:
        """The pair of two marks, named in either order, or ``None``."""
        return next(iter(self.pairs_among({first, second})), None)

    def own_answer(self, mark: AssessedMark) -> Answer:
        """The worst of an injury's answer and of the pairs it is in: a good hole beside a bad neighbor is not good."""
        of_pairs = (answer_of(pair.told) for pair in self.pairs_with(mark.id))
        return worst([mark.answer or "measure_first", *of_pairs])

    def answer_shown(self, mark: AssessedMark) -> Answer:
        """The answer an injury is shown with everywhere: the worse of its own and its tire's.

        A hole that passes is not to be repaired in a tire that is refused, or not yet.
        """
        return worst([mark.answer or "measure_first", self.answer])  # what its pairs say is in the tire's

    def better_by_itself(self, mark: AssessedMark) -> Answer | None:
        """An injury's own answer, to be told as a part, where it is better than the one it is shown with."""
        own = self.own_answer(mark)
        return None if own == self.answer_shown(mark) else own

    @property
    def all_reasons(self) -> tuple[Reason, ...]:
        """Reasons of the tire, of its injuries and of its pairs, in order of weight."""
        parts = [*self.reasons]
        for injury in self.injuries:
            parts += injury.reasons
        for pair in self.pairs:
            parts += pair.reasons
        return by_weight(parts)

    def as_record(self) -> dict[str, Any]:
        """The assessment as plain values, with the keys the command line prints; what is unknown is ``None``."""
        return {
            "rule_set": self.rule_set.name if self.rule_set else None,
            "answer": self.answer,
            "injuries": [
                {
                    "id": injury.id,
                    "answer": injury.answer,
                    "margin_mm": injury.margin_mm,
                    "reasons": [_reason_record(reason) for reason in injury.reasons],
                }
                for injury in self.injuries
            ]
            or [self._undrawn(injury.id) for injury in self.job.injuries],
            "pairs": [
                {
                    "first": pair.first,
                    "second": pair.second,
                    "distance_mm": pair.distance_mm,
                    "around_deg": pair.around_deg,
                    "around_tread_mm": pair.around_tread_mm,
                    "head_overlap_mm2": pair.head_overlap_mm2,
                    "buffed_overlap_mm2": pair.buffed_overlap_mm2,
                    "reasons": [_reason_record(reason) for reason in pair.reasons],
                }
                for pair in self.pairs
            ],
            "buffed_area_mm2": self.buffed_area_mm2,
            "sealed_area_mm2": self.sealed_area_mm2,
            "reasons": [_reason_record(reason) for reason in self.reasons],
        }

    def _undrawn(self, injury_id: str) -> dict[str, Any]:
        """An injury of a tire whose size is unknown: nothing could be asked of it, and it is not left out."""
        reasons = [_reason_record(reason) for reason in self.reasons]
        return {"id": injury_id, "answer": self.answer, "margin_mm": None, "reasons": reasons}


def case_of(assessment: Assessment) -> Case | None:
    """What the rules are asked about, or ``None`` where the tire, its class or the guidance is unknown."""
    facts, rule_set = assessment.facts, assessment.rule_set
    if facts is None or rule_set is None or facts.tire_class is None or assessment.zone is None:
        return None
    injuries, repairs = (tuple(mark.facts for mark in marks) for marks in (assessment.injuries, assessment.repairs))
    return Case(assessment.job, facts, rule_set, facts.tire_class, assessment.stock, injuries, repairs)


_REASON_KEYS = (
    "code", "level", "says", "value", "limit", "unit", "margin", "margin_low", "margin_high", "source",
)


def _reason_record(reason: Reason) -> dict[str, Any]:
    return {key: getattr(reason, key) for key in _REASON_KEYS}
