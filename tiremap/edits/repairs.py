"""Marking earlier repairs: each by the center of its head on the liner."""

from typing import Any

from tiremap.edits.change import changed, made
from tiremap.edits.marks import mark_with_id, new_id, with_mark, without_mark
from tiremap.edits.places import confirmed_across, confirmed_around, moved_by_eye, nudged_by_eye
from tiremap.model.job import Job, Repair
from tiremap.model.measures import Across, Around, BeadToes


def repair_with_id(job: Job, id: str) -> Repair:
    """The earlier repair of that id. Raises `TiremapError` naming the ids there are."""
    return mark_with_id(job.repairs, id, "repair")


def place_repair(job: Job, inside: Across | BeadToes | None = None, around: Around | None = None) -> Job:
    """Mark one more earlier repair, its head centered there; it stands last and has a new id.

    An answer "no earlier repairs" no longer holds then, and becomes not answered: the tire must be searched anew.
    """
    repair = made(Repair, id=new_id(job, "R"), inside=inside, around=around)
    looked_for = job.checks.earlier_repairs
    if looked_for is not None and looked_for.state == "none":
        looked_for = None
    return changed(
        job, repairs=(*job.repairs, repair), checks=changed(job.checks, earlier_repairs=looked_for)
    )


def set_repair(job: Job, id: str, **fields: Any) -> Job:
    """Set fields of an earlier repair as they were measured; ``None`` makes a measurement unknown again."""
    return changed(job, repairs=with_mark(job.repairs, changed(repair_with_id(job, id), **fields)))


def move_repair(job: Job, id: str, across_mm: float | None = None, around_deg: float | None = None) -> Job:
    """Put the head's center there by eye; a coordinate not given stays as it was measured.

    ``across_mm`` from the center, + outboard; ``around_deg`` from the datum, clockwise seen from outboard.
    """
    return set_repair(job, id, **moved_by_eye("inside", across_mm, around_deg))


def nudge_repair(
    job: Job,
    id: str,
    across_mm: float = 0,
    around_deg: float = 0,
    *,
    center_mm: float | None = None,
    angle_deg: float | None = None,
) -> Job:
    """Shift an earlier repair by that much; what is shifted is by eye from then on, the rest stays as measured.

    ``center_mm`` and ``angle_deg`` say where it lies now; needed as for `nudge_injury`.
    """
    repair = repair_with_id(job, id)
    return set_repair(job, id, **nudged_by_eye(repair, "inside", across_mm, around_deg, center_mm, angle_deg))


def confirm_repair_as_taped(job: Job, id: str) -> Job:
    """Take the place of an earlier repair that was set by eye as measured where it stands."""
    repair = repair_with_id(job, id)
    return set_repair(
        job, id, inside=confirmed_across(repair.inside), around=confirmed_around(repair.around)
    )


def remove_repair(job: Job, id: str) -> Job:
    """Take the mark of an earlier repair off the tire. Whether all are marked stays as answered."""
    return changed(job, repairs=without_mark(job.repairs, repair_with_id(job, id)))
