"""Locks that die with the process that holds them: however a program ends, it leaves none behind.

On POSIX ``flock`` holds a folder itself, so that nothing is left lying among the jobs. Windows cannot open a folder;
there a file in the user's cache folder stands for it.
"""

import errno
import hashlib
import os
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from tiremap.resources import cache_folder, read_toml

if sys.platform == "win32":  # pragma: no cover - Windows alone
    import msvcrt
else:
    import fcntl

_HELD_BY_ANOTHER = {errno.EWOULDBLOCK, errno.EAGAIN, errno.EACCES, errno.EDEADLK}


@contextmanager
def folder_held(folder: Path) -> Iterator[bool]:
    """Hold a folder against other saves of this program while the block runs.

    Gives whether it is held: a file system without locks, or a folder that may not be listed, must not keep anyone
    from saving. Raises `OSError` (``EAGAIN``) if another save holds it for longer than ``wait_for_others_s``.
    """
    handle = _handle_for(folder)
    try:
        yield handle is not None and _wait_for(handle)
    finally:
        if handle is not None:
            let_go(handle)


def held_file(path: Path) -> int | None:
    """Hold that file, made if there is none, until `let_go` or the end of the process; ``None`` if another holds it.

    Raises `OSError` where it cannot be opened or the file system knows no locks.
    """
    handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
    try:
        held = _take(handle)
    except OSError:
        os.close(handle)
        raise
    if held:
        return handle
    os.close(handle)
    return None


def let_go(handle: int) -> None:
    """Give up what `held_file` holds."""
    with suppress(OSError):  # the handle is gone whatever is said, and what was done under the lock is done
        os.close(handle)


def _handle_for(folder: Path) -> int | None:
    """What is locked for a folder; ``None`` where nothing can be opened."""
    with suppress(OSError):
        if sys.platform == "win32":  # pragma: no cover - Windows alone
            locks = cache_folder() / "locks"
            locks.mkdir(parents=True, exist_ok=True)
            name = hashlib.sha256(os.fsencode(os.path.normcase(os.path.realpath(folder)))).hexdigest()
            return os.open(locks / name, os.O_RDWR | os.O_CREAT, 0o600)
        return os.open(folder, os.O_RDONLY)
    return None


def _wait_for(handle: int) -> bool:
    """Whether the lock was taken; ``False`` where there are no locks. Raises `OSError` after waiting in vain."""
    limits = read_toml("storage.toml")["saving"]
    until = time.monotonic() + limits["wait_for_others_s"]
    try:
        while not _take(handle):
            if time.monotonic() > until:
                raise BlockingIOError(errno.EAGAIN, "another program is saving in this folder")
            time.sleep(limits["look_again_s"])
    except BlockingIOError:
        raise
    except OSError:
        return False
    return True


def _take(handle: int) -> bool:
    """Take the lock if nobody holds it, at once. Raises `OSError` where there are no locks."""
    try:
        if sys.platform == "win32":  # pragma: no cover - Windows alone
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        if error.errno in _HELD_BY_ANOTHER:
            return False
        raise
    return True
