"""The liner worked around a head: buffed, pre-cleaned and sealed outlines, their union and true areas."""

from collections.abc import Iterable
from dataclasses import dataclass

from shapely import Geometry

from tiremap.geometry.footprints import Head, head_outline, union_outline
from tiremap.geometry.frames import TreadPoint
from tiremap.geometry.liner_strip import Strip
from tiremap.model.stock import BeyondTheHead, RepairUnit


@dataclass(frozen=True)
class Ground:
    """Outlines around one head on the strip, mm, not cut at the datum."""

    place: TreadPoint
    shape: Head
    head: Geometry
    buffed: Geometry
    pre_cleaned: Geometry
    sealed: Geometry


def head_of(unit: RepairUnit) -> Head:
    """The footprint of a unit's head."""
    return Head(unit.head_length_mm, unit.width_mm, unit.head_along)


def ground_around(strip: Strip, place: TreadPoint, head: Head, beyond: BeyondTheHead) -> Ground:
    """The outlines of a head at a place and of what is buffed, cleaned and sealed around it."""
    return Ground(
        place,
        head,
        head_outline(strip, place, head),
        head_outline(strip, place, head.grown(beyond.border)),
        head_outline(strip, place, head.grown(beyond.pre_cleaned)),
        head_outline(strip, place, head.grown(beyond.border + beyond.sealed)),
    )


def united(strip: Strip, grounds: Iterable[Ground], grown_by: float) -> Geometry:
    """The union of heads grown by ``grown_by`` mm, cut at the datum."""
    return union_outline(strip, [(ground.place, ground.shape.grown(grown_by)) for ground in grounds])
