"""What the user does to a mark on the drawing or the table, as changes of the job. No Qt here.

Across is the tread coordinate in mm, + outboard; around is radians from the datum, or ``None`` where it stays.
"""

from tiremap.assessment import Assessment
from tiremap.edits.injuries import (
    confirm_as_taped,
    move_injury,
    nudge_injury,
    place_injury,
    remove_injury,
)
from tiremap.edits.places import across_by_eye, around_by_eye
from tiremap.edits.repairs import confirm_repair_as_taped, move_repair, nudge_repair, remove_repair
from tiremap.model.job import Injury, Job
from tiremap.model.units import degrees
from tiremap.ui.marks_columns import Mark, marks_of


def mark_in(job: Job, mark_id: str) -> Mark | None:
    """The injury or repair of that id, or ``None``."""
    return next((mark for mark in marks_of(job) if mark.id == mark_id), None)


def placed(job: Job, across_mm: float, around_rad: float | None) -> Job:
    """One more injury there, by eye."""
    around = None if around_rad is None else around_by_eye(degrees(around_rad))
    return place_injury(job, across_by_eye(across_mm), around)


def moved(job: Job, mark_id: str, across_mm: float, around_rad: float | None) -> Job:
    """The mark there, by eye."""
    around = None if around_rad is None else degrees(around_rad)
    if isinstance(mark_in(job, mark_id), Injury):
        return move_injury(job, mark_id, across_mm, around)
    return move_repair(job, mark_id, across_mm, around)


def nudged(job: Job, assessment: Assessment, mark_id: str, across_mm: float, around_deg: float) -> Job:
    """The mark shifted by so much from where it is drawn."""
    drawn = assessment.mark(mark_id)
    if drawn is None:
        return job
    angle = None if drawn.around is None else degrees(drawn.around)
    by = around_deg if angle is not None else 0.0  # a mark all the way around cannot be turned
    if isinstance(mark_in(job, mark_id), Injury):
        return nudge_injury(job, mark_id, across_mm, by, center_mm=drawn.outside, angle_deg=angle)
    return nudge_repair(job, mark_id, across_mm, by, center_mm=drawn.inside, angle_deg=angle)


def removed(job: Job, mark_id: str) -> Job:
    """The job without that mark."""
    return (remove_injury if isinstance(mark_in(job, mark_id), Injury) else remove_repair)(job, mark_id)


def confirmed(job: Job, mark_id: str) -> Job:
    """The place of a mark that was set by eye taken as measured where it stands."""
    return (confirm_as_taped if isinstance(mark_in(job, mark_id), Injury) else confirm_repair_as_taped)(job, mark_id)
