"""A reason in lines of text: its sentence, its figures, its source with the grade. No Qt here."""

from tiremap.assessment import Assessment
from tiremap.drawing.bench_order import to_be_measured
from tiremap.drawing.said import said_in
from tiremap.model.measures import LengthUnit
from tiremap.model.rule_set import RuleSet, Sourced
from tiremap.rules.reasons import Reason
from tiremap.rules.turning import past_words
from tiremap.ui import wording
from tiremap.ui.bench_order import next_field
from tiremap.ui.language import tr


def says(reason: Reason, unit: LengthUnit) -> str:
    """The sentence, its lengths in the unit shown and its first letter large."""
    said = said_in(reason.says, unit)
    return f"{said[:1].upper()}{said[1:]}"


def next_step(assessment: Assessment, unit: LengthUnit) -> str:
    """The one measurement to take next; of a refusal how far past the limit it is. Empty where all is passed."""
    reasons = assessment.all_reasons
    if assessment.answer == "repairable" or not reasons:
        return ""
    if assessment.answer == "not_repairable":
        return said_in(_refusal(reasons[0], assessment), unit)
    words = {each.field: each.words for each in to_be_measured(assessment)}
    asking = [each for each in reasons if each.level == "measure" and each.settles is not None]
    field = next_field(assessment)
    advised = (each.advice for each in asking if each.settles.field == field and each.advice)
    step = next(advised, "") or (f"{words[field]}." if field in words else reasons[0].says)
    return tr("Next: {step}", step=said_in(step[:1].lower() + step[1:], unit))


def least_margin(assessment: Assessment, unit: LengthUnit) -> str:
    """The least margin of all injuries and where; empty where none is known."""
    known = [(injury.margin_mm, injury.id) for injury in assessment.injuries if injury.margin_mm is not None]
    if not known:
        return ""
    margin, injury_id = min(known)
    return tr("Least margin: {margin} at injury {id}", margin=wording.margin(margin, unit), id=injury_id)


def _refusal(decides: Reason, assessment: Assessment) -> str:
    """What decides a refusal: at which mark and how far past its limit, or what was found."""
    past = past_words(decides)
    if not past:
        return decides.says
    at = tr(" and ").join(mark.facts.title for mark in map(assessment.mark, decides.subject) if mark is not None)
    if not at:
        return tr("{past}; no measurement changes it.", past=past)
    where, what = f"{at[0].upper()}{at[1:]}", f"{past[0].lower()}{past[1:]}"
    return tr("{where}: {what}; no measurement changes it.", where=where, what=what)


def figures(reason: Reason, unit: LengthUnit) -> str:
    """Value, limit and margin range, as far as they are known. Margins are rounded down, never to look larger."""
    if reason.margin_low is None and reason.margin_high is None and reason.limit is None:
        return ""
    parts = []
    if reason.value is not None:
        parts.append(tr("value {value}", value=_figure(reason.value, reason, unit)))
    if reason.limit is not None:
        limit = " ".join(filter(None, (_figure(reason.limit, reason, unit), reason.measured)))
        parts.append(tr("limit {limit}", limit=limit))
    if reason.margin_low is None and reason.margin_high is None:
        return ", ".join(parts)
    stated = "" if reason.margin is None else margin_as(reason.margin, reason, unit)
    ends = margin_ends(reason, unit)
    if reason.margin_low == reason.margin_high:  # a count, or every reading exact
        parts.append(tr("margin {margin}", margin=stated or ends))
    elif stated:
        parts.append(tr("margin {stated} ({ends})", stated=stated, ends=ends))
    else:
        parts.append(tr("margin {ends}", ends=ends))
    return ", ".join(parts)


def margin_ends(reason: Reason, unit: LengthUnit) -> str:
    """The margin from least to greatest; one end alone where there is no bound to the other, one figure if it is one.

    Of at least one end a bound is known.
    """
    low, high = (None if each is None else margin_as(each, reason, unit)
                 for each in (reason.margin_low, reason.margin_high))
    if low is None:
        return tr("{high} at best", high=high)
    if high is None:
        return tr("{low} at worst", low=low)
    return low if low == high else tr("{low} to {high}", low=low, high=high)


def source(reason: Reason, assessment: Assessment) -> str:
    """Where the limit comes from and how good that source is."""
    grade = grade_of(reason, assessment.rule_set)
    said_already = reason.source.startswith(grade)
    return reason.source if said_already else f"{reason.source} [{grade}]"


def grade_of(reason: Reason, rule_set: RuleSet | None) -> str:
    """The grade of the limit a reason rests on; empty where its source is no limit of the rule set."""
    if rule_set is None:
        return ""
    for _, limits in rule_set:
        for limit in limits if isinstance(limits, tuple) else ():
            if isinstance(limit, Sourced) and limit.source == reason.source:
                return limit.grade
    return ""


def _is_length(reason: Reason) -> bool:
    return reason.unit == "mm"


def _figure(value: float, reason: Reason, unit: LengthUnit) -> str:
    if _is_length(reason):
        return wording.mm_as(value, unit)
    return f"{wording.number(value)} {reason.unit or ''}".strip()


def margin_as(value: float, reason: Reason, unit: LengthUnit) -> str:
    """A margin in the unit shown, rounded down, or in the reason's own unit."""
    if not _is_length(reason):
        return _figure(value, reason, unit)
    return wording.margin(value, unit)
