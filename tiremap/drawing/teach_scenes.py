"""What a class is shown: the section, and beside it what the lesson asks for, each in a room of its own.

The same scenes stand on the screen and in an exported picture. While the answer is hidden nothing in them tells it.
"""

from dataclasses import dataclass, replace
from typing import NamedTuple

from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.drawing.bending_scene import bending_scene
from tiremap.drawing.guidance_scene import Lane, guidance_scene
from tiremap.drawing.lettering import text_box
from tiremap.drawing.loaded_scene import loaded_scene
from tiremap.drawing.scene import Label, Scene, SceneMark, Symbol, View
from tiremap.drawing.section_scene import section_scene
from tiremap.drawing.sight import section_of
from tiremap.drawing.strip_scene import strip_scene
from tiremap.drawing.wording import ANSWER_WORDS, Unit
from tiremap.geometry.loaded_section import LoadedSection, load_section
from tiremap.geometry.section import SectionCannotBeDrawn
from tiremap.model.job import Job
from tiremap.model.lesson import Beside
from tiremap.model.rule_set_file import usable_rule_sets

GAP = 8.0
LOADED_SHARE = 0.58
"""Of the height beside the section, for the loaded tire over its curve."""
SECTION_SHARE = {"nothing": 1.0, "bending": 0.5, "guidance": 0.5, "strip": 0.5}
"""Of the width, for the section."""
FILLS_ITS_ROOM = ("bending", "guidance", "strip")
"""Drawings that are as high as their room: their width alone decides how large they are."""
LEAST_TIRE_SHARE = 0.5
"""Of the height of the section's room, for the tire itself."""
_BESIDE_STRIP = 4.0
"""Paper mm kept free over and under the strip's window, besides its words."""
_LEAST_STRIP = 60.0
STRIP_SHOWS_TOGETHER = 180.0
"""mm around: holes as near as that to each other are shown in one window of the strip."""
_ROUNDS, _SETTLED = 16, 1e-4
"""Labels are in paper mm, so the frame depends on the scale that fits it: it settles in a few rounds."""

Name = str


class Room(NamedTuple):
    """A rectangle of screen or paper, y down, any unit."""

    left: float
    top: float
    width: float
    height: float


Limits = tuple[float, float, float, float]
"""x low, y low, x high, y high in the drawing's frame."""


class Fit(NamedTuple):
    """Tire mm for each unit of the room; where all that is written has no room, the part that is seen all the same."""

    scale: float
    seen: Limits | None = None


class Placed(NamedTuple):
    """A scene, the part of its frame that its room shows, and how it was fitted."""

    scene: Scene
    limits: Limits
    fit: Fit

    @property
    def scale(self) -> float:
        """Tire mm for each unit of the room."""
        return self.fit.scale


@dataclass(frozen=True)
class Shown:
    """All that decides what a class sees. ``loaded`` is ``None`` where the tire cannot be drawn under its load."""

    assessment: Assessment
    chosen: str | None
    beside: Beside
    loaded: LoadedSection | None = None
    lanes: tuple[Lane, ...] = ()
    reason: tuple[str, tuple[str, ...]] | None = None
    hidden: bool = False
    unit: Unit = "mm"
    strip_middle: float = 0.0
    dragging: bool = False


def loaded_of(assessment: Assessment, beside: Beside, load: float) -> LoadedSection | None:
    """The tire under its load; ``None`` where that is not shown beside, or the tire has no shape under it."""
    section = section_of(assessment)
    if section is None or beside != "bending":
        return None
    try:
        return load_section(section, load)
    except SectionCannotBeDrawn:
        return None


def lanes_of(job: Job) -> tuple[Lane, ...]:
    """Every guidance that can be used, on this job."""
    return tuple(
        Lane(each.title, assess(job, each, advise=False), each.name == job.rule_set) for each in usable_rule_sets()
    )


def middle_of_holes(assessment: Assessment, chosen: str | None) -> float:
    """Where the strip is turned to, radians from the datum: so that all holes are in view, else to the chosen one."""
    angles = [mark.around for mark in assessment.injuries if mark.around is not None]
    if not angles:
        return 0.0
    if (max(angles) - min(angles)) * assessment.known_strip.R0 <= STRIP_SHOWS_TOGETHER:
        return sum(angles) / len(angles)
    mark = None if chosen is None else assessment.mark(chosen)
    return angles[0] if mark is None or mark.around is None else mark.around


def rooms(width: float, height: float, beside: Beside) -> dict[Name, Room]:
    """The rooms of the drawings in an area of that size."""
    share = SECTION_SHARE[beside]
    left = width * share - (GAP / 2 if share < 1.0 else 0.0)
    there = {"section": Room(0.0, 0.0, max(left, 1.0), max(height, 1.0))}
    start, rest = left + GAP, max(width - left - GAP, 1.0)
    if beside == "bending":
        upper = height * LOADED_SHARE
        there["loaded"] = Room(start, 0.0, rest, max(upper - GAP / 2, 1.0))
        there["bending"] = Room(start, upper + GAP / 2, rest, max(height - upper - GAP / 2, 1.0))
    elif beside != "nothing":
        there[beside] = Room(start, 0.0, rest, max(height, 1.0))
    return there


def placed_scenes(shown: Shown, there: dict[Name, Room], per_paper_mm: float) -> dict[Name, Placed]:
    """Every scene in its room; ``per_paper_mm`` are the room's units in a millimeter of paper or screen."""
    placed = {}
    for name, room in there.items():
        if name in ("loaded", "bending") and shown.loaded is None:
            continue
        placed[name] = at_fit(name, shown, room, per_paper_mm, fitted(name, shown, room, per_paper_mm))
    return placed


def fitted(name: Name, shown: Shown, room: Room, per_paper_mm: float) -> Fit:
    """How the drawing of the bare tire just fits its room. In one too low for all that is written the tire comes
    first: it takes its share of the height, and the words the rest as far as it goes.
    """
    bare = replace(shown, assessment=replace(shown.assessment, injuries=(), repairs=(), pairs=()), dragging=True)
    scale = 0.5
    for _ in range(_ROUNDS):
        x_low, y_low, x_high, y_high = frame = _scene(name, bare, room, Fit(scale), per_paper_mm).frame
        fitting = (x_high - x_low) / room.width
        if name not in FILLS_ITS_ROOM:
            fitting = max(fitting, (y_high - y_low) / room.height)
        if name == "section" and (most := _largest_scale(shown, frame, room)) < fitting:
            half = room.width * most / 2
            return Fit(most, (-half, y_low, half, y_low + room.height * most))
        if abs(fitting / scale - 1.0) < _SETTLED:
            break
        scale = fitting
    return Fit(scale)


def _largest_scale(shown: Shown, frame: Limits, room: Room) -> float:
    """The scale at which the tire alone takes its least share of the height."""
    tire = shown.assessment.known_facts.overall_diameter / 2 - frame[1]
    return tire / (LEAST_TIRE_SHARE * room.height)


def at_fit(name: Name, shown: Shown, room: Room, per_paper_mm: float, fit: Fit) -> Placed:
    """A scene in its room as it was fitted before: nothing moves while something is dragged."""
    scene = _scene(name, shown, room, fit, per_paper_mm)
    x_low, y_low, x_high, y_high = fit.seen or scene.frame
    across, up = (x_low + x_high) / 2, (y_low + y_high) / 2
    half_wide, half_tall = room.width * fit.scale / 2, room.height * fit.scale / 2
    limits = (across - half_wide, up - half_tall, across + half_wide, up + half_tall)
    return Placed(unanswered(scene) if shown.hidden else scene, limits, fit)


def unanswered(scene: Scene) -> Scene:
    """The scene with nothing in it that tells an answer: no symbol, color, margin or word, and no zone to read it off.
    """
    return replace(scene, marks=tuple(kept for mark in scene.marks if (kept := _neutral(mark)) is not None))


def _neutral(mark: SceneMark) -> SceneMark | None:
    if isinstance(mark, Symbol):
        return replace(mark, kind="center") if mark.kind in ANSWER_WORDS else mark
    if mark.style in _TELLS_THE_ANSWER:
        return None
    if isinstance(mark, Label):
        told = any(words in mark.text for words in ANSWER_WORDS.values()) or mark.text.endswith(_AREA_UNITS)
        return None if told else mark
    if mark.style.startswith(("head_", "stem_", "buffed")) and mark.style != "head_earlier":
        return None  # which unit would be fitted, or that none would, tells as much as a color
    return mark


_TELLS_THE_ANSWER = (
    "shown", "dimension_shown", "head_overlap", "buffed_overlap", "zone_limit", "zone_outer", "zone_bracket",
    "zone_band", "dimension_zone", "label_zone", "bend_head",
)
_AREA_UNITS = ("mm²", "in²")
"""How the size of an overlap ends."""


def _scene(name: Name, shown: Shown, room: Room, fit: Fit, per_paper_mm: float) -> Scene:
    view, tall = _view(name, shown, room, fit, per_paper_mm), room.height / room.width
    match name:
        case "section":
            return section_scene(shown.assessment, view)
        case "strip":
            return strip_scene(shown.assessment, view)
        case "guidance":
            return guidance_scene(shown.assessment, shown.lanes, view, tall, _lanes_speak(shown))
    assert shown.loaded is not None  # a tire that is not loaded has no room for these
    if name == "loaded":
        return loaded_scene(shown.assessment, shown.loaded, view)
    return bending_scene(shown.assessment, shown.loaded, view, tall)


def _strip_words(wide: float) -> float:
    """Height of what stands over the strip in a room so wide, paper mm: one row, or two where one is too long."""
    seen, side = (text_box(text, "label", "room") for text in ("seen from inside the tire", "outboard"))
    rows = 1 if seen[0] + 2 * side[0] + _BESIDE_STRIP <= wide else 2
    return rows * seen[1] + _BESIDE_STRIP


def _lanes_speak(shown: Shown) -> bool:
    """Whether each guidance shows its answer: while a hole is dragged theirs are of a moment ago."""
    return not shown.hidden and not shown.dragging


def _view(name: Name, shown: Shown, room: Room, fit: Fit, per_paper_mm: float) -> View:
    scale = fit.scale
    return View(
        visible=fit.seen,
        chosen=shown.chosen,
        shown_reason=shown.reason,
        unit=shown.unit,
        while_dragging=shown.dragging,
        paper_scale=scale * per_paper_mm,
        composed=name == "strip",
        type_size="room",
        strip_middle=shown.strip_middle,
        strip_length=max(scale * (room.height - per_paper_mm * _strip_words(room.width / per_paper_mm)), _LEAST_STRIP),
    )

