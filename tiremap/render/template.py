"""The true-scale template: each injury's head and the ground around it, to be cut out and laid on the liner.

Every place is developed by itself, so that a round head is a circle. The page is seen from inside the tire: outboard to
the right, angles around growing downward. A 100 mm square and a ruler show whether the printer kept the scale.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import numpy as np
from matplotlib.lines import Line2D
from numpy.typing import ArrayLike
from shapely import Polygon
from shapely.affinity import translate

from tiremap.assessment import AssessedMark, Assessment
from tiremap.drawing.said import said_in
from tiremap.drawing.wording import ANSWER_WORDS, Unit, length
from tiremap.geometry.footprints import laid_flat
from tiremap.model.cautions import short_caution
from tiremap.model.stock import RepairUnit
from tiremap.render.page import BOLD, PLAIN, QUIET, TITLE, Page, Type, wrapped
from tiremap.render.page_file import write_pages
from tiremap.render.palettes import POINTS_PER_MM
from tiremap.render.sheet_head import EDGE, cautions, cautions_height, head
from tiremap.render.sheet_words import job_line
from tiremap.repair_dimensions import RepairDimensions, repair_dimensions

TITLE_WORDS = "Template at true scale"
SQUARE_MM = 100.0
RULER_MM = 150
LINE, FINE, BOLD_LINE = 0.25, 0.13, 0.5
"""Weights of lines, mm."""
_ROOM_BELOW, _ROOM_ABOVE = SQUARE_MM + 14.0, 25.0
_ARROW, _LABELS = 9.0, 4.0
"""mm: an arrow beyond the outermost outline, and the room its words take."""
_READ = "Seen from inside the tire. The cross lies on the middle of the hole."
_LINES = "Thin: the head. Thick: buff to here. Dashed: seal to here. Outermost: clean to here."
_PRINT = "Print at 100 %, scaling none. Measure the square and the ruler before you cut."


@dataclass(frozen=True)
class _Tile:
    """One injury's outlines, mm, its middle at the origin: x outboard, y around and downward."""

    mark: AssessedMark
    unit: RepairUnit
    dimensions: RepairDimensions
    outlines: tuple[tuple[str, Polygon, float, bool], ...]
    """Name, outline, weight of its line, and whether it is dashed."""

    @property
    def reach(self) -> tuple[float, float]:
        """How far it reaches from its middle, with arrows and words: across and around."""
        bounds = [outline.bounds for _, outline, _, _ in self.outlines]
        across, around = max(each[2] for each in bounds), max(each[3] for each in bounds)
        return across + _ARROW + _LABELS, around + _ARROW + 6.0


def write_template(assessment: Assessment, path: Path | str, *, page: str = "A4", unit: Unit = "mm") -> None:
    """Write the template of an assessed job as a PDF, printed without scaling.

    Raises `TiremapError` for another suffix, an unknown page size, or a file that cannot be written.
    """
    write_pages(
        lambda one_page: template_pages(assessment, page=page, unit=unit), path, TITLE_WORDS, true_scale=True
    )


def template_pages(assessment: Assessment, *, page: str = "A4", unit: Unit = "mm") -> list[Page]:
    """The pages of the template: as many injuries on each as it holds. Of a tire not repairable, one that says why."""
    if assessment.answer != "repairable":
        return [_why_not(assessment, page, unit)]
    pages: list[Page] = []
    tiles_of_job = map(partial(_tile, assessment), assessment.injuries, repair_dimensions(assessment))
    for tiles in _laid_out(list(tiles_of_job), page):
        pages.append(_page(assessment, tiles, page, unit, len(pages) + 1))
    return pages


def _tile(assessment: Assessment, mark: AssessedMark, dimensions: RepairDimensions) -> _Tile:
    beyond = assessment.stock.beyond_the_head
    shape = mark.head
    assert shape is not None and mark.unit is not None  # every hole of a repairable tire has a unit
    return _Tile(mark, mark.unit, dimensions, (
        ("head", laid_flat(shape), LINE, False),
        ("buff to here", laid_flat(shape.grown(beyond.border)), BOLD_LINE, False),
        ("seal to here", laid_flat(shape.grown(beyond.border + beyond.sealed)), FINE, True),
        ("clean to here", laid_flat(shape.grown(beyond.pre_cleaned)), FINE, False),
    ))


def _laid_out(tiles: Sequence[_Tile], page: str) -> list[list[tuple[_Tile, float, float]]]:
    """Tiles with the place of their middle, page by page: side by side, then in rows."""
    paper = Page(page)
    left, right = EDGE, paper.width - EDGE
    top, bottom = EDGE + _ROOM_ABOVE, paper.height - EDGE - _ROOM_BELOW
    laid: list[list[tuple[_Tile, float, float]]] = [[]]
    x, y, row = left, top, 0.0
    for tile in tiles:
        across, around = tile.reach
        if x > left and x + 2 * across > right:
            x, y, row = left, y + row, 0.0
        if laid[-1] and y + 2 * around > bottom:
            laid.append([])
            x, y, row = left, top, 0.0
        laid[-1].append((tile, x + across, y + around))
        x, row = x + 2 * across, max(row, 2 * around)
    return laid


def _page(
    assessment: Assessment, tiles: list[tuple[_Tile, float, float]], page: str, unit: Unit, number: int
) -> Page:
    paper = Page(page)
    y = paper.text(EDGE, EDGE - 4.0, [TITLE_WORDS], Type(TITLE, bold=True)) + 0.5
    tire = assessment.job.tire.size_code or "typed dimensions"
    y = paper.text(EDGE, y, [f"{job_line(assessment)} · Tire {tire} · page {number}"], BOLD)
    y = paper.text(EDGE, y, [_PRINT], PLAIN)
    paper.text(EDGE, y, [_READ, _LINES, short_caution()], QUIET)
    bottom = paper.height - EDGE - _ROOM_BELOW
    for tile, x, middle in tiles:
        across, around = tile.reach
        if x + across > paper.width - EDGE + 1 or middle + around > bottom + 1:
            _too_large(paper, tile, unit)
        else:
            _draw(paper, tile, x, middle, unit)
    _check(paper)
    return paper


def _draw(paper: Page, tile: _Tile, x: float, y: float, unit: Unit) -> None:
    for _, outline, weight, dashed in tile.outlines:
        corners = np.asarray(translate(outline, x, y).exterior.coords)
        _line(paper, corners[:, 0], corners[:, 1], weight, dashed)
    bounds = tile.outlines[-1][1].bounds
    across, around = bounds[2], bounds[3]
    _line(paper, [x - across, x + across], [y, y], FINE)
    _line(paper, [x, x], [y - around, y + around], FINE)
    for side, words in ((1, "outboard"), (-1, "inboard")):
        _arrow(paper, (x + side * (across + 1), y), (x + side * (across + _ARROW), y))
        paper.line_of_text(x + side * (across + 1.5), y + 4.0, words, QUIET, right=side < 0)
    _arrow(paper, (x, y + around + 1), (x, y + around + _ARROW))
    paper.line_of_text(x + 2.0, y + around + _ARROW - 1.0, "angles grow this way", QUIET)
    unit_fitted = tile.unit
    said = f"Injury {tile.mark.id}: head {length(unit_fitted.head_length_mm, unit)}"
    if unit_fitted.head_width_mm is not None:
        said += f" by {length(unit_fitted.head_width_mm, unit)}, long side {unit_fitted.head_along} the tire"
    paper.line_of_text(x - across, y - around - 6.0, said, BOLD)
    paper.line_of_text(x - across, y - around - 2.5, _place(tile.dimensions, unit), QUIET)
    paper.line_of_text(x + 1.0, y + tile.outlines[0][1].bounds[3] - 1.5, "head", QUIET)


def _place(of: RepairDimensions, unit: Unit) -> str:
    """Where a tape finds the cross again, on the tread."""
    across = "across not known" if of.from_outboard_edge is None else (
        f"{length(of.from_outboard_edge, unit)} from the outboard edge")
    around = "around not known" if of.from_datum is None else f"{length(of.from_datum, unit)} from the datum"
    return f"{across}, {around}"


def _check(paper: Page) -> None:
    """The square and the ruler, each with a place to write what was measured."""
    left, top = EDGE, paper.height - EDGE - SQUARE_MM
    paper.box(left, top, SQUARE_MM, SQUARE_MM, weight=LINE)
    words = [
        "This square must measure", "100.0 mm both ways (3.94 in).", "", "Measured across: ____________ mm", "",
        "Measured down: ____________ mm", "", "By: ________  Date: ____________", "",
        "If it does not, do not use the template:", "print it again at 100 %.",
    ]
    paper.text(left + 6.0, top + 8.0, words, PLAIN)
    x = left + SQUARE_MM + 14.0
    start = top - 4.0
    ruler = min(RULER_MM, int(paper.height - EDGE - start))
    _line(paper, [x, x], [start, start + ruler], LINE)
    for mm in range(ruler + 1):
        tick = 6.0 if mm % 10 == 0 else 4.0 if mm % 5 == 0 else 2.5
        _line(paper, [x, x + tick], [start + mm, start + mm], FINE)
        if mm % 10 == 0:
            paper.line_of_text(x + 7.5, start + mm + 0.7, f"{mm}", QUIET)
    paper.line_of_text(x + 16.0, start + 4.0, "mm", QUIET)


def _too_large(paper: Page, tile: _Tile, unit: Unit) -> None:
    size = length(tile.unit.head_length_mm, unit)
    words = f"Injury {tile.mark.id}: its ground around a head of {size} does not fit this paper. Draw around the unit."
    paper.text(EDGE, EDGE + _ROOM_ABOVE, wrapped(words, paper.width - 2 * EDGE, BOLD), BOLD)


def _why_not(assessment: Assessment, page: str, unit: Unit) -> Page:
    """A page in place of the template where the tire is not repairable, or not yet."""
    paper = Page(page)
    y = head(paper, assessment, TITLE_WORDS, (), unit)
    answer = ANSWER_WORDS[assessment.answer]
    wide = paper.width - 2 * EDGE
    y = paper.text(EDGE, y + 4.0, [f"No template: the answer is {answer}."], Type(2.5, bold=True)) + 2.0
    level = "refuse" if assessment.answer == "not_repairable" else "measure"
    bottom = paper.height - EDGE - cautions_height(paper)
    for reason in (each for each in assessment.all_reasons if each.level == level):
        lines = wrapped(said_in(reason.says, unit), wide - 6.0)
        if y + (len(lines) + 1) * PLAIN.line > bottom:
            paper.text(EDGE, y, ["and more, on the job sheet"], QUIET)
            break
        paper.symbol(EDGE + 1.6, y + 1.6, assessment.answer, 0.62)
        y = paper.text(EDGE + 6.0, y, lines)
        y = paper.text(EDGE + 6.0, y, wrapped(f"Source: {reason.source}", wide - 6.0, QUIET), QUIET) + 1.2
    cautions(paper, bottom)
    return paper


def _arrow(paper: Page, start: tuple[float, float], end: tuple[float, float]) -> None:
    """A line with a head of two short strokes, the way it points."""
    _line(paper, [start[0], end[0]], [start[1], end[1]], LINE)
    along = np.subtract(end, start) / np.hypot(*np.subtract(end, start))
    aside = np.array([-along[1], along[0]])
    for side in (1, -1):
        back = np.asarray(end) - 2.2 * along + side * 1.2 * aside
        _line(paper, [end[0], back[0]], [end[1], back[1]], LINE)


def _line(paper: Page, x: ArrayLike, y: ArrayLike, weight: float, dashed: bool = False) -> None:
    line = Line2D(
        x, y, color=paper.colors["ink"], linewidth=weight * POINTS_PER_MM,
        linestyle=(0, (6, 4)) if dashed else "solid", solid_joinstyle="round",
    )
    paper.sheet.add_artist(line)
