"""What a gesture or a key asks for. Whoever holds the drawing grants it; nothing here changes a job.

Across is the tread coordinate in mm, + outboard; around is radians from the datum. ``None`` is a coordinate that
the hand did not change, or that the drawing does not say (around, in the section): it stays as it was measured.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class Choose:
    """Choose this mark; an empty id lets go of the chosen one.

    ``of`` is how many marks the hand reached there: with more than one, a click chooses the next.
    """

    id: str
    of: int = 1


@dataclass(frozen=True)
class Hover:
    """The pointer is over this mark; an empty id: over none."""

    id: str


@dataclass(frozen=True)
class PlaceInjury:
    """Put a new injury there."""

    across: float
    around: float | None


@dataclass(frozen=True)
class TryPlace:
    """Show the mark there while it is dragged; nothing is decided yet."""

    id: str
    across: float | None
    around: float | None


@dataclass(frozen=True)
class MoveMark:
    """Put the mark there: the end of a drag."""

    id: str
    across: float | None
    around: float | None


@dataclass(frozen=True)
class PutBack:
    """The drag was given up: show the mark where it was."""

    id: str


@dataclass(frozen=True)
class Nudge:
    """Shift the mark by so many mm across (+ outboard) and along the tread around (+ towards growing angle)."""

    id: str
    across: float
    along: float


@dataclass(frozen=True)
class Remove:
    """Take the mark off the tire."""

    id: str


@dataclass(frozen=True)
class Edit:
    """Open the mark's measurements for typing."""

    id: str


@dataclass(frozen=True)
class Pan:
    """Shift the picture by so many screen pixels, right and down."""

    right: float
    down: float


@dataclass(frozen=True)
class Zoom:
    """Magnify by ``factor`` about a point of the screen (pixels); without one about the chosen mark."""

    factor: float
    about: tuple[float, float] | None = None


@dataclass(frozen=True)
class TurnTo:
    """Bring this angle (radians from the datum) to the middle of the strip."""

    angle: float


@dataclass(frozen=True)
class TurnBy:
    """Turn the strip on by so many of its window's lengths."""

    windows: float


@dataclass(frozen=True)
class Fit:
    """Show the whole section again."""


Wish = (
    Choose | Hover | PlaceInjury | TryPlace | MoveMark | PutBack | Nudge | Remove | Edit | Pan | Zoom | TurnTo | TurnBy
    | Fit
)
