"""What the lean means for the unit, and whether it agrees with where the hole comes out.

The lean decides an answer only through the inside end of the channel (see ``place``). Above the rule set's figure
stem and patch are separate: that chooses the unit's kind and never answers.
"""

from tiremap.rules.case import Case
from tiremap.rules.margins import ON_THE_LIMIT, Question, greatest, margin_of
from tiremap.rules.marks import MarkFacts, total_lean_deg
from tiremap.rules.reading import Reading
from tiremap.rules.reasons import Reason, Settles
from tiremap.rules.weighing import LimitSays, reason_for

AGREEMENT_SOURCE = "geometry of the channel: the inside end lies thickness x tangent of the lean from the outside end"


def lean_chooses_unit(case: Case, injury: MarkFacts) -> list[Reason]:
    """A note when the lean, at the top of its tolerance, asks for a separate stem and patch.

    What is known of the lean is enough to ask for it: an unknown part can only add to the total.
    """
    limit = case.limit(case.rule_set.leans_for_one_piece)
    total = known_lean_deg(case, injury)
    if limit is None or total is None:
        return []
    stated, most = total
    if most <= limit.value + ON_THE_LIMIT:
        return []
    says = f"{injury.at_the_start} leans up to {most:.0f} degrees: stem and patch are separate, not one piece."
    return [
        Reason("lean_chooses_unit", "note", says, limit.source, value=stated, limit=limit.value, unit="deg",
               margin=limit.value - stated, margin_low=limit.value - most, subject=(injury.id,))
    ]


def known_lean_deg(case: Case, injury: MarkFacts) -> tuple[float, float] | None:
    """Stated and steepest total lean, degrees, as far as it was entered; ``None`` where nothing of it was."""
    across, around = _tangents_across(case, injury), _tangents(injury.lean_around)
    if across is None and around is None:
        return None
    stated, most = (total_lean_deg(*pair) for pair in zip(across or (0.0, 0.0), around or (0.0, 0.0), strict=True))
    return stated, most


def lean_is_whole(case: Case, injury: MarkFacts) -> bool:
    """Whether both parts of the lean are known."""
    return _tangents_across(case, injury) is not None and _tangents(injury.lean_around) is not None


def _tangents(lean: Reading) -> tuple[float, float] | None:
    """Stated and steepest tangent of one part of the lean, or ``None`` where it was never entered."""
    return None if lean.stated is None else (lean.stated, max(abs(lean.low), abs(lean.high)))


def _tangents_across(case: Case, injury: MarkFacts) -> tuple[float, float] | None:
    """Of the lean across; where both ends were measured, it follows from them."""
    if injury.outside is None or injury.inside is None:
        return _tangents(injury.lean_across)
    facts = case.facts

    def tangent(outside: float, inside: float, tread_width: float, thickness: float) -> float:
        return abs(injury.channel_ends(facts, tread_width, outside, inside, thickness)[2])

    readings = (injury.outside.reading, injury.inside.reading, facts.tread_width, facts.thickness)
    steepest = greatest(Question(readings, tangent))
    s_out, s_in = injury.stated_ends(facts)
    return (s_in - s_out) / facts.drawn_thickness, steepest


def ends_agree(case: Case, injury: MarkFacts) -> list[Reason]:
    """To be measured again where outside, inside and lean were all measured and cannot all be true.

    Margin: mm by which the disagreement is still explained by the tolerances, + where they agree.
    """
    if injury.outside is None or injury.inside is None or injury.lean_across.stated is None:
        return []
    facts, title = case.facts, injury.at_the_start

    def off(outside: float, inside: float, tread_width: float, thickness: float, lean: float) -> float:
        s_out, s_in, _ = injury.channel_ends(facts, tread_width, outside, inside, thickness)
        return s_in - s_out - thickness * lean

    def margin(*values: float) -> float:
        return -abs(off(*values))

    readings = (injury.outside.reading, injury.inside.reading, facts.tread_width, facts.thickness, injury.lean_across)
    found = margin_of(Question(readings, margin, (off,), moved_by=len(readings)))
    if not found.refuses(True):
        return []
    says = (
        f"{title}: outside, inside and lean do not fit together, even at the ends of their tolerances. Measure all "
        "three again."
    )
    limit = LimitSays(0.0, "mm", AGREEMENT_SOURCE)
    again = Settles(injury.inside.reading.field, injury.inside.reading.words, "mm", alone=False)
    return [reason_for("ends_disagree", "measure", says, found, limit, (injury.id,), again)]
