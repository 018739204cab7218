"""The register as a table for a spreadsheet: RFC 4180, and safe to open.

UTF-8, a header, lines end with CR LF, quotes are doubled. A spreadsheet takes text that begins with one of a few signs
for a formula and works it out: such text gets an apostrophe in front.
"""

import csv
import io
from collections.abc import Iterable
from dataclasses import asdict, fields
from pathlib import Path

from tiremap.errors import TiremapError
from tiremap.storage.checked_save import save_checked
from tiremap.storage.register_rows import RegisterRow

TAKEN_FOR_A_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
"""Also the wide signs, which some spreadsheets read as the narrow ones."""


def write_csv(path: Path, rows: Iterable[RegisterRow], over_existing: bool = False) -> None:
    """Write rows to a CSV file. Raises `TiremapError` if it cannot be saved, or stands there already."""
    if path.exists() and not over_existing:
        raise TiremapError(f"{path} is there already and is not overwritten.", "Give another name, or move it away.")
    save_checked(path, csv_text(rows).encode())


def csv_text(rows: Iterable[RegisterRow]) -> str:
    """The rows under a header, one line for each unless text in it has line breaks."""
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, [field.name for field in fields(RegisterRow)], lineterminator="\r\n")
    writer.writeheader()
    for row in rows:
        writer.writerow({name: _shown(value) for name, value in asdict(row).items()})
    return text.getvalue()


def _shown(value: str | int | bool | None) -> str | int:
    """A value as it is written: numbers as they are, nothing for what is unknown."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str) and value.startswith(TAKEN_FOR_A_FORMULA):
        return f"'{value}"
    return value
