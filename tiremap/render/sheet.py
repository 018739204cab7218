"""The job sheet: first for the customer and the file, then for the shop with all numbers.

The first page always carries answer, drawings, lines to sign and cautions, and tells why a tire is refused in plain
words; where something is still to measure, the measuring sheet goes before it. A PDF goes on over as many pages as it
needs; a picture is the first page alone and says how much it leaves out.
"""

from collections.abc import Sequence
from pathlib import Path

from tiremap.assessment import Assessment
from tiremap.drawing.wording import Unit
from tiremap.model.job import Answer
from tiremap.render.measuring_sheet import measuring_pages
from tiremap.render.page import BOLD, PLAIN, Page, wrapped
from tiremap.render.page_file import write_pages
from tiremap.render.sheet_customer import SIGNED, fitted_lines, in_short, steps_done_blocks, why_refused
from tiremap.render.sheet_drawings import draw
from tiremap.render.sheet_flow import (
    Block,
    Flow,
    Written,
    decision_blocks,
    measure_blocks,
    reason_blocks,
    running_head,
)
from tiremap.render.sheet_head import EDGE, GUTTER, cautions, cautions_height, head
from tiremap.render.sheet_shop import shop_blocks
from tiremap.render.sheet_words import (
    PASSED_TITLE,
    REASONS_TITLE,
    holes_line,
    job_line,
    printed_reasons,
    to_measure,
)

RING_WIDTH = 66.0
DRAWINGS_SHARE, SHARE_ABOVE_STEPS = 0.49, 0.42
"""Share of the page's height the drawings take; less where the steps that were done stand below."""
SIGN_OFF_ROOM = 9.0
"""mm above the cautions for the lines to sign."""


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
    wide = first.width - 2 * EDGE
    y = head(first, assessment, title, lines, unit)
    measures = [] if to_write_on or assessment.answer == "repairable" else to_measure(assessment)
    bottom = first.height - EDGE - cautions_height(first)
    cautions(first, bottom)
    bottom = _sign_off(first, assessment.answer, bottom)
    left: list[str] = measures
    if assessment.facts is not None:
        height = (SHARE_ABOVE_STEPS if assessment.job.steps_done else DRAWINGS_SHARE) * first.height
        beside = draw(first, assessment, unit, (EDGE, y), wide - RING_WIDTH - GUTTER, height, RING_WIDTH)
        left = _beside(first, assessment, measures, beside + 3.0, y + height, unit)
        y += height + 2.0
    to_fill_in = measure_blocks(left, wide, goes_on=len(left) < len(measures))
    room = bottom - y - sum(each.height for each in to_fill_in)
    blocks = [*to_fill_in, *_told(assessment, unit, wide, room)]
    pages = Flow(first, page, EDGE, y, bottom, job_line(assessment)).run(blocks, one_page)
    return pages if one_page else [*to_write_on, *pages, *_for_the_shop(assessment, unit, page, len(pages) + 1)]


def _told(assessment: Assessment, unit: Unit, width: float, room: float) -> Sequence[Written]:
    """What the first page tells in so much ``room`` (mm): holes, decisions, reasons, and the steps that were done."""
    blocks: list[Written] = []
    holes = holes_line(assessment)
    if holes is not None:
        blocks += [Block(tuple((0.0, line, PLAIN) for line in wrapped(holes, width)), counted=False)]
    blocks += decision_blocks(assessment.job.decisions, width)
    blocks += why_refused(assessment, unit, width)
    reasons = printed_reasons(assessment)
    if assessment.answer == "measure_first":
        blocks += [Block.heading(REASONS_TITLE[assessment.answer])]
        blocks += reason_blocks([each for each in reasons if each.level == "measure"], unit, width)
    steps = steps_done_blocks(assessment.job, width)
    brief = [each for each in reasons if each.level in ("caution", "note")]
    if brief:
        heading = Block.heading(REASONS_TITLE["repairable"] if assessment.answer == "repairable" else PASSED_TITLE)
        room -= sum(each.height for each in (*blocks, heading, *steps))
        blocks += [heading, *in_short(brief, unit, width, room)]
    return [*blocks, *steps]


def _sign_off(page: Page, answer: Answer, bottom: float) -> float:
    """The lines to sign, above the cautions; gives the height above them."""
    y = bottom - SIGN_OFF_ROOM
    page.text(EDGE, y + 4.5, [SIGNED[answer]], PLAIN)
    return y


def _for_the_shop(assessment: Assessment, unit: Unit, page: str, number: int) -> list[Page]:
    """The shop's page, or pages: all numbers, checks and sources."""
    first = Page(page)
    y = running_head(first, EDGE, f"{job_line(assessment)}, page {number}, for the shop")
    blocks = shop_blocks(assessment, unit, first.width - 2 * EDGE)
    running = f"{job_line(assessment)}, for the shop"
    return Flow(first, page, EDGE, y, first.height - EDGE, running, number).run(blocks, one_page=False)


def _beside(
    page: Page, assessment: Assessment, measures: list[str], y: float, bottom: float, unit: Unit
) -> list[str]:
    """Under the ring: what to measure with boxes to write in, else what would be fitted; gives what had no room."""
    x, width = page.width - EDGE - RING_WIDTH, RING_WIDTH
    if not measures:
        if assessment.answer == "not_repairable":
            return []
        room = int((bottom - y - BOLD.line) / PLAIN.line)
        for full in (True, False):
            lines = [line for each in fitted_lines(assessment, unit, full) for line in wrapped(each, width)]
            if len(lines) <= room:
                break
        if lines and room > 0:
            y = page.text(x, y, ["What would be fitted"], BOLD)
            page.text(x, y, lines if len(lines) <= room else [*lines[: room - 1], "and more on the shop's page"])
        return []
    blocks = measure_blocks(measures, width)
    for count, block in enumerate(blocks):
        if y + block.height > bottom:
            return measures[max(0, count - 1) :]
        block.write(page, x, y)
        y += block.height
    return []
