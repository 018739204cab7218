"""What is entered of the wheel's refit, and that it was tightened."""

from datetime import datetime
from typing import Any

from tiremap.edits.change import changed
from tiremap.errors import TiremapError
from tiremap.model.after_repair import Refit
from tiremap.model.job import Job
from tiremap.workshop.preload import checked_class
from tiremap.workshop.thread import read_thread

_TIGHTENED_BY = ("nuts", "torque")
"""Fields that, changed afterwards, make the tightening one that was done by another figure."""


def set_refit(job: Job, **fields: Any) -> Job:
    """Set fields of the refit; an emptied text is unknown. A changed torque or number of nuts is not tightened yet.

    Raises `TiremapError` for a thread or property class that is not known.
    """
    if isinstance(fields.get("thread"), str):
        fields["thread"] = read_thread(fields["thread"]).name if fields["thread"].strip() else None
    if isinstance(fields.get("stud_class"), str):
        fields["stud_class"] = checked_class(fields["stud_class"]) if fields["stud_class"].strip() else None
    before = job.refit or Refit()
    after = changed(before, **fields)
    if any(getattr(before, name) != getattr(after, name) for name in _TIGHTENED_BY):
        after = changed(after, tightened=None)
    return changed(job, refit=None if after == Refit() else after)


def tighten(job: Job, at: datetime) -> Job:
    """Keep that the wheel was tightened at that time, by the vehicle's figure.

    Raises `TiremapError` where there is none, or the number of nuts is unknown.
    """
    refit = job.refit or Refit()
    if refit.nuts is None or refit.torque is None:
        missing = "number of nuts" if refit.nuts is None else "vehicle's own torque"
        raise TiremapError(
            f"The {missing} is not entered, so nobody could tell later what the wheel was tightened by.",
            f"Enter the {missing} first.",
        )
    return changed(job, refit=changed(refit, tightened=at))


def take_tightening_back(job: Job) -> Job:
    """The wheel is not tightened yet."""
    return job if job.refit is None else set_refit(job, tightened=None)
