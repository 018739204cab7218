"""Does the hole lean too steeply to be repaired at all, where the rule set gives a figure?"""

from math import hypot

from tiremap.rules.case import Case
from tiremap.rules.margins import Question
from tiremap.rules.marks import MarkFacts, total_lean_deg
from tiremap.rules.reasons import Reason
from tiremap.rules.weighing import LimitSays, Words, weigh


def steepest_lean(case: Case, injury: MarkFacts) -> list[Reason]:
    """The total lean against the rule set's. Margin: degrees below the limit."""
    limit = case.limit(case.rule_set.steepest_leans)
    if limit is None:
        return []
    facts, title = case.facts, injury.at_the_start

    def margin(outside: float, inside: float, tread_width: float, thickness: float, around: float) -> float:
        across = injury.channel_ends(facts, tread_width, outside, inside, thickness)[2]
        return limit.value - total_lean_deg(hypot(across, around), 0.0)

    def upright(outside: float, inside: float, tread_width: float, thickness: float, around: float) -> float:
        s_out, s_in, _lean = injury.channel_ends(facts, tread_width, outside, inside, thickness)
        return s_in - s_out

    ends_read = (injury.outside_reading, injury.inside_reading)
    readings = (*ends_read, facts.tread_width, injury.thickness, injury.lean_around)
    words = Words(
        f"{title} does not lean too steeply: at most {limit.value:g} degrees.",
        f"{title} leans too steeply: at most {limit.value:g} degrees.",
        f"{title} may lean too steeply: at most {limit.value:g} degrees.",
    )
    question = Question(readings, margin, (upright,) if injury.lean_follows else (), moved_by=4)
    return [weigh("steepest_lean", question, words, LimitSays(limit.value, "deg", limit.source), (injury.id,))]
