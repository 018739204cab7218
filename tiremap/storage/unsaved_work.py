"""Unsaved work kept on disk while it is done, so that a stop of the program loses no more than its last moment.

Each window keeps one file in the settings folder, beside a lock that dies with its process: a file whose lock can be
taken was left behind by a program that was stopped. Only a real save or an explicit no removes what is kept.
"""

import secrets
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import Literal, NamedTuple

from pydantic import ValidationError

from tiremap.errors import TiremapError
from tiremap.model.job import Job
from tiremap.model.record import Record
from tiremap.model.wording import in_words
from tiremap.resources import read_toml, settings_folder
from tiremap.storage.canonical import canonical_text
from tiremap.storage.checked_save import previous_generation, remove_with_generations, save_checked
from tiremap.storage.file_lock import held_file, let_go
from tiremap.storage.job_file import job_from_bytes
from tiremap.storage.json_text import read_json_text


class Work(Record):
    """What stood in a window, and what it was opened as."""

    format: Literal["tiremap-unsaved-work"] = "tiremap-unsaved-work"
    version: Literal[1] = 1
    file: str | None
    """The job's file as an absolute path; ``None`` where it never had one."""
    kept: datetime
    opened_as: Job
    """The job as it was last read from its file or saved there."""
    job: Job


class WorkKept:
    """The file one window keeps its work in; nothing is on disk before the first `keep`."""

    def __init__(self) -> None:
        self.path = _folder() / f"{secrets.token_hex(8)}.json"
        self._handle: int | None = None
        self._held = False

    def keep(self, work: Work) -> None:
        """Keep that work in the place of what was kept before. Raises `TiremapError` if it cannot be written."""
        if not self._held:
            self._hold()
        save_checked(self.path, canonical_text(work.model_dump(mode="json")).encode())

    def forget(self) -> None:
        """The work is saved, or the user does not want it."""
        if self._held:
            remove_with_generations(self.path)

    def end(self) -> None:
        """Let go of the file; what is kept stays and is found at the next start."""
        if not self._held:
            return
        self._held = False
        _let_go(self.path, self._handle)

    def _hold(self) -> None:
        try:
            self.path.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise TiremapError(f"The folder {self.path.parent} cannot be made: {error.strerror}.") from None
        self._handle = _held_or_without(_lock_of(self.path))
        self._held = True


class WorkFound(NamedTuple):
    """Work a stopped program left. ``work`` is ``None`` if it cannot be read, and ``why`` says why.

    It is held against other windows until `leave`, `taken_over` or `remove`.
    """

    path: Path
    handle: int | None
    work: Work | None
    why: str

    def leave(self) -> None:
        """Leave it where it is, for the next start."""
        _let_go(self.path, self.handle)

    def taken_over(self) -> None:
        """A window keeps it by now. Without a lock it may be a running window's, and stays."""
        self.leave() if self.handle is None else self.remove()

    def remove(self) -> None:
        """The user does not want it."""
        remove_with_generations(self.path)
        self.leave()


def work_found() -> tuple[WorkFound, ...]:
    """What stopped programs left, the newest first; what running windows keep is not theirs to take."""
    found = [each for path in _folder().glob("*.json") if (each := _found(path)) is not None]
    return tuple(sorted(found, key=lambda each: each.work.kept.timestamp() if each.work else 0.0, reverse=True))


def _folder() -> Path:
    return settings_folder() / "unsaved_work"


def _lock_of(path: Path) -> Path:
    return path.with_suffix(".lock")


def _found(path: Path) -> WorkFound | None:
    """The work in a file, unless a running window keeps it or it has just gone."""
    handle: int | None = None
    try:
        handle = held_file(_lock_of(path))
        if handle is None:
            return None
    except OSError:  # no locks here: it may be a running window's, and is offered rather than lost
        pass
    if path.exists():
        return WorkFound(path, handle, *_read(path))
    _let_go(path, handle)
    return None


def _let_go(path: Path, handle: int | None) -> None:
    """Give up a file; where it is gone its lock goes too, afterwards: Windows removes nothing that is open."""
    if handle is not None:
        let_go(handle)
    if not path.exists():
        with suppress(OSError):
            _lock_of(path).unlink()


def _held_or_without(lock: Path) -> int | None:
    """The lock of a new file; ``None`` where the file system knows none."""
    try:
        return held_file(lock)
    except OSError:
        return None


def _read(path: Path) -> tuple[Work | None, str]:
    """The work in a file; if it is damaged, that of the moment before; else ``None`` and why."""
    why = ""
    for each in (path, previous_generation(path)):
        try:
            return _work_from(each.read_bytes()), ""
        except OSError as error:
            why = why or f"{each} cannot be read: {error.strerror}."
        except TiremapError as error:
            why = why or f"{each} cannot be used. {error}"
    return None, why


def _work_from(data: bytes) -> Work:
    fields = read_json_text(data, read_toml("storage.toml")["job_file"]["deepest_nesting"] + 1)
    try:
        upgraded = {name: job_from_bytes(canonical_text(fields[name]).encode()) for name in ("job", "opened_as")}
        plain = {name: value for name, value in fields.items() if name not in upgraded}
        kept = Work.model_validate_json(canonical_text({**plain, "job": {}, "opened_as": {}}))
    except ValidationError as error:
        raise in_words(error) from None
    except (KeyError, TypeError):
        raise TiremapError("It is not unsaved work of Tiremap.") from None
    return kept.model_copy(update=upgraded)  # each was validated above, and by the upgrades of a job file
