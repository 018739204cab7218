"""The job sheet: the answer, the three drawings, every reason, and what to do next, on paper.

The first page always carries answer, drawings and cautions. A PDF goes on over as many pages as the reasons need; a
picture is one page and says how much it leaves out.
"""

from collections.abc import Sequence
from io import BytesIO
from pathlib import Path

from matplotlib import rc_context
from matplotlib.backends.backend_pdf import PdfPages

from tiremap.assessment import Assessment
from tiremap.drawing.wording import ANSWER_WORDS, Unit
from tiremap.errors import TiremapError
from tiremap.model.cautions import full_cautions
from tiremap.render.page import BOLD, PLAIN, QUIET, TITLE, Page, Type, wrapped
from tiremap.render.sheet_drawings import draw
from tiremap.render.sheet_flow import Block, Flow, decision_blocks, measure_blocks, reason_blocks
from tiremap.render.sheet_words import (
    REASONS_TITLE,
    decision_lines,
    holes_line,
    job_line,
    printed_reasons,
    rules_lines,
    tire_line,
    to_measure,
    work_lines,
)

EDGE = 12.0
"""Margin of the page, mm."""
RING_WIDTH, GUTTER = 66.0, 3.0
DRAWINGS_SHARE = 0.49
"""Share of the page's height the drawings take."""
PNG_DPI = 200
STABLE = {"pdf.fonttype": 42, "svg.fonttype": "none", "svg.hashsalt": "tiremap", "path.simplify": False}
"""Text stays text in PDF and SVG; nothing depends on the run."""


def write_sheet(
    assessment: Assessment, path: Path | str, *, title: str = "Job sheet", lines: Sequence[str] = (),
    unit: Unit = "mm", page: str = "A4",
) -> None:
    """Write the sheet of an assessed job as PDF, PNG or SVG by the suffix of ``path``, at true page size.

    ``lines`` stand under the job's own, such as the shop's name. Raises `TiremapError` for another suffix, an
    unknown page size, or a file that cannot be written.
    """
    target = Path(path)
    suffix = target.suffix.lower()
    if suffix not in (".pdf", ".png", ".svg"):
        raise TiremapError(f"A sheet cannot be written as {target.name!r}.", "The name ends in .pdf, .png or .svg.")
    with rc_context(STABLE):
        pages = sheet_pages(assessment, title=title, lines=lines, unit=unit, page=page, one_page=suffix != ".pdf")
        content = _as_pdf(pages, title) if suffix == ".pdf" else _as_picture(pages[0], suffix, title)
    try:
        target.write_bytes(content)
    except OSError as error:
        raise TiremapError(f"The sheet {target.name!r} cannot be written: {error.strerror}.") from error


def sheet_pages(
    assessment: Assessment, *, title: str = "Job sheet", lines: Sequence[str] = (), unit: Unit = "mm",
    page: str = "A4", one_page: bool = False,
) -> list[Page]:
    """The pages of the sheet; with ``one_page`` the first alone, which says what it leaves out."""
    first = Page(page)
    y = _head(first, assessment, title, lines, unit)
    measures = to_measure(assessment) if assessment.answer != "repairable" else []
    bottom = first.height - EDGE - _cautions_height(first)
    _cautions(first, bottom)
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
    return Flow(first, page, EDGE, y, bottom - 2.0, job_line(assessment)).run(blocks, one_page)


def _head(page: Page, assessment: Assessment, title: str, lines: Sequence[str], unit: Unit) -> float:
    """Title, job, tire and rule set at the left, the answer at the right; gives the height below."""
    box = 52.0
    wide = page.width - 2 * EDGE - box - GUTTER
    y = page.text(EDGE, EDGE - 2.0, [title], Type(TITLE, bold=True)) + 0.5
    rules = rules_lines(assessment)
    written = [
        (job_line(assessment), BOLD), *((line, PLAIN) for line in lines), (tire_line(assessment, unit), PLAIN),
        (rules[0], PLAIN), *((line, QUIET) for line in rules[1:]),
        *((line, BOLD) for line in decision_lines(assessment)),
    ]
    for line, type in written:
        y = page.text(EDGE, y, wrapped(line, wide, type), type)
    _answer(page, assessment, page.width - EDGE - box, EDGE - 2.0, box, 17.0)
    y = max(y, EDGE - 2.0 + 17.0) + 2.0
    page.rule(EDGE, y, page.width - EDGE)
    return y + 1.5


def _answer(page: Page, assessment: Assessment, x: float, y: float, width: float, height: float) -> None:
    """The answer by word, symbol, color and line: solid, dashed, or hatched at its side."""
    answer = assessment.answer
    color = {"repairable": "repairable", "measure_first": "ink", "not_repairable": "not_repairable"}[answer]
    if answer == "measure_first":
        page.filled(x, y, 3.0, height, "measure_first")
    page.box(x, y, 3.0, height, color, 0.35, hatch="//////" if answer == "not_repairable" else None)
    page.box(x, y, width, height, color, 0.5, dashed=answer == "measure_first")
    page.symbol(x + 10.5, y + height / 2, answer, 2.3)
    page.line_of_text(x + 18.0, y + height / 2 + 1.3, ANSWER_WORDS[answer], Type(2.6, bold=True))


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


def _cautions_lines(page: Page) -> list[list[str]]:
    return [wrapped(each, page.width - 2 * EDGE - 4.0) for each in full_cautions()]


def _cautions_height(page: Page) -> float:
    return sum(len(lines) for lines in _cautions_lines(page)) * PLAIN.line + 2.0


def _cautions(page: Page, y: float) -> None:
    page.rule(EDGE, y, page.width - EDGE, "ink", 0.25)
    y += 1.0
    for lines in _cautions_lines(page):
        page.line_of_text(EDGE, y + PLAIN.cap * 1.25, "!", BOLD)
        y = page.text(EDGE + 4.0, y, lines)


def _as_pdf(pages: list[Page], title: str) -> bytes:
    buffer = BytesIO()
    facts = {"Title": title, "Creator": "Tiremap", "Producer": "Tiremap", "CreationDate": None, "ModDate": None}
    with PdfPages(buffer, metadata=facts) as pdf:
        for page in pages:
            pdf.savefig(page.figure)
    return buffer.getvalue()


def _as_picture(page: Page, suffix: str, title: str) -> bytes:
    buffer = BytesIO()
    if suffix == ".png":
        page.figure.savefig(buffer, format="png", dpi=PNG_DPI, metadata={"Software": None, "Title": title})
    else:
        page.figure.savefig(buffer, format="svg", metadata={"Date": None, "Creator": "Tiremap", "Title": title})
    return buffer.getvalue()
