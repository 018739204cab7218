"""Is the hole small enough?

Where a source says which size it means (the prepared one), that size is held to the limit. Where it does not, the
hole outside and inside are held to it, and a prepared size beyond it is to be measured first: nobody knows whether
the limit meant the hole or the reamed hole.
"""

from dataclasses import replace

from tiremap.model.prepared import Prepared
from tiremap.model.rule_set import LargestInjury
from tiremap.rules.case import Case
from tiremap.rules.margins import ON_THE_LIMIT, Margin, Question
from tiremap.rules.marks import MarkFacts
from tiremap.rules.reading import UNBOUNDED, Reading, unknown
from tiremap.rules.reasons import MAKER_WORD, Reason, Settles, Turns
from tiremap.rules.settling import not_alone
from tiremap.rules.weighing import LimitSays, Words, reason_for, weigh


def hole_size(case: Case, injury: MarkFacts) -> list[Reason]:
    """Size against the rule set's largest injury. Margin: mm below the limit."""
    limit = case.largest_injury
    reasons = _tire_first(case, injury, limit, _against(injury, limit))
    if {reason.level for reason in reasons} == {"note"}:
        reasons += _against_maker(case, injury, limit)
    return [*reasons, *_no_unit(injury, reasons), *_size_again(injury, reasons)]


def _against(injury: MarkFacts, limit: LargestInjury) -> list[Reason]:
    return _prepared_size(injury, limit) if limit.holds_for == "prepared" else _hole(injury, limit)


def _tire_first(case: Case, injury: MarkFacts, limit: LargestInjury, reasons: list[Reason]) -> list[Reason]:
    """The reasons, a refusal left open where the limit hangs on a width or load index nobody told and another tire may
    have that hole."""
    loosest = case.loosest_injury
    if loosest == limit or {reason.level for reason in reasons}.isdisjoint({"refuse"}):
        return reasons
    at_loosest = _against(injury, loosest)
    if any(reason.level == "refuse" for reason in at_loosest):
        return reasons
    says, settles = _told_by_the_tire(case, injury, limit, loosest)
    return [
        reason if reason.level != "refuse" else replace(
            reason, level="measure", says=says, margin_high=other_way.margin_high, question=None, turns=None,
            settles=settles,
        )
        for reason, other_way in zip(reasons, at_loosest, strict=True)
    ]


def _told_by_the_tire(
    case: Case, injury: MarkFacts, limit: LargestInjury, loosest: LargestInjury
) -> tuple[str, Settles]:
    """What of the tire decides between two limits, in a sentence, and what would tell it."""
    width, title = case.facts.nominal_width, injury.at_the_start
    may_be = f"{_at_most(loosest)} {loosest.value:g} mm"
    if loosest.load_index_from > limit.load_index_from:
        says = (
            f"{title} is too large for a tire of load index below {loosest.load_index_from}, and may be small enough "
            f"for a higher one: {may_be}."
        )
        return says, Settles("tire.size_code", "the load index from the sidewall", "")
    if loosest.section_width_over >= limit.section_width_up_to:
        these, other = f"up to {limit.section_width_up_to:g}", "wider"
    else:
        these, other = f"over {limit.section_width_over:g}", "narrower"
    says = f"{title} is too large for a tire {these} mm wide, and may be small enough for a {other} one: {may_be}."
    return says, Settles(width.field, width.words, "")


def _at_most(limit: LargestInjury) -> str:
    return "at most" if limit.operator == "<=" else "less than"


def _prepared_size(injury: MarkFacts, limit: LargestInjury) -> list[Reason]:
    prepared = injury.prepared_hole
    fitting = [cutter for cutter in prepared.cutters if cutter <= limit.value + ON_THE_LIMIT]
    hole, turns = _larger_hole(injury), _wrong_size(injury, limit, fitting)
    if prepared.foreseen and hole is not None and _is_between(injury, fitting, limit.value):
        within = f"{limit.value:g} mm or less"
        none = f"is {within}" if not fitting else f"of {within} is as large as the hole"
        return [_stock_reason(injury, f"No cutter in stock {none}: {injury.title} needs another unit in stock.")]
    if hole is None or not prepared.foreseen or prepared.low >= prepared.high:
        return [_weighed("hole_size", injury, injury.channel, limit, "prepared", turns=turns)]
    upto = _gauged_up_to(injury, hole, fitting[-1]) if fitting else None
    return [_weighed("hole_size", injury, injury.channel, limit, "prepared", _cutters_taken(prepared), upto, turns)]


def _is_between(injury: MarkFacts, fitting: list[float], most: float) -> bool:
    """Whether the hole, at its least, is too large for every cutter within the limit and itself within it."""
    least = max(hole.low for hole in (injury.hole_outside, injury.hole_inside) if hole is not None)
    return least <= most + ON_THE_LIMIT and (not fitting or least > fitting[-1] + ON_THE_LIMIT)


def _cutters_taken(prepared: Prepared) -> str:
    """A sentence on the cutters a hole may take, as it may be smaller or larger."""
    if prepared.high not in prepared.cutters:
        return f" It takes the {prepared.low:g} mm cutter, or one larger than any in stock."
    between = "or" if len(_cutters_between(prepared)) == 2 else "to"
    return f" It takes the {prepared.low:g} {between} the {prepared.high:g} mm cutter."


def _gauged_up_to(injury: MarkFacts, hole: Reading, most: float) -> Settles:
    """How small the larger end must be gauged for the largest cutter within the limit, ``most`` mm; then the other end,
    where that may be too large too."""
    others = [each for each in (injury.hole_outside, injury.hole_inside) if each is not None and each != hole]
    too_large = next((each for each in others if each.high > most + ON_THE_LIMIT), None)
    if too_large is not None:
        return not_alone(hole, "mm", too_large)
    tolerance = round(most - hole.stated, 6) if hole.stated is not None and hole.stated < most else None
    return Settles(hole.field, hole.words, "mm", at_most=most, tolerance=tolerance)


def _wrong_size(injury: MarkFacts, limit: LargestInjury, fitting: list[float]) -> Turns | None:
    """The one size that would have to be wrong for a prepared size not to be refused."""
    holes = [hole for hole in (injury.hole_outside, injury.hole_inside) if hole is not None]
    if not injury.prepared_hole.foreseen:  # reamed: the cutter was too large, unless the hole itself is
        if any(hole.low > limit.value + ON_THE_LIMIT for hole in holes):
            return None
        return Turns(f"injury.{injury.id}.size_prepared", f"the cutter {injury.title} was reamed with", "mm",
                     at_most=limit.value, stated=injury.prepared_hole.stated)
    too_large = [hole for hole in holes if not fitting or hole.low > fitting[-1] + ON_THE_LIMIT]
    if not fitting or len(too_large) != 1:
        return None
    hole = too_large[0]
    return Turns(hole.field, hole.words, "mm", at_most=fitting[-1], stated=hole.stated)


def _cutters_between(prepared: Prepared) -> list[float]:
    return [cutter for cutter in prepared.cutters if prepared.low <= cutter <= prepared.high]


def _larger_hole(injury: MarkFacts) -> Reading | None:
    """The end of the hole that may be the larger, or ``None`` where neither was measured."""
    holes = [hole for hole in (injury.hole_outside, injury.hole_inside) if hole is not None]
    return max(holes, key=lambda hole: hole.high, default=None)


def _hole(injury: MarkFacts, limit: LargestInjury) -> list[Reason]:
    holes = [hole for hole in (injury.hole_outside, injury.hole_inside) if hole is not None]
    if not holes:
        field = f"injury.{injury.id}.size_outside"
        holes = [unknown(field, f"the size of {injury.title}", 0.0, UNBOUNDED)]
    return [_weighed("hole_size", injury, hole, limit) for hole in holes]


def _against_maker(case: Case, injury: MarkFacts, limit: LargestInjury) -> list[Reason]:
    """The prepared size against a figure entered with its source, or against a limit that may have meant it."""
    word, prepared, title = case.job.tire.maker_word, injury.prepared_hole, injury.at_the_start
    if word is not None and word.largest_prepared_size is not None:
        most = word.largest_prepared_size.mm
        words = Words(
            f"{title} stays within the maker's largest prepared size: at most {most:g} mm.",
            f"{title} goes beyond the maker's largest prepared size: at most {most:g} mm.",
            f"{title} may go beyond the maker's largest prepared size: at most {most:g} mm.",
        )
        entered = LimitSays(most, "mm", f"a figure as entered: {word.source}")
        question = Question((injury.channel,), lambda value: most - value, falls_with=frozenset({0}))
        return [weigh("prepared_size", question, words, entered, (injury.id,))]
    most = limit.value
    stated = None if prepared.stated is None else most - prepared.stated
    margin = Margin(stated, most - prepared.high, most - prepared.low)
    inclusive = limit.operator == "<="
    if limit.holds_for == "prepared" or margin.passes(inclusive):
        return []
    reamed = f"{prepared.high:g} mm, {f'beyond {most:g}' if inclusive else f'not less than {most:g}'} mm"
    is_reamed = "may be" if not margin.refuses(inclusive) else "would be" if prepared.foreseen else "was"
    says = (
        f"{title} {is_reamed} reamed to {reamed}: "
        "the source does not say whether it means the hole or the reamed hole. Another unit in stock, or a figure "
        "entered with its source, settles it."
    )
    reason = reason_for("prepared_size", "measure", says, margin, LimitSays(most, "mm", limit.source), (injury.id,))
    return [replace(reason, settles=Settles(MAKER_WORD, "the maker's largest prepared size", ""))]


def _weighed(
    code: str, injury: MarkFacts, size: Reading, limit: LargestInjury, which: str = "", more: str = "",
    settles: Settles | None = None, turns: Turns | None = None,
) -> Reason:
    title = injury.at_the_start
    side = "inside" if size.field.endswith("size_inside") else ""
    named = " ".join(word for word in (which, side) if word)
    named = f" ({named})" if named else ""
    most = f"{_at_most(limit)} {limit.value:g} mm"
    words = Words(
        f"{title} is small enough{named}: {most}.",
        f"{title} is too large{named}: {most}.",
        f"{title} may be too large{named}: {most}.{more}",
    )
    says = LimitSays(limit.value, "mm", limit.source, inclusive=limit.operator == "<=")
    question = Question((size,), lambda value: limit.value - value, falls_with=frozenset({0}))
    return weigh(code, question, words, says, (injury.id,), settles=settles, turns=turns)


def _no_unit(injury: MarkFacts, reasons: list[Reason]) -> list[Reason]:
    """No stem in stock fills the hole although its size passes."""
    prepared = injury.prepared_hole
    if prepared.in_stock or prepared.stated is None or any(reason.level != "note" for reason in reasons):
        return []
    return [_stock_reason(injury, f"No repair unit in stock fills {injury.title} at {prepared.high:g} mm.")]


def _stock_reason(injury: MarkFacts, says: str) -> Reason:
    return Reason("no_unit_in_stock", "measure", says, "the shop's stock of repair units", subject=(injury.id,))


def _size_again(injury: MarkFacts, reasons: list[Reason]) -> list[Reason]:
    if not injury.prepared_hole.foreseen or any(reason.level != "note" for reason in reasons):
        return []
    inside = "" if injury.hole_inside is not None else ", inside too"
    says = f"The prepared size of {injury.title} is foreseen: size it again after reaming{inside}, and answer again."
    return [Reason("size_again", "note", says, "common practice: the reamed hole is the one repaired",
                   subject=(injury.id,))]
