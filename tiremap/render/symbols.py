"""Symbols of fixed paper size, as paths in paper mm about their own middle.

Each answer has a shape of its own as well as a color: solid ring and tick, dashed ring and question mark, hatched
ring and cross.
"""

from dataclasses import dataclass
from math import cos, pi, sin, sqrt

from matplotlib.path import Path

from tiremap.drawing.scene import SymbolKind
from tiremap.resources import read_toml

Stroke = list[tuple[float, float]]
_HATCH_APART = 0.5
"""From one line of a symbol's hatch to the next, mm."""


@dataclass(frozen=True)
class SymbolPart:
    """One path of a symbol: palette names of fill and stroke, weight in mm, dashes in mm."""

    path: Path
    fill: str | None
    stroke: str | None
    weight: float
    dashes: tuple[float, ...] | None = None


def symbol_parts(kind: SymbolKind, chosen: bool = False, hovered: bool = False) -> list[SymbolPart]:
    """The parts of a symbol from back to front."""
    radius = read_toml("drawing", "styles.toml")["sizes"]["symbol"] / 2
    parts: list[SymbolPart] = []
    if chosen or hovered:
        parts.append(SymbolPart(circle(radius + 0.75), "paper", "chosen", 0.5 if chosen else 0.25))
    return parts + _PARTS[kind](radius)


def circle(radius: float) -> Path:
    """A circle about the origin."""
    return Path.circle((0.0, 0.0), radius)


def _repairable(radius: float) -> list[SymbolPart]:
    tick = [(-0.5, 0.02), (-0.14, -0.38), (0.52, 0.42)]
    return [SymbolPart(circle(radius), "paper", "repairable", 0.6), _strokes([tick], radius, "repairable", 0.6)]


def _measure_first(radius: float) -> list[SymbolPart]:
    turns = [pi * (1.0 - each / 14 * 1.28) for each in range(15)]
    hook = [(0.32 * radius_x, 0.24 + 0.3 * up) for radius_x, up in ((cos(turn), sin(turn)) for turn in turns)]
    question = [*hook, (0.0, -0.12), (0.0, -0.26)]
    dot = [(0.0, -0.52), (0.0, -0.56)]
    return [
        SymbolPart(circle(radius), "measure_first", None, 0.0),
        SymbolPart(circle(radius), None, "on_yellow", 0.45, (1.1, 0.75)),
        _strokes([question, dot], radius, "on_yellow", 0.5),
    ]


def _not_repairable(radius: float) -> list[SymbolPart]:
    cross = [[(-0.42, -0.42), (0.42, 0.42)], [(-0.42, 0.42), (0.42, -0.42)]]
    return [
        SymbolPart(circle(radius), "paper", None, 0.0),
        _strokes(_hatching(_HATCH_APART / radius), radius, "not_repairable", 0.18),
        SymbolPart(circle(radius), None, "not_repairable", 0.6),
        _strokes(cross, radius, "paper", 1.3),
        _strokes(cross, radius, "not_repairable", 0.75),
    ]


def _repair(radius: float) -> list[SymbolPart]:
    size = 0.78 * radius
    return [SymbolPart(circle(size), "paper", "earlier", 0.45), SymbolPart(circle(0.4 * size), None, "earlier", 0.35)]


def _unsound_repair(radius: float) -> list[SymbolPart]:
    strike = [[(-0.85, -0.85), (0.85, 0.85)]]
    return [*_repair(radius), _strokes(strike, radius, "ink", 0.5)]


def _datum(radius: float) -> list[SymbolPart]:
    diamond = [(0.0, 0.8 * radius), (0.5 * radius, 0.0), (0.0, -0.8 * radius), (-0.5 * radius, 0.0)]
    return [SymbolPart(Path([*diamond, diamond[0]], closed=True), "ink", "paper", 0.2)]


def _center(radius: float) -> list[SymbolPart]:
    return [_strokes([[(-0.6, 0.0), (0.6, 0.0)], [(0.0, -0.6), (0.0, 0.6)]], radius, "ink", 0.18)]


_PARTS = {
    "repairable": _repairable, "measure_first": _measure_first, "not_repairable": _not_repairable,
    "repair": _repair, "unsound_repair": _unsound_repair, "datum": _datum, "center": _center,
}


def _hatching(apart: float) -> list[Stroke]:
    """Slanting chords of the unit circle, that far apart: a hatch of matplotlib's would take ten times as long."""
    slant = sqrt(0.5)
    chords = []
    for number in range(-int(1 / apart), int(1 / apart) + 1):
        off = number * apart
        half = sqrt(1.0 - off * off)
        chords.append([(slant * (along - off), slant * (along + off)) for along in (-half, half)])
    return chords


def _strokes(strokes: list[Stroke], radius: float, color: str, weight: float) -> SymbolPart:
    paths = [Path([(radius * x, radius * y) for x, y in stroke]) for stroke in strokes]
    return SymbolPart(Path.make_compound_path(*paths), None, color, weight)
