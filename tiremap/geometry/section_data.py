"""Dimensions the section is drawn with that nobody measured: read from ``resources/dimensions/section.toml``."""

from functools import cache
from math import radians
from typing import Any

from tiremap.resources import read_toml


@cache
def assumed(subject: str, name: str) -> Any:
    """The value of one entry; millimeters and shares as they stand, degrees as radians."""
    entry = read_toml("dimensions", "section.toml")[subject][name]
    return radians(entry["value"]) if entry["unit"] == "deg" else entry["value"]


def from_step_table(table: list[list[float]], at: float) -> float:
    """The value of the last ``[from, value]`` step not above ``at`` (the first one below them all)."""
    reached = [value for start, value in table if start <= at + 0.5]
    return reached[-1] if reached else table[0][1]
