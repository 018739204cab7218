"""The steps of the work on one tire, with this job's dimensions in them, and which of them may be ticked.

The list follows the answer: of a refused tire it ends with why, of one to be measured first with what to measure. Once
the repair was recorded on the map it is whole again, for what is left to do.
"""

import hashlib
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Any

from tiremap.assessment import Assessment
from tiremap.model.after_repair import UnitKind
from tiremap.model.job import Job, StepDone
from tiremap.repair_dimensions import Range, RepairDimensions, repair_dimensions
from tiremap.resources import read_toml

REFUSED, MEASURE = "refused", "measure_first"
"""Ids of the steps that end the list of a tire that is not, or not yet, repaired."""
_UP_TO_REFUSAL, _UP_TO_MEASURING = "inspect", "measure"


@dataclass(frozen=True)
class Wait:
    """How long to wait, s: least, usual, greatest; for what, and on whose word."""

    least_s: int
    usual_s: int
    greatest_s: int
    what: str
    source: str


@dataclass(frozen=True)
class Step:
    """One step. ``details`` are this job's dimensions, a line for each injury; ``source`` is of the step as a whole."""

    id: str
    number: int
    title: str
    text: str
    details: tuple[str, ...]
    must_not: str
    cautions: tuple[str, ...]
    wait: Wait | None
    safety: bool
    stop: bool
    source: str

    @property
    def says(self) -> str:
        """All of it in one line."""
        parts = [f"{self.title}. {self.text}", *(f"{each}." for each in self.details), self.must_not, *self.cautions]
        return " ".join(filter(None, parts))

    def as_record(self) -> dict[str, Any]:
        """What the command line prints of a step."""
        wait = None if self.wait is None else self.wait.usual_s
        return {"number": self.number, "says": self.says, "wait_s": wait, "safety": self.safety}


def steps_of(assessment: Assessment) -> tuple[Step, ...]:
    """The steps for a job as it is answered."""
    fitted = repair_dimensions(assessment)
    recorded = _is_recorded(assessment.job)
    open_kind = any(each.kind is None for each in fitted)  # until the lean is probed either kind may be fitted
    kinds = {each.kind for each in fitted} | _recorded_kinds(assessment.job) | {None}
    last = None
    if assessment.answer != "repairable" and not recorded:
        usual = _UP_TO_REFUSAL if assessment.answer == "not_repairable" else _UP_TO_MEASURING
        last = _last_stop(assessment.job) or usual
    steps: list[Step] = []
    for entry in _entries():
        if entry.get("kind") in kinds or open_kind:
            steps.append(_step(entry, len(steps) + 1, fitted))
        if entry["id"] == last:
            break
    if assessment.answer != "repairable" and not recorded:
        steps.append(_end(assessment, len(steps) + 1))
    return tuple(steps)


def _is_recorded(job: Job) -> bool:
    """Whether every injury has become a repair on the map."""
    return not job.injuries and any(repair.mended is not None for repair in job.repairs)


def _recorded_kinds(job: Job) -> set[UnitKind | None]:
    """The kinds of unit that were fitted and recorded."""
    return {repair.fitted.made for repair in job.repairs if repair.fitted is not None and repair.mended is not None}


def _last_stop(job: Job) -> str | None:
    """The later of the two stops that was answered: where the answer turned there, nothing goes on beyond it."""
    answered = {each.step for each in job.steps_done}
    return next((each["id"] for each in reversed(_entries()) if each.get("stop") and each["id"] in answered), None)


@cache
def _entries() -> tuple[dict[str, Any], ...]:
    return tuple(read_toml("steps", "steps.toml")["steps"])


@cache
def step_titles() -> dict[str, str]:
    """The title of every step by its id, for lists of what was done."""
    return {entry["id"]: entry["title"] for entry in _entries()}


def _step(entry: dict[str, Any], number: int, fitted: tuple[RepairDimensions, ...]) -> Step:
    of_kind = [each for each in fitted if "kind" not in entry or each.kind in (None, entry["kind"])]
    detail = _DETAILS.get(entry.get("detail", ""))
    wait = None
    if "wait_s" in entry:
        least, usual, greatest = entry["wait_s"]
        wait = Wait(least, usual, greatest, entry["wait_for"], entry["wait_source"])
    return Step(
        id=entry["id"], number=number, title=entry["title"], text=entry["says"],
        details=() if detail is None else tuple(f"Injury {each.injury}: {detail(each)}" for each in of_kind),
        must_not=entry.get("must_not", ""), cautions=tuple(entry.get("cautions", ())), wait=wait,
        safety=entry.get("safety", False), stop=entry.get("stop", False),
        source=entry.get("source", read_toml("steps", "steps.toml")["source"]),
    )


def _end(assessment: Assessment, number: int) -> Step:
    """Why the work ends here."""
    if assessment.answer == "not_repairable":
        says = tuple(each.says.rstrip(".") for each in assessment.all_reasons if each.level == "refuse")
        text = "Do not repair it. Mark it as refused, and tell the customer why."
        id, title = REFUSED, "Not repairable"
    else:
        says = tuple(each.words for each in assessment.needed) or tuple(
            each.says.rstrip(".") for each in assessment.all_reasons if each.level == "measure"
        )
        text = "Do not go on before the answer is Repairable."
        id, title = MEASURE, "Measure first"
    return Step(
        id=id, number=number, title=title, text=text, details=says, must_not="", cautions=(), wait=None, safety=True,
        stop=False, source="the job's own answer",
    )


def _length(range_: Range | None, unit: str = "mm") -> str:
    """A dimension in words: one figure, or from least to greatest."""
    if range_ is None or (range_.high is None and range_.stated is None):
        return "not measured yet"
    if range_.high is None:
        return f"{range_.stated:g} {unit} or more"
    low, high = (f"{end:.2f}".rstrip("0").rstrip(".") for end in (range_.low or 0.0, range_.high))
    return f"{high} {unit}" if low == high else f"{low} to {high} {unit}"


def _cutter(of: RepairDimensions) -> str:
    if of.reamed:
        return f"reamed to {_length(of.cutter)}"
    return f"cutter {_length(of.cutter)}, foreseen: gauge again after each size"


def _outline(name: str, words: str) -> Callable[[RepairDimensions], str]:
    def said(of: RepairDimensions) -> str:
        outline = of.outline(name)
        if outline is None:
            return _no_unit(of)
        if outline.across == outline.around:
            return f"{words} {2 * outline.across:g} mm across"
        return f"{words} {2 * outline.across:g} mm across the tire by {2 * outline.around:g} mm around it"

    return said


def _no_unit(of: RepairDimensions) -> str:
    return "size not measured yet" if of.cutter.stated is None else "no unit in stock fits the hole"


def _unit(of: RepairDimensions) -> str:
    if of.unit is None:
        return _no_unit(of)
    at_least = "" if of.stem_at_least is None else f", stem at least {of.stem_at_least:.1f} mm long before it is cut"
    return f"stem {of.unit.stem_mm:g} mm, head {of.unit.head_length_mm:g} mm{at_least}. {of.orientation}".rstrip(". ")


def _stem(of: RepairDimensions) -> str:
    if of.channel.high is None:
        return "length of the channel not measured yet"
    return f"channel {_length(of.channel)} long, so the stem is longer than {_length(of.channel)}"


def _place(of: RepairDimensions) -> str:
    if of.from_outboard_edge is None:
        return "place not measured yet"
    around = "" if of.from_datum is None else f", {of.from_datum:.0f} mm around from the datum"
    return f"comes out {of.from_outboard_edge:.0f} mm from the outboard tread edge{around}"


_DETAILS: dict[str, Callable[[RepairDimensions], str]] = {
    "place": _place,
    "lean": lambda of: of.kind_why,
    "cutter": _cutter,
    "stem": _stem,
    "pre_cleaned": _outline("pre_cleaned", "clean"),
    "buffed": _outline("buffed", "buff"),
    "sealed": _outline("sealed", "seal"),
    "cement": lambda of: f"about {_length(of.cement_ml, 'ml')} of cement",
    "unit": _unit,
}


def what_was_seen(job: Job) -> str:
    """What a stop looked at, in short: equal while nothing of it was changed."""
    seen = [
        (each.id, each.size_outside, each.size_inside, each.size_prepared, each.lean_across, each.lean_around,
         each.outside, each.inside, each.cords_splayed)
        for each in job.injuries
    ]
    return hashlib.sha256(repr((seen, job.checks.liner, job.checks.cords)).encode()).hexdigest()[:12]


def done(job: Job, step: Step) -> StepDone | None:
    """The tick of a step; ``None`` where it has none, or, at a stop, where what was seen there has changed since."""
    ticked = next((each for each in reversed(job.steps_done) if each.step == step.id), None)
    if ticked is None or not step.stop or not job.injuries:
        return ticked
    return ticked if ticked.seen == what_was_seen(job) else None


def held_back_by(job: Job, steps: tuple[Step, ...], step: Step) -> Step | None:
    """The earlier step that must be done before this one for safety's sake, or ``None``."""
    for earlier in steps:
        if earlier.id == step.id:
            return None
        if earlier.safety and done(job, earlier) is None:
            return earlier
    return None
