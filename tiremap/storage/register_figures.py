"""Counts over the register: answers, what decides, where across injuries lie, repairs by month."""

import json
import sqlite3
from collections import Counter

from tiremap.model.job import Answer
from tiremap.resources import read_toml


def across_edges() -> list[float]:
    """The edges of the bins of `across_counts`, as share of half the tread width, + outboard; 1 is the tread edge."""
    asked = read_toml("storage.toml")["register"]
    low, high, bins = asked["across_from"], asked["across_to"], asked["across_bins"]
    return [round(low + (high - low) * each / bins, 6) for each in range(bins + 1)]


def answer_counts(connection: sqlite3.Connection) -> dict[Answer | None, int]:
    """How many jobs have each answer; ``None`` for files that cannot be read or answered."""
    return dict(connection.execute("SELECT answer, count(*) FROM job GROUP BY answer"))


def deciding_counts(connection: sqlite3.Connection) -> list[tuple[str, str, int]]:
    """Code, its most frequent sentence and how many jobs it decides, the most frequent first."""
    rows = connection.execute(
        "SELECT deciding, deciding_says, count(*) FROM job WHERE deciding IS NOT NULL"
        " GROUP BY deciding, deciding_says ORDER BY count(*) DESC, deciding_says"
    )
    says: dict[str, str] = {}
    counts: Counter[str] = Counter()
    for code, sentence, number in rows:
        says.setdefault(code, sentence)
        counts[code] += number
    return [(code, says[code], number) for code, number in sorted(counts.items(), key=lambda each: (-each[1], each[0]))]


def across_counts(connection: sqlite3.Connection) -> list[int]:
    """How many injuries lie in each bin across; what lies beyond the first or last edge counts in that bin."""
    edges = across_edges()
    low, bins, width = edges[0], len(edges) - 1, (edges[-1] - edges[0]) / (len(edges) - 1)
    counts = [0] * bins
    for (places,) in connection.execute("SELECT across FROM job WHERE across <> '[]'"):
        for place in json.loads(places):
            # The small part keeps a place on an edge in the bin outboard of it, whatever binary fractions make of it.
            counts[min(max(int((place - low) / width + 1e-9), 0), bins - 1)] += 1
    return counts


def repairs_per_month(connection: sqlite3.Connection) -> list[tuple[str, int]]:
    """Month (``2026-03``) and repairs recorded in it, in order.

    A repair is recorded by its date in the list of earlier repairs or by a decision to repair. What several files of
    one tire number record for one day is the same work: the file that records most counts.
    """
    most: Counter[tuple[str, str]] = Counter()
    for path, tire, repaired in connection.execute("SELECT path, tire_key, repaired FROM job WHERE repaired <> '[]'"):
        for day, number in json.loads(repaired):
            whose = (f"tire {tire}" if tire else f"file {path}", day)
            most[whose] = max(most[whose], number)
    months: Counter[str] = Counter()
    for (_, day), number in most.items():
        months[day[:7]] += number
    return sorted(months.items())
