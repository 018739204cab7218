"""The register: a folder of job files, found, counted and answered.

Its index lies in the user's cache folder, one for each folder, and is worked out from the jobs again at any time:
nothing is lost with it, and nothing is ever written among the jobs.
"""

import hashlib
import os
import sqlite3
from collections.abc import Callable, Iterable
from datetime import date
from pathlib import Path
from typing import TypeVar

from tiremap.model.job import Answer
from tiremap.resources import cache_folder
from tiremap.storage import register_figures
from tiremap.storage.register_csv import write_csv
from tiremap.storage.register_index import cannot_be_used, is_broken, opened, throw_away
from tiremap.storage.register_refresh import Progress, Refreshed, refresh_index
from tiremap.storage.register_rows import RegisterRow
from tiremap.storage.register_search import Search, found_rows, number_found, rows_of_tire

__all__ = ["Refreshed", "Register", "RegisterRow"]

T = TypeVar("T")


class Register:
    """The jobs of one folder and its subfolders, as of the last `refresh`; may be asked from any thread.

    Every question raises `TiremapError` where the index cannot be read or written.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = Path(os.path.abspath(folder))

    @property
    def index_path(self) -> Path:
        """The index file of this folder."""
        name = os.path.normcase(os.path.realpath(self.folder))
        return cache_folder() / "registers" / f"{hashlib.sha256(os.fsencode(name)).hexdigest()[:20]}.sqlite"

    def refresh(self, progress: Progress | None = None, stopped: Callable[[], bool] | None = None) -> Refreshed:
        """Read what is new or changed, take out what is gone. What was done before a stop is kept.

        Raises `TiremapError` for a folder that cannot be read; the index is then as it was.
        """
        progress, stopped = progress or (lambda done, of: None), stopped or (lambda: False)
        return self._with_index(lambda index: refresh_index(index, self.folder, progress, stopped), refill=False)

    def find(
        self, words: str = "", *, answer: Answer | None = None, deciding: str | None = None,
        since: str | date | None = None, until: str | date | None = None, against_answer: bool | None = None,
        faulty: bool | None = None, limit: int = 1000, offset: int = 0,
    ) -> list[RegisterRow]:
        """Rows in which every word is found and that fulfill what is given, see `Search`; newest date first."""
        search = Search(words, answer, deciding, since, until, against_answer, faulty)
        return self._with_index(lambda index: found_rows(index, search, limit, offset))

    def count(
        self, words: str = "", *, answer: Answer | None = None, deciding: str | None = None,
        since: str | date | None = None, until: str | date | None = None, against_answer: bool | None = None,
        faulty: bool | None = None,
    ) -> int:
        """How many rows `find` would give without a limit."""
        search = Search(words, answer, deciding, since, until, against_answer, faulty)
        return self._with_index(lambda index: number_found(index, search))

    def of_tire(self, tire_number: str) -> list[RegisterRow]:
        """Every job of the tire of that number, case and outer spaces aside; the newest first."""
        return self._with_index(lambda index: rows_of_tire(index, tire_number))

    def answers(self) -> dict[Answer | None, int]:
        """How many jobs have each answer; ``None`` for files that cannot be read or answered."""
        return self._with_index(register_figures.answer_counts)

    def deciding(self) -> list[tuple[str, str, int]]:
        """What decides: code, sentence and number of jobs, the most frequent first."""
        return self._with_index(register_figures.deciding_counts)

    def across(self) -> list[int]:
        """How many injuries lie in each bin across the tread, from inboard to outboard; bins as `across_edges`."""
        return self._with_index(register_figures.across_counts)

    def across_edges(self) -> list[float]:
        """The edges of the bins of `across`, as share of half the tread width: -1 and 1 are the tread edges."""
        return register_figures.across_edges()

    def per_month(self) -> list[tuple[str, int]]:
        """Month (``2026-03``) and repairs recorded in it, in order; no work is counted twice."""
        return self._with_index(register_figures.repairs_per_month)

    def write_csv(self, path: Path, rows: Iterable[RegisterRow], over_existing: bool = False) -> None:
        """Write rows as a table for a spreadsheet, see `register_csv`."""
        write_csv(path, rows, over_existing)

    def _with_index(self, ask: Callable[[sqlite3.Connection], T], refill: bool = True) -> T:
        """Ask the index; a broken one is thrown away, worked out again and asked once more."""
        try:
            with opened(self.index_path) as index:
                return ask(index)
        except sqlite3.Error as error:
            if not is_broken(error):
                raise cannot_be_used(self.index_path, error) from None
            throw_away(self.index_path)
        if refill:
            self.refresh()
        try:
            with opened(self.index_path) as index:
                return ask(index)
        except sqlite3.Error as error:
            raise cannot_be_used(self.index_path, error) from None
