"""What stands at the head and at the foot of every sheet: job, tire, rules and answer; the cautions."""

from collections.abc import Sequence

from tiremap.assessment import Assessment
from tiremap.drawing.wording import ANSWER_WORDS, Unit
from tiremap.model.cautions import full_cautions
from tiremap.render.page import BOLD, PLAIN, QUIET, TITLE, Page, Type, wrapped
from tiremap.render.sheet_words import decision_lines, job_line, rules_lines, tire_line

EDGE = 12.0
"""Margin of the page, mm."""
GUTTER = 3.0
"""Between two columns, mm."""


def head(page: Page, assessment: Assessment, title: str, lines: Sequence[str], unit: Unit) -> float:
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


def _cautions_lines(page: Page) -> list[list[str]]:
    return [wrapped(each, page.width - 2 * EDGE - 4.0) for each in full_cautions()]


def cautions_height(page: Page) -> float:
    """How tall the cautions stand, mm."""
    return sum(len(lines) for lines in _cautions_lines(page)) * PLAIN.line + 2.0


def cautions(page: Page, y: float) -> None:
    """Every caution, under the height ``y``."""
    page.rule(EDGE, y, page.width - EDGE, "ink", 0.25)
    y += 1.0
    for lines in _cautions_lines(page):
        page.line_of_text(EDGE, y + PLAIN.cap * 1.25, "!", BOLD)
        y = page.text(EDGE + 4.0, y, lines)
