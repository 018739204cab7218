"""The palettes of the style sheet and what a style looks like in one of them."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from tiremap.drawing.lettering import style
from tiremap.errors import TiremapError
from tiremap.resources import read_toml

POINTS_PER_MM = 72 / 25.4

DASHES: dict[str, tuple[float, ...] | None] = {
    "solid": None, "dashed": (1.6, 0.9), "dotted": (0.35, 0.7), "chain": (3.2, 0.8, 0.5, 0.8),
}
"""Dash and gap in turn, paper mm."""


@dataclass(frozen=True)
class Look:
    """A style in a palette: colors, line weight in points, dashes in points, hatch, text."""

    fill: str | None
    fill_alpha: float
    stroke: str | None
    weight: float
    dashes: tuple[float, ...] | None
    hatch: str | None
    color: str | None
    bold: bool
    backed: bool

    @property
    def line_style(self) -> Any:
        """The dashes as matplotlib takes them for a patch."""
        return "solid" if self.dashes is None else (0.0, self.dashes)


def palette_names() -> tuple[str, ...]:
    """The palettes there are."""
    return tuple(read_toml("drawing", "styles.toml")["palettes"])


def palette(name: str) -> dict[str, str]:
    """Colors of a palette by name; raises `TiremapError` for one that does not exist."""
    palettes = read_toml("drawing", "styles.toml")["palettes"]
    if name not in palettes:
        raise TiremapError(f"There is no palette {name!r}.", f"Use one of {', '.join(palettes)}.")
    colors: dict[str, str] = palettes[name]
    return colors


@lru_cache(maxsize=1024)
def look(style_name: str, palette_name: str) -> Look:
    """A style in a palette."""
    colors, entry = palette(palette_name), style(style_name)
    weights = read_toml("drawing", "styles.toml")["weights"]
    weight = weights[entry.get("weight", "thin")] * POINTS_PER_MM
    dashes = DASHES[entry.get("dash", "solid")]
    return Look(
        fill=colors[entry["fill"]] if "fill" in entry else None,
        fill_alpha=entry.get("fill_alpha", 1.0),
        stroke=colors[entry["stroke"]] if "stroke" in entry else None,
        weight=weight,
        dashes=None if dashes is None else tuple(each * POINTS_PER_MM for each in dashes),
        hatch=entry.get("hatch"),
        color=colors[entry["color"]] if "color" in entry else None,
        bold=entry.get("bold", False),
        backed=entry.get("backed", False),
    )
