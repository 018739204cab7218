"""The job sheet: the answer, the three drawings, every reason, and what to do next, on paper.

Its first page always carries answer, drawings and cautions; where something is still to measure, the measuring sheet
goes before it. A PDF goes on over as many pages as the reasons need; a picture is one page and says how much
it leaves out.
"""

from collections.abc import Sequence
from pathlib import Path

from tiremap.assessment import Assessment
from tiremap.drawing.wording import Unit
from tiremap.render.measuring_sheet import measuring_pages
from tiremap.render.page import BOLD, PLAIN, Page, wrapped
from tiremap.render.page_file import write_pages
from tiremap.render.sheet_drawings import draw
from tiremap.render.sheet_flow import Block, Flow, decision_blocks, measure_blocks, reason_blocks
from tiremap.render.sheet_head import EDGE, GUTTER, cautions, cautions_height, head
from tiremap.render.sheet_words import (
    REASONS_TITLE,
    holes_line,
    job_line,
    printed_reasons,
    to_measure,
    work_lines,
)

RING_WIDTH = 66.0
DRAWINGS_SHARE = 0.49
"""Share of the page's height the drawings take."""


def write_sheet(
    assessment: Assessment, path: Path | str, *, title: str = "Job sheet", lines: Sequence[str] = (),
    unit: Unit = "mm", page: str = "A4",
) -> None:
    """Write the sheet of an assessed job as PDF, PNG or SVG by the suffix of ``path``, at true page size.

    ``lines`` stand under the job's own, such as the shop's name. Raises `TiremapError` for another suffix, an
    unknown page size, or a file that cannot be written.
    """
    def pages(one_page: bool) -> list[Page]:
        return sheet_pages(assessment, title=title, lines=lines, unit=unit, page=page, one_page=one_page)

    write_pages(pages, path, title)


def sheet_pages(
    assessment: Assessment, *, title: str = "Job sheet", lines: Sequence[str] = (), unit: Unit = "mm",
    page: str = "A4", one_page: bool = False,
) -> list[Page]:
    """The pages of the sheet; with ``one_page`` the first alone, which says what it leaves out.

    What is still to measure goes before it on a page of its own to write on; a single page lists it beside the ring.
    """
    to_write_on = [] if one_page else measuring_pages(assessment, lines=lines, unit=unit, page=page)
    first = Page(page)
    y = head(first, assessment, title, lines, unit)
    measures = [] if to_write_on or assessment.answer == "repairable" else to_measure(assessment)
    bottom = first.height - EDGE - cautions_height(first)
    cautions(first, bottom)
    left: list[str] = measures
    if assessment.facts is not None:
        height = DRAWINGS_SHARE * first.height
        wide = first.width - 2 * EDGE - RING_WIDTH - GUTTER
        beside = draw(first, assessment, unit, (EDGE, y), wide, height, RING_WIDTH)
        left = _beside(first, assessment, measures, beside + 3.0, y + height, unit)
        y += height + 2.0
    blocks = measure_blocks(left, first.width - 2 * EDGE, goes_on=len(left) < len(measures))
    holes = holes_line(assessment)
    if holes is not None:
        blocks += [Block(tuple((0.0, line, PLAIN) for line in wrapped(holes, first.width - 2 * EDGE)), counted=False)]
    blocks += decision_blocks(assessment.job.decisions, first.width - 2 * EDGE)
    blocks += [Block.heading(REASONS_TITLE[assessment.answer])]
    blocks += reason_blocks(printed_reasons(assessment), unit, first.width - 2 * EDGE)
    return to_write_on + Flow(first, page, EDGE, y, bottom - 2.0, job_line(assessment)).run(blocks, one_page)


def _beside(
    page: Page, assessment: Assessment, measures: list[str], y: float, bottom: float, unit: Unit
) -> list[str]:
    """Under the ring: what to measure with boxes to write in, else what would be fitted; gives what had no room."""
    x, width = page.width - EDGE - RING_WIDTH, RING_WIDTH
    if not measures:
        work = [] if assessment.answer == "not_repairable" else work_lines(assessment, unit)
        lines = [line for each in work for line in wrapped(each, width)]
        room = int((bottom - y - BOLD.line) / PLAIN.line)
        if lines and room > 0:
            y = page.text(x, y, ["What would be fitted"], BOLD)
            page.text(x, y, lines if len(lines) <= room else [*lines[: room - 1], "and more, as in the table"])
        return []
    blocks = measure_blocks(measures, width)
    for count, block in enumerate(blocks):
        if y + block.height > bottom:
            return measures[max(0, count - 1) :]
        block.write(page, x, y)
        y += block.height
    return []
