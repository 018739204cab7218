"""Gestures with the left button on section and strip: choose, place and drag marks.

A gesture is a generator. ``next`` starts it at the press, each ``send`` tells it the next happening, and it answers
with a wish or ``None``; it returns with its last wish. ``place_at`` turns a point of the drawing (mm) into a place:
across (mm) and around (radians, ``None`` in the section), or ``None`` off the tread. ``step`` is what places set by
hand fall on, mm, across and along the tread (`tiremap.gestures.snapping`).
"""

from collections.abc import Callable, Generator
from dataclasses import dataclass

from tiremap.geometry.crown import short_way_around
from tiremap.gestures.pointer import CLICK_SLACK_PX, Pointer
from tiremap.gestures.snapping import FINEST_MM, snapped, snapped_angle
from tiremap.gestures.wishes import Choose, MoveMark, PlaceInjury, PutBack, TryPlace, Wish

Gesture = Generator[Wish | None, Pointer, Wish | None]
Place = tuple[float, float | None]
PlaceAt = Callable[[tuple[float, float]], Place | None]


@dataclass(frozen=True)
class HeldMark:
    """The mark under the hand and where it is: ``across`` mm, ``around`` radians or ``None`` while unknown.

    ``tread_radius`` (mm) turns lengths along the tread into angles.
    """

    id: str
    across: float
    around: float | None
    tread_radius: float


def hold_mark(
    press: Pointer, mark: HeldMark, place_at: PlaceAt, step: float = FINEST_MM, clicked: Choose | None = None
) -> Gesture:
    """Choose the mark; dragged past a click's slack it follows the hand, and is moved once where it is let go.

    ``clicked`` is what letting go without a drag chooses. The mark keeps its distance from the hand, so seizing it by
    its rim does not make it jump. A coordinate along which the hand has not left a click's slack is not given, so
    that a place across that was taped stays taped when the mark is carried around. Straight: only the direction gone
    further changes. Let go where it began, or given up, the mark is put back.
    """
    pointer = yield Choose(mark.id)
    while not pointer.has_left(press):
        if pointer.happening == "release":
            return clicked
        if pointer.happening == "cancel":
            return None
        pointer = yield None
    seized = last = place_at(press.at)
    while pointer.happening != "cancel":
        last = place_at(pointer.at) or last
        across, around = _carried(mark, seized, last, _goes(press, pointer), step)
        if pointer.happening == "release":
            if across is None and around is None:
                return PutBack(mark.id)
            return MoveMark(mark.id, across, around)
        pointer = yield TryPlace(mark.id, across, around)
    return PutBack(mark.id)


def press_free_tread(press: Pointer, place_at: PlaceAt, tread_radius: float, step: float = FINEST_MM) -> Gesture:
    """A click on free tread places an injury there; a hand that slips away places nothing."""
    pointer = yield None
    while not pointer.has_left(press):
        if pointer.happening == "release":
            place = place_at(press.at)
            if place is None:
                return None
            return PlaceInjury(snapped(place[0], step), snapped_angle(place[1], tread_radius, step))
        if pointer.happening == "cancel":
            return None
        pointer = yield None
    return None


def _goes(press: Pointer, pointer: Pointer) -> tuple[bool, bool]:
    """Whether the hand goes across and whether it goes around, on the screen."""
    right, down = (abs(now - then) for now, then in zip(pointer.screen, press.screen, strict=True))
    if pointer.straight:
        return right >= down, down > right
    return right > CLICK_SLACK_PX, down > CLICK_SLACK_PX


def _carried(
    mark: HeldMark, seized: Place | None, now: Place | None, goes: tuple[bool, bool], step: float
) -> tuple[float | None, float | None]:
    """Where the mark has been carried; ``None`` for a coordinate that stays as it is."""
    if seized is None or now is None:
        return None, None
    goes_across, goes_around = goes
    across = snapped(mark.across + now[0] - seized[0], step)
    if now[1] is None or seized[1] is None:
        # The section is curved: any way the hand goes there is a way across.
        return across, None
    if mark.around is None:
        return (across if goes_across else None), snapped_angle(now[1], mark.tread_radius, step)
    around = snapped_angle(mark.around + short_way_around(now[1] - seized[1]), mark.tread_radius, step)
    return (across if goes_across else None), (around if goes_around else None)

