"""The liner worked around a head: buffed, pre-cleaned and sealed outlines, their union and true areas."""

from dataclasses import dataclass
from functools import cached_property

from shapely import Geometry

from tiremap.geometry.footprints import Head, head_outline
from tiremap.geometry.frames import TreadPoint
from tiremap.geometry.liner_strip import Strip
from tiremap.geometry.overlap import overlap_area
from tiremap.model.stock import BeyondTheHead, RepairUnit


@dataclass(frozen=True)
class Ground:
    """The ground around one head. Its outlines lie on the strip, mm, not cut at the datum.

    They are drawn when they are asked for: no answer hangs on a shape, and most assessments are never drawn.
    """

    strip: Strip
    place: TreadPoint
    shape: Head
    beyond: BeyondTheHead

    @cached_property
    def head(self) -> Geometry:
        """The head itself."""
        return self._grown(0.0)

    @cached_property
    def buffed(self) -> Geometry:
        """What is buffed: as far as the border beyond the head."""
        return self._grown(self.beyond.border)

    @cached_property
    def pre_cleaned(self) -> Geometry:
        """What is cleaned before buffing."""
        return self._grown(self.beyond.pre_cleaned)

    @cached_property
    def sealed(self) -> Geometry:
        """What is sealed: the buffed ground and a little beyond it."""
        return self._grown(self.beyond.border + self.beyond.sealed)

    def _grown(self, by: float) -> Geometry:
        return head_outline(self.strip, self.place, self.shape.grown(by))


def head_of(unit: RepairUnit) -> Head:
    """The footprint of a unit's head."""
    return Head(unit.head_length_mm, unit.width_mm, unit.head_along)


def shared_area(one: Ground, other: Ground, grown_by: float) -> float:
    """Liner (true mm2) that two heads, each grown by ``grown_by`` mm, both cover."""
    return overlap_area(one.strip, one.place, one.shape.grown(grown_by), other.place, other.shape.grown(grown_by))
