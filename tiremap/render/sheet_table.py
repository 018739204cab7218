"""A table on a sheet: a heading line and rows, each in columns of given width; a row is never cut in two."""

from collections.abc import Sequence
from dataclasses import dataclass

from tiremap.render.page import PLAIN, QUIET, Page, Type, wrapped
from tiremap.render.sheet_flow import Block

BETWEEN = 2.0
"""mm left free at the right of a column."""


@dataclass(frozen=True)
class TableRow:
    """One row; ``columns`` are the widths, mm. ``counted`` is false of the heading, which stays with its first row."""

    cells: tuple[str, ...]
    columns: tuple[float, ...]
    type: Type = PLAIN
    counted: bool = True
    gap: float = 0.4
    """mm below it."""

    @property
    def _lines(self) -> list[list[str]]:
        widths = zip(self.cells, self.columns, strict=True)
        return [wrapped(cell, wide - BETWEEN, self.type) for cell, wide in widths]

    @property
    def height(self) -> float:
        """mm, with the gap below."""
        return max(len(lines) for lines in self._lines) * self.type.line + self.gap

    def write(self, page: Page, x: float, y: float) -> None:
        """Write it with its upper left corner at (x, y)."""
        for lines, wide in zip(self._lines, self.columns, strict=True):
            page.text(x, y, lines, self.type)
            x += wide


def table(
    title: str, heads: Sequence[str], rows: Sequence[Sequence[str]], shares: Sequence[float], width: float
) -> list[Block | TableRow]:
    """A titled table ``width`` mm wide, its columns in these shares of it; nothing where there are no rows."""
    if not rows:
        return []
    columns = tuple(width * share / sum(shares) for share in shares)
    blocks: list[Block | TableRow] = [Block.heading(title)]
    if any(heads):
        blocks.append(TableRow(tuple(heads), columns, QUIET, counted=False))
    blocks += [TableRow(tuple(row), columns, gap=0.4 if row is not rows[-1] else 2.2) for row in rows]
    return blocks
