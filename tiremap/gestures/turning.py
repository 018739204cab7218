"""Gestures that turn the strip and shift the picture: on the wheel ring, and with the picture itself in hand."""

from collections.abc import Callable

from tiremap.geometry.crown import short_way_around
from tiremap.gestures.on_the_tread import Gesture
from tiremap.gestures.pointer import Pointer
from tiremap.gestures.wishes import Choose, Pan, TurnTo

AngleAt = Callable[[tuple[float, float]], float]
"""The angle around the tire (radians from the datum) of a point of the ring (mm)."""


def press_ring(press: Pointer, angle_at: AngleAt, middle: float, mark: tuple[str, float | None] | None) -> Gesture:
    """A drag around the ring turns the strip by the angle swept; a click brings the angle clicked to its middle.

    ``middle`` is the angle in the middle of the strip's window now. A click on a ``mark`` (id and angle) chooses it
    and brings it to the middle.
    """
    pointer = yield Choose(mark[0]) if mark else None
    while not pointer.has_left(press):
        if pointer.happening == "release":
            return TurnTo(mark[1] if mark and mark[1] is not None else angle_at(press.at))
        if pointer.happening == "cancel":
            return None
        pointer = yield None
    turned, last = middle, angle_at(press.at)
    while pointer.happening != "cancel":
        now = angle_at(pointer.at)
        # Added up step by step: a hand may go around more than once.
        turned += short_way_around(now - last)
        last = now
        if pointer.happening == "release":
            return TurnTo(turned)
        pointer = yield TurnTo(turned)
    return TurnTo(middle)


def shift_picture(press: Pointer) -> Gesture:
    """The picture follows the hand, pixel for pixel."""
    last = press
    pointer = yield None
    while pointer.happening == "move":
        step = Pan(pointer.screen[0] - last.screen[0], pointer.screen[1] - last.screen[1])
        last = pointer
        pointer = yield step
    return Pan(pointer.screen[0] - last.screen[0], pointer.screen[1] - last.screen[1])
