"""Saving so that a failure or a stop never costs the old file.

The new bytes go to a file beside the old one, are forced to disk, read back and compared, and only then take the old
one's place in one step. What stood there before is kept as one previous generation, ``NAME.json~``, which no search
for ``*.json`` picks up. A link is followed; the file's mode stays. One save at a time works in a folder.

No file system puts two names in place in one step. Until the new bytes stand, what they replace therefore waits as
``NAME.json~~`` and the generation before it stays ``NAME.json~``: wherever a save is stopped both generations are
there, and the next save of that file finishes the work.
"""

import errno
import hashlib
import os
import platform
import secrets
import stat
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from tiremap.errors import TiremapError
from tiremap.storage.file_lock import folder_held

_UNCHANGED = "The file on disk is as it was."
_CANNOT_SYNC_FOLDERS = {errno.EINVAL, errno.ENOTSUP, errno.EBADF}
"""What file systems that cannot force a folder to disk answer: going on is all there is."""
_REFUSED = {errno.EACCES, errno.EPERM, errno.EROFS, errno.EBUSY, errno.ETXTBSY}

MayReplace = Callable[[bytes | None], None]
"""Told what stands there, ``None`` for nothing, while no other save can change it; raises to keep it there."""


def save_checked(path: Path, data: bytes, may_replace: MayReplace | None = None) -> None:
    """Put ``data`` in the file at ``path``. Raises `TiremapError`, the old bytes still in place, if that fails."""
    try:
        target = _followed(path)
        with folder_held(target.parent) as held:
            old = _old_bytes(target)
            if may_replace is not None:
                may_replace(old)
            _finish_a_stopped_save(target, old)
            if old != data:
                _replace(target, old, data, _parts(target, held))
    except (OSError, ValueError) as error:
        raise TiremapError(f"{path} was not saved: {_reason(error)}. {_UNCHANGED}", _advice(error)) from None


def previous_generation(path: Path) -> Path:
    """Where the content a job file had before its last save is kept, also where that save was stopped."""
    target = Path(os.path.realpath(path))
    waiting = _waiting(target)
    with suppress(OSError):
        if waiting.read_bytes() != target.read_bytes():
            return waiting
    return _previous(target)


def remove_with_generations(path: Path) -> None:
    """Remove a file of the program's own, what was kept before it, and what a stopped save left. What cannot go stays.

    The file itself goes last, so that a stop in between leaves it whole.
    """
    target = Path(os.path.realpath(path))
    for each in (*_parts(target, held=True), _waiting(target), _previous(target), target):
        with suppress(OSError):
            os.unlink(each)


def _followed(path: Path) -> Path:
    """The file a path leads to. Raises `OSError` for links that lead in a circle."""
    target = Path(os.path.realpath(path))
    if target.is_symlink():
        raise OSError(errno.ELOOP, "its links lead in a circle")
    return target


def _previous(target: Path) -> Path:
    return target.with_name(f"{target.name}~")


def _waiting(target: Path) -> Path:
    """Where the generation being replaced waits until the new one stands."""
    return target.with_name(f"{target.name}~~")


def _parts(target: Path, held: bool) -> tuple[Path, Path]:
    """Names to write under: of the new bytes, and of a copy of the old.

    Where no other save can be at work they are the same each time, so that a stopped save leaves no more than these
    two; the computer's name keeps another one's on a shared disk apart.
    """
    name = hashlib.sha256(os.fsencode(f"{platform.node()}/{target.name}")).hexdigest()[:16]
    end = "" if held else f"-{secrets.token_hex(8)}"
    return target.with_name(f".tiremap-{name}-new{end}.part"), target.with_name(f".tiremap-{name}-old{end}.part")


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


def _finish_a_stopped_save(target: Path, old: bytes | None) -> None:
    """What waits of a save that was stopped becomes the previous generation, if its successor stands already."""
    waiting = _waiting(target)
    if not waiting.is_file():
        return
    if waiting.read_bytes() == old:
        os.unlink(waiting)
    else:
        os.replace(waiting, _previous(target))


def _replace(target: Path, old: bytes | None, data: bytes, parts: tuple[Path, Path]) -> None:
    mode = None if old is None else stat.S_IMODE(target.stat().st_mode)
    new, copy = parts
    try:
        _write_beside(new, data, mode)
        if old is None:
            _put_first(new, target)
        else:
            _write_beside(copy, old, mode)
            _put_after(new, copy, target)
    finally:
        for leftover in parts:
            with suppress(OSError):
                os.unlink(leftover)


def _put_first(new: Path, target: Path) -> None:
    """Put the new file where there is none; nothing stands there after a failure."""
    os.replace(new, target)
    try:
        _sync_folder(target.parent)
    except OSError:
        os.unlink(target)
        raise


def _put_after(new: Path, copy: Path, target: Path) -> None:
    """Put the new file in the old one's place, and the copy in that of the previous generation.

    After a failure both places hold what they held.
    """
    waiting = _waiting(target)
    os.replace(copy, waiting)
    try:
        os.replace(new, target)
    except OSError:
        with suppress(OSError):
            os.unlink(waiting)
        raise
    try:
        _sync_folder(target.parent)
        os.replace(waiting, _previous(target))
    except OSError as error:
        _put_back(waiting, target, error)
        raise
    with suppress(OSError):  # both are on disk: the name of the older one is all that may be lost, and is mended
        _sync_folder(target.parent)


def _put_back(waiting: Path, target: Path, why: OSError) -> None:
    """The generation that waits stands again. Raises `TiremapError` if even that fails: nothing may be hidden then."""
    try:
        os.replace(waiting, target)
    except OSError:
        raise TiremapError(
            f"{target} holds what was to be saved, but the disk may not keep it: {_reason(why)}. What the file held "
            f"before lies beside it as {waiting.name}.",
            _advice(why),
        ) from None


def _write_beside(path: Path, data: bytes, mode: int | None) -> None:
    """Write a new file, force it to disk and read it back. ``mode`` as the file it replaces; ``None`` by the umask."""
    with suppress(FileNotFoundError):  # what an earlier save that was stopped left
        os.unlink(path)
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


def _reason(error: OSError | ValueError) -> str:
    match getattr(error, "errno", None):
        case errno.ENOSPC | errno.EDQUOT:
            return "the disk is full"
        case errno.EPERM | errno.EROFS:
            return "writing there is not allowed"
        case errno.ENOENT | errno.ENOTDIR:
            return "its folder does not exist"
        case errno.EBUSY | errno.ETXTBSY:
            return "another program has it locked"
        case _:
            text = getattr(error, "strerror", None) or str(error)
            return text[:1].lower() + text[1:]


def _advice(error: OSError | ValueError) -> str:
    code = getattr(error, "errno", None)
    if code in (errno.ENOSPC, errno.EDQUOT):
        return "Free some space and save again, or save to another folder."
    if code == errno.EIO:
        return "Save to another disk, and have this one looked at."
    if code == errno.EAGAIN:
        return "Wait a moment and save again, or save to another folder."
    if code in _REFUSED:
        return "Take the protection off, close what else has it open, or save to another folder or under another name."
    return "Save to another folder or under another name."
