"""The job a step of a lesson speaks of: the tire and its holes, measured as the step says."""

from tiremap.model.job import Checks, Finding, Injury, Job, RepairsLookedFor, Tire
from tiremap.model.lesson import Hole, LessonStep
from tiremap.model.measures import Across, Around, HoleSize, How, Lean, Length

GAUGE_STEP_MM = 0.5
"""From one gauge to the next in a lesson; decides nothing outside it."""


def lesson_job(step: LessonStep) -> Job:
    """The job of a step. What the step does not know is unknown in it, as at the bench."""
    return Job(
        rule_set=step.guidance,
        tire=Tire(
            size_code=step.size,
            tread_width=_length(step.tread_width_mm, step.tread_width_by),
            tread_depth=_length(step.tread_depth_mm, "gauge"),
            under_grooves=_length(step.under_grooves_mm, "gauge"),
            datum="valve",
            outboard_by="known",
        ),
        checks=_all_fine() if step.looked_over else Checks(),
        injuries=tuple(_injury(str(number), hole) for number, hole in enumerate(step.holes, 1)),
    )


def _length(value: float | None, how: How) -> Length | None:
    return None if value is None else Length(value=float(value), how=how)


def _injury(name: str, hole: Hole) -> Injury:
    return Injury(
        id=name,
        outside=Across(value=float(hole.from_center_mm), origin="center", how="tape"),
        around=_around(hole),
        lean_across=_lean(hole.lean_across_deg),
        lean_around=_lean(hole.lean_around_deg),
        size_outside=_size(hole.size_mm),
        size_inside=_size(hole.size_mm),
        kind=None if hole.size_mm is None else "puncture",
        cords_splayed=None if hole.size_mm is None else False,
    )


def _around(hole: Hole) -> Around | None:
    if hole.around_mm is not None:
        return Around(value=float(hole.around_mm), unit="mm", how="tape")
    return None if hole.around_deg is None else Around(value=float(hole.around_deg), how="protractor")


def _lean(value: float | None) -> Lean | None:
    return None if value is None else Lean(value=float(value), how="probe")


def _size(value: float | None) -> HoleSize | None:
    """By the gauges of the bench: that one enters, the next does not."""
    return None if value is None else HoleSize(value=float(value), stops=float(value) + GAUGE_STEP_MM, how="gauge")


def _all_fine() -> Checks:
    fine = Finding(state="fine", together=True)
    every = {name: fine for name in Checks.model_fields if name != "earlier_repairs"}
    return Checks(**every, earlier_repairs=RepairsLookedFor(state="none", together=True))
