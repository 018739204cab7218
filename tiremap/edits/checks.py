"""Answering the condition checks. A check not answered is not looked at, and that is never taken as fine."""

from typing import Literal

from tiremap.edits.change import changed, made
from tiremap.errors import TiremapError
from tiremap.model.job import Checks, Finding, Job, RepairsLookedFor

FINDINGS = tuple(name for name in Checks.model_fields if name != "earlier_repairs")
"""The checks answered by fine or found, by field name."""


def set_check(job: Job, check: str, state: Literal["fine", "found"] | None) -> Job:
    """Answer one check by itself; ``check`` is one of `FINDINGS`, ``None`` is not looked at."""
    finding = None if state is None else made(Finding, state=state)
    return _with(job, changed(job.checks, **{check: finding}))


def set_inspected(job: Job, state: Literal["fine", "found"] | None) -> Job:
    """Whether the tire was inspected inside and out, off the rim, and what came of it."""
    return set_check(job, "inspected", state)


def set_earlier_repairs(job: Job, state: Literal["none", "all_marked"] | None) -> Job:
    """Whether earlier repairs were looked for. Raises `TiremapError` for "none" while some are marked."""
    if state == "none" and job.repairs:
        raise TiremapError(
            f"There cannot be no earlier repairs: {len(job.repairs)} are marked on this tire.",
            'Take the marks off first, or answer "all marked".',
        )
    looked_for = None if state is None else made(RepairsLookedFor, state=state)
    return _with(job, changed(job.checks, earlier_repairs=looked_for))


def nothing_found(job: Job) -> Job:
    """Looked at inside and out, off the rim, nothing found: every check not yet answered is answered together.

    Single answers stay as they are. Earlier repairs become "all marked" if some are marked, else "none".
    """
    answers: dict[str, Finding | RepairsLookedFor] = {
        name: made(Finding, state="fine", together=True) for name in FINDINGS
    }
    answers["earlier_repairs"] = made(
        RepairsLookedFor, state="all_marked" if job.repairs else "none", together=True
    )
    open_ones = {name: answer for name, answer in answers.items() if getattr(job.checks, name) is None}
    return _with(job, changed(job.checks, **open_ones))


def _with(job: Job, checks: Checks) -> Job:
    return changed(job, checks=checks)
