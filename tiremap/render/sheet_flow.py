"""Blocks of text that run down a sheet and on over further pages, none cut in two."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import takewhile
from typing import Protocol

from tiremap.drawing.decision_words import decision_told
from tiremap.drawing.scene import SymbolKind
from tiremap.drawing.wording import Unit
from tiremap.model.job import Decision
from tiremap.render.page import BOLD, PLAIN, QUIET, Page, Type, wrapped
from tiremap.render.sheet_words import LEVEL_WORDS, reason_lines
from tiremap.rules.reasons import Level, Reason

INDENT = 20.0
"""mm from a reason's level to its sentence."""
BOX_WIDTH, BOX_HEIGHT = 22.0, 5.0
"""A box to write a measurement in by hand, mm."""
SYMBOLS: dict[Level, SymbolKind] = {"refuse": "not_repairable", "measure": "measure_first"}


@dataclass(frozen=True)
class Block:
    """Lines kept together, each at its own indent (mm); an empty box at the right end if ``box_at`` is given (mm)."""

    lines: tuple[tuple[float, str, Type], ...]
    symbol: SymbolKind | None = None
    box_at: float | None = None
    counted: bool = True
    """Whether it counts as one thing left out where there is no room."""
    gap: float = 1.2
    """mm below it."""

    @classmethod
    def heading(cls, text: str) -> "Block":
        """A heading of its own."""
        return cls(((0.0, text, BOLD),), counted=False)

    @property
    def height(self) -> float:
        """mm, with the gap below."""
        tall = sum(type.line for indent, _, type in self.lines if not self._beside(indent))
        return max(tall, BOX_HEIGHT if self.box_at is not None else 0.0) + self.gap

    def write(self, page: Page, x: float, y: float) -> None:
        """Write it with its upper left corner at (x, y)."""
        if self.symbol is not None:
            page.symbol(x + 1.6, y + 1.6, self.symbol, 0.62)
        if self.box_at is not None:
            page.box(x + self.box_at, y, BOX_WIDTH, BOX_HEIGHT, weight=0.25)
            y += max(0.0, (BOX_HEIGHT - sum(type.line for _, _, type in self.lines)) / 2)
        for indent, line, type in self.lines:
            page.line_of_text(x + indent, y + type.cap * 1.25, line, type)
            if not self._beside(indent):
                y += type.line

    def _beside(self, indent: float) -> bool:
        """The level stands beside the first line of its sentence, not above it."""
        return indent == LEVEL_INDENT


LEVEL_INDENT = 4.5
KEPT_TOGETHER = 12
"""How many reasons of one source stand in one block: a block is never cut in two."""


def reason_blocks(reasons: Sequence[Reason], unit: Unit, width: float) -> list[Block]:
    """A block for each reason: level, sentence, figures and source."""
    blocks = []
    for reason in reasons:
        said = reason_lines(reason, unit)
        weighty = said.level in SYMBOLS
        lines = [(LEVEL_INDENT, LEVEL_WORDS[said.level], BOLD)]
        for text, type in ((said.says, BOLD if weighty else PLAIN), (said.figures, PLAIN), (said.source, QUIET)):
            lines += [(INDENT, line, type) for line in wrapped(text, width - INDENT, type)]
        blocks.append(Block(tuple(lines), SYMBOLS.get(said.level)))
    return blocks


def joined_blocks(
    reasons: Sequence[Reason], unit: Unit, width: float, *, figures: bool = True, source: bool = True, gap: float = 1.2
) -> list[Block]:
    """Reasons of one level and source in one block, their sentences one under the other and the source once."""
    blocks = []
    for level, cited in dict.fromkeys((each.level, each.source) for each in reasons):
        together = [each for each in reasons if (each.level, each.source) == (level, cited)]
        for start in range(0, len(together), KEPT_TOGETHER):
            lines = [(LEVEL_INDENT, LEVEL_WORDS[level], BOLD)]
            for each in together[start : start + KEPT_TOGETHER]:
                said = reason_lines(each, unit)
                text = f"{said.says} [{said.figures}]" if figures and said.figures else said.says
                lines += [(INDENT, line, PLAIN) for line in wrapped(text, width - INDENT)]
            if source:
                lines += [(INDENT, line, QUIET) for line in wrapped(f"Source: {cited}", width - INDENT, QUIET)]
            blocks.append(Block(tuple(lines), gap=gap))
    return blocks


def measure_blocks(measures: Sequence[str], width: float, goes_on: bool = False) -> list[Block]:
    """A heading and, for each thing still to measure, its words and a box to write in."""
    if not measures:
        return []
    at = width - BOX_WIDTH
    heading = "Still to measure, continued" if goes_on else f"Still to measure ({len(measures)})"
    blocks = [Block.heading(heading)]
    for words in measures:
        blocks.append(Block(tuple((0.0, line, PLAIN) for line in wrapped(words, at - 2.0)), box_at=at))
    return blocks


def decision_blocks(decisions: Sequence[Decision], width: float) -> list[Block]:
    """A heading and every decision as it was signed, in the order they were made; those against the answer bold."""
    if not decisions:
        return []
    blocks = [Block.heading("Decisions")]
    for each in decisions:
        type = BOLD if each.against_answer else PLAIN
        blocks.append(Block(tuple((0.0, line, type) for line in wrapped(decision_told(each), width, type))))
    return blocks


class Written(Protocol):
    """Whatever runs down a sheet: a block, a row of a table, a measurement to take."""

    @property
    def counted(self) -> bool:
        """Whether it counts as one thing left out."""

    @property
    def height(self) -> float:
        """mm, with the gap below."""

    def write(self, page: Page, x: float, y: float) -> None:
        """Write it with its upper left corner at (x, y)."""


class Flow:
    """Where the next block goes: down the first page to ``bottom``, then on further pages."""

    def __init__(
        self, first: Page, size: str, edge: float, y: float, bottom: float, running: str, number: int = 1
    ) -> None:
        self.pages, self.number = [first], number
        self.size, self.edge, self.y, self.bottom, self.running = size, edge, y, bottom, running

    def run(self, blocks: Sequence[Written], one_page: bool) -> list[Page]:
        """Write all blocks; with ``one_page`` those that fit, and how many do not. Gives the pages."""
        notice = Block(((0.0, "0", BOLD),)).height
        for place, block in enumerate(blocks):
            left = sum(each.counted for each in blocks[place:])
            # A heading goes with what it stands over; the notice of what is left out needs its line on the page.
            need = sum(each.height for each in _together(blocks[place:]))
            after = sum(each.counted for each in blocks[place + 1:])
            if self.y + need + (notice if after else 0.0) > self.bottom:
                self._say(f"{left} more: not shown on this page." if one_page else f"{left} more on the next page.")
                if one_page:
                    return self.pages
                self._turn()
            block.write(self.pages[-1], self.edge, self.y)
            self.y += block.height
        return self.pages

    def _say(self, text: str) -> None:
        self.pages[-1].line_of_text(self.edge, self.y + BOLD.cap * 1.25, text, BOLD)

    def _turn(self) -> None:
        page = Page(self.size)
        self.pages.append(page)
        self.y = running_head(page, self.edge, f"{self.running}, page {self.number + len(self.pages) - 1}")
        self.bottom = page.height - self.edge


def _together(blocks: Sequence[Written]) -> list[Written]:
    """The first block; where it is a heading, with the further headings and the block they stand over."""
    headings = list(takewhile(lambda each: not each.counted, blocks))
    return list(blocks[: len(headings) + 1])


def running_head(page: Page, edge: float, words: str) -> float:
    """What stands at the head of a further page; gives the height below."""
    page.line_of_text(edge, edge + 1.0, words, QUIET)
    page.rule(edge, edge + 2.5, page.width - edge)
    return edge + 5.0
