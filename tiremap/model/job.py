"""The job: one tire, what was found on it, and what was decided. This is what a job file holds."""

from collections import Counter
from datetime import datetime
from typing import Annotated, Final, Literal

from pydantic import AfterValidator, FailFast, Field, model_validator

from tiremap.model.after_repair import LeakCheck, Refit, UnitKind
from tiremap.model.measures import Across, Around, BeadToes, HoleSize, Lean, Length
from tiremap.model.record import Record

FORMAT: Final = "tiremap-job"
VERSION: Final = 1

TireClass = Literal["passenger", "light_truck", "truck", "temporary_spare"]
Answer = Literal["repairable", "measure_first", "not_repairable"]
Choice = Literal["repair", "do_not_repair", "measure"]
Built = Literal["standard", "self_supporting", "foam_lined", "sealant_lined"]
InjuryKind = Literal["puncture", "cut"]
RepairKind = Literal["stem_and_head", "plug_only", "patch_only", "string", "unknown"]
Side = Literal["known", "identification_number", "unknown"]

MOST_MARKS = 200
"""Injuries, and as many repairs, of one tire: far beyond any. Guards the program, as each is weighed against each."""
MOST_ENTRIES = 10_000
"""Decisions and steps ticked of one tire. Guards the program, decides nothing."""



def _that_prints(text: str) -> str:
    """An identity that can be seen. Raises `ValueError` for blanks alone and for signs that do not print."""
    if not text.strip() or not text.isprintable():
        raise ValueError("it is made of letters, digits and signs that print, such as 1 or R1")
    return text


Identity = Annotated[str, Field(min_length=1, max_length=40), AfterValidator(_that_prints)]


class TypedDimensions(Record):
    """Dimensions of a tire whose size code the program does not know, as measured or read from the maker's table."""

    overall_diameter_mm: Annotated[float, Field(ge=200, le=2500)]
    section_width_mm: Annotated[float, Field(ge=40, le=800)]
    rim_diameter_mm: Annotated[float, Field(ge=100, le=1600)]
    rim_width_in: Annotated[float, Field(ge=1, le=30)]


class MakerWord(Record):
    """A figure of the tire maker or repair-material maker that settles what a rule set leaves open, with its source."""

    source: Annotated[str, Field(min_length=1)]
    zone_inset: Length | None = None
    """How far the hole must stay inside the tread edge."""
    largest_prepared_size: Length | None = None
    head_past_tread_edge: bool = False


class Tire(Record):
    """What is known of the tire. A fresh one knows nothing; what was not entered is unknown, never a default."""

    size_code: str | None = None
    typed_dimensions: TypedDimensions | None = None
    tire_class: TireClass | None = None
    """Overrides the class read from the size code."""
    number: str | None = None
    date_code: str | None = None
    rim_width_in: Annotated[float, Field(ge=1, le=30)] | None = None
    tread_width: Length | None = None
    tread_depth: Length | None = None
    """The shallowest found, wherever that was."""
    tread_depth_outboard: Length | None = None
    """The shallowest in the outer eighth of the tread on the outboard side."""
    tread_depth_central: Length | None = None
    """The shallowest over the central three-quarters of the tread."""
    tread_depth_inboard: Length | None = None
    """The shallowest in the outer eighth of the tread on the inboard side."""
    between_outer_grooves: Length | None = None
    """Across the tread between the two outermost grooves, from inner wall to inner wall."""
    crack_depth: Length | None = None
    """Of the deepest weather crack."""
    cracks_joined: bool | None = None
    """Whether weather cracks run into each other."""
    under_grooves: Length | None = None
    belt_width: Length | None = None
    built: Built | None = None
    sealant_used: bool | None = None
    """Whether liquid sealant was put in to seal the hole."""
    axle: Literal["front", "rear"] | None = None
    datum: Literal["valve", "date_code"] | None = None
    outboard_by: Side = "unknown"
    maker_word: MakerWord | None = None


class Finding(Record):
    """One condition check answered. ``together`` marks an answer given with all the others at once."""

    state: Literal["fine", "found"]
    together: bool = False


class RepairsLookedFor(Record):
    """Whether the tire was searched for earlier repairs: there are none, or all that exist are marked."""

    state: Literal["none", "all_marked"]
    together: bool = False


class Checks(Record):
    """The condition checks; ``None`` is not looked at."""

    inspected: Finding | None = None
    run_flat_ring: Finding | None = None
    bead: Finding | None = None
    bulge: Finding | None = None
    cords: Finding | None = None
    cracks: Finding | None = None
    liner: Finding | None = None
    chemical: Finding | None = None
    inner_tube: Finding | None = None
    earlier_repairs: RepairsLookedFor | None = None


class Injury(Record):
    """A puncture or cut through the tread: where it enters, where it comes out inside, size, lean."""

    id: Identity
    outside: Across | None = None
    inside: Across | BeadToes | None = None
    around: Around | None = None
    lean_across: Lean | None = None
    lean_around: Lean | None = None
    size_outside: HoleSize | None = None
    size_inside: HoleSize | None = None
    size_prepared: Length | None = None
    """The cutter used to ream the hole; ``None`` until then, and the prepared size is foreseen."""
    kind: InjuryKind | None = None
    object: str = ""
    """What made the hole, as it was found."""
    cords_splayed: bool | None = None
    """Whether cords stand out of the hole, bare, broken or splayed; ``None`` is not looked at."""
    note: str = ""

    @model_validator(mode="after")
    def _a_cutter_has_a_size(self) -> "Injury":
        if self.size_prepared is not None and self.size_prepared.value <= 0:
            raise ValueError("size_prepared is the diameter of the cutter used, more than 0")
        return self


class FittedUnit(Record):
    """The repair unit that was fitted, as the stock had it."""

    stem_mm: Annotated[float, Field(gt=0, le=200)]
    made: UnitKind | None = None


class Repair(Record):
    """An earlier repair already in the tire, by the center of its head on the liner."""

    id: Identity
    inside: Across | BeadToes | None = None
    around: Around | None = None
    head_length: Length | None = None
    head_width: Length | None = None
    """``None`` for a round head: its diameter is ``head_length``."""
    head_along: Literal["around", "across"] = "around"
    kind: RepairKind = "unknown"
    date: str | None = None
    note: str = ""
    fitted: FittedUnit | None = None
    """The unit, where this program recorded the repair."""
    mended: Injury | None = None
    """The injury it mended, as it had been measured."""


class Decision(Record):
    """What was decided and when; never changed afterwards, only followed by another."""

    date: datetime
    rule_set: str
    answer: Answer
    decision: Choice
    by: str = ""
    """A number or initials, never a name."""
    note: str = ""

    @property
    def against_answer(self) -> bool:
        """Whether it is to repair what was not repairable when it was made; Measure first is not repairable yet."""
        return is_against(self.decision, self.answer)


class StepDone(Record):
    """One step of the repair that was ticked. At a stop the answer was renewed, and stands beside it."""

    step: Identity
    at: datetime
    answer: Answer | None = None
    seen: str = ""
    """Of a stop: what was found there, in short; where that changes the stop is asked again."""


class Job(Record):
    """One tire on the bench. Ids are unique over its injuries and repairs.

    Of a list only the first wrong entry is told: a hundred thousand of them would cost more memory than there is.
    """

    format: Literal["tiremap-job"] = FORMAT
    version: Literal[1] = VERSION
    job_number: str | None = None
    fleet_number: str | None = None
    date: str | None = None
    rule_set: str | None = None
    tire: Tire = Tire()
    checks: Checks = Checks()
    injuries: Annotated[tuple[Injury, ...], Field(max_length=MOST_MARKS), FailFast()] = ()
    repairs: Annotated[tuple[Repair, ...], Field(max_length=MOST_MARKS), FailFast()] = ()
    decisions: Annotated[tuple[Decision, ...], Field(max_length=MOST_ENTRIES), FailFast()] = ()
    steps_done: Annotated[tuple[StepDone, ...], Field(max_length=MOST_ENTRIES), FailFast()] = ()
    leak_check: LeakCheck | None = None
    refit: Refit | None = None
    note: str = ""

    @property
    def marks(self) -> "tuple[Injury | Repair, ...]":
        """Injuries first, then earlier repairs, in the order of the lists."""
        return (*self.injuries, *self.repairs)

    @model_validator(mode="after")
    def _ids_are_unique(self) -> "Job":
        often = Counter(mark.id for mark in self.marks)
        twice = sorted(each for each, times in often.items() if times > 1)
        if twice:
            raise ValueError(f"the id {twice[0]!r} is used twice; each injury and repair needs its own")
        return self


def is_against(decision: Choice, answer: Answer) -> bool:
    """Whether deciding so would be against the answer. To leave a repairable tire alone never is."""
    return decision == "repair" and answer != "repairable"
