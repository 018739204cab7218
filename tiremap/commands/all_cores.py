"""The same work on many files: in this process, or on all cores where there are enough of them. Their order is kept."""

import multiprocessing
import os
import signal
import sys
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from typing import TypeVar

from tiremap.resources import read_toml

Result = TypeVar("Result")
Work = Callable[[list[str]], list[Result]]
"""What is done with some paths, one result for each; a function of a module, so that other processes find it."""

AHEAD = 4
"""How many errands are under way for each process: enough that none waits while results are printed."""


def in_order(work: Work[Result], paths: Sequence[str]) -> Iterator[list[Result]]:
    """The results of all paths, some at a time, in the order of the paths. What ``work`` raises is raised here."""
    limits = read_toml("storage.toml")["register"]
    size = limits["files_at_a_time"]
    left = deque(list(paths[start : start + size]) for start in range(0, len(paths), size))
    processes = min(os.cpu_count() or 1, limits["most_processes"])
    if len(paths) >= limits["all_cores_from"] and processes > 1 and not getattr(sys, "frozen", False):
        yield from _on_all_cores(work, left, processes)
    while left:
        yield work(left.popleft())


def _on_all_cores(work: Work[Result], left: deque[list[str]], processes: int) -> Iterator[list[Result]]:
    """Work in other processes, started afresh, and take what is done from ``left``; what they failed at stays there."""
    pool = ProcessPoolExecutor(processes, multiprocessing.get_context("spawn"), initializer=_leave_stopping_to_us)
    under_way: deque[tuple[list[str], Future[list[Result]]]] = deque()
    try:
        while left or under_way:
            while left and len(under_way) < AHEAD * processes:
                under_way.append((left[0], pool.submit(work, left[0])))
                left.popleft()
            done = under_way[0][1].result()
            under_way.popleft()
            yield done
    except (BrokenProcessPool, OSError):
        left.extendleft(part for part, _ in reversed(under_way))
    finally:
        pool.shutdown(cancel_futures=True)


def _leave_stopping_to_us() -> None:
    """Ctrl+C reaches every process of the terminal; only the one that prints answers it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
