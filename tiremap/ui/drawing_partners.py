"""What has to do with one mark: a frame of a drag draws these and leaves the rest as it stands."""

from dataclasses import replace
from math import tau

from tiremap.assessment import Assessment


def partners_of(assessment: Assessment, id: str) -> set[str]:
    """Ids of a mark, of those its ground overlaps, and of its nearest."""
    its = [pair for pair in assessment.pairs if id in (pair.first, pair.second)]
    kept = [pair for pair in its if pair.buffed_overlap_mm2]
    measured = [pair for pair in its if pair.distance_mm is not None]
    kept += [min(measured, key=lambda pair: pair.distance_mm)] if measured else []
    return {id, *(each for pair in kept for each in (pair.first, pair.second))}


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
        pairs=tuple(pair for pair in assessment.pairs if pair.first in ids and pair.second in ids),
    )
