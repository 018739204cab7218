"""Recording what was fitted: a mended injury becomes a repair on the tire's map, with date and unit, in one action."""

from datetime import datetime
from itertools import product
from math import inf

from tiremap.assessment import AssessedMark, Assessment
from tiremap.edits.change import changed
from tiremap.edits.marks import new_id, without_mark
from tiremap.errors import TiremapError
from tiremap.model.job import FittedUnit, Injury, Job, Repair, RepairsLookedFor, StepDone
from tiremap.model.measures import Across, Around, BeadToes, Length
from tiremap.model.stock import RepairUnit
from tiremap.model.units import degrees
from tiremap.repair_dimensions import repair_dimensions
from tiremap.rules.facts import TireFacts
from tiremap.rules.marks import MarkFacts
from tiremap.rules.reading import Reading

RECORD = "record"
"""The step that is done by it."""


def record_repair(assessment: Assessment, injury_id: str, at: datetime) -> Job:
    """The job with that injury as a repair where it comes out inside, head and unit as fitted at that moment.

    The injury is kept within the repair as it had been measured. Raises `TiremapError` where the tire is not
    repairable and no decision to repair it all the same was signed, or where unit or place are not known.
    """
    job, mark = assessment.job, assessment.mark(injury_id)
    if mark is None or mark.unit is None or mark.inside_place is None:
        raise TiremapError(
            f"Injury {injury_id} cannot be recorded as mended: its size or its place around is not known.",
            "Measure both, so that the next person finds the repair.",
        )
    if assessment.answer != "repairable" and not (job.decisions and job.decisions[-1].decision == "repair"):
        raise TiremapError(
            "A repair is recorded on a tire that is Repairable.",
            "Where it was decided otherwise, sign that decision first: it is kept and printed with the record.",
        )
    injury = next(each for each in job.injuries if each.id == injury_id)
    repair = _mended(assessment, mark, mark.unit, injury, at)
    looked_for = job.checks.earlier_repairs
    if looked_for is not None and looked_for.state == "none":
        looked_for = RepairsLookedFor(state="all_marked", together=looked_for.together)
    ticks = (*(each for each in job.steps_done if each.step != RECORD), StepDone(step=RECORD, at=at))
    return changed(
        job, injuries=without_mark(job.injuries, injury), repairs=(*job.repairs, repair), steps_done=ticks,
        checks=changed(job.checks, earlier_repairs=looked_for),
    )


def _mended(
    assessment: Assessment, mark: AssessedMark, unit: RepairUnit, injury: Injury, at: datetime
) -> Repair:
    facts = assessment.known_facts
    kind = next((each.kind for each in repair_dimensions(assessment) if each.injury == injury.id), None)
    return Repair(
        id=new_id(assessment.job, "R"), inside=_inside(mark.facts, injury, facts),
        around=_around(mark.facts, injury, facts),
        head_length=Length(value=unit.head_length_mm, how="exact"),
        head_width=None if unit.head_width_mm is None else Length(value=unit.head_width_mm, how="exact"),
        head_along=unit.head_along, kind="stem_and_head", date=at.date().isoformat(),
        fitted=FittedUnit(stem_mm=unit.stem_mm, made=kind), mended=injury,
    )


def _inside(mark: MarkFacts, injury: Injury, facts: TireFacts) -> Across | BeadToes:
    """Where the hole comes out: as measured there, else worked out from outside and lean, from the same origin.

    What is worked out carries a tolerance that holds whatever place, lean and thickness may be.
    """
    if injury.inside is not None:
        return injury.inside
    outside, lean, thickness = mark.outside_reading, mark.inside_reading, mark.thickness
    if injury.outside is None or outside.stated is None or lean.stated is None or _is_open(lean):
        raise TiremapError(
            f"Where injury {injury.id} comes out inside is not known.", "Measure it there, or outside and the lean."
        )
    width, origin = facts.drawn_tread_width, injury.outside.origin

    def from_origin(place: float, tangent: float, thick: float) -> float:
        s_in = mark.channel_ends(facts, width, place, tangent, thick)[1]
        return {"center": s_in, "outboard_edge": width / 2 - s_in, "inboard_edge": width / 2 + s_in}[origin]

    ends = [from_origin(*each) for each in product(_ends(outside), _ends(lean), _ends(thickness))]
    drawn = facts.drawn_thickness if thickness.stated is None else thickness.stated
    stated = from_origin(outside.stated, lean.stated, drawn)
    return Across(
        value=stated, origin=origin, how=injury.outside.how, minus=max(0.0, stated - min(ends)),
        plus=max(0.0, max(ends) - stated),
    )


def _around(mark: MarkFacts, injury: Injury, facts: TireFacts) -> Around:
    """The angle of the inside end, degrees from the datum, with a tolerance for place, lean around and thickness."""
    around, lean, thickness = mark.around, mark.lean_around, mark.thickness
    assert injury.around is not None and around.stated is not None  # refused above where nobody took it
    if _is_open(lean):  # no rule set asks for it beside a single hole, but the next hole's distance hangs on it
        raise TiremapError(
            f"How injury {injury.id} leans around the tire is not known, so neither is where its repair lies.",
            "Probe it; 0 degrees where it is upright.",
        )
    ends = [
        degrees(place + mark.around_shift(facts, thick, tangent))
        for place, tangent, thick in product(_ends(around), _ends(lean), _ends(thickness))
    ]
    stated = degrees(around.stated + mark.around_shift(facts, facts.drawn_thickness, lean.stated or 0.0))
    return Around(
        value=stated % 360, how=injury.around.how, minus=max(0.0, stated - min(ends)), plus=max(0.0, max(ends) - stated)
    )


def _ends(reading: Reading) -> tuple[float, float]:
    return reading.low, reading.high


def _is_open(reading: Reading) -> bool:
    return reading.stated is None or max(abs(reading.low), abs(reading.high)) == inf
