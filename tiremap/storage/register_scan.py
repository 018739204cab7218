"""What a folder of job files holds, as it is listed: every ``*.json``, also in subfolders, with size and time stamp.

A link is followed only to a file inside the folder. What cannot be listed or must not be followed is found with a
fault, never left out.
"""

import os
import stat
from dataclasses import dataclass
from pathlib import Path

from tiremap.errors import TiremapError

LEAVES = "It is a link that leads out of the folder, and is not followed. Copy the job into the folder."


@dataclass(frozen=True)
class Found:
    """A file as the folder lists it; ``path`` is relative to the folder, with ``/``.

    ``fault`` says why it is not to be read; then size (bytes) and time stamp (ns) are 0.
    """

    path: str
    size: int = 0
    changed_ns: int = 0
    fault: str = ""


def files_found(folder: Path) -> list[Found]:
    """Every job file of a folder and its subfolders, by path. Raises `TiremapError` if the folder cannot be read."""
    top = os.path.realpath(folder)
    found: list[Found] = []
    waiting = [""]
    while waiting:
        below = waiting.pop()
        try:
            with os.scandir(os.path.join(top, below)) as entries:
                for entry in entries:
                    _sort_in(entry, f"{below}/{entry.name}" if below else entry.name, top, found, waiting)
        except OSError as error:
            if not below:
                raise _unreadable(folder, error) from None
            found.append(Found(_as_text(below), fault=f"The folder cannot be read: {error.strerror}."))
    return sorted(found, key=lambda each: each.path)


def _sort_in(entry: os.DirEntry[str], path: str, top: str, found: list[Found], waiting: list[str]) -> None:
    """Add an entry to what was found, or a folder to what is still to be listed."""
    if entry.is_symlink():
        link = _linked(entry, path, top)
        found.extend([] if link is None else [link])
    elif entry.is_dir(follow_symlinks=False):
        waiting.append(path)
    elif _is_named_as_a_job(path):
        found.append(_as_it_stands(entry, path))


def _linked(entry: os.DirEntry[str], path: str, top: str) -> Found | None:
    """What a link is found as; ``None`` for one to another kind of file, or to a folder listed where it lies."""
    target = os.path.realpath(entry.path)
    leaves = os.path.commonpath([top, target]) != top if _same_drive(top, target) else True
    if leaves:
        return Found(_as_text(path), fault=LEAVES) if _is_named_as_a_job(path) or os.path.isdir(target) else None
    if not _is_named_as_a_job(path) or os.path.isdir(target):
        return None
    return _as_it_stands(entry, path)


def _as_it_stands(entry: os.DirEntry[str], path: str) -> Found:
    if _as_text(path) != path:
        return Found(_as_text(path), fault="Its name is not text in this system's encoding. Give it another name.")
    try:
        file = entry.stat()
    except OSError as error:
        return Found(path, fault=f"It cannot be read: {error.strerror}.")
    if not stat.S_ISREG(file.st_mode):
        return Found(path, fault="It is not a file.")
    return Found(path, file.st_size, file.st_mtime_ns)


def _is_named_as_a_job(path: str) -> bool:
    return path.lower().endswith(".json")


def _as_text(path: str) -> str:
    """The path, with bytes that are no text written out, as ``\\xff``."""
    return os.fsencode(path).decode(errors="backslashreplace") if os.sep == "/" else path


def _same_drive(one: str, other: str) -> bool:
    return os.path.splitdrive(one)[0].lower() == os.path.splitdrive(other)[0].lower()


def _unreadable(folder: Path, error: OSError) -> TiremapError:
    if isinstance(error, FileNotFoundError):
        return TiremapError(f"There is no folder {folder}.", "Name a folder that holds job files.")
    if isinstance(error, NotADirectoryError):
        return TiremapError(f"{folder} is not a folder.", "Name the folder the job files lie in.")
    return TiremapError(f"The folder {folder} cannot be read: {error.strerror}.")
