"""Bringing the register's index up to its folder: what is new or changed is read, what is gone is taken out."""

import hashlib
import sqlite3
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from tiremap.resources import read_toml
from tiremap.storage.register_index import Known, known_files, put, take_out
from tiremap.storage.register_reading import read_entries
from tiremap.storage.register_rows import Again, Asked, rules_in_force, rules_of_today
from tiremap.storage.register_scan import Found, files_found

Progress = Callable[[int, int], None]
"""Told how many files of how many are done."""


@dataclass(frozen=True)
class Refreshed:
    """What a refresh did: files read anew, unchanged, gone; rows with a fault there are now; whether it was stopped."""

    read: int
    unchanged: int
    gone: int
    faulty: int
    stopped: bool


def refresh_index(
    connection: sqlite3.Connection, folder: Path, progress: Progress, stopped: Callable[[], bool]
) -> Refreshed:
    """Refresh the index of a folder. What was read before a stop is kept. Raises `TiremapError` for the folder."""
    rules = rules_in_force()
    # Known before listed: a file another program puts in meanwhile is then never taken for one that is gone.
    known = known_files(connection)
    settled_before = time.time_ns() - int(read_toml("storage.toml")["register"]["settled_after_s"] * 1e9)
    found = files_found(folder)
    to_read = [
        Asked(str(folder), each, _content_still_answered(known.get(each.path), rules), rules, settled_before)
        for each in found
        if not _is_as_known(each, known.get(each.path), rules)
    ]
    read, done, at = 0, len(found) - len(to_read), len(found)
    progress(done, at)
    for entries in read_entries(to_read, stopped):
        put(connection, entries)
        done += len(entries)
        read += sum(not isinstance(each, Again) for each in entries)
        progress(done, at)
    listed = {each.path for each in found}
    gone = {path: each for path, each in known.items() if path not in listed}
    if gone:
        take_out(connection, gone)
    faulty = connection.execute("SELECT count(*) FROM job INDEXED BY newest WHERE faulty").fetchone()[0]
    return Refreshed(read, done - read, len(gone), faulty, stopped=done < at)


def _is_as_known(found: Found, known: Known | None, rules: str) -> bool:
    """Whether a file needs no look: same size and time stamp as when it was read, settled then, and same rules.

    A file read just after it was written may be written again without another time stamp; it is not settled.
    """
    if known is None or not _still_answered(known, rules):
        return False
    if found.fault and known.content != hashlib.sha256(found.fault.encode()).hexdigest():
        return False
    return known.settled and (known.size, known.changed_ns) == (found.size, found.changed_ns)


def _content_still_answered(known: Known | None, rules: str) -> str | None:
    return known.content if known is not None and _still_answered(known, rules) else None


def _still_answered(known: Known, rules: str) -> bool:
    return known.rules in (rules, rules_of_today(rules))
