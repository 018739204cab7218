"""The reason the user looks at, and what its dimension line says."""

from tiremap.assessment import Assessment
from tiremap.drawing.scene import View
from tiremap.drawing.wording import length, span
from tiremap.rules.reasons import Reason


def shown_reason(assessment: Assessment, view: View) -> Reason | None:
    """The reason named by the view, or ``None``."""
    if view.shown_reason is None:
        return None
    code, subject = view.shown_reason
    return next((each for each in assessment.all_reasons if each.code == code and each.subject == tuple(subject)), None)


def margin_words(reason: Reason, view: View) -> str:
    """The margin as stated, inside or beyond its limit; its range where something was never entered."""
    low, high = reason.margin_low, reason.margin_high
    if reason.margin is None and low is not None and high is not None and high < 0:
        return f"{span(-high, -low, view.unit)} beyond"
    if reason.margin is None:
        return span(low, high, view.unit)
    return f"{length(abs(reason.margin), view.unit)} {'inside' if reason.margin >= 0 else 'beyond'}"
