"""A reason in lines of text: its sentence, its figures, its source with the grade. No Qt here."""

from tiremap.assessment import Assessment
from tiremap.model.measures import LengthUnit
from tiremap.model.rule_set import RuleSet, Sourced
from tiremap.rules.reasons import Reason
from tiremap.ui import wording


def figures(reason: Reason, unit: LengthUnit) -> str:
    """Value, limit and margin range, as far as they are known. Margins are rounded down, never to look larger."""
    if reason.margin_low is None and reason.margin_high is None and reason.limit is None:
        return ""
    parts = []
    if reason.value is not None:
        parts.append(f"value {_figure(reason.value, reason, unit)}")
    if reason.limit is not None:
        parts.append(f"limit {_figure(reason.limit, reason, unit)}{reason.measured and ' ' + reason.measured}")
    if reason.margin_low is None and reason.margin_high is None:
        return ", ".join(parts)
    low, high = _end(reason.margin_low, reason, unit), _end(reason.margin_high, reason, unit)
    stated = "" if reason.margin is None else f"{_margin(reason.margin, reason, unit)} "
    parts.append(f"margin {stated}({low} to {high})")
    return ", ".join(parts)


def source(reason: Reason, assessment: Assessment) -> str:
    """Where the limit comes from and how good that source is."""
    grade = grade_of(reason, assessment.rule_set)
    return f"{reason.source} [{grade}]" if grade else reason.source


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


def _margin(value: float, reason: Reason, unit: LengthUnit) -> str:
    if not _is_length(reason):
        return _figure(value, reason, unit)
    return wording.margin(value, unit)


def _end(value: float | None, reason: Reason, unit: LengthUnit) -> str:
    return "not bounded" if value is None else _margin(value, reason, unit)
