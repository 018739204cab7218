"""How deep are the weather cracks, and do they run into each other?

Asked once the depth of the deepest or whether they are joined was entered; before that the condition check alone
speaks. What was measured counts whatever the check says: one answered "fine" does not outweigh a deep crack.
"""

from dataclasses import dataclass, replace

from tiremap.model.job import Tire
from tiremap.model.tolerances import length_range
from tiremap.resources import read_toml
from tiremap.rules.case import Case
from tiremap.rules.margins import Question
from tiremap.rules.reading import UNBOUNDED, Reading, unknown
from tiremap.rules.reasons import Reason, Settles, Turns
from tiremap.rules.weighing import LimitSays, Words, weigh

CHECK = "cracks"
"""The condition check that looks for them, by its field in the job's checks."""
DEPTH, JOINED = "tire.crack_depth", "tire.cracks_joined"
_DEPTH_WORDS = "the depth of the deepest weather crack"
_JOINED_WORDS = "whether the weather cracks are joined up"


@dataclass(frozen=True)
class CrackDepthLimit:
    """Cracks this deep or deeper refuse the tire; ``value`` in mm."""

    value: float
    operator: str
    unit: str
    source: str
    grade: str


def crack_depth_limit() -> CrackDepthLimit:
    """The depth weather cracks must stay under."""
    return CrackDepthLimit(**read_toml("condition_checks.toml")["crack_depth"])


def cracks(case: Case) -> list[Reason]:
    """One reason for their depth, one for being joined up; none where neither was entered.

    Margin: mm of depth short of the limit.
    """
    tire, finding = case.job.tire, case.job.checks.cracks
    if tire.crack_depth is None and tire.cracks_joined is None:
        return []
    found = finding is not None and finding.state == "found"
    reasons = []
    if tire.crack_depth is not None or (found and tire.cracks_joined is False):
        reasons.append(_deep(tire))
    refused = any(reason.level == "refuse" for reason in reasons)
    if tire.cracks_joined:
        reasons.append(_joined_up())
    elif tire.cracks_joined is None and found and not refused:
        reasons.append(_joined_asked())
    return reasons


def _deep(tire: Tire) -> Reason:
    """Their depth against the limit; cracks that pass it are still cracks, so passing is a caution."""
    limit = crack_depth_limit()
    words = Words(
        "Shallow weather cracks: less than 2/32 in deep.",
        "Weather cracks 2/32 in deep or deeper.",
        "Weather cracks may be 2/32 in deep or deeper.",
    )
    says = LimitSays(limit.value, limit.unit, limit.source, inclusive=False)
    depth = _depth(tire)
    reason = weigh("crack_depth", Question((depth,), lambda mm: limit.value - mm), words, says)
    if reason.level == "note" and depth.stated:
        return replace(reason, level="caution")
    return reason


def _depth(tire: Tire) -> Reading:
    if tire.crack_depth is None:
        return unknown(DEPTH, _DEPTH_WORDS, 0.0, UNBOUNDED)
    low, stated, high = length_range("crack_depth", tire.crack_depth)
    return Reading(DEPTH, _DEPTH_WORDS, low, stated, high, estimated=tire.crack_depth.how == "eye")


def _joined_up() -> Reason:
    says, turns = "Weather cracks are joined up.", Turns(JOINED, _JOINED_WORDS)
    return Reason("cracks_joined", "refuse", says, crack_depth_limit().source, turns=turns)


def _joined_asked() -> Reason:
    settles = Settles(JOINED, _JOINED_WORDS, "")
    says = "Weather cracks were found: say whether they are joined up."
    source = crack_depth_limit().source
    return Reason("cracks_joined", "measure", says, source, settles=settles, asks=((JOINED, _JOINED_WORDS),))
