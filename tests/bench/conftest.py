"""What each benchmark measured against its floor, under the table: the table itself has only times."""

import gc
from collections.abc import Callable, Iterator
from time import perf_counter

import pytest

from tiremap.ui.garbage import EVERY_MS, GarbageKeeper


@pytest.fixture
def garbage_kept(qapp) -> Iterator[Callable[[], None]]:
    """Garbage as in the window: what is loaded is frozen, and the keeper collects, at the call that finds it due.

    The window's timer does that between two frames; a bench has no such time, so its frames bear it.
    """
    keeper, before = GarbageKeeper(), [perf_counter()]
    gc.collect()
    gc.freeze()

    def collect_when_due() -> None:
        if perf_counter() - before[0] >= EVERY_MS / 1000:
            keeper.collect()
            before[0] = perf_counter()

    yield collect_when_due
    keeper.end()
    gc.unfreeze()


@pytest.hookimpl(trylast=True)
def pytest_terminal_summary(terminalreporter, config):
    session = getattr(config, "_benchmarksession", None)
    told = [each for each in (session.benchmarks if session else ()) if each.extra_info]
    if told:
        terminalreporter.section("ratios")
    for each in told:
        figures = ", ".join(f"{name} {value}" for name, value in each.extra_info.items())
        terminalreporter.write_line(f"{each.name}: {figures}")
