"""What a hand does at the drawings, without a window: where the pointer is, and whether it went down, along or up."""

from dataclasses import dataclass
from math import hypot
from typing import Literal

DrawingName = Literal["section", "strip", "ring"]
Happening = Literal["press", "move", "release", "cancel"]

CLICK_SLACK_PX = 4.0
"""How far a hand may slip between press and release and still have clicked, screen pixels."""


@dataclass(frozen=True)
class Pointer:
    """One happening. ``x``, ``y``: mm in the frame of the drawing where the gesture began, also outside of it.

    ``screen``: screen pixels, y down. ``straight``: the key that keeps a drag to one direction is held.
    """

    happening: Happening
    x: float
    y: float
    screen: tuple[float, float]
    straight: bool = False

    @property
    def at(self) -> tuple[float, float]:
        """The point in the drawing, mm."""
        return self.x, self.y

    def has_left(self, start: "Pointer") -> bool:
        """Whether the hand has gone too far from ``start`` to be clicking."""
        return hypot(self.screen[0] - start.screen[0], self.screen[1] - start.screen[1]) > CLICK_SLACK_PX
