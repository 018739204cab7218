"""Forgetting a quantity, or knowing it less well, never passes what did not pass.

What is forgotten is all that was entered of a quantity: of what was measured twice (the two ends and the lean of a
hole, a depth at several places) the rest would speak alone, and may say better. Measurements that disagree are left
aside: with each other, or with what is held possible of them where nobody measured.
"""

from typing import Any

import pytest
from hypothesis import HealthCheck, assume, event, given, settings
from hypothesis import strategies as st

from tests.helpers.answers import answer, measured_twice_and_disagrees, on_a_limit
from tests.helpers.counts import examples
from tests.helpers.full_jobs import DEPTHS, JOB_DATE, ends, every_rule_set, exact, full_jobs, published
from tests.helpers.jobs import all_fine, bench_job, crown_injury, earlier_repair, measured_tire
from tiremap.edits.change import changed
from tiremap.model.job import Injury, Job, Repair, Tire
from tiremap.model.measures import HoleSize, Taken
from tiremap.model.rule_set import RuleSet
from tiremap.model.size_code import read_size_code
from tiremap.model.tread_width import tread_width_estimate
from tiremap.resources import read_toml
from tiremap.rules.facts import tire_facts

MANY = settings(max_examples=examples(80), deadline=None, suppress_health_check=list(HealthCheck))
LONG = settings(MANY, max_examples=examples(4000))
FEW = settings(MANY, max_examples=examples(50))

OF_THE_TIRE = {
    "size": ("size_code",), "tread width": ("tread_width",), "tread depth": DEPTHS, "under grooves": ("under_grooves",),
    "belt": ("belt_width",), "built": ("built",), "sealant": ("sealant_used",), "date code": ("date_code",),
    "datum": ("datum",),
}
OF_AN_INJURY = {
    "place": ("outside", "inside"), "around": ("around",), "lean across": ("lean_across", "inside"),
    "lean around": ("lean_around",), "size": ("size_outside", "size_inside", "size_prepared"),
}
OF_A_REPAIR = {"place": ("inside",), "around": ("around",), "head": ("head_length", "head_width")}


def forgotten(job: Job, part: str, fields: tuple[str, ...]) -> Job:
    """The job without all that was entered of one quantity."""
    nothing: dict[str, Any] = dict.fromkeys(fields)
    if part == "tire":
        return changed(job, tire=changed(job.tire, **nothing))
    if part == "checks":
        return changed(job, checks=changed(job.checks, **nothing))
    if part == "repairs":
        return changed(job, repairs=(changed(job.repairs[0], **nothing), *job.repairs[1:]))
    return changed(job, injuries=(changed(job.injuries[0], **nothing), *job.injuries[1:]))


def possible(job: Job, without: Job) -> bool:
    """Whether what was measured lies within all that is held possible of it where nobody measured.

    A measurement outside of that disagrees with the tire, and forgetting it forgets the disagreement.
    """
    facts, tire, left = tire_facts(job), job.tire, without.tire
    unmeasured = read_toml("dimensions", "unmeasured.toml")
    allowed = {
        "tread_width": (facts.estimate.least_mm, facts.estimate.greatest_mm),
        "tread_depth": (0.0, unmeasured["tread_depth"]["greatest_mm"]),
        "under_grooves": (unmeasured["under_grooves"]["least_mm"], unmeasured["under_grooves"]["greatest_mm"]),
    }
    gone = {name for name in Tire.model_fields if getattr(tire, name) is not None and getattr(left, name) is None}
    for name in gone & (allowed.keys() | set(DEPTHS)):
        least, greatest = allowed["tread_depth" if name in DEPTHS else name]
        low, high = ends(getattr(tire, name))
        if not least <= low <= high <= greatest:
            return False
    if "belt_width" in gone:
        belt, tread = ends(tire.belt_width), ends(tire.tread_width)
        inside, past = (unmeasured["belt_edge"][f"furthest_{side}_tread_edge_mm"] for side in ("inside", "outside"))
        return tread[1] - 2 * inside <= belt[0] and belt[1] <= tread[0] + 2 * past
    return True


PARTS = [
    *(("tire", fields) for fields in OF_THE_TIRE.values()), *(("injuries", fields) for fields in OF_AN_INJURY.values()),
    *(("repairs", fields) for fields in OF_A_REPAIR.values()),
    *(("checks", (name,)) for name in ("inspected", "bead", "cracks", "inner_tube", "earlier_repairs")),
]


@MANY
@given(st.data(), st.sampled_from(published()), st.sampled_from(PARTS))
def test_forgetting_all_that_was_entered_of_a_quantity_never_passes_what_did_not(data, rule_set, part_and_fields):
    _never_passes_without(data, rule_set, *part_and_fields)


@pytest.mark.long
@LONG
@given(st.data(), st.sampled_from(published()), st.sampled_from(PARTS))
def test_forgetting_never_passes_over_a_great_many_jobs(data, rule_set, part_and_fields):
    _never_passes_without(data, rule_set, *part_and_fields)


def _never_passes_without(data: st.DataObject, rule_set: RuleSet, part: str, fields: tuple[str, ...]) -> None:
    job = data.draw(full_jobs(rule_set, near=True, unknowns=False, repairs=(1, 2) if part == "repairs" else (0, 1)))
    without = forgotten(job, part, fields)
    assume(possible(job, without) and not measured_twice_and_disagrees(job))
    event(answer(job).answer)
    if answer(job).answer != "repairable":
        assert answer(without).answer != "repairable"


ASKED_OF_ALL = [
    ("tire", ("size_code",)), ("tire", DEPTHS), ("injuries", OF_AN_INJURY["place"]),
    ("injuries", OF_AN_INJURY["around"]), ("injuries", OF_AN_INJURY["lean across"]),
    ("injuries", OF_AN_INJURY["lean around"]), ("injuries", OF_AN_INJURY["size"]),
    *(("repairs", fields) for fields in OF_A_REPAIR.values()),
    *(("checks", (name,)) for name in type(all_fine()).model_fields),
]


def test_what_every_rule_set_must_know_is_never_passed_when_forgotten():
    sound = bench_job(crown_injury(), earlier_repair(), tire=measured_tire(built="standard", sealant_used=False))
    sound = changed(sound, tire=changed(sound.tire, date_code="1024"), date=JOB_DATE)
    for rule_set in published():
        job = changed(sound, rule_set=rule_set.name)
        assert answer(job).answer == "repairable"
        for part, fields in ASKED_OF_ALL:
            assert answer(forgotten(job, part, fields)).answer == "measure_first", (rule_set.name, part, fields)
    germany = changed(sound, rule_set="germany")
    assert answer(forgotten(germany, "tire", ("sealant_used",))).answer == "measure_first"
    european = changed(sound, rule_set="european_makers")
    assert answer(forgotten(european, "tire", ("date_code",))).answer == "measure_first"
    assert answer(forgotten(european, "tire", ("tread_width",))).answer == "repairable"  # on the center of any tread


def test_cracks_found_shallow_and_apart_are_not_passed_without_their_depth_or_whether_they_are_joined():
    found = changed(all_fine(), cracks={"state": "found"})
    job = bench_job(crown_injury(), checks=found, tire=measured_tire(crack_depth=exact(1.0), cracks_joined=False))
    assert answer(job).answer == "repairable"
    for fields in (("crack_depth",), ("cracks_joined",), ("crack_depth", "cracks_joined")):
        assert answer(forgotten(job, "tire", fields)).answer != "repairable"


def test_a_tread_nobody_measured_may_be_as_narrow_as_the_size_allows():
    estimate = tread_width_estimate(read_size_code("205/55R16"))
    drawn = estimate.drawn_mm / 2 - 25.4 - 2.5 - 5.0  # inside on the tread as drawn
    hole = crown_injury(across_mm=drawn)
    narrow = bench_job(hole, rule_set="north_america", tire=measured_tire(tread_width_mm=estimate.least_mm + 2.0))
    assert answer(narrow).answer == "not_repairable"
    assert answer(forgotten(narrow, "tire", ("tread_width",))).answer == "measure_first"


@FEW
@given(st.data(), st.sampled_from(every_rule_set()), st.floats(0, 6))
def test_widening_every_tolerance_never_passes_what_did_not(data, rule_set, more):
    job = data.draw(full_jobs(rule_set, near=True, unknowns=False))
    assume(not measured_twice_and_disagrees(job))
    before = answer(job, rule_set)
    after = answer(_widened(job, more), rule_set)
    assume(not on_a_limit(before))
    if before.answer != "repairable":
        assert after.answer != "repairable"


def _widened(record: Any, more: float) -> Any:
    """A record with every tolerance in it wider by ``more``, in its own unit; another gauge stops by as much later."""
    if isinstance(record, HoleSize) and record.stops is not None:
        return changed(record, stops=record.stops + more)
    if isinstance(record, Taken):
        return changed(record, minus=(record.minus or 0.0) + more, plus=(record.plus or 0.0) + more)
    if isinstance(record, tuple):
        return tuple(_widened(each, more) for each in record)
    if isinstance(record, (Job, Tire, Injury, Repair)):
        return changed(record, **{name: _widened(value, more) for name, value in record})
    return record
