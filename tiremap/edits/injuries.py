"""Placing, moving and measuring injuries. An injury has two ends: outside on the tread, inside on the liner."""

from typing import Any, Literal

from tiremap.edits.change import changed, made
from tiremap.edits.marks import mark_with_id, new_id, with_mark, without_mark
from tiremap.edits.places import confirmed_across, confirmed_around, moved_by_eye, nudged_by_eye
from tiremap.model.job import Injury, Job
from tiremap.model.measures import Across, Around, Lean

End = Literal["outside", "inside"]


def injury_with_id(job: Job, id: str) -> Injury:
    """The injury of that id. Raises `TiremapError` naming the ids there are."""
    return mark_with_id(job.injuries, id, "injury")


def place_injury(job: Job, across: Across | None = None, around: Around | None = None) -> Job:
    """A new injury entering the tread there; it stands last and has a new id. What is not given is unknown."""
    injury = made(Injury, id=new_id(job), outside=across, around=around)
    return changed(job, injuries=(*job.injuries, injury))


def set_injury(job: Job, id: str, **fields: Any) -> Job:
    """Set fields of an injury as they were measured; ``None`` makes a field unknown again."""
    return changed(job, injuries=with_mark(job.injuries, changed(injury_with_id(job, id), **fields)))


def move_injury(
    job: Job, id: str, across_mm: float | None = None, around_deg: float | None = None, end: End = "outside"
) -> Job:
    """Put an end of an injury there by eye; a coordinate not given stays as it was measured.

    ``across_mm`` from the center, + outboard; ``around_deg`` from the datum, clockwise seen from outboard.
    """
    return set_injury(job, id, **moved_by_eye(end, across_mm, around_deg))


def nudge_injury(
    job: Job,
    id: str,
    across_mm: float = 0,
    around_deg: float = 0,
    *,
    center_mm: float | None = None,
    angle_deg: float | None = None,
    end: End = "outside",
) -> Job:
    """Shift an end of an injury by that much; what is shifted is by eye from then on, the rest stays as measured.

    ``center_mm`` and ``angle_deg`` say where it lies now. They are needed for a place that is not kept from the
    center or not in degrees, since only the tire's dimensions can convert it; `ValueError` if missing then.
    """
    injury = injury_with_id(job, id)
    return set_injury(job, id, **nudged_by_eye(injury, end, across_mm, around_deg, center_mm, angle_deg))


def confirm_as_taped(job: Job, id: str) -> Job:
    """Take the places of an injury that were set by eye as measured where they stand."""
    injury = injury_with_id(job, id)
    return set_injury(
        job,
        id,
        outside=confirmed_across(injury.outside),
        inside=confirmed_across(injury.inside),
        around=confirmed_around(injury.around),
    )


def set_upright(job: Job, id: str) -> Job:
    """The probe stood upright: both leans are 0, with the tolerance of the probe."""
    upright = made(Lean, value=0.0, how="probe")
    return set_injury(job, id, lean_across=upright, lean_around=upright)


def remove_injury(job: Job, id: str) -> Job:
    """Take an injury off the tire."""
    return changed(job, injuries=without_mark(job.injuries, injury_with_id(job, id)))
