"""A step of a lesson as a picture: its words, its drawings, the answer with the reason told, the caution.

As large as a projected screen and lettered for the last row, in a projector's colors.
"""

from dataclasses import dataclass
from pathlib import Path

from tiremap.drawing.bending_scene import assumed_words, comparison
from tiremap.drawing.scene import View
from tiremap.drawing.shown_reason import told_to_a_class
from tiremap.drawing.teach_scenes import Shown, placed_scenes, rooms
from tiremap.drawing.wording import ANSWER_WORDS
from tiremap.errors import TiremapError
from tiremap.model.cautions import short_caution
from tiremap.render.page import Page, Type, wrapped
from tiremap.render.painter import Painter
from tiremap.rules.reasons import Reason

SIZE = (338.67, 211.67)
"""Width and height, mm: 1280 x 800 at 96 dots per inch."""
DPI = 144
SUFFIXES = (".png", ".pdf", ".svg")
_EDGE = 6.0
_PALETTE = "projector"
_WORDS, _TOLD, _ANSWER = Type(4.65), Type(4.65), Type(7.5, bold=True)
_SYMBOL_TIMES = 2.6
_ANSWER_ROOM = 20.0


@dataclass(frozen=True)
class ClassPicture:
    """What one picture shows: the drawings' state, what the step says, its place in the lesson, the reason told."""

    shown: Shown
    says: str
    place: str
    reason: Reason | None = None


def write_class_picture(picture: ClassPicture, path: Path) -> None:
    """Write it as PNG, PDF or SVG by the file's name. Raises `TiremapError` where it cannot be written."""
    if path.suffix.lower() not in SUFFIXES:
        raise TiremapError(f"A picture cannot be written as {path.name!r}.", "The name ends in .png, .pdf or .svg.")
    page = class_page(picture)
    try:
        page.figure.savefig(path, format=path.suffix.lower()[1:], dpi=DPI, facecolor=page.colors["paper"])
    except OSError as error:
        raise TiremapError(f"{path} was not written: {error.strerror or error}.") from None


def class_page(picture: ClassPicture) -> Page:
    """The page of one step."""
    page = Page(SIZE, _PALETTE)
    wide = page.width - 2 * _EDGE
    top = page.text(_EDGE, _EDGE, wrapped(picture.says, wide, _WORDS), _WORDS) + 2.0
    bottom = _foot(page, picture, wide)
    _drawings(page, picture.shown, top, bottom)
    return page


def _foot(page: Page, picture: ClassPicture, wide: float) -> float:
    """Answer and reason, how hard the head is bent, the caution, from below; gives the height above them."""
    shown = picture.shown
    view = View(chosen=shown.chosen, unit=shown.unit)
    bends = "" if shown.loaded is None else comparison(shown.assessment, shown.loaded, view)
    said = (bends, "" if shown.loaded is None else assumed_words(shown.unit), short_caution())
    below = [line for each in said if each for line in wrapped(each, wide, _TOLD)]
    y = page.height - _EDGE - len(below) * _TOLD.line
    page.text(_EDGE, y, below, _TOLD)
    page.line_of_text(page.width - _EDGE, page.height - _EDGE - 0.4 * _TOLD.line, picture.place, _TOLD, right=True)
    y -= _ANSWER_ROOM
    if shown.hidden:
        page.line_of_text(_EDGE, y + 12.0, "What is your answer?", _ANSWER)
        return y
    answer = shown.assessment.answer
    page.symbol(_EDGE + 7.0, y + _ANSWER_ROOM / 2, answer, _SYMBOL_TIMES)
    page.line_of_text(_EDGE + 17.0, y + 12.5, ANSWER_WORDS[answer], _ANSWER)
    if picture.reason is not None:
        left = _EDGE + 17.0 + 92.0
        told = told_to_a_class(picture.reason, view)
        page.text(left, y + 1.0, wrapped(told, page.width - _EDGE - left, _TOLD)[:2], _TOLD)
    return y


def _drawings(page: Page, shown: Shown, top: float, bottom: float) -> None:
    there = rooms(page.width - 2 * _EDGE, bottom - top - 2.0, shown.beside)
    for name, placed in placed_scenes(shown, there, 1.0).items():
        room = there[name]
        axes = page.axes(_EDGE + room.left, top + room.top, room.width, room.height)
        axes.set_axis_off()
        x_low, y_low, x_high, y_high = placed.limits
        axes.set(xlim=(x_low, x_high), ylim=(y_low, y_high))
        Painter(axes, _PALETTE).lay(placed.scene)
