"""The tire under its marks as a key: what hangs on it and the view alone is made once, not for each frame of a drag."""

from dataclasses import replace
from functools import cached_property

from tiremap.assessment import Assessment
from tiremap.drawing.scene import View


class TireOf:
    """The tire of an assessment; equal to another while both are of the same tire under the same guidance."""

    def __init__(self, assessment: Assessment) -> None:
        self._assessment = assessment
        self._tire, self._rule_set = assessment.job.tire, assessment.rule_set

    @cached_property
    def bare(self) -> Assessment:
        """The assessment without its marks."""
        return replace(self._assessment, injuries=(), repairs=(), pairs=(), reasons=(), needed=(), deciding=None)

    def __hash__(self) -> int:
        return hash((self._tire.size_code, id(self._rule_set)))

    def __eq__(self, other: object) -> bool:
        return isinstance(other, TireOf) and self._rule_set is other._rule_set and self._tire == other._tire


def at_no_mark(view: View) -> View:
    """The view without what it says of marks: two views alike in the rest show the same tire."""
    return replace(view, chosen=None, hovered=None, shown_reason=None, while_dragging=False)
