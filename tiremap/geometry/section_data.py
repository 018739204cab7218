"""Dimensions the section is drawn with that nobody measured: read from ``resources/dimensions/section.toml``."""

from functools import cache
from math import radians
from typing import Any

from tiremap.resources import read_toml


@cache
def assumed(subject: str, name: str) -> float:
    """The value of one entry; millimeters and shares as they stand, degrees as radians."""
    entry = read_toml("dimensions", "section.toml")[subject][name]
    value: float = entry["value"]
    return radians(value) if entry["unit"] == "deg" else value


def assumed_list(subject: str, name: str) -> list[Any]:
    """An entry that holds several values, or steps of them, as they stand."""
    values: list[Any] = read_toml("dimensions", "section.toml")[subject][name]["value"]
    return values


def from_step_table(table: list[list[float]], at: float) -> float:
    """The value of the last ``[from, value]`` step not above ``at`` (the first one below them all)."""
    reached = [value for start, value in table if start <= at + 0.5]
    return reached[-1] if reached else table[0][1]
