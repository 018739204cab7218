"""Does the whole hole lie in the crown zone, at every depth?

The disc of the channel, not its center, must lie inside; a leaning hole takes its inside end with it and its disc
reaches further across. The place is kept as it was taken, so 35 mm from a tread edge does not depend on the tread
width under a limit set in from that edge.
"""

from dataclasses import replace
from math import sqrt

from tiremap.model.rule_set import ZoneEdge
from tiremap.resources import read_toml
from tiremap.rules.case import Case
from tiremap.rules.margins import Question, margin_of
from tiremap.rules.marks import MarkFacts
from tiremap.rules.reasons import Reason
from tiremap.rules.weighing import LimitSays, Words, reason_for, weigh
from tiremap.rules.zones import drawn_half_width, half_width, zone_readings


def place(case: Case, injury: MarkFacts) -> list[Reason]:
    """Whether the hole lies in the rule set's crown zone. Margin: mm from the zone's edge to the disc, + inside."""
    zone, title = case.zone, injury.title.capitalize()
    question = zone_question(case, injury, zone.edge)
    limit = _limit_says(case, zone.edge, zone.source)
    if zone.refused_beyond is not None:
        return [_between_two_edges(case, injury, question, limit)]
    words = Words(
        f"{title} lies inside the crown zone at every depth.",
        f"{title} lies in the {_where_refused(case, injury)}, outside the crown zone{_inside_end_only(case, injury)}.",
        f"{title} may reach outside the crown zone.",
    )
    return [weigh("place", question, words, limit, (injury.id,))]


def zone_question(case: Case, injury: MarkFacts, edge: ZoneEdge) -> Question:
    """The margin of a hole against one edge of a crown zone, mm."""
    facts = case.facts
    belt, section_width = zone_readings(edge, facts)
    reach = half_width(edge, facts)

    def ends(outside, inside, tread_width, thickness):
        return injury.channel_ends(facts, tread_width, outside, inside, thickness)

    def margin(outside, inside, tread_width, thickness, channel, belt, section_width):
        s_out, s_in, lean = ends(outside, inside, tread_width, thickness)
        disc = channel / 2 * sqrt(1.0 + lean * lean)
        return reach(tread_width, belt, section_width) - max(abs(s_out), abs(s_in)) - disc

    def astride(outside, inside, tread_width, thickness, channel, belt, section_width):
        s_out, s_in, _ = ends(outside, inside, tread_width, thickness)
        return s_out + s_in

    def upright(outside, inside, tread_width, thickness, channel, belt, section_width):
        s_out, s_in, _ = ends(outside, inside, tread_width, thickness)
        return s_in - s_out

    thickness = injury.thickness
    if injury.outside is not None and injury.inside is not None:
        thickness = case.facts.thickness  # both ends are measured: nothing more to be learned inside
    ends_read = (injury.outside_reading, injury.inside_reading)
    readings = (*ends_read, facts.tread_width, thickness, injury.channel, belt, section_width)
    return Question(readings, margin, (astride, upright), falls_with=frozenset({4}), moved_by=4)


def _between_two_edges(case: Case, injury: MarkFacts, inner: Question, limit: LimitSays) -> Reason:
    """A zone with two edges: passed inside the inner, refused beyond the outer, the tire maker's word between."""
    zone, title = case.zone, injury.title.capitalize()
    word = case.job.tire.maker_word
    if word is not None and word.zone_inset is not None:
        edge = ZoneEdge(kind="inset_from_tread_edge", value=word.zone_inset.mm)
        source = f"the tire maker's figure as entered: {word.source}"
        words = Words(
            f"{title} lies inside the tire maker's limit at every depth.",
            f"{title} lies outside the tire maker's limit.",
            f"{title} may reach outside the tire maker's limit.",
        )
        question = zone_question(case, injury, edge)
        return weigh("place", question, words, _limit_says(case, edge, source), (injury.id,))
    margin = margin_of(inner)
    if margin.passes(True):
        return reason_for(
            "place", "note", f"{title} lies inside the crown zone at every depth.", margin, limit, (injury.id,)
        )
    outer = margin_of(zone_question(case, injury, zone.refused_beyond))
    if outer.refuses(True):
        says = f"{title} lies in the {_where_refused(case, injury)}, outside the crown zone."
        return reason_for(
            "place", "refuse", says, outer, _limit_says(case, zone.refused_beyond, zone.source), (injury.id,)
        )
    says = f"{title} may lie beyond the inner edge of the crown zone; {zone.between_says}. Enter it with its source."
    return replace(reason_for("place", "measure", says, margin, limit, (injury.id,)), question=inner)


def _limit_says(case: Case, edge: ZoneEdge, source: str) -> LimitSays:
    if edge.kind in ("inset_from_tread_edge", "inset_from_belt_edge", "whole_tread"):
        measured_from = "belt" if edge.kind == "inset_from_belt_edge" else "tread"
        return LimitSays(edge.value, "mm", source, grows=True, measured=f"inside the {measured_from} edge")
    known = edge.kind == "share_of_section_width" or case.facts.tread_width.stated is not None
    return LimitSays(drawn_half_width(edge, case.facts) if known else None, "mm", source, measured="from center")


def _where_refused(case: Case, injury: MarkFacts) -> str:
    """Shoulder or sidewall: where the outer end of a refused hole lies; words only, decides nothing."""
    width = case.facts.drawn_tread_width
    furthest = max(abs(end) for end in injury.stated_ends(case.facts))
    past = read_toml("dimensions", "unmeasured.toml")["shoulder"]["reaches_past_tread_edge_mm"]
    return "shoulder" if furthest <= width / 2 + past else "sidewall"


def _inside_end_only(case: Case, injury: MarkFacts) -> str:
    """Says when a hole that starts inside the zone leaves it on its way inward."""
    s_out, s_in = injury.stated_ends(case.facts)
    starts_inside = abs(s_out) <= drawn_half_width(case.zone.edge, case.facts) < abs(s_in)
    return ": it starts inside and leaves it on its way inward" if starts_inside else ""
