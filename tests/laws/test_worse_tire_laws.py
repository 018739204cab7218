"""A tire with more wrong with it is never answered better, and its answer is that of its worst part."""

from math import isclose

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.helpers.answers import RANK, answer, rank
from tests.helpers.counts import examples
from tests.helpers.full_jobs import full_jobs, published
from tests.helpers.jobs import gauged
from tiremap.assessment import Assessment
from tiremap.edits.change import changed
from tiremap.model.job import Checks, Finding, Job, RepairsLookedFor
from tiremap.rules.reasons import Reason

MANY = settings(max_examples=examples(40), deadline=None, suppress_health_check=list(HealthCheck))
FEW = settings(MANY, max_examples=examples(25))

CONDITION = [name for name in Checks.model_fields if name != "earlier_repairs"]


@MANY
@given(st.data(), st.sampled_from(published()), st.booleans())
def test_one_injury_more_is_never_answered_better(data, rule_set, unknowns):
    job = data.draw(full_jobs(rule_set, near=True, unknowns=unknowns, injuries=(2, 3)))
    fewer = changed(job, injuries=job.injuries[:-1])
    before, after = answer(fewer), answer(job)
    assert rank(after) <= rank(before)
    assert [each.answer for each in before.injuries] == [each.answer for each in after.injuries[:-1]]


@MANY
@given(st.data(), st.sampled_from(published()), st.booleans())
def test_one_earlier_repair_more_is_never_answered_better(data, rule_set, unknowns):
    job = data.draw(full_jobs(rule_set, near=True, unknowns=unknowns, repairs=(1, 3)))
    one_less = job.repairs[:-1]
    looked_for = RepairsLookedFor(state="all_marked" if one_less else "none")
    fewer = changed(job, repairs=one_less, checks=changed(job.checks, earlier_repairs=looked_for))
    assert rank(answer(job)) <= rank(answer(fewer))


def damaged(job: Job, damage: str) -> Job:
    """The job with one thing found wrong that was fine."""
    if damage in CONDITION:
        return changed(job, checks=changed(job.checks, **{damage: Finding(state="found")}))
    if damage == "cords_splayed":
        return changed(job, injuries=(changed(job.injuries[0], cords_splayed=True), *job.injuries[1:]))
    if damage in ("plug_only", "patch_only", "string"):
        return changed(job, repairs=(changed(job.repairs[0], kind=damage), *job.repairs[1:]))
    fields = {
        "deep cracks": {"crack_depth": gauged(3.0)}, "shallow cracks": {"crack_depth": gauged(1.0)},
        "joined cracks": {"cracks_joined": True}, "sealant": {"sealant_used": True},
    }
    return changed(job, tire=changed(job.tire, **fields[damage]))


DAMAGES = (
    *CONDITION, "cords_splayed", "plug_only", "patch_only", "string", "deep cracks", "shallow cracks", "joined cracks",
    "sealant",
)
SOMETIMES = ("shallow cracks", "sealant")
"""What a rule set may allow; every other damage refuses."""


@pytest.mark.parametrize("damage", DAMAGES)
@settings(max_examples=examples(4), deadline=None, suppress_health_check=list(HealthCheck))
@given(st.data(), st.sampled_from(published()))
def test_damage_is_never_answered_better_than_none(damage, data, rule_set):
    job = data.draw(full_jobs(rule_set, near=True, unknowns=False, repairs=(1, 2), crack_depth=None))
    before, after = answer(job), answer(damaged(job, damage))
    assert rank(after) <= rank(before)
    if damage not in SOMETIMES:
        assert after.answer == "not_repairable"


@FEW
@given(st.data(), st.sampled_from(published()), st.sampled_from(["fine", "found"]), st.booleans())
def test_cracks_found_are_never_answered_better_than_a_check_that_found_none(data, rule_set, state, joined):
    job = data.draw(full_jobs(rule_set, near=True, unknowns=False))
    job = changed(job, tire=changed(job.tire, cracks_joined=joined if state == "found" else None))
    found = changed(job, checks=changed(job.checks, cracks=Finding(state="found")))
    assert rank(answer(found)) <= rank(answer(job))


@MANY
@given(st.data(), st.sampled_from(published()), st.booleans())
def test_the_answer_is_that_of_the_worst_part(data, rule_set, unknowns):
    found = answer(data.draw(full_jobs(rule_set, near=True, unknowns=unknowns, injuries=(1, 3))))
    of_level = {"refuse": 0, "measure": 1, "caution": 2, "note": 2}

    def worst(reasons) -> int:
        return min([of_level[reason.level] for reason in reasons], default=2)

    injuries, pairs = found.injuries, found.pairs
    assert [RANK[injury.answer] for injury in injuries] == [worst(injury.reasons) for injury in injuries]
    of_parts = [worst(found.reasons), *(RANK[each.answer] for each in injuries), *(worst(p.reasons) for p in pairs)]
    assert rank(found) == min(of_parts)
    marks = len(injuries) + len(found.repairs)
    assert len(pairs) == marks * (marks - 1) // 2


def by_part(found: Assessment) -> dict[tuple[str, ...], list[Reason]]:
    """The reasons of each part by code, whichever of a pair comes first."""
    parts: dict[tuple[str, ...], list[Reason]] = {}
    for reason in sorted(found.all_reasons, key=lambda reason: (reason.code, reason.says)):
        parts.setdefault(tuple(sorted(reason.subject)), []).append(reason)
    return parts


def the_same(one: float | None, other: float | None) -> bool:
    return one is other or (one is not None and other is not None and isclose(one, other, abs_tol=1e-6))


@MANY
@given(st.data(), st.sampled_from(published()), st.randoms(use_true_random=False))
def test_the_order_of_marks_changes_no_answer_no_margin_and_no_pair(data, rule_set, random):
    job = data.draw(full_jobs(rule_set, injuries=(2, 3)))
    injuries, repairs = list(job.injuries), list(job.repairs)
    random.shuffle(injuries)
    random.shuffle(repairs)
    one, other = answer(job), answer(changed(job, injuries=tuple(injuries), repairs=tuple(repairs)))
    assert one.answer == other.answer
    assert {each.id: each.answer for each in one.injuries} == {each.id: each.answer for each in other.injuries}
    parts, others = by_part(one), by_part(other)
    assert parts.keys() == others.keys()
    for part in parts:
        for reason, same in zip(parts[part], others[part], strict=True):
            assert (reason.code, reason.level) == (same.code, same.level)
            for name in ("margin", "margin_low", "margin_high"):
                assert the_same(getattr(reason, name), getattr(same, name)), (part, reason.code, name)
    assert {frozenset((p.first, p.second)) for p in one.pairs} == {frozenset((p.first, p.second)) for p in other.pairs}
