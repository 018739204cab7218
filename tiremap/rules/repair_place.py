"""Does every earlier repair lie where a tire is repaired at all?

One beyond the tread edge mended a shoulder or sidewall, which every source refuses: an improper repair. One inside the
tread and outside the chosen guidance's crown zone may be sound by another guidance, and is cautioned against.
"""

from tiremap.model.rule_set import ZoneEdge
from tiremap.rules.case import Case
from tiremap.rules.marks import MarkFacts
from tiremap.rules.place import zone_question
from tiremap.rules.reasons import Reason
from tiremap.rules.weighing import LimitSays, Words, weigh
from tiremap.rules.zones import drawn_half_width

SOURCE = "every rule set here refuses the shoulder and the sidewall; so a repair there was improper (common practice)"
_WHOLE_TREAD = ZoneEdge(kind="whole_tread", value=0.0)


def repair_place(case: Case) -> list[Reason]:
    """One reason for each earlier repair that does not surely lie in the crown zone, by the center of its head.

    Margin: mm from the tread edge to that center, + inside.
    """
    placed = [mark for mark in case.repairs if mark.inside_reading.stated is not None]
    zone = drawn_half_width(case.zone.edge, case.facts) if placed else 0.0
    return [reason for mark in placed for reason in _of(case, mark, zone)]


def _of(case: Case, mark: MarkFacts, zone: float) -> list[Reason]:
    at_edge = _against_tread_edge(case, mark)
    if at_edge.level != "note":
        return [at_edge]
    if abs(mark.stated_ends(case.facts)[1]) <= zone:
        return []
    says = (
        f"{mark.at_the_start} lies outside the crown zone of this guidance. Look at it closely, and ask the tire "
        "maker whether it may stay."
    )
    return [Reason("repair_place", "caution", says, SOURCE, subject=(mark.id,))]


def _against_tread_edge(case: Case, mark: MarkFacts) -> Reason:
    """Worked out once for each tire: a drag of another mark asks again and again."""
    kept = mark.kept_on(case.facts)
    if "against_tread_edge" not in kept:
        title = mark.at_the_start
        words = Words(
            f"{title} lies in the tread.",
            f"{title} lies beyond the tread edge: an improper earlier repair.",
            f"{title} may lie beyond the tread edge, where it would be an improper one.",
        )
        limit = LimitSays(0.0, "mm", SOURCE, grows=True, measured="inside the tread edge")
        kept["against_tread_edge"] = weigh(
            "repair_place", zone_question(case, mark, _WHOLE_TREAD), words, limit, (mark.id,)
        )
    reason: Reason = kept["against_tread_edge"]
    return reason
