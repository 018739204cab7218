"""A program that is stopped, or a disk that fails, at any one of the calls with which a save touches files.

Every call of a save goes through `os`; `Calls` counts them and stops or fails at a given one. A stopped program makes
no call any more, whatever its handlers would like to: that is what a kill leaves behind.
"""

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from typing import Any

CALLS = ("open", "write", "chmod", "fstat", "fsync", "close", "replace", "unlink")
"""What the save asks of the system; reading changes nothing and is not counted."""


class Stopped(BaseException):
    """The program ends here; no handler of errors may catch it."""


class Calls:
    """Counts the calls. At number ``at`` (from 1; 0 never) it does what ``instead`` says with the call."""

    def __init__(self, at: int, instead: Callable[..., Any]) -> None:
        self.at, self.instead = at, instead
        self.made: list[str] = []
        self.stopped = False
        self._handles: set[int] = set()

    def end(self) -> None:
        """What the end of a program does: its handles are closed, and with them its locks are gone."""
        for handle in self._handles:
            with suppress(OSError):
                os.close(handle)

    def made_as(self, name: str, real: Callable[..., Any]) -> Callable[..., Any]:
        def call(*args: Any, **more: Any) -> Any:
            if self.stopped:
                raise Stopped
            self.made.append(name)
            if len(self.made) == self.at:
                return self.instead(self, name, done, *args, **more)
            return done(*args, **more)

        def done(*args: Any, **more: Any) -> Any:
            given = real(*args, **more)
            if name == "open":
                self._handles.add(given)
            elif name == "close":
                self._handles.discard(args[0])
            return given

        return call


def stop_before(calls: Calls, name: str, real: Callable[..., Any], *args: Any, **more: Any) -> None:
    """The program ends before the call does anything."""
    calls.stopped = True
    raise Stopped


def stop_after(calls: Calls, name: str, real: Callable[..., Any], *args: Any, **more: Any) -> None:
    """The program ends when the call has done its work; of what was to be written only a part was."""
    if name == "write":
        handle, data = args
        args = handle, bytes(data)[: len(data) // 2]
    real(*args, **more)
    calls.stopped = True
    raise Stopped


def failing_with(code: int) -> Callable[..., Any]:
    """The call fails with that error number and does nothing; what comes after works again."""

    def fail(calls: Calls, name: str, real: Callable[..., Any], *args: Any, **more: Any) -> None:
        if name == "close":
            real(*args, **more)  # a handle is gone whatever close says
        raise OSError(code, os.strerror(code))

    return fail


def _nothing(handle: int) -> None:
    """Counts as forced to disk: only a power cut could tell the difference, and a disk takes its time over it."""


@contextmanager
def counted(monkeypatch: Any, at: int, instead: Callable[..., Any]) -> Iterator[Calls]:
    """Count the calls while the block runs; a stop inside ends the block quietly."""
    calls = Calls(at, instead)
    with monkeypatch.context() as patch:
        for name in CALLS:
            patch.setattr(os, name, calls.made_as(name, _nothing if name == "fsync" else getattr(os, name)))
        with suppress(Stopped):
            yield calls
    calls.end()
