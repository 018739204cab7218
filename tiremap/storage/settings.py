"""What the program remembers between two days: files, units, rule set, looks. Never anything about a tire.

A settings file that cannot be read is set aside and the settings start afresh, with a message: it must never keep
the program from opening a job.
"""

import json
import os
from pathlib import Path
from typing import Annotated, Literal

from pydantic import Field, ValidationError

from tiremap.edits.change import changed
from tiremap.errors import TiremapError
from tiremap.model.measures import LengthUnit
from tiremap.model.record import Record
from tiremap.model.toml_text import bounded_bytes
from tiremap.model.wording import in_words
from tiremap.resources import read_toml, settings_folder
from tiremap.storage.canonical import canonical_text
from tiremap.storage.checked_save import save_checked
from tiremap.storage.json_text import read_json_text

Pixels = Annotated[int, Field(ge=-1_000_000, le=1_000_000)]
"""Of a desktop, which none exceeds; guards the window, decides nothing."""


class Settings(Record):
    """The settings as they stand in their file; a fresh one has these values."""

    recent_files: tuple[str, ...] = ()
    """Newest first, as absolute paths."""
    units: LengthUnit = "mm"
    rule_set: str | None = None
    """The one last chosen."""
    theme: Literal["light", "dark", "projector"] = "light"
    density: Literal["desk", "bench"] = "desk"
    paper: Literal["A4", "Letter"] | None = None
    """What sheets are printed on; ``None`` is what is usual where the computer says it stands."""
    keys_on_screen: bool = False
    """Whether there are keys to type with by pen or glove."""
    register_folder: str | None = None
    """The folder of jobs the register was last shown of, as an absolute path."""
    last_desk: Literal["mark", "review"] = "mark"
    window: tuple[Pixels, Pixels, Pixels, Pixels] | None = None
    """Left, top, width and height of the window when it was not maximized, px of the desktop."""
    maximized: bool = False
    splitters: dict[str, tuple[Pixels, ...]] = Field(default_factory=dict)
    """Widths or heights of what each named splitter parts, px."""


def settings_path() -> Path:
    """The settings file."""
    return settings_folder() / "settings.json"


def read_settings() -> tuple[Settings, str]:
    """The settings, and a message for the user: empty if all is well. Never raises for a broken file."""
    path = settings_path()
    if not os.path.lexists(path):
        return Settings(), ""
    try:
        largest = read_toml("storage.toml")["settings_file"]["largest_bytes"]
        data = bounded_bytes(path, largest, f"The settings file {path}")
    except TiremapError as error:
        return Settings(), f"{error} The usual ones are used."
    try:
        return settings_from_bytes(data), ""
    except TiremapError as error:
        return Settings(), f"The settings could not be used: {error} {_set_aside(path)}"


def write_settings(settings: Settings) -> None:
    """Save the settings. Raises `TiremapError` if they cannot be saved."""
    path = settings_path()
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise TiremapError(f"The settings folder {path.parent} cannot be made: {error.strerror}.") from None
    save_checked(path, canonical_text(settings.model_dump(mode="json")).encode())


def with_recent_file(settings: Settings, path: Path) -> Settings:
    """The settings with that file as the newest of the recent ones; the oldest falls out."""
    newest = str(path.absolute())
    others = [each for each in settings.recent_files if each != newest]
    at_most = read_toml("storage.toml")["settings"]["recent_files"]
    return changed(settings, recent_files=(newest, *others)[:at_most])


def settings_from_bytes(data: bytes) -> Settings:
    """The settings in the bytes of their file. Raises `TiremapError` for what cannot be used."""
    fields = read_json_text(data, read_toml("storage.toml")["job_file"]["deepest_nesting"])
    try:
        return Settings.model_validate_json(json.dumps(fields))
    except ValidationError as error:
        raise in_words(error) from None


def _set_aside(path: Path) -> str:
    aside = path.with_name("settings.broken")
    try:
        os.replace(path, aside)
    except OSError:
        return "The usual ones are used."
    return f"The usual ones are used, and the file was set aside as {aside}."
