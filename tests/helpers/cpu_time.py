"""Time that processors worked for this process and for those it started and that have ended.

On a machine with other work it says what a clock cannot: how long something would take were the cores its own.
"""

import os
from collections.abc import Callable
from time import perf_counter


def worked_s(work: Callable[[], object]) -> float:
    """Seconds that processors worked, all cores together, while ``work`` was done."""
    before = os.times()[:4]
    work()
    return sum(os.times()[:4]) - sum(before)


def timed(work: Callable[[], object]) -> tuple[float, float]:
    """Seconds by the clock, and seconds that processors worked, while ``work`` was done."""
    begun = perf_counter()
    worked = worked_s(work)
    return perf_counter() - begun, worked
