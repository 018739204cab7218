"""Is this injury a cut? A caution: the sizes guidance gives are mostly those of nail holes."""

from tiremap.rules.case import Case
from tiremap.rules.marks import MarkFacts
from tiremap.rules.reasons import Reason

SOURCE = (
    "the guidance read speaks of punctures and nail holes; a tire maker's page for Canada of nail holes or cuts up to "
    "1/4 in, in the tread only (second-hand)"
)


def cut(case: Case, mark: MarkFacts) -> list[Reason]:
    """A caution for a cut; nothing for a puncture, or where nobody said."""
    if case.injury(mark).kind != "cut":
        return []
    says = f"A cut at {mark.title}: measure it along its length. Most guidance speaks of nail holes."
    return [Reason("cut", "caution", says, SOURCE, subject=(mark.id,))]
