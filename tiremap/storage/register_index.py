"""The register's index: an SQLite file with one row for each job file, replaced whole.

It holds nothing that cannot be read from the jobs again, so a broken or older one is thrown away. Two programs may use
one index at the same time: readers see the last finished write (write-ahead log), writers wait for each other.
"""

import json
import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass, fields
from operator import attrgetter
from pathlib import Path
from typing import Any

from tiremap.errors import TiremapError
from tiremap.resources import read_toml
from tiremap.storage.register_rows import Again, Entry, RegisterRow

SCHEMA = 1
"""Raised with every change of the tables; an index of another schema is emptied."""

ROW_COLUMNS = tuple(field.name for field in fields(RegisterRow))
_row_values = attrgetter(*ROW_COLUMNS)
BESIDE = (
    "size_bytes", "changed_ns", "settled", "content", "rules", "search", "tire_key", "across", "repaired", "faulty",
)

# The index `newest` holds all that is asked in a search, in the order of the answer: SQLite goes along it, looks up
# only rows that are found, and sorts nothing.
TABLES = (
    "CREATE TABLE job (path TEXT PRIMARY KEY, job_number TEXT, fleet_number TEXT, tire_number TEXT, size TEXT,"
    " date_code TEXT, date TEXT, rule_set TEXT, answer TEXT, deciding TEXT, deciding_says TEXT, injuries INTEGER,"
    " repairs INTEGER, decisions INTEGER, last_decision TEXT, against_answer INTEGER, fault TEXT, size_bytes INTEGER,"
    " changed_ns INTEGER, settled INTEGER, content TEXT, rules TEXT, search TEXT, tire_key TEXT, across TEXT,"
    " repaired TEXT, faulty INTEGER)",
    "CREATE INDEX newest ON job (date DESC, path, search, answer, deciding, against_answer, faulty)",
    "CREATE INDEX of_tire ON job (tire_key, date DESC, path)",
)

_BROKEN = {sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_ERROR, sqlite3.SQLITE_IOERR}
"""SQLite's answers for a file that is damaged, no index, or without the tables it should have."""


@dataclass(frozen=True)
class Known:
    """What the index knows of a file: enough to tell whether it must be read again."""

    size: int
    changed_ns: int
    settled: bool
    content: str
    rules: str


@contextmanager
def opened(path: Path) -> Iterator[sqlite3.Connection]:
    """The index in that file, made if there is none and emptied if its tables are of another schema.

    Raises `TiremapError` if its folder cannot be made, `sqlite3.Error` for anything wrong with the file.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise cannot_be_used(path, error) from None
    wait = read_toml("storage.toml")["register"]["wait_for_others_s"]
    with closing(sqlite3.connect(path, timeout=wait, isolation_level=None)) as connection:
        if _schema(connection) != SCHEMA:
            _set_up(connection)
        connection.execute("PRAGMA synchronous = NORMAL")
        yield connection


@contextmanager
def writing(connection: sqlite3.Connection) -> Iterator[None]:
    """One write, kept whole or not at all; waits for another program's."""
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
    except BaseException:
        connection.execute("ROLLBACK")
        raise
    connection.execute("COMMIT")


def throw_away(path: Path) -> None:
    """Delete an index with its log. What cannot be deleted stays."""
    for each in (path, *(path.with_name(f"{path.name}{end}") for end in ("-wal", "-shm", "-journal"))):
        with suppress(OSError):
            each.unlink(missing_ok=True)


def is_broken(error: sqlite3.Error) -> bool:
    """Whether an error means that the index is of no use, rather than busy or the disk full."""
    code = getattr(error, "sqlite_errorcode", None)
    return code is not None and code & 0xFF in _BROKEN


def cannot_be_used(path: Path, error: sqlite3.Error | OSError) -> TiremapError:
    """The error for the user where the index cannot be written or read."""
    return TiremapError(
        f"The register's index {path} cannot be used: {error}.",
        "Free some space, or name another folder in TIREMAP_CACHE_FOLDER.",
    )


def known_files(connection: sqlite3.Connection) -> dict[str, Known]:
    """What is known of each file, by path."""
    rows = connection.execute("SELECT path, size_bytes, changed_ns, settled, content, rules FROM job")
    return {path: Known(size, changed, bool(settled), *rest) for path, size, changed, settled, *rest in rows}


def put(connection: sqlite3.Connection, entries: Iterable[Entry | Again]) -> None:
    """Put entries into the index, each in place of the one of its file."""
    entries = list(entries)
    columns = (*ROW_COLUMNS, *BESIDE)
    marks = ", ".join("?" * len(columns))
    with writing(connection):
        connection.executemany(
            f"INSERT OR REPLACE INTO job ({', '.join(columns)}) VALUES ({marks})",
            [_stored(each) for each in entries if isinstance(each, Entry)],
        )
        connection.executemany(
            "UPDATE job SET size_bytes = ?, changed_ns = ?, settled = ? WHERE path = ?",
            [
                (each.found.size, each.found.changed_ns, each.settled, each.found.path)
                for each in entries
                if isinstance(each, Again)
            ],
        )


def take_out(connection: sqlite3.Connection, gone: dict[str, Known]) -> None:
    """Take files out that are gone, unless another program has put them in anew meanwhile."""
    with writing(connection):
        connection.executemany(
            "DELETE FROM job WHERE path = ? AND content = ? AND changed_ns = ?",
            [(path, known.content, known.changed_ns) for path, known in gone.items()],
        )


def rows_from(found: Iterable[tuple[Any, ...]]) -> list[RegisterRow]:
    """Rows as they were selected by `ROW_COLUMNS`."""
    rows = (dict(zip(ROW_COLUMNS, each, strict=True)) for each in found)
    return [RegisterRow(**{**row, "against_answer": bool(row["against_answer"])}) for row in rows]


def _stored(entry: Entry) -> tuple[Any, ...]:
    found = entry.found
    return (
        *_row_values(entry.row), found.size, found.changed_ns, entry.settled, entry.content, entry.rules, entry.search,
        entry.tire_key, json.dumps(entry.across), json.dumps(entry.repaired), bool(entry.row.fault),
    )


def _schema(connection: sqlite3.Connection) -> int:
    """The schema of the index's tables; 0 where there are none or not all of their columns."""
    schema = connection.execute("PRAGMA user_version").fetchone()[0]
    columns = [each[1] for each in connection.execute("PRAGMA table_info(job)")]
    return schema if columns == [*ROW_COLUMNS, *BESIDE] else 0


def _set_up(connection: sqlite3.Connection) -> None:
    with suppress(sqlite3.OperationalError):  # another program has it open: it has set this, or readers just wait
        connection.execute("PRAGMA journal_mode = WAL")
    with writing(connection):
        if _schema(connection) == SCHEMA:  # another program was quicker
            return
        for (table,) in connection.execute(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
        ).fetchall():
            connection.execute(f'DROP TABLE "{table}"')
        for each in TABLES:
            connection.execute(each)
        connection.execute(f"PRAGMA user_version = {SCHEMA}")
