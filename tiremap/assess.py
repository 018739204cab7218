"""One door to everything true about a job: `assess(job)` gives its `Assessment`.

A wrong Repairable can kill someone: whatever is unknown or too coarse ends as Measure first.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from tiremap.assessment import AssessedMark, AssessedPair, Assessment, Needed, Pairs
from tiremap.geometry.footprints import Head
from tiremap.geometry.frames import TreadPoint
from tiremap.geometry.liner_strip import Strip
from tiremap.geometry.section_inputs import SectionInputs
from tiremap.model.job import Answer, Injury, Job, Repair
from tiremap.model.rule_set import RuleSet
from tiremap.model.rule_set_file import rule_set_or_why
from tiremap.model.stock import RepairUnit, Stock
from tiremap.model.tolerances import length_range
from tiremap.model.units import degrees, mm_from_inches
from tiremap.rules.book import OF_A_PAIR, OF_AN_INJURY, OF_THE_TIRE, ONLY_CAUTION
from tiremap.rules.case import Case
from tiremap.rules.facts import TireFacts, tire_facts
from tiremap.rules.marks import MarkFacts, injury_facts, repair_facts, whole_hole
from tiremap.rules.near_pairs import near_pairs
from tiremap.rules.nothing_to_ask import (
    class_not_spoken_of,
    no_rule_set,
    no_size,
    nothing_marked,
    rule_set_unreadable,
    stock_unreadable,
)
from tiremap.rules.pairs import Apart, Reach, apart, reach_of
from tiremap.rules.reasons import Reason, answer_of, by_weight, heaviest
from tiremap.rules.settling import advised
from tiremap.rules.zones import drawn_passing_half_width
from tiremap.workshop.foreseen import prepare
from tiremap.workshop.ground import Ground, head_of
from tiremap.workshop.stock import stock_in_use

Kept = dict[str, AssessedMark]
"""Marks taken over from an assessment before, by id."""


def assess(
    job: Job, rule_set: RuleSet | None = None, stock: Stock | None = None, *, advise: bool = True,
    before: Assessment | None = None,
) -> Assessment:
    """Assess a job under its own rule set, or under the one given.

    Without ``advise`` the answer and margins are the same, but what to measure is not worked out: enough while an
    injury is dragged. Then ``before`` may be the assessment of nearly the same job: marks and pairs that did not
    change are taken over from it.

    Without ``stock`` the shop's own is taken. It, and a rule set, that cannot be read answers nothing: Measure first,
    with file, key and reason. Raises `TiremapError`
    for a size code that cannot be read.
    """
    drawn, kept, asked = _before_any_question(job, rule_set, stock, None if advise else before)
    if isinstance(asked, Reason):
        return _blocked(drawn, asked)
    if before is not None and kept:
        return _answered(drawn, asked, _as_it_is, kept, before)
    return _answered(drawn, asked, advised if advise else _as_it_is, {}, None)


class Verdict(NamedTuple):
    """An answer, the reason that decides it without what to measure (a Repairable has none), and the marks as drawn."""

    answer: Answer
    deciding: Reason | None
    drawn: Assessment


def verdict(job: Job) -> Verdict:
    """What `assess` answers, and why: the same questions in the same order, up to the first refusal.

    Nothing outweighs that one, so the questions behind it are left out, and everywhere those that only caution. Raises
    as `assess` does.
    """
    drawn, _, asked = _before_any_question(job, None, None, None)
    if isinstance(asked, Reason):
        return Verdict("measure_first", asked, drawn)
    heaviest_yet = None
    for reason in _every_reason(asked, drawn):
        if reason.level == "refuse":
            return Verdict("not_repairable", reason, drawn)
        if reason.level == "measure" and heaviest_yet is None:
            heaviest_yet = reason
    return Verdict("repairable" if heaviest_yet is None else "measure_first", heaviest_yet, drawn)


def _every_reason(case: Case, drawn: Assessment) -> Iterator[Reason]:
    """Every reason that can turn the answer: of the tire, of its injuries, of its pairs."""
    yield from (reason for question in OF_THE_TIRE if question not in ONLY_CAUTION for reason in question(case))
    if not case.injuries:
        yield nothing_marked()
    of_an_injury = [question for question in OF_AN_INJURY if question not in ONLY_CAUTION]
    yield from (reason for mark in case.injuries for question in of_an_injury for reason in question(case, mark))
    reaches = _reaches(case, drawn.marks)
    for first, second in near_pairs(case, reaches):
        pair = apart(case.facts, reaches[first], reaches[second])
        yield from (reason for question in OF_A_PAIR if question not in ONLY_CAUTION for reason in question(case, pair))


def _before_any_question(
    job: Job, rule_set: RuleSet | None, stock: Stock | None, before: Assessment | None
) -> tuple[Assessment, Kept, Case | Reason]:
    """The tire and its marks as drawn, those of ``before`` that are kept, and the case to ask about.

    Where nothing can be asked there is the reason for that in place of a case.
    """
    no_stock = unreadable = ""
    if stock is None:
        stock, no_stock = stock_in_use()
    if rule_set is None and job.rule_set is not None:
        rule_set, unreadable = rule_set_or_why(job.rule_set)
    facts = before.facts if before is not None and before.job.tire == job.tire else tire_facts(job)
    if facts is None:
        return _blank(job, rule_set, stock), {}, no_size()
    kept = {} if before is None else _unchanged(before, job, rule_set, stock)
    drawn = _drawn(job, rule_set, stock, facts, kept)
    if rule_set is None:
        why = rule_set_unreadable(str(job.rule_set), unreadable) if unreadable else no_rule_set()
        return drawn, {}, why
    if no_stock:
        return drawn, {}, stock_unreadable(no_stock)
    if facts.tire_class is None or drawn.zone is None:
        return drawn, {}, class_not_spoken_of(rule_set, facts.tire_class)
    injuries, repairs = (tuple(mark.facts for mark in marks) for marks in (drawn.injuries, drawn.repairs))
    return drawn, kept, Case(job, facts, rule_set, facts.tire_class, stock, injuries, repairs)


def _blank(job: Job, rule_set: RuleSet | None, stock: Stock) -> Assessment:
    """A job whose tire is unknown: nothing can be drawn."""
    return Assessment(
        job=job, rule_set=rule_set, stock=stock, answer="measure_first", reasons=(), injuries=(), repairs=(),
        pairs=(), facts=None, strip=None, section_inputs=None, zone=None, zone_half_width_mm=None,
        needed=(),
    )


def _unchanged(before: Assessment, job: Job, rule_set: RuleSet | None, stock: Stock) -> Kept:
    """Marks entered as they were before: what they are asked hangs on nothing but the tire, rule set and stock."""
    if (before.job.tire, before.rule_set, before.stock) != (job.tire, rule_set, stock) or not before.asked:
        return {}
    were = {mark.id: mark for mark in before.job.marks}
    same = (mark.id for mark in job.marks if (was := were.get(mark.id)) is mark or was == mark)
    return {each: mark for each in same if (mark := before.mark(each)) is not None}


def _drawn(job: Job, rule_set: RuleSet | None, stock: Stock, facts: TireFacts, kept: Kept) -> Assessment:
    """The tire and its marks where they are drawn, before any question is asked."""
    strip = Strip(facts.overall_diameter, facts.drawn_thickness, facts.crown_radius)
    zone = None
    if rule_set is not None and facts.tire_class is not None and facts.nominal_width.stated is not None:
        zone = rule_set.crown_zone(facts.tire_class, facts.nominal_width.stated)
    return replace(
        _blank(job, rule_set, stock),
        facts=facts,
        strip=strip,
        section_inputs=_section_inputs(facts),
        injuries=tuple(kept.get(each.id) or _drawn_injury(each, facts, stock, strip) for each in job.injuries),
        repairs=tuple(kept.get(each.id) or _drawn_repair(each, facts, stock, strip) for each in job.repairs),
        zone=zone,
        zone_half_width_mm=None if zone is None else drawn_passing_half_width(zone, job.tire, facts),
    )


def _section_inputs(facts: TireFacts) -> SectionInputs:
    dimensions = facts.dimensions
    belt = None
    if facts.belt_measured and facts.belt.stated is not None:
        belt = facts.belt.stated
    return SectionInputs(
        overall_diameter=dimensions.overall_diameter_mm,
        section_width=dimensions.section_width_mm,
        nominal_width=dimensions.nominal_width_mm,
        rim_diameter=dimensions.rim_diameter_mm,
        rim_width=mm_from_inches(dimensions.rim_width_in),
        tread_width=facts.drawn_tread_width,
        belt_half_width=belt,
        tread_depth=facts.depths.drawn,
        under_grooves=facts.under_grooves,
    )


def _drawn_injury(injury: Injury, facts: TireFacts, stock: Stock, strip: Strip) -> AssessedMark:
    reamed_to = length_range("cutter", injury.size_prepared) if injury.size_prepared else None
    prepared = prepare(whole_hole(injury), reamed_to, stock)
    mark = injury_facts(injury, facts, prepared)
    head = head_of(prepared.unit) if prepared.unit else None
    return _drawn_mark(mark, facts, stock, strip, head, prepared.unit)


def _drawn_repair(repair: Repair, facts: TireFacts, stock: Stock, strip: Strip) -> AssessedMark:
    head = None
    if repair.head_length is not None and repair.head_length.mm > 0:
        length = repair.head_length.mm
        width = length if repair.head_width is None else min(length, repair.head_width.mm)
        head = Head(length, width, repair.head_along) if width > 0 else None
    return _drawn_mark(repair_facts(repair, facts), facts, stock, strip, head, None)


def _drawn_mark(
    mark: MarkFacts, facts: TireFacts, stock: Stock, strip: Strip, head: Head | None,
    unit: RepairUnit | None,
) -> AssessedMark:
    outside, inside = mark.stated_ends(facts)
    around = mark.stated_around_inside(facts)
    place = None if around is None else TreadPoint(inside, around)
    ground = Ground(strip, place, head, stock.beyond_the_head) if head and place else None
    return AssessedMark(
        facts=mark, outside=outside, inside=inside, around=mark.around.stated, inside_place=place, unit=unit,
        head=head, ground=ground, answer=None, margin_mm=None, reasons=(),
    )


def _blocked(drawn: Assessment, reason: Reason) -> Assessment:
    """Nothing could be asked: every injury, and the tire, is Measure first."""
    injuries = tuple(
        replace(mark, answer="measure_first", reasons=(replace(reason, subject=(mark.id,)),)) for mark in drawn.injuries
    )
    pairs = () if drawn.facts is None else _pairs_unasked(drawn, drawn.facts, reason)
    return replace(
        drawn, injuries=injuries, pairs=pairs, reasons=(reason,), needed=_needed([reason]), deciding=reason
    )


def _pairs_unasked(drawn: Assessment, facts: TireFacts, reason: Reason) -> Pairs:
    """Pairs with their distances, where no rule set can be asked about them."""

    def unasked(both: tuple[int, int]) -> AssessedPair:
        first, second = (drawn.marks[number] for number in both)
        told = (replace(reason, subject=(first.id, second.id)),)
        pair = apart(facts, reach_of(facts, first.facts), reach_of(facts, second.facts))
        return _drawn_pair(drawn, first, second, pair, told, _as_it_is)

    return Pairs([mark.id for mark in drawn.marks], (), unasked)


def _as_it_is(reason: Reason) -> Reason:
    return reason


def _answered(
    drawn: Assessment, case: Case, finish: Callable[[Reason], Reason], kept: Kept,
    before: Assessment | None,
) -> Assessment:
    """Every question asked, but of what is kept from the assessment before, and the answers summed up."""
    injuries = tuple(kept.get(mark.id) or _answered_injury(case, mark, finish) for mark in drawn.injuries)
    pairs = _answered_pairs(case, drawn, finish, kept, before)
    reasons = [finish(reason) for question in OF_THE_TIRE for reason in question(case)]
    if not injuries:
        reasons.append(nothing_marked())
    every = [*reasons, *(reason for injury in injuries for reason in injury.reasons)]
    of_pairs = _up_to_a_refusal(every, pairs)
    every += of_pairs
    answer, deciding = answer_of(every), heaviest(every)
    if deciding is not None and any(deciding is reason for reason in of_pairs):
        deciding = finish(deciding)
    needed = () if answer == "not_repairable" else _needed(every)  # nothing still to measure turns a refusal
    return replace(
        drawn, injuries=injuries, pairs=pairs, reasons=by_weight(reasons), needed=needed, answer=answer,
        deciding=deciding, asked=True,
    )


def _up_to_a_refusal(others: list[Reason], pairs: Pairs) -> list[Reason]:
    """What is told of the pairs in turn, up to the first refusal: nothing behind it can turn the answer."""
    told: list[Reason] = []
    refused = answer_of(others) == "not_repairable"
    for pair in () if refused else pairs.near_in_turn():
        told += pair.told
        if answer_of(pair.told) == "not_repairable":
            break
    return told


def _answered_injury(case: Case, mark: AssessedMark, finish: Callable[[Reason], Reason]) -> AssessedMark:
    reasons = by_weight([finish(reason) for question in OF_AN_INJURY for reason in question(case, mark.facts)])
    margin = next((reason.margin for reason in reasons if reason.code == "place"), None)
    return replace(mark, answer=answer_of(reasons), reasons=reasons, margin_mm=margin)


def _reaches(case: Case, marks: Sequence[AssessedMark]) -> list[Reach]:
    """Where each mark may lie; none where there is no pair to ask about."""
    return [reach_of(case.facts, mark.facts) for mark in marks] if len(marks) > 1 else []


def _answered_pairs(
    case: Case, drawn: Assessment, finish: Callable[[Reason], Reason], kept: Kept, before: Assessment | None
) -> Pairs:
    """Every pair, those of two kept marks from the assessment before.

    Of those that keep clear of each other no reason can turn the answer.
    """
    marks = drawn.marks
    reaches, ids = _reaches(case, marks), [mark.id for mark in marks]

    def answered(both: tuple[int, int]) -> AssessedPair:
        one, other = both
        if before is not None and ids[one] in kept and ids[other] in kept:
            at_hand = before.pair(ids[one], ids[other])
            if at_hand is not None:
                return at_hand
        pair = apart(case.facts, reaches[one], reaches[other])
        told = by_weight([reason for question in OF_A_PAIR for reason in question(case, pair)])
        return _drawn_pair(drawn, marks[one], marks[other], pair, told, finish)

    return Pairs(ids, near_pairs(case, reaches), answered)


def _drawn_pair(
    drawn: Assessment, first: AssessedMark, second: AssessedMark, pair: Apart, told: tuple[Reason, ...],
    finish: Callable[[Reason], Reason],
) -> AssessedPair:
    """A pair with its distances and grounds, and what is told of it."""
    grounds = None if first.ground is None or second.ground is None else (first.ground, second.ground)
    angle = pair.around_rad
    return AssessedPair(
        first=first.id, second=second.id, distance_mm=pair.distance,
        around_deg=None if angle is None else degrees(angle),
        around_tread_mm=None if angle is None else angle * drawn.known_facts.overall_diameter / 2,
        grounds=grounds, told=told, finish=finish,
    )


def _needed(reasons: list[Reason]) -> tuple[Needed, ...]:
    """What was never entered and can turn the answer, each once, in the order the checks ask."""
    asked = dict(ask for reason in reasons for ask in reason.asks)
    return tuple(Needed(field, words) for field, words in asked.items())
