"""Tightening a limit never raises an answer, and every limit that refuses can be felt."""

from collections.abc import Iterator
from dataclasses import dataclass

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.helpers.answers import RANK, answer, rank
from tests.helpers.counts import examples
from tests.helpers.full_jobs import SIZES, exact, full_jobs, published
from tests.helpers.jobs import at_angle, bench_job, crown_injury, from_center, measured_tire
from tiremap.model.job import Job
from tiremap.model.measures import HoleSize, Lean
from tiremap.model.rule_set import CrownZone, RuleSet, Sourced, bands_of, from_load_index
from tiremap.model.size_code import read_size_code

A_LITTLE_TO_MUCH = st.floats(0.0, 1.0)


@dataclass(frozen=True)
class LimitOfASet:
    """One number of a rule set that refuses: ``edge`` names which edge of a crown zone it is."""

    rule_set: RuleSet
    field: str
    limit: Sourced
    edge: str = ""

    def __str__(self) -> str:
        band = f"over{self.limit.section_width_over:g}" if self.limit.section_width_over else ""
        of = (self.rule_set.name, self.field, self.edge, *self.limit.classes, *self.limit.built, band)
        return "-".join(filter(None, of))

    def tightened(self, share: float) -> RuleSet:
        """The rule set with this number tighter: by none of it at 0, by as far as it can mean anything at 1."""
        if self.edge:
            edge = getattr(self.limit, self.edge)
            less = edge.kind.startswith("share")
            value = edge.value * (1 - share) if less else edge.value + 150.0 * share
            tighter = self.limit.model_copy(update={self.edge: edge.model_copy(update={"value": value})})
        elif self.limit.tighter == "less":
            value = self.limit.value * (1 - share)
            value = int(value) if self.field == "repair_counts" else max(value, 1e-3)
            tighter = self.limit.model_copy(update={"value": value})
        else:
            most = {"angles_apart": 180.0, "around_apart": 2000.0, "heads_apart": 2000.0}.get(self.field, 100.0)
            tighter = self.limit.model_copy(update={"value": self.limit.value + most * share})
        limits = tuple(tighter if each is self.limit else each for each in getattr(self.rule_set, self.field))
        return self.rule_set.model_copy(update={self.field: limits})

    @property
    def sizes(self) -> tuple[str, ...]:
        """Sizes this limit is for."""
        return tuple(
            size for tire_class in self.limit.classes for size in SIZES[tire_class] if self._is_for(tire_class, size)
        )

    def _is_for(self, tire_class: str, size: str) -> bool:
        limits, code = getattr(self.rule_set, self.field), read_size_code(size)
        if self.field == "largest_injuries":
            limits = from_load_index(limits, tire_class, max(code.load_indices[:1], default=0))
        bands, width = bands_of(limits, tire_class), code.nominal_width_mm
        return next(band for band in bands if _built_alike(band, self.limit) and width <= band.section_width_up_to) is (
            self.limit
        )


def _built_alike(one: Sourced, other: Sourced) -> bool:
    return one.built == other.built


def limits_that_refuse() -> Iterator[LimitOfASet]:
    """Every number of every published rule set that can refuse, both edges of a zone that has two."""
    for rule_set in published():
        for field, limits in rule_set:
            for limit in limits if isinstance(limits, tuple) else ():
                if not isinstance(limit, Sourced) or limit.tighter == "neither":
                    continue
                if isinstance(limit, CrownZone):
                    yield LimitOfASet(rule_set, field, limit, "edge")
                    if limit.refused_beyond is not None:
                        yield LimitOfASet(rule_set, field, limit, "refused_beyond")
                else:
                    yield LimitOfASet(rule_set, field, limit)


EVERY = list(limits_that_refuse())


def test_every_kind_of_limit_that_refuses_is_among_them():
    kinds = {each.field for each in EVERY}
    assert kinds == {
        "crown_zones", "largest_injuries", "tread_depths", "heads_apart", "repair_counts", "around_apart",
        "steepest_leans", "oldest_tires", "second_repairs",
    }
    assert all(each.sizes for each in EVERY)
    assert {each.edge for each in EVERY} == {"", "edge", "refused_beyond"}


@pytest.mark.parametrize("limit", EVERY, ids=str)
@settings(max_examples=examples(4), deadline=None, suppress_health_check=list(HealthCheck))
@given(st.data(), A_LITTLE_TO_MUCH)
def test_a_tighter_limit_never_raises_an_answer(limit, data, share):
    _never_raised(limit, data, share)


@pytest.mark.long
@pytest.mark.parametrize("limit", EVERY, ids=str)
@settings(max_examples=examples(100), deadline=None, suppress_health_check=list(HealthCheck))
@given(st.data(), A_LITTLE_TO_MUCH)
def test_a_tighter_limit_never_raises_an_answer_of_many_jobs(limit, data, share):
    _never_raised(limit, data, share)


def _never_raised(limit: LimitOfASet, data: st.DataObject, share: float) -> None:
    near, unknowns = data.draw(st.sampled_from([(True, False), (True, True), (False, True)]))
    fixed = {"built": limit.limit.built[0]} if limit.limit.built else {}
    job = data.draw(full_jobs(limit.rule_set, sizes=limit.sizes, near=near, unknowns=unknowns, **fixed))
    before, after = answer(job, limit.rule_set), answer(job, limit.tightened(share))
    assert rank(after) <= rank(before)
    for one, other in zip(before.injuries, after.injuries, strict=True):
        assert RANK[other.answer] <= RANK[one.answer]


@pytest.mark.parametrize("limit", [each for each in EVERY if each.field != "second_repairs"], ids=str)
def test_a_limit_as_tight_as_can_be_is_felt(limit):
    job = plain_job(limit)
    assert answer(job, limit.rule_set).answer == "repairable"
    felt = "measure_first" if limit.edge == "edge" and limit.limit.refused_beyond else "not_repairable"
    assert answer(job, limit.tightened(1.0)).answer == felt


def plain_job(limit: LimitOfASet) -> Job:
    """Two small upright holes on the center plane, opposite each other, in a tire of a size the limit is for."""
    width = 0.8 * read_size_code(limit.sizes[0]).nominal_width_mm
    tire = measured_tire(
        limit.sizes[0], tread_width_mm=width, built=limit.limit.built[0] if limit.limit.built else "standard",
        tread_depth=exact(6.0), sealant_used=False, date_code="1018",
    )
    small, leaning = exact(3.0, HoleSize), exact(20.0, Lean)
    holes = [
        crown_injury(
            id, outside=from_center(0.0, how="exact"), around=at_angle(angle, how="exact"), lean_across=leaning,
            size_outside=small, size_inside=small,
        )
        for id, angle in (("1", 0.0), ("2", 180.0))
    ]
    return bench_job(*holes, tire=tire, date="2026-06-01", rule_set=limit.rule_set.name)
