"""What was decided, line after line: a decision is added and never changed or taken back."""

from datetime import datetime

from tiremap.assessment import Assessment
from tiremap.edits.change import changed, made
from tiremap.errors import TiremapError
from tiremap.model.job import Choice, Decision, Job

LONGEST_SIGN = 12
"""Letters of a number or initials: enough for any badge, too short for most names."""


def record_decision(job: Job, decision: Decision) -> Job:
    """The job with one more decision, after those already made."""
    return changed(job, decisions=(*job.decisions, decision))


def sign(job: Job, assessment: Assessment, decision: Choice, at: datetime, by: str, note: str = "") -> Job:
    """The job with a decision signed by number or initials, under the rule set and answer of its assessment.

    A job without a rule set is signed under the name ``""``. Raises `TiremapError` for a sign that is missing or too
    long to be a number or initials.
    """
    by = by.strip()
    if not by:
        raise TiremapError("It is not signed.", "Enter your number or initials, such as 12 or KM.")
    if len(by) > LONGEST_SIGN:
        raise TiremapError(f"{by!r} is too long to sign with.", "Enter your number or initials, such as 12 or KM.")
    rule_set = "" if assessment.rule_set is None else assessment.rule_set.name
    answer, note = assessment.answer, note.strip()
    signed = made(Decision, date=at, rule_set=rule_set, answer=answer, decision=decision, by=by, note=note)
    return record_decision(job, signed)


def overtaken_decision(assessment: Assessment) -> Decision | None:
    """The last decision where the answer is another now than when it was signed; else ``None``."""
    last = assessment.job.decisions[-1] if assessment.job.decisions else None
    return last if last is not None and last.answer != assessment.answer else None
