"""What has to do with one mark: a frame of a drag draws these and leaves the rest as it stands."""

from dataclasses import replace
from math import tau

from shapely import Geometry, STRtree

from tiremap.assessment import Assessment
from tiremap.drawing.labels import label_boxes
from tiremap.drawing.scene import DimensionLine, Label, Scene, keys_of


def partners_of(assessment: Assessment, id: str) -> set[str]:
    """Ids of a mark, of those its ground overlaps, and of its nearest."""
    its = assessment.pairs_with(id)
    kept = [pair for pair in its if pair.buffed_overlap_mm2]
    measured = [pair for pair in its if pair.distance_mm is not None]
    kept += [min(measured, key=lambda pair: pair.distance_mm)] if measured else []
    return {id, *(each for pair in kept for each in (pair.first, pair.second))}


def answered_anew(before: Assessment, tried: Assessment, id: str) -> set[str]:
    """Ids of the other injuries that are shown with another answer than before: their symbols change too."""
    were = {mark.id: before.answer_shown(mark) for mark in before.injuries}
    return {mark.id for mark in tried.injuries if tried.answer_shown(mark) != were.get(mark.id)} - {id}


def texts_that_stay(laid: Scene, moving: frozenset[str], scale: float) -> STRtree:
    """Where the texts of a laid scene stand that belong to nothing that moves."""
    return STRtree([box for _, box in _texts(laid, moving, False, scale)])


def off_what_stays(scene: Scene, still: STRtree, moving: frozenset[str], scale: float) -> Scene:
    """A frame of a drag without those moving labels that would lie on one that stays as it was laid."""
    covering = {id(label) for label, box in _texts(scene, moving, True, scale) if len(still.query(box, "intersects"))}
    return replace(scene, marks=tuple(mark for mark in scene.marks if id(mark) not in covering))


def _texts(scene: Scene, moving: frozenset[str], moves: bool, scale: float) -> list[tuple[Label, Geometry]]:
    """The texts that move, or those that do not, with the shape each takes."""
    own = tuple(mark for mark in scene.marks
                if isinstance(mark, Label | DimensionLine) and moving.isdisjoint(keys_of(mark)) is not moves)
    return label_boxes(replace(scene, marks=own), scale)


def neighbors_around(assessment: Assessment, id: str) -> set[str]:
    """Ids of a mark and of the next one each way around the tire: the ring writes angles between neighbors."""
    placed = [mark for mark in assessment.marks if mark.around is not None]
    ids = [mark.id for mark in sorted(placed, key=lambda mark: mark.around % tau)]
    if id not in ids:
        return {id}
    place = ids.index(id)
    return {ids[place - 1], id, ids[(place + 1) % len(ids)]}


def only(assessment: Assessment, ids: set[str]) -> Assessment:
    """The assessment of those marks alone, to be drawn."""
    return replace(
        assessment,
        injuries=tuple(mark for mark in assessment.injuries if mark.id in ids),
        repairs=tuple(mark for mark in assessment.repairs if mark.id in ids),
        pairs=assessment.pairs_among(ids),
    )
