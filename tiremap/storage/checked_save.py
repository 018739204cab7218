"""Saving so that a failure never costs the old file.

The new bytes go to a file beside the old one, are forced to disk, read back and compared, and only then take the old
one's place in one step. What stood there before is kept as one previous generation, ``NAME.json~``, which no search
for ``*.json`` picks up. A link is followed; the file's mode stays.
"""

import errno
import hashlib
import os
import secrets
import stat
from contextlib import suppress
from pathlib import Path

from tiremap.errors import TiremapError

_UNCHANGED = "The file on disk is as it was."
_CANNOT_SYNC_FOLDERS = {errno.EINVAL, errno.ENOTSUP, errno.EBADF}
"""What file systems that cannot force a folder to disk answer: going on is all there is."""


def save_checked(path: Path, data: bytes) -> None:
    """Put ``data`` in the file at ``path``. Raises `TiremapError`, the old bytes still in place, if that fails."""
    try:
        target = Path(os.path.realpath(path))
        old = _old_bytes(target)
        if old == data:
            return
        _replace(target, old, data)
    except (OSError, ValueError) as error:
        raise TiremapError(f"{path} was not saved: {_reason(error)}. {_UNCHANGED}", _advice(error)) from None


def previous_generation(path: Path) -> Path:
    """Where the content a job file had before its last save is kept."""
    target = Path(os.path.realpath(path))
    return target.with_name(f"{target.name}~")


def _old_bytes(target: Path) -> bytes | None:
    """What stands there now; ``None`` if nothing does. Raises `OSError` for what must not be replaced."""
    if not target.exists():
        return None
    if target.is_dir():
        raise OSError(errno.EISDIR, "it is a folder")
    if not target.is_file():
        raise OSError(errno.EINVAL, "it is not a file")
    if not os.access(target, os.W_OK):
        raise OSError(errno.EACCES, "it is write-protected")
    return target.read_bytes()


def _replace(target: Path, old: bytes | None, data: bytes) -> None:
    mode = None if old is None else stat.S_IMODE(target.stat().st_mode)
    previous = previous_generation(target)
    beside: list[Path] = []
    try:
        beside.append(_new_name(target))
        _write_beside(beside[0], data, mode)
        if old is not None:
            beside.append(_new_name(target))
            _write_beside(beside[1], old, mode)
            os.replace(beside[1], previous)
        os.replace(beside[0], target)
        try:
            _sync_folder(target.parent)
        except OSError:
            _put_back(target, None if old is None else previous)
            raise
    finally:
        for leftover in beside:
            with suppress(OSError):
                leftover.unlink(missing_ok=True)


def _new_name(target: Path) -> Path:
    return target.with_name(f".tiremap-{secrets.token_hex(8)}.part")


def _write_beside(path: Path, data: bytes, mode: int | None) -> None:
    """Write a new file, force it to disk and read it back. ``mode`` as the file it replaces; ``None`` by the umask."""
    # Not mkstemp: its files are 0600, and the umask can only be read by changing it for every thread.
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666)
    try:
        if mode is not None:
            os.chmod(path, mode)
        rest = memoryview(data)
        while rest:
            written = os.write(handle, rest)
            if written <= 0:
                raise OSError(errno.ENOSPC, "the disk took only a part of it")
            rest = rest[written:]
        if os.fstat(handle).st_size != len(data):
            raise OSError(errno.EIO, "the disk kept only a part of it")
        os.fsync(handle)
    finally:
        os.close(handle)
    if hashlib.sha256(path.read_bytes()).digest() != hashlib.sha256(data).digest():
        raise OSError(errno.EIO, "what was read back differs from what was written")


def _sync_folder(folder: Path) -> None:
    """Force the new name to disk, where the system can."""
    try:
        handle = os.open(folder, os.O_RDONLY)
    except PermissionError:  # a folder that may be written but not listed, and every folder on Windows
        return
    try:
        os.fsync(handle)
    except OSError as error:
        if error.errno not in _CANNOT_SYNC_FOLDERS:
            raise
    finally:
        os.close(handle)


def _put_back(target: Path, previous: Path | None) -> None:
    """Undo the last step of a save: the previous generation stands in its place again, or nothing does."""
    if previous is None:
        target.unlink(missing_ok=True)
    else:
        os.replace(previous, target)


def _reason(error: OSError | ValueError) -> str:
    match getattr(error, "errno", None):
        case errno.ENOSPC | errno.EDQUOT:
            return "the disk is full"
        case errno.EPERM | errno.EROFS:
            return "writing there is not allowed"
        case errno.ENOENT | errno.ENOTDIR:
            return "its folder does not exist"
        case _:
            text = getattr(error, "strerror", None) or str(error)
            return text[:1].lower() + text[1:]


def _advice(error: OSError | ValueError) -> str:
    match getattr(error, "errno", None):
        case errno.ENOSPC | errno.EDQUOT:
            return "Free some space and save again, or save to another folder."
        case errno.EIO:
            return "Save to another disk, and have this one looked at."
        case _:
            return "Save to another folder or under another name."
