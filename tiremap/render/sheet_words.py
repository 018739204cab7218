"""What a job sheet says, as plain lines: the tire, each reason with its figures, what is left to measure."""

from dataclasses import dataclass, replace
from math import inf
from textwrap import shorten

from tiremap.assessment import Assessment
from tiremap.drawing.bench_order import to_be_measured
from tiremap.drawing.decision_words import decision_said, overtaken_said
from tiremap.drawing.said import said_in
from tiremap.drawing.wording import Unit, figure, length, rounded_down
from tiremap.edits.decisions import overtaken_decision
from tiremap.model.job import Answer, Injury
from tiremap.model.rule_set_titles import shown_title
from tiremap.rules.facts import TireFacts
from tiremap.rules.reasons import Level, Reason

LEVEL_WORDS: dict[Level, str] = {"refuse": "Refused", "measure": "Measure", "caution": "Caution", "note": "Note"}
REASONS_TITLE: dict[Answer, str] = {
    "repairable": "Why it may be repaired", "measure_first": "Why it must be measured first",
    "not_repairable": "Why this tire is not repaired",
}
PASSED_TITLE = "Cautions, and checks passed"

CLOSEST_PAIRS = 3
"""How many pairs that pass a check are printed each by itself."""

OBJECT_LENGTH = 40
"""How many letters of what made a hole are printed."""


@dataclass(frozen=True)
class ReasonLines:
    """A reason as it is printed: its level, its sentence, its figures (may be empty) and its source."""

    level: Level
    says: str
    figures: str
    source: str


def job_line(assessment: Assessment) -> str:
    """Job number, fleet number and date, each only if given."""
    job = assessment.job
    parts = [f"Job {job.job_number}" if job.job_number else "Job number not given"]
    parts += [f"Fleet {job.fleet_number}"] if job.fleet_number else []
    parts += [job.date] if job.date else []
    return " · ".join(parts)


def tire_line(assessment: Assessment, unit: Unit) -> str:
    """The tire: size, numbers on it, tread width and depth, and whether they were measured."""
    tire, facts = assessment.job.tire, assessment.facts
    if facts is None:
        return "Tire: size unknown"
    dimensions = facts.dimensions
    typed = f"{dimensions.overall_diameter_mm:g} × {dimensions.section_width_mm:g} mm (typed)"
    parts = [f"Tire {tire.size_code or typed}"]
    parts += [f"number {tire.number}"] if tire.number else []
    parts += [f"date code {tire.date_code}"] if tire.date_code else []
    if facts.tread_width.stated is None:
        ends = f"{figure(facts.tread_width.low, unit)} to {length(facts.tread_width.high, unit)}"
        parts.append(f"tread width not measured ({ends})")
    else:
        parts.append(f"tread width {length(facts.tread_width.stated, unit)}")
    parts.append(_depths(facts, unit))
    if facts.between_outer_grooves.stated is not None:
        parts.append(f"between outer grooves {length(facts.between_outer_grooves.stated, unit)}")
    return " · ".join(parts)


def _depths(facts: TireFacts, unit: Unit) -> str:
    """The tread depths that were measured, each with its place."""
    depths = facts.depths
    places = zip(("", "outboard ", "central ", "inboard "), (depths.shallowest, *depths.places), strict=True)
    measured = [f"{place}{length(depth.stated, unit)}" for place, depth in places if depth.stated is not None]
    return f"tread depth {', '.join(measured) or 'not measured'}"


def rules_lines(assessment: Assessment) -> list[str]:
    """The rule set, who issued it and who has the last word."""
    rules = assessment.rule_set
    if rules is None:
        chosen = assessment.job.rule_set
        return ["No rule set chosen." if chosen is None else f"The rule set {chosen} cannot be read: no answer by it."]
    return [f"Rule set: {shown_title(rules)}. {rules.issuer}", rules.deciding]


def decision_lines(assessment: Assessment) -> list[str]:
    """The last decision, named so if it was against the answer; and whether the answer is another since."""
    if not assessment.job.decisions:
        return []
    overtaken = overtaken_decision(assessment)
    lines = [decision_said(assessment.job.decisions[-1])]
    return lines if overtaken is None else [*lines, overtaken_said(overtaken)]


def reason_lines(reason: Reason, unit: Unit) -> ReasonLines:
    """A reason in words and figures."""
    return ReasonLines(reason.level, said_in(reason.says, unit), _figures(reason, unit), f"Source: {reason.source}")


def _figures(reason: Reason, unit: Unit) -> str:
    parts = []
    if reason.value is not None:
        parts.append(f"value {_quantity(reason.value, reason.unit, unit)}")
    if reason.limit is not None:
        parts.append(f"limit {_quantity(reason.limit, reason.unit, unit, exact=True)}")
    plain = reason.unit.split()[0] if reason.unit else None
    ends = [None if each is None else _margin(each, plain, unit) for each in (reason.margin_low, reason.margin_high)]
    if reason.margin is not None or any(ends):
        stated = "not known" if reason.margin is None else _margin(reason.margin, plain, unit)
        bounds = ", ".join(f"{end} at {way}" for end, way in zip(ends, ("worst", "best"), strict=True) if end)
        parts.append(f"margin {stated} ({bounds})" if bounds else f"margin {stated}")
    return " · ".join(parts)


def _margin(value: float, quantity: str | None, unit: Unit) -> str:
    return _quantity(rounded_down(value, unit) if quantity == "mm" else value, quantity, unit)


def _quantity(value: float, quantity: str | None, unit: Unit, exact: bool = False) -> str:
    """A figure in its own unit; millimeters in the one asked for, with what follows them kept.

    ``exact`` writes all digits of a millimeter figure that a source gives.
    """
    first, _, rest = (quantity or "").partition(" ")
    if first == "mm" and exact and unit == "mm":
        return f"{value:g} {quantity}"
    if first == "mm":
        return f"{length(value, unit)} {rest}".strip()
    return f"{value:.1f}".removesuffix(".0") + (f" {quantity}" if quantity else "")


def printed_reasons(assessment: Assessment) -> list[Reason]:
    """The reasons to print, in order of weight: of many pairs that pass the same check only the closest few."""
    printed: list[Reason] = []
    passed: dict[str, list[Reason]] = {}
    for reason in assessment.all_reasons:
        if reason.level == "note" and len(reason.subject) == 2:
            passed.setdefault(reason.code, []).append(reason)
        else:
            printed.append(reason)
    for pairs in passed.values():
        pairs.sort(key=lambda reason: -inf if reason.margin_low is None else reason.margin_low)
        printed += pairs if len(pairs) <= CLOSEST_PAIRS + 1 else [*pairs[:CLOSEST_PAIRS], _rest(pairs)]
    return printed


def _rest(pairs: list[Reason]) -> Reason:
    first = pairs[CLOSEST_PAIRS]
    says = f"{len(pairs) - CLOSEST_PAIRS} other pairs pass the same check with more margin than these."
    return replace(first, says=says, value=None, margin=None, margin_high=None)


def to_measure(assessment: Assessment) -> list[str]:
    """What is still to measure in bench order, each as a line; nothing where it is refused."""
    return [f"{each.words[0].upper()}{each.words[1:]}" for each in to_be_measured(assessment)]


def holes_line(assessment: Assessment) -> str | None:
    """What each hole is, as far as it was entered: kind, object, cords; ``None`` where nothing was."""
    described = [(injury.id, _hole(injury)) for injury in assessment.job.injuries]
    said = [f"injury {id}: {words}" for id, words in described if words]
    return f"Found at {'; '.join(said)}." if said else None


def _hole(injury: Injury) -> str:
    made_by = shorten(injury.object, OBJECT_LENGTH, placeholder="…")
    cords = {None: "", True: "cords splayed", False: "no cords splayed"}[injury.cords_splayed]
    return ", ".join(each for each in (injury.kind or "", made_by, cords) if each)
