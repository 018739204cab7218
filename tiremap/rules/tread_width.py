"""Can the tread be as wide as it was measured? A slip of the tape must not widen a crown zone."""

from tiremap.rules.case import Case
from tiremap.rules.margins import Question, margin_of
from tiremap.rules.reasons import Reason, Settles
from tiremap.rules.weighing import LimitSays, reason_for

SOURCE = "derived: of 17 published sections none has a tread wider than its nominal section width"


def tread_width_possible(case: Case) -> list[Reason]:
    """To be measured again where the tread would be wider than the tire's nominal width. Margin: mm below it."""
    tread, nominal = case.facts.tread_width, case.facts.nominal_width
    question = Question((tread, nominal), lambda tread, nominal: nominal - tread, falls_with=frozenset({0}))
    margin = margin_of(question)
    if tread.stated is None or not margin.refuses(True):
        return []
    says = f"A tread of {tread.stated:g} mm does not fit a tire {nominal.stated:g} mm wide: tape the tread again."
    limit = LimitSays(nominal.stated, "mm", SOURCE)
    settles = Settles(tread.field, tread.words, "mm", at_most=nominal.stated)
    return [reason_for("tread_width", "measure", says, margin, limit, settles=settles)]
