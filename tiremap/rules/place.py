"""Does the whole hole lie in the crown zone, at every depth?

The disc of the channel, not its center, must lie inside; a leaning hole takes its inside end with it and its disc
reaches further across. The place is kept as it was taken, so 35 mm from a tread edge does not depend on the tread
width under a limit set in from that edge.

A figure of the tire maker, entered with its source, makes any zone stricter; where the rule set leaves a band between
two edges to the maker, it settles that band and nothing beyond it.
"""

from dataclasses import replace
from functools import lru_cache
from math import sqrt

from tiremap.model.rule_set import ZoneEdge
from tiremap.resources import read_toml
from tiremap.rules.case import Case
from tiremap.rules.margins import Question, greatest, least, margin_of
from tiremap.rules.marks import MarkFacts
from tiremap.rules.reasons import MAKER_WORD, Reason, Settles
from tiremap.rules.weighing import LimitSays, Words, reason_for, weigh
from tiremap.rules.zones import band_ends, drawn_half_width, half_width, makers_inset, passing_edge, zone_readings

INSETS = {
    "inset_from_tread_edge": "tread edge", "inset_from_belt_edge": "belt edge", "whole_tread": "tread edge",
    "inside_outer_grooves": "outer groove's inner wall",
}
"""Kinds of zone measured inward from something, and from what."""


_REACHES_KEPT = 64
"""How many reaches of one zone edge are kept: of the many corners of a question few differ in what it hangs on."""


def place(case: Case, injury: MarkFacts) -> list[Reason]:
    """Whether the hole lies in the rule set's crown zone. Margin: mm from the zone's edge to the disc, + inside."""
    zone, inset = case.zone, makers_inset(case.job.tire)
    if zone.refused_beyond is None:
        return [_within(case, injury, zone.edge, inset)]
    if inset is not None:
        return [_within(case, injury, zone.refused_beyond, inset)]
    return [_between_two_edges(case, injury, zone.edge, zone.refused_beyond)]


def passing_question(case: Case, injury: MarkFacts) -> Question:
    """The margin (mm) that must hold for a hole to pass without a further word: to the stricter of two edges, or to
    the outer with the tire maker's figure."""
    if case.zone.refused_beyond is not None and makers_inset(case.job.tire) is None:
        edges = (case.zone.edge, case.zone.refused_beyond)
        return _stricter(*((edge, zone_question(case, injury, edge)) for edge in edges))[1]
    edge, inset = passing_edge(case.zone, case.job.tire)
    return zone_question(case, injury, edge, inset)


def _within(case: Case, injury: MarkFacts, edge: ZoneEdge, inset: float | None) -> Reason:
    """A zone with one edge, made stricter by the maker's figure where one was entered."""
    title = injury.at_the_start
    question = zone_question(case, injury, edge, inset or 0.0)
    words = Words(
        f"{title} lies inside the crown zone at every depth.",
        _refused(case, injury, edge),
        f"{title} may reach outside the crown zone.",
    )
    return weigh("place", question, words, _limit_says(case, edge, inset), (injury.id,))


def _between_two_edges(case: Case, injury: MarkFacts, inner: ZoneEdge, outer: ZoneEdge) -> Reason:
    """A zone with two edges: passed inside both, refused beyond the outer, the tire maker's word between.

    The margin is to the inner edge, or to the outer where a narrow belt puts that further in.
    """
    title, subject = injury.at_the_start, (injury.id,)
    within_inner, within_outer = (zone_question(case, injury, each) for each in (inner, outer))
    edge, question = _stricter((inner, within_inner), (outer, within_outer))
    limit = _limit_says(case, edge, None)
    margin = margin_of(question)
    if margin.passes(True):
        says = f"{title} lies inside the crown zone at every depth."
        return reason_for("place", "note", says, margin, limit, subject)
    if within_outer.refuses(greatest(within_outer)):
        reason = reason_for("place", "refuse", _refused(case, injury, outer), margin, limit, subject)
        return replace(reason, question=within_outer)
    if edge == outer:
        says = f"{title} may reach outside the crown zone."
        return replace(reason_for("place", "measure", says, margin, limit, subject), question=question)
    between = f"beyond the inner edge of the crown zone; {case.zone.between_says}"
    says = f"{title} may lie {between}. Enter that limit with its source."
    reason = reason_for("place", "measure", says, margin, limit, subject)
    if margin.refuses(True):  # no measurement brings it inside the inner edge: only the maker's word settles it
        return replace(reason, settles=Settles(MAKER_WORD, "the tire maker's limit for this tire", ""))
    return replace(reason, question=question)


def _stricter(*asked: tuple[ZoneEdge, Question]) -> tuple[ZoneEdge, Question]:
    """The edge, and its question, with the lesser least margin: the inner, but for an outer one measured from a belt
    that ends short."""
    return min(asked, key=lambda each: least(each[1]))


def zone_question(case: Case, injury: MarkFacts, edge: ZoneEdge, inset: float = 0.0) -> Question:
    """The margin (mm) of a hole against one edge of a crown zone, and against ``inset`` mm inside the tread edge."""
    facts = case.facts
    belt, section_width, grooves = zone_readings(edge, facts)
    bands = case.rule_set.bands(case.tire_class)
    reach = lru_cache(_REACHES_KEPT)(half_width(edge, facts, bands, inset))
    ends = injury.ends_on(facts)

    def margin(
        outside: float, inside: float, tread_width: float, thickness: float, channel: float, *at_edge: float
    ) -> float:
        s_out, s_in, lean = ends(tread_width, outside, inside, thickness)
        disc = channel / 2 * sqrt(1.0 + lean * lean)
        return reach(tread_width, *at_edge) - max(abs(s_out), abs(s_in)) - disc

    def astride(outside: float, inside: float, tread_width: float, thickness: float, *_: float) -> float:
        s_out, s_in, _lean = ends(tread_width, outside, inside, thickness)
        return s_out + s_in

    def upright(outside: float, inside: float, tread_width: float, thickness: float, *_: float) -> float:
        s_out, s_in, _lean = ends(tread_width, outside, inside, thickness)
        return s_in - s_out

    ends_read = (injury.outside_reading, injury.inside_reading)
    readings = (*ends_read, facts.tread_width, injury.thickness, injury.channel, belt, section_width, grooves)
    balances = (astride, upright) if injury.lean_follows else (astride,)
    jumps = () if section_width.settled else ((6, band_ends(bands)),)
    return Question(readings, margin, balances, *monotone(case, injury, {7}), moved_by=4, jumps=jumps)


def monotone(case: Case, injury: MarkFacts, more: set[int]) -> tuple[frozenset[int], frozenset[int]]:
    """The readings a margin of place only falls with, and those it never falls with, by their order there.

    The size (4) falls; a belt (5) rises where it was measured, and falls where it is how far short of the tread edge
    it ends. The tread's width (2) rises, unless the mark was taken from a tread edge and moves with it. ``more`` rise.
    """
    falls, rises = {4}, set(more)
    (rises if case.facts.belt_measured else falls).add(5)
    if not injury.hangs_on_tread_width:
        rises.add(2)
    return frozenset(falls), frozenset(rises)


def _limit_says(case: Case, edge: ZoneEdge, inset: float | None) -> LimitSays:
    source = case.zone.source
    word = case.job.tire.maker_word
    if inset is not None and word is not None:
        source = f"{source}; the tire maker's figure as entered: {word.source}"
    if edge.kind in INSETS and (inset is None or INSETS[edge.kind] == "tread edge"):
        value = edge.value if inset is None else max(edge.value, inset)
        return LimitSays(value, "mm", source, grows=True, measured=f"inside the {INSETS[edge.kind]}")
    known = inset is None and (edge.kind == "share_of_section_width" or case.facts.tread_width.stated is not None)
    half = drawn_half_width(edge, case.facts) if known else None
    return LimitSays(half, "mm", source, measured="from center")


def _refused(case: Case, injury: MarkFacts, edge: ZoneEdge) -> str:
    """Where a refused hole lies, in words: shoulder or sidewall, or reaching out of the zone it is centered in."""
    title, width = injury.at_the_start, case.facts.drawn_tread_width
    s_out, s_in = injury.stated_ends(case.facts)
    zone, furthest = drawn_half_width(edge, case.facts), max(abs(s_out), abs(s_in))
    if furthest <= zone:
        return f"{title} reaches outside the crown zone."
    past = read_toml("dimensions", "unmeasured.toml")["shoulder"]["reaches_past_tread_edge_mm"]
    lies_in = "shoulder" if furthest <= width / 2 + past else "sidewall"
    leaving = ": it starts inside and leaves it on its way inward" if abs(s_out) <= zone < abs(s_in) else ""
    return f"{title} lies in the {lies_in}, outside the crown zone{leaving}."
