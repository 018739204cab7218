"""The register as a table for a spreadsheet: RFC 4180, and safe to open.

UTF-8, a header, lines end with CR LF, quotes are doubled. A spreadsheet takes text that begins with one of a few signs
for a formula and works it out, some also after a blank or a quote: such text gets an apostrophe in front. Counts are
numbers and stay so.
"""

import csv
import io
import unicodedata
from collections.abc import Iterable
from dataclasses import asdict, fields
from pathlib import Path

from tiremap.errors import TiremapError
from tiremap.storage.checked_save import save_checked
from tiremap.storage.register_rows import RegisterRow

TAKEN_FOR_A_FORMULA = ("=", "+", "-", "@")
"""Also in any other width or height, which some spreadsheets read as the usual ones."""
BREAKS = ("\t", "\r", "\n")
"""What may end a cell where the file is read less strictly: what follows then begins one."""
QUOTES = "\"'`´‘’‚‛“”„‟«»‹›＂＇"
NOT_SEEN = ("Z", "C")
"""First letters of the kinds of characters that print nothing: blanks and signs of control."""


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
    if isinstance(value, str) and taken_for_a_formula(value):
        return f"'{value}"
    return value


def taken_for_a_formula(text: str) -> bool:
    """Whether some spreadsheet may work the text out: the first sign that prints and is no quote decides."""
    if text.startswith(BREAKS):
        return True
    first = next((each for each in text if each not in QUOTES and unicodedata.category(each)[0] not in NOT_SEEN), "")
    return unicodedata.normalize("NFKC", first).startswith(TAKEN_FOR_A_FORMULA)
