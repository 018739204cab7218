"""Reading many job files: in this process, or on all cores where there are enough of them."""

import multiprocessing
import os
import signal
import sys
from collections import deque
from collections.abc import Callable, Iterator
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool

from tiremap.resources import read_toml
from tiremap.storage.register_rows import Again, Asked, Entry, entries_of

Stopped = Callable[[], bool]

LOOK_UP_S = 0.1
"""How often a stop is looked for while other processes read."""


def read_entries(asked: list[Asked], stopped: Stopped) -> Iterator[list[Entry | Again]]:
    """The entries of those files, a few at a time and in any order, until all are read or it is stopped."""
    limits = read_toml("storage.toml")["register"]
    size = limits["files_at_a_time"]
    left = deque(asked[start : start + size] for start in range(0, len(asked), size))
    processes = min(os.cpu_count() or 1, limits["most_processes"])
    if len(asked) >= limits["all_cores_from"] and processes > 1 and not getattr(sys, "frozen", False):
        yield from _on_all_cores(left, processes, stopped)
    while left and not stopped():
        yield entries_of(left.popleft())


def _on_all_cores(left: deque[list[Asked]], processes: int, stopped: Stopped) -> Iterator[list[Entry | Again]]:
    """Read in other processes and take what is read from ``left``; what they failed to read is there again.

    They are started afresh, never as copies of this process: a copy of a process with a window or threads can hang.
    Where none can be started, as from an interactive prompt, everything is left.
    """
    pool = ProcessPoolExecutor(processes, multiprocessing.get_context("spawn"), initializer=_leave_stopping_to_us)
    under_way: dict[Future[list[Entry | Again]], list[Asked]] = {}
    try:
        while (left or under_way) and not stopped():
            while left and len(under_way) < 2 * processes:
                under_way[pool.submit(entries_of, left[0])] = left[0]
                left.popleft()
            for done in wait(under_way, LOOK_UP_S, FIRST_COMPLETED).done:
                entries = done.result()
                del under_way[done]
                yield entries
    except (BrokenProcessPool, OSError):
        left.extend(under_way.values())
    finally:
        pool.shutdown(cancel_futures=True)


def _leave_stopping_to_us() -> None:
    """Ctrl+C reaches every process of the terminal; only the one that writes the index answers it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
