"""Finding rows in the register's index."""

import sqlite3
from dataclasses import dataclass
from datetime import date

from tiremap.model.job import Answer
from tiremap.storage.register_index import ROW_COLUMNS, rows_from
from tiremap.storage.register_rows import RegisterRow, folded, tire_key

_COLUMNS = ", ".join(ROW_COLUMNS)
_AFTER_ALL = "\U0010ffff"
"""Sorts behind every sign a date can go on with, so that until 2026-03 takes in the whole month."""


@dataclass(frozen=True)
class Search:
    """What rows must fulfill; what is not given lets every row through.

    Every word of ``words`` must be found in size, date code, tire, job or fleet number, or path. ``since`` and
    ``until`` take both ends in and leave out jobs without a date.
    """

    words: str = ""
    answer: Answer | None = None
    deciding: str | None = None
    since: str | date | None = None
    until: str | date | None = None
    against_answer: bool | None = None
    faulty: bool | None = None

    def condition(self) -> tuple[str, list[object]]:
        """The condition in SQL and its values."""
        parts: list[tuple[str, object]] = []
        for column in ("answer", "deciding", "against_answer", "faulty"):
            value = getattr(self, column)
            if value is not None:
                parts.append((f"{column} = ?", value))
        if self.since is not None:
            parts.append(("date >= ?", str(self.since)))
        if self.until is not None:
            parts.append(("date <= ?", f"{self.until}{_AFTER_ALL}"))
        # Last, for they take the longest: SQLite asks in this order and leaves off at the first that fails.
        parts += [("instr(search, ?) > 0", word) for word in folded(self.words).split()]
        return " AND ".join(["TRUE", *(sql for sql, _ in parts)]), [value for _, value in parts]


def found_rows(connection: sqlite3.Connection, search: Search, limit: int, offset: int) -> list[RegisterRow]:
    """The rows found, the newest date first, then by path; jobs without a date last."""
    condition, values = search.condition()
    return rows_from(
        connection.execute(
            f"SELECT {_COLUMNS} FROM job INDEXED BY newest WHERE {condition}"
            " ORDER BY date DESC, path LIMIT ? OFFSET ?",
            [*values, limit, offset],
        )
    )


def number_found(connection: sqlite3.Connection, search: Search) -> int:
    """How many rows a search finds."""
    condition, values = search.condition()
    found = connection.execute(f"SELECT count(*) FROM job INDEXED BY newest WHERE {condition}", values)
    return int(found.fetchone()[0])


def rows_of_tire(connection: sqlite3.Connection, number: str) -> list[RegisterRow]:
    """Every job of a tire, the newest first; none for an empty number."""
    key = tire_key(number)
    if not key:
        return []
    return rows_from(
        connection.execute(f"SELECT {_COLUMNS} FROM job WHERE tire_key = ? ORDER BY date DESC, path", [key])
    )
