"""Is the hole small enough?

Where a source says which size it means (the prepared one), that size is held to the limit. Where it does not, the
hole outside and inside are held to it, and a prepared size beyond it is to be measured first: nobody knows whether
the limit meant the hole or the reamed hole.
"""

from tiremap.model.rule_set import LargestInjury, for_class
from tiremap.rules.case import Case
from tiremap.rules.margins import Margin, Question
from tiremap.rules.marks import MarkFacts
from tiremap.rules.reading import UNBOUNDED, Reading, unknown
from tiremap.rules.reasons import Reason, Settles
from tiremap.rules.weighing import LimitSays, Words, reason_for, weigh


def hole_size(case: Case, injury: MarkFacts) -> list[Reason]:
    """Size against the rule set's largest injury. Margin: mm below the limit."""
    limit = for_class(case.rule_set.largest_injuries, case.tire_class)
    assert limit is not None  # every class a set speaks of has one
    reasons = _prepared_size(injury, limit) if limit.holds_for == "prepared" else _hole(case, injury, limit)
    return [*reasons, *_no_unit(injury, reasons), *_size_again(injury, reasons)]


def _prepared_size(injury: MarkFacts, limit: LargestInjury) -> list[Reason]:
    prepared = injury.prepared
    if prepared is None or not (prepared.foreseen and prepared.low < prepared.high < UNBOUNDED):
        return [_weighed("hole_size", injury, injury.channel, limit, "prepared")]
    cutters = f" It takes the {prepared.low:g} or the {prepared.high:g} mm cutter."
    return [_weighed("hole_size", injury, injury.channel, limit, "prepared", cutters, _up_to_the_smaller(injury))]


def _up_to_the_smaller(injury: MarkFacts) -> Settles:
    """What chooses between two cutters: the hole itself, up to the smaller one."""
    cutter = injury.prepared.low
    stated = max(hole.stated for hole in (injury.hole_outside, injury.hole_inside) if hole is not None)
    tolerance = round(cutter - stated, 6) if stated < cutter else None
    return Settles(injury.channel.field, injury.channel.words, "mm", at_most=cutter, tolerance=tolerance)


def _hole(case: Case, injury: MarkFacts, limit: LargestInjury) -> list[Reason]:
    holes = [hole for hole in (injury.hole_outside, injury.hole_inside) if hole is not None]
    if not holes:
        field = f"injury.{injury.id}.size_outside"
        holes = [unknown(field, f"the size of {injury.title}", 0.0, UNBOUNDED)]
    reasons = [_weighed("hole_size", injury, hole, limit) for hole in holes]
    levels = {reason.level for reason in reasons}
    if levels == {"note"}:
        reasons += _prepared_beyond(case, injury, limit)
    return reasons


def _weighed(
    code: str, injury: MarkFacts, size: Reading, limit: LargestInjury, which: str = "", more: str = "",
    settles: Settles | None = None,
) -> Reason:
    title = injury.title.capitalize()
    side = "inside" if size.field.endswith("size_inside") else ""
    named = " ".join(word for word in (which, side) if word)
    named = f" ({named})" if named else ""
    most = f"{limit.value:g} mm" if limit.operator == "<=" else f"less than {limit.value:g} mm"
    words = Words(
        f"{title} is small enough{named}: at most {most}.",
        f"{title} is too large{named}: at most {most}.",
        f"{title} may be too large{named}: at most {most}.{more}",
    )
    says = LimitSays(limit.value, "mm", limit.source, inclusive=limit.operator == "<=")
    question = Question((size,), lambda value: limit.value - value)
    return weigh(code, question, words, says, (injury.id,), settles=settles)


def _prepared_beyond(case: Case, injury: MarkFacts, limit: LargestInjury) -> list[Reason]:
    """The hole itself passes, but the cutter goes beyond the limit, and the source does not say which it means."""
    prepared = injury.prepared
    most, source = limit.value, limit.source
    word = case.job.tire.maker_word
    if word is not None and word.largest_prepared_size is not None:
        most, source = word.largest_prepared_size.mm, f"a figure as entered: {word.source}"
    if prepared is None or prepared.high <= most + 1e-6:
        return []
    stated = None if prepared.stated is None else most - prepared.stated
    margin = Margin(stated, most - prepared.high, most - prepared.low)
    says = (
        f"{injury.title.capitalize()} would be reamed to {prepared.high:g} mm, beyond {most:g} mm: the source does not "
        "say whether it means the hole or the reamed hole. Another unit in stock, or a figure entered with its source, "
        "settles it."
    )
    return [reason_for("prepared_size", "measure", says, margin, LimitSays(most, "mm", source), (injury.id,))]


def _no_unit(injury: MarkFacts, reasons: list[Reason]) -> list[Reason]:
    """No stem in stock fills the hole although its size passes."""
    prepared = injury.prepared
    if prepared is None or prepared.in_stock or prepared.stated is None:
        return []
    if any(reason.level != "note" for reason in reasons):
        return []
    says = f"No repair unit in stock fills {injury.title} at {prepared.high:g} mm."
    return [Reason("no_unit_in_stock", "measure", says, "the shop's stock of repair units", subject=(injury.id,))]


def _size_again(injury: MarkFacts, reasons: list[Reason]) -> list[Reason]:
    prepared = injury.prepared
    if prepared is None or not prepared.foreseen or any(reason.level != "note" for reason in reasons):
        return []
    says = f"The prepared size of {injury.title} is foreseen: size it again after reaming and answer again."
    return [Reason("size_again", "note", says, "common practice: the reamed hole is the one repaired",
                   subject=(injury.id,))]
