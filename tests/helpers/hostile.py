"""Spoiled files put to a reader in bulk: each is refused in plain words, or read as something that reads back the same.

One that fails is kept under the computer's folder for temporary files, and its number is told.
"""

import os
import re
import tempfile
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest

from tests.helpers.mutations import Seed, mutated
from tiremap.errors import TiremapError

TIMES = float(os.environ.get("TIREMAP_HOSTILE", "1"))
"""How many times the usual number of files are tried."""
NOT_FOR_A_USER = re.compile(
    r"Traceback|<class|<function|object at 0x|NoneType|pydantic|datetime\.|Errno|Value error|Input should|\bself\b"
    r"|set_int_max|codec|surrogat|__\w+__\(|[\x00-\x08\x0b-\x1f\x7f]|\b(dict|tuple|str|int|bool)\b (type|object)"
)
LONGEST = 900
"""Characters of a refusal: a few lines at the bench."""


@dataclass
class Tried:
    """How many files were read and refused, and how often with which words."""

    read: int = 0
    refused: Counter[str] = field(default_factory=Counter)

    @property
    def number(self) -> int:
        """Of all files."""
        return self.read + self.refused.total()


def usual(number: int) -> int:
    """How many files to try where ``number`` are usual."""
    return max(1, round(number * TIMES))


def try_files(name: str, seeds: Sequence[Seed], numbers: range, check: Callable[[bytes, int], Any]) -> Tried:
    """Put the files of these numbers to ``check``, which reads one, tries what was read, or raises `TiremapError`."""
    tried = Tried()
    for number in numbers:
        data = mutated(seeds, number)
        try:
            check(data, number)
            tried.read += 1
        except TiremapError as error:
            fault = not_plain(error)
            if fault:
                _fail(name, number, data, f"{fault}: {str(error)[:2 * LONGEST]!r}", None)
            tried.refused[re.sub(r"[\d\W]+", " ", error.what)[-40:]] += 1
        except Exception as error:
            _fail(name, number, data, f"{type(error).__name__}: {str(error)[:LONGEST]}", error)
    return tried


def not_plain(error: TiremapError) -> str:
    """What is wrong with the words of a refusal; empty if nothing is."""
    text = str(error)
    text.encode()
    if not error.what.strip():
        return "it says nothing"
    if not error.what.rstrip().endswith((".", "!")):
        return "it is no sentence"
    if len(text) > LONGEST:
        return "it is too long"
    found = NOT_FOR_A_USER.search(text)
    return f"it says {found[0]!r}" if found else ""


def _fail(name: str, number: int, data: bytes, why: str, error: Exception | None) -> None:
    folder = Path(tempfile.gettempdir(), "tiremap_hostile")
    folder.mkdir(exist_ok=True)
    path = folder / f"{name}_{number}"
    path.write_bytes(data)
    raise pytest.fail.Exception(f"{name}, file {number}, kept as {path}: {why}") from error
