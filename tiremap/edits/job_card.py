"""What stands at the head of the job: its numbers, date, note, and the rule set it is answered by."""

from typing import Any

from tiremap.edits.change import changed
from tiremap.edits.tire import entered
from tiremap.model.job import Job
from tiremap.model.rule_set_file import rule_set_named

_ON_THE_CARD = {"job_number", "fleet_number", "date"}


def set_job_card(job: Job, **fields: str | None) -> Job:
    """Set ``job_number``, ``fleet_number`` or ``date``; empty text is unknown. `TypeError` for any other field."""
    others: list[Any] = sorted(fields.keys() - _ON_THE_CARD)
    if others:
        raise TypeError(f"{others[0]} does not stand on the job card")
    return changed(job, **{name: entered(value) for name, value in fields.items()})


def set_note(job: Job, note: str) -> Job:
    """The note on the whole job, kept as it was written."""
    return changed(job, note=note)


def choose_rule_set(job: Job, name: str | None) -> Job:
    """Answer the job by the rule set of that name. Raises `TiremapError` listing the names there are."""
    if name is not None:
        rule_set_named(name)
    return changed(job, rule_set=name)
