"""The measuring sheet of a tire that must be measured first: what, where and how, with boxes to write in.

One page; where many holes ask for more than it holds, it goes on.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from tiremap.assessment import Assessment
from tiremap.drawing.wording import ANSWER_WORDS, Unit
from tiremap.errors import TiremapError
from tiremap.render.measuring_drawing import BALLOON, draw_places, number_circle
from tiremap.render.measuring_rows import Look, Row, looks, rows
from tiremap.render.page import BOLD, PLAIN, QUIET, Page, Type, wrapped
from tiremap.render.page_file import write_pages
from tiremap.render.sheet_flow import Block, Flow
from tiremap.render.sheet_head import EDGE, cautions, cautions_height, head
from tiremap.render.sheet_words import job_line

TITLE = "Measuring sheet"
NUMBER_ROOM, BOX_WIDTH, BOX_HEIGHT, TAKEN_WIDTH, GAP = 7.0, 30.0, 8.0, 26.0, 2.0
"""mm: room for the number, the box for the value, and the line for how it was taken."""
TICK, TICK_ROOM = 3.2, 52.0
"""mm: a box to tick, and the room both take with their words."""


@dataclass(frozen=True)
class MeasureBlock:
    """One measurement, as wide as the page: number, words, where, how and what passes; boxes at the right."""

    row: Row
    width: float
    counted: bool = True

    @property
    def _lines(self) -> list[tuple[str, Type]]:
        wide = self.width - NUMBER_ROOM - BOX_WIDTH - TAKEN_WIDTH - 2 * GAP
        row = self.row
        texts = ((row.words, BOLD), (row.where, PLAIN), (row.passes, PLAIN),
                 (f"Taken by: {row.ways}." if row.ways else "", QUIET))
        return [(line, type) for text, type in texts for line in wrapped(text, wide, type)]

    @property
    def height(self) -> float:
        """mm, with the gap below."""
        return max(sum(type.line for _, type in self._lines), BOX_HEIGHT + QUIET.line) + 2.0

    def write(self, page: Page, x: float, y: float) -> None:
        """Write it with its upper left corner at (x, y)."""
        number_circle(page, x + BALLOON, y + BALLOON, self.row.number)
        down = y
        for line, type in self._lines:
            page.line_of_text(x + NUMBER_ROOM, down + type.cap * 1.25, line, type)
            down += type.line
        right = x + self.width
        page.box(right - TAKEN_WIDTH - GAP - BOX_WIDTH, y, BOX_WIDTH, BOX_HEIGHT, weight=0.35)
        page.line_of_text(right - TAKEN_WIDTH - GAP - 1.5, y + BOX_HEIGHT - 1.5, self.row.unit, QUIET, right=True)
        page.box(right - TAKEN_WIDTH, y, TAKEN_WIDTH, BOX_HEIGHT, weight=0.18)
        page.line_of_text(right - TAKEN_WIDTH, y + BOX_HEIGHT + QUIET.cap * 1.4, "how it was taken", QUIET)


@dataclass(frozen=True)
class LookBlock:
    """One thing to look at, with two boxes to tick before it."""

    look: Look
    width: float
    counted: bool = True

    @property
    def _lines(self) -> list[str]:
        return wrapped(f"{self.look.title}: {self.look.look_at}", self.width - TICK_ROOM)

    @property
    def height(self) -> float:
        """mm, with the gap below."""
        return max(len(self._lines) * PLAIN.line, TICK) + 1.3

    def write(self, page: Page, x: float, y: float) -> None:
        """Write it with its upper left corner at (x, y)."""
        for place, word in enumerate(self.look.found):
            at = x + place * TICK_ROOM * 0.4
            page.box(at, y, TICK, TICK, weight=0.25)
            page.line_of_text(at + TICK + 1.2, y + PLAIN.cap * 1.35, word)
        page.text(x + TICK_ROOM, y, self._lines)


def write_measuring_sheet(
    assessment: Assessment, path: Path | str, *, lines: Sequence[str] = (), unit: Unit = "mm", page: str = "A4"
) -> None:
    """Write the measuring sheet as PDF, PNG or SVG by the suffix of ``path``.

    Raises `TiremapError` where nothing is left to measure, and as `tiremap.render.sheet.write_sheet` does.
    """
    if not _asked(assessment):
        answer = ANSWER_WORDS[assessment.answer]
        raise TiremapError(
            f"There is no measuring sheet for this tire: the answer is {answer}, and no measurement is asked for.",
            "The job sheet says why.",
        )
    write_pages(lambda _: measuring_pages(assessment, lines=lines, unit=unit, page=page), path, TITLE)


def measuring_pages(
    assessment: Assessment, *, lines: Sequence[str] = (), unit: Unit = "mm", page: str = "A4"
) -> list[Page]:
    """The pages of the measuring sheet, one as a rule; none where nothing is left to measure."""
    if not _asked(assessment):
        return []
    asked, looked = rows(assessment, unit), looks(assessment)
    first = Page(page)
    wide = first.width - 2 * EDGE
    y = head(first, assessment, TITLE, lines, unit)
    bottom = first.height - EDGE - cautions_height(first)
    cautions(first, bottom)
    y = draw_places(first, assessment, asked, EDGE, y, wide)
    blocks: list[Block | MeasureBlock | LookBlock] = []
    if looked:
        blocks += [Block.heading("Look first, off the rim, and tick"), *(LookBlock(each, wide) for each in looked)]
    if asked:
        blocks += [Block.heading("Measure in this order"), *(MeasureBlock(each, wide) for each in asked)]
    blocks.append(Block(((0.0, "Measured by: ______________________   Date: ________________", PLAIN),), counted=False))
    return Flow(first, page, EDGE, y, bottom - 2.0, job_line(assessment)).run(blocks, one_page=False)


def _asked(assessment: Assessment) -> bool:
    return bool(rows(assessment, "mm") or looks(assessment))
