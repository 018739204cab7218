"""Answers as laws compare them. Order: not repairable < measure first < repairable."""

from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.model.job import Job
from tiremap.model.rule_set import RuleSet
from tiremap.rules.reasons import Reason

RANK = {"not_repairable": 0, "measure_first": 1, "repairable": 2}


def answer(job: Job, rule_set: RuleSet | None = None) -> Assessment:
    """The assessment without advice, which changes no answer."""
    return assess(job, rule_set, advise=False)


def rank(assessment: Assessment) -> int:
    return RANK[assessment.answer]


def weighed(assessment: Assessment) -> list[Reason]:
    """Every reason of a job, in the order of its parts."""
    parts = list(assessment.reasons)
    for injury in assessment.injuries:
        parts += sorted(injury.reasons, key=lambda reason: reason.code)
    for pair in assessment.pairs:
        parts += sorted(pair.reasons, key=lambda reason: reason.code)
    return parts


def on_a_limit(assessment: Assessment) -> bool:
    """Whether some margin stands within a hair of zero, where a last digit may turn the answer."""
    ends = [end for reason in weighed(assessment) for end in (reason.margin_low, reason.margin_high) if end is not None]
    return any(abs(end) < 1e-4 for end in ends)


def measured_twice_and_disagrees(job: Job) -> bool:
    """Whether the job is asked to measure again because two measurements cannot both be true.

    These are the two ends and the lean of a hole, and a tread wider than the tire.
    """
    return any(reason.code in ("ends_disagree", "tread_width") for reason in answer(job).all_reasons)
