"""``tiremap register``: the jobs of a folder as a table, with counts, and as CSV."""

import json
import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import asdict
from pathlib import Path
from types import FrameType

from tiremap.commands.assess import ANSWER_WORDS
from tiremap.storage.register import Refreshed, Register, RegisterRow

STOPPED = 130
"""Exit code after Ctrl+C, as shells count it."""

HEADINGS = ("date", "job", "fleet", "tire", "size", "answer", "decided by", "file")


def print_register(folder: str, csv: str | None, words: str, as_json: bool) -> int:
    """Refresh the register of a folder and print its rows in which every word is found; the exit code.

    With ``csv`` the same rows also go to that file. Faults are told on stderr. Raises `TiremapError` for a folder that
    cannot be read and a CSV file that cannot be written.
    """
    register = Register(Path(folder))
    with _ctrl_c_noticed() as stopped:
        done = register.refresh(_progress if sys.stderr.isatty() else None, stopped)
    if done.stopped:
        files = done.read + done.unchanged
        print(f"tiremap register: stopped after {files} files; what was read is kept.", file=sys.stderr)
        return STOPPED
    rows = register.find(words, limit=-1)
    if csv is not None:
        register.write_csv(Path(csv), rows)
    if as_json:
        for row in rows:
            print(json.dumps(asdict(row), ensure_ascii=False))
    else:
        print("\n".join((*_table([row for row in rows if row.answer is not None]), *_counts(rows, done))))
    for row in rows:
        if row.fault:
            print(f"tiremap register: {_plain(row.path)}: {_plain(row.fault)}", file=sys.stderr)
    return 0


def _table(rows: list[RegisterRow]) -> list[str]:
    """The rows in columns as wide as they must be; no lines where there are no rows."""
    if not rows:
        return []
    cells = [HEADINGS, *(_cells(row) for row in rows)]
    widths = [max(len(line[column]) for line in cells) for column in range(len(HEADINGS))]
    return ["  ".join(text.ljust(width) for text, width in zip(line, widths, strict=True)).rstrip() for line in cells]


def _cells(row: RegisterRow) -> tuple[str, ...]:
    answer = None if row.answer is None else ANSWER_WORDS[row.answer]
    said = (row.date, row.job_number, row.fleet_number, row.tire_number, row.size, answer, row.deciding, row.path)
    return tuple(_plain(each or "") for each in said)


def _counts(rows: list[RegisterRow], done: Refreshed) -> list[str]:
    """How many rows are shown of how many there are, and how many of them have each answer."""
    answers = [row.answer for row in rows]
    parts = [f"{words}: {answers.count(answer)}" for answer, words in ANSWER_WORDS.items()]
    parts.append(f"cannot be read or answered: {answers.count(None)}")
    there_are = done.read + done.unchanged
    shown = f"{len(rows)} of {there_are} jobs" if len(rows) != there_are else f"{there_are} jobs"
    against = sum(row.against_answer for row in rows)
    return [f"{shown}. {'; '.join(parts)}.", *([f"Repaired against the answer: {against}."] if against else [])]


def _plain(text: str) -> str:
    """Text from a file for the terminal: line breaks and control signs are shown as ``?``."""
    return "".join(each if each.isprintable() else "?" for each in text)


def _progress(done: int, of: int) -> None:
    end = "\n" if done == of else ""
    print(f"\r{done} of {of} files", end=end, file=sys.stderr, flush=True)


@contextmanager
def _ctrl_c_noticed() -> Iterator[Callable[[], bool]]:
    """Ctrl+C is noticed and left to whoever asks, so that a write under way is finished."""
    pressed: list[int] = []

    def notice(number: int, frame: FrameType | None) -> None:
        pressed.append(number)

    before = signal.signal(signal.SIGINT, notice)
    try:
        yield lambda: bool(pressed)
    finally:
        signal.signal(signal.SIGINT, before)
