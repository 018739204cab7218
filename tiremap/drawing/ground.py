"""The tire under its marks as a key: what hangs on it and the view alone is made once, not for each frame of a drag."""

from dataclasses import replace
from functools import cached_property

from tiremap.assessment import Assessment
from tiremap.drawing.scene import View


class TireOf:
    """The tire of an assessment; equal to another while both were assessed from the same tire under the same guidance.

    It is the objects that are compared, not what they hold: jobs and their facts are never changed, only made anew.
    """

    def __init__(self, assessment: Assessment) -> None:
        self._assessment = assessment
        self._parts = assessment.facts, assessment.rule_set, assessment.job.tire

    @cached_property
    def bare(self) -> Assessment:
        """The assessment without its marks."""
        return replace(self._assessment, injuries=(), repairs=(), pairs=(), reasons=(), needed=(), deciding=None)

    def __hash__(self) -> int:
        return hash(tuple(id(part) for part in self._parts))

    def __eq__(self, other: object) -> bool:
        return isinstance(other, TireOf) and all(
            one is another for one, another in zip(self._parts, other._parts, strict=True)
        )


def at_no_mark(view: View) -> View:
    """The view without what it says of marks: two views alike in the rest show the same tire."""
    return replace(view, chosen=None, hovered=None, shown_reason=None, while_dragging=False)
