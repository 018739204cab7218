"""The reason the user looks at, and what its dimension line says."""

from dataclasses import replace
from math import isinf

from tiremap.assessment import Assessment
from tiremap.drawing.said import said_in
from tiremap.drawing.scene import View
from tiremap.drawing.wording import length, rounded_down, span
from tiremap.rules.reasons import Reason


def shown_reason(assessment: Assessment, view: View) -> Reason | None:
    """The reason named by the view, or ``None``."""
    if view.shown_reason is None:
        return None
    code, subject = view.shown_reason
    return next((each for each in assessment.all_reasons if each.code == code and each.subject == tuple(subject)), None)


def margin_words(reason: Reason, view: View) -> str:
    """The margin as stated, inside or beyond its limit; its range where something was never entered. Rounded down."""
    low, high, margin = (None if each is None or isinf(each) else rounded_down(each, view.unit)
                         for each in (reason.margin_low, reason.margin_high, reason.margin))
    if margin is not None:
        return _past(margin, view)
    if low is None:
        return "margin not measured" if high is None else f"{_past(high, view)} at best"
    if high is None:
        return f"{_past(low, view)} at worst"
    if high < 0:
        return f"{span(-high, -low, view.unit)} beyond"
    return f"margin {span(low, high, view.unit)}"


def _past(margin: float, view: View) -> str:
    return f"{length(abs(margin), view.unit)} {'inside' if margin >= 0 else 'beyond'}"


def told_to_a_class(reason: Reason, view: View) -> str:
    """The reason in its sentence and, where it has one in mm, its margin: short enough for the last row.

    Of what must be measured first the margin is told from least to greatest: one figure would look sure.
    """
    says = said_in(reason.says, view.unit)
    told = f"{says[:1].upper()}{says[1:]}"
    if reason.unit != "mm" or (reason.margin_low is None and reason.margin_high is None):
        return told
    unsure = reason.level == "measure"
    margin = margin_words(replace(reason, margin=None) if unsure else reason, view)
    return f"{told} {margin[:1].upper()}{margin[1:]}."


def first_told(assessment: Assessment, chosen: str | None, code: str | None = None) -> int:
    """Which of the reasons a class is told first: the one asked for by its code; of what may be repaired where the
    chosen hole lies, which is what the class looks at; else the one that weighs most.
    """
    reasons = assessment.all_reasons
    if code is None and assessment.answer == "repairable":
        code = "place"
    wanted = [at for at, reason in enumerate(reasons) if reason.code == code]
    its = [at for at in wanted if chosen is None or chosen in reasons[at].subject]
    return (its or wanted or [0])[0]
