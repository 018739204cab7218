"""What a drawing is made of: marks with a shape in tire millimeters, a style name and a key.

A scene says what to draw, never how: colors, line weights and text heights stand in ``resources/drawing/styles.toml``
and are in paper (screen) millimeters, so they do not scale with zoom. One painter lays scenes on screen and on paper.

Each scene has its own drawing frame, x to the right and y up, mm:

- section: ``x`` across (+ outboard, mirrored when seen from outside), ``y`` the radius from the axle;
- strip: ``x`` arc length across the liner, ``y`` = -(t - t of the window's middle), so angle grows downward;
- loaded: as section, with the belt edge let down;
- bending: a curve, ``x`` along the liner from the center plane and ``y`` a strain, as `bending_scene` scales it;
- guidance: ``x`` as section, ``y`` lanes one under another;
- ring: origin on the axle, seen from outboard: ``x = r sin(a)``, ``y = r cos(a)``, turned by the datum's clock hour.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np
from shapely import Geometry

SceneName = Literal["section", "strip", "ring", "loaded", "bending", "guidance"]
Anchor = Literal["center", "left", "right", "above", "below"]
TypeSize = Literal["paper", "screen", "large", "room"]
"""How large text is set: on a printed sheet, on a screen, on a beamer, for a class up to the last row."""
SymbolKind = Literal["repairable", "measure_first", "not_repairable", "repair", "unsound_repair", "datum", "center"]


@dataclass(frozen=True, eq=False)
class Area:
    """A filled shape. ``key`` names the mark it belongs to (``injury.1``), or is empty; two, with a blank between, for
    what lies between two marks.
    """

    shape: Geometry
    style: str
    key: str = ""


@dataclass(frozen=True, eq=False)
class Line:
    """An open line of ``(n, 2)`` points."""

    points: np.ndarray
    style: str
    key: str = ""


@dataclass(frozen=True)
class Label:
    """A word at a place: centered on it, or standing on that side of it. Lines are parted by ``\\n``.

    ``leader_to`` is the point it speaks of where it had to move away from it; the leader starts at (x, y).
    """

    x: float
    y: float
    text: str
    style: str
    key: str = ""
    anchor: Anchor = "center"
    leader_to: tuple[float, float] | None = None
    turn: float = 0.0
    """Turned by this many degrees, counterclockwise."""


@dataclass(frozen=True)
class DimensionLine:
    """A dimension between two points, its value above the line.

    ``offset`` mm moves the line off them, to the left of the way from start to end. With ``outside`` the arrows stand
    outside the two ends and point at each other: between them is no room.
    """

    start: tuple[float, float]
    end: tuple[float, float]
    text: str
    style: str = "dimension"
    key: str = ""
    offset: float = 0.0
    outside: bool = False


@dataclass(frozen=True)
class Symbol:
    """A mark of fixed paper size: the ring of an answer with its tick, question mark or cross; the datum; a center."""

    x: float
    y: float
    kind: SymbolKind
    key: str = ""
    chosen: bool = False
    hovered: bool = False


SceneMark = Area | Line | Label | DimensionLine | Symbol


@dataclass(frozen=True)
class Scene:
    """Marks from back to front. ``frame`` is (x low, y low, x high, y high), mm: what fits the drawing to a window."""

    name: SceneName
    marks: tuple[SceneMark, ...]
    frame: tuple[float, float, float, float]
    type_size: TypeSize = "screen"


def keys_of(mark: SceneMark) -> tuple[str, ...]:
    """The keys of the marks of the job that a scene mark belongs to."""
    return tuple(mark.key.split())


@dataclass(frozen=True)
class View:
    """What the user looks at, apart from the job: nothing here changes an answer.

    ``strip_middle`` is the angle (radians) at the middle of the strip's window, ``strip_length`` the window's length
    around (mm). ``shown_reason`` is (code, subject ids) of the reason whose shape and dimension are shown.
    ``paper_scale`` (section and strip) and ``ring_scale`` say how many tire mm one mm of paper or screen shows:
    labels are laid for that scale.
    """

    chosen: str | None = None
    hovered: str | None = None
    shown_reason: tuple[str, tuple[str, ...]] | None = None
    from_inside: bool = True
    strip_middle: float = 0.0
    strip_length: float = 260.0
    datum_hour: float = 12.0
    unit: Literal["mm", "in"] = "mm"
    while_dragging: bool = False
    """True leaves labels where they are and draws the shapes of the chosen mark alone: a frame of a drag, to be laid
    over what stands. The rest is laid on edits.
    """
    composed: bool = False
    """True where the three drawings stand on one canvas: what all would say stands once, with the section."""
    visible: tuple[float, float, float, float] | None = None
    """The part of the section in view (mm); the strip shares its width. ``None`` is all of its frame."""
    paper_scale: float = 2.0
    ring_scale: float = 8.0
    type_size: TypeSize = "screen"
