"""Reading TOML written by hand, with bounds on what it may cost.

A short file can ask for more memory than a computer has: a name of ten thousand parts joined by dots, say. What no
right file holds is refused before or right after it is read.
"""

import os.path
import re
import tomllib
from datetime import date, time
from pathlib import Path
from typing import Any

from tiremap.errors import TiremapError
from tiremap.model.wording import shown
from tiremap.resources import read_toml


def bounded_bytes(path: Path, largest: int, what: str) -> bytes:
    """The bytes of a file, no more than ``largest``. ``what`` names it in words, as in "The rule set x.toml".

    Folders, devices and pipes are refused unopened, a larger file unread. Raises `TiremapError`.
    """
    try:
        if os.path.exists(path) and not os.path.isfile(path):
            raise TiremapError(f"{what} cannot be read: it is not a file.")
        with path.open("rb") as file:
            if os.fstat(file.fileno()).st_size > largest:
                raise too_large(what, largest)
            data = file.read(largest + 1)
    except (OSError, ValueError) as error:  # ValueError: a zero byte in the name
        raise TiremapError(f"{what} cannot be read: {getattr(error, 'strerror', None) or error}.") from None
    if len(data) > largest:  # grown while it was read
        raise too_large(what, largest)
    return data


def toml_from_bytes(data: bytes, what: str, right: str = "") -> dict[str, Any]:
    """The table in the bytes of a TOML file, with or without a byte order mark.

    Raises `TiremapError` with the line where there is one; ``what`` names the file in words, ``right`` a right one.
    """
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = error.object[: error.start].count(b"\n") + 1
        raise TiremapError(f"{what} is not readable TOML: line {line} is not UTF-8.", "Save it as UTF-8.") from None
    _refuse_long_names(text, what)
    try:
        table = tomllib.loads(text)
    except RecursionError:
        raise _too_deep(what) from None
    except ValueError as error:  # not TOML, or a number or date that cannot be
        raise TiremapError(f"{what} is not readable TOML: {_reason(error)}.", right) from None
    _check_inside(table, what)
    return table


def too_large(what: str, largest: int) -> TiremapError:
    """The error for a file that is no such file, by its size alone; ``largest`` in bytes."""
    return TiremapError(f"{what} is too large: more than {largest / 1e3:g} kB.", "Files of its kind have a few kB.")


def _refuse_long_names(text: str, what: str) -> None:
    """Raise `TiremapError` for a name of many parts: reading it takes memory by the square of their number."""
    most = read_toml("storage.toml")["toml"]["most_parts_of_a_name"]
    long = re.search(rf"""(?<![\w-])(?:(?:[\w-]+|"[^"\n]*"|'[^'\n]*')[ \t]*\.[ \t]*){{{most}}}""", text)
    if long:
        line = text.count("\n", 0, long.start()) + 1
        raise TiremapError(
            f"{what} cannot be used: line {line}: more than {most} words are joined by dots.",
            "A name is one word, as in value = 6.0.",
        )


def _check_inside(table: dict[str, Any], what: str) -> None:
    """Raise `TiremapError` for what no field takes and no message could show: depth, long numbers, dates."""
    limits = read_toml("storage.toml")["toml"]
    inside: list[tuple[str, Any]] = list(table.items())
    for _ in range(limits["deepest_nesting"]):
        below: list[tuple[str, Any]] = []
        for key, value in inside:
            if isinstance(value, dict):
                below += value.items()
            elif isinstance(value, list):
                below += ((key, each) for each in value)
            else:
                _check_value(key, value, what, limits["largest_whole_number"])
        inside = below
    if inside:
        raise _too_deep(what)


def _check_value(key: str, value: Any, what: str, largest: int) -> None:
    if isinstance(value, date | time):
        raise TiremapError(
            f"{what} cannot be used: {shown(key)}: it is a date or a time.", "A text stands in quotation marks."
        )
    if isinstance(value, int) and abs(value) > largest:
        raise TiremapError(
            f"{what} cannot be used: {shown(key)}: its number is beyond {largest}.",
            "A right one is a number such as 6.0.",
        )


def _reason(error: ValueError) -> str:
    """What the reader of TOML says, without lists of name parts and names of any length."""
    if not isinstance(error, tomllib.TOMLDecodeError):
        return "a whole number in it is too long"
    text = re.sub(r"\(['\"].*['\"],?\)", "a name", str(error), flags=re.DOTALL)
    return re.sub(r"key '([^']{60})[^']*'", r"key '\1...'", text)


def _too_deep(what: str) -> TiremapError:
    deepest = read_toml("storage.toml")["toml"]["deepest_nesting"]
    return TiremapError(
        f"{what} is not readable TOML here: its groups stand too deep inside each other.",
        f"At most {deepest} levels are read.",
    )
