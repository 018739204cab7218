"""Does the head of the unit stay inside the tread edge, and where does it lie against the belt edge?

Our own checks (common practice, no source). A head past the tread edge is never refused: a smaller or turned head, or
the repair-material maker's word, settles it. A head across the belt edge is a caution in every set.
"""

from collections.abc import Callable
from dataclasses import replace

from tiremap.rules.case import Case
from tiremap.rules.margins import Question, least, margin_of
from tiremap.rules.marks import MarkFacts
from tiremap.rules.place import monotone
from tiremap.rules.reading import Reading, exactly
from tiremap.rules.reasons import MAKER_WORD, Reason, Settles
from tiremap.rules.weighing import LimitSays, Words, reason_for, weigh

TREAD_EDGE_SOURCE = "common practice, no source: a head stays inside the tread edge; the repair-material maker decides"
BELT_EDGE_SOURCE = "common practice, no source: a head across the belt edge is worked by the bending there"


def head_at_tread_edge(case: Case, injury: MarkFacts) -> list[Reason]:
    """Whether the head stays inside the tread edge. Margin: mm from the tread edge to the head, + inside."""
    title = injury.at_the_start
    question = tread_edge_question(case, injury)
    limit = LimitSays(0.0, "mm", TREAD_EDGE_SOURCE, grows=True, measured="inside the tread edge")
    maker = "a smaller or turned head, or the repair-material maker's word, settles it."
    words = Words(
        f"The head at {injury.title} stays inside the tread edge.",
        f"The head at {injury.title} passes the tread edge: {maker}",
        f"The head at {injury.title} may pass the tread edge: {maker}",
    )
    word = case.job.tire.maker_word
    reason = weigh("head_at_tread_edge", question, words, limit, (injury.id,), refusing="measure")
    if reason.level == "measure" and reason.question is None:  # broken whatever is measured: only a word settles it
        reason = replace(reason, settles=Settles(MAKER_WORD, "the repair-material maker's word", ""))
    if reason.level == "measure" and word is not None and word.head_past_tread_edge:
        says = f"{title}: the head may pass the tread edge, allowed by {word.source}."
        return [replace(reason, level="caution", says=says, settles=None, question=None)]
    return [reason]


def tread_edge_question(case: Case, injury: MarkFacts) -> Question:
    """The margin (mm) from the tread edge to the head at an injury, + inside."""
    return _question(case, injury, lambda tread_width, belt: tread_width / 2, exactly(0.0))


def head_at_belt_edge(case: Case, injury: MarkFacts) -> list[Reason]:
    """A caution where the head does, or may, lie across the belt edge. Margin: mm inside the belt edge."""
    question = belt_edge_question(case, injury)
    if question.passes(least(question)):
        return []
    margin = margin_of(question)
    lies = "lies" if margin.refuses(True) else "may lie"
    says = f"The head at {injury.title} {lies} across the belt edge."
    limit = LimitSays(0.0, "mm", BELT_EDGE_SOURCE, grows=True, measured="inside the belt edge")
    return [reason_for("head_at_belt_edge", "caution", says, margin, limit, (injury.id,))]


def belt_edge_question(case: Case, injury: MarkFacts) -> Question:
    """The margin (mm) from the belt edge to the head at an injury, + inside."""
    return _question(case, injury, case.facts.belt_half_width, case.facts.belt)


def _question(case: Case, injury: MarkFacts, edge: Callable[[float, float], float], belt: Reading) -> Question:
    ends = injury.ends_on(case.facts)

    def margin(
        outside: float, inside: float, tread_width: float, thickness: float, reach: float, belt: float
    ) -> float:
        return edge(tread_width, belt) - abs(ends(tread_width, outside, inside, thickness)[1]) - reach

    def centered(outside: float, inside: float, tread_width: float, thickness: float, *_: float) -> float:
        return ends(tread_width, outside, inside, thickness)[1]

    ends_read = (injury.outside_reading, injury.inside_reading)
    readings = (*ends_read, case.facts.tread_width, injury.thickness, injury.head.reach_across, belt)
    return Question(readings, margin, (centered,), *monotone(case, injury, set()), moved_by=4)
