"""The mouse wheel and two fingers on a touchpad: zoom about the pointer, turn the strip, shift the picture."""

from tiremap.gestures.pointer import DrawingName
from tiremap.gestures.wishes import Pan, TurnBy, Wish, Zoom

ZOOM_PER_NOTCH = 1.15
WINDOWS_PER_NOTCH = 0.125
"""How much of its window's length one notch turns the strip."""
NOTCH = 120.0
"""One notch of a wheel, in the eighths of a degree that wheels count in."""


def wheel_turned(eighths: float, over: DrawingName | None, about: tuple[float, float], turning: bool) -> Wish | None:
    """A wheel turned by ``eighths`` of a degree, + away from the hand: away magnifies, or turns the strip back.

    ``turning``: the key that makes it turn the strip is held. Over the ring it always turns; ``about`` is in screen
    pixels.
    """
    notches = eighths / NOTCH
    if over is None or notches == 0:
        return None
    if over == "ring" or (over == "strip" and turning):
        return TurnBy(-notches * WINDOWS_PER_NOTCH)
    return Zoom(ZOOM_PER_NOTCH**notches, about)


def two_fingers_moved(right: float, down: float, over: DrawingName | None, window_px: float) -> Wish | None:
    """Two fingers moved by so many pixels: section and strip follow them, the ring turns the strip.

    ``window_px`` is the length of the strip's window on the screen.
    """
    if over is None or (right == 0 and down == 0):
        return None
    return TurnBy(-down / window_px) if over == "ring" else Pan(right, down)
