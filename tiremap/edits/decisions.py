"""What was decided, line after line: a decision is added and never changed or taken back."""

from tiremap.edits.change import changed
from tiremap.model.job import Decision, Job


def record_decision(job: Job, decision: Decision) -> Job:
    """The job with one more decision, after those already made."""
    return changed(job, decisions=(*job.decisions, decision))
