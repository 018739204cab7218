"""Dimension lines too short for their value: arrows outside, the value beside what was measured.

After the habits of ISO 129: arrows stand outside where the space between the ends is short, and a value with no room
on its line stands off it at a leader.
"""

from dataclasses import replace
from math import hypot

from shapely import Geometry

from tiremap.drawing.labels import Lettering, Wanted, dimension_ends, dimension_label
from tiremap.drawing.lettering import text_box
from tiremap.drawing.scene import DimensionLine, SceneMark
from tiremap.resources import read_toml

BETWEEN_ARROWS = 0.8
"""Paper mm that must be left between two arrows standing inside."""


def length_of(line: DimensionLine, lettering: Lettering) -> float:
    """Length of a dimension line, paper mm."""
    (x0, y0), (x1, y1) = line.start, line.end
    return hypot(x1 - x0, y1 - y0) / lettering.scale


def with_arrows(line: DimensionLine, lettering: Lettering) -> DimensionLine:
    """The line with its arrows inside, or outside where they have no room."""
    needed = 2 * read_toml("drawing", "styles.toml")["sizes"]["arrow"] + BETWEEN_ARROWS
    return replace(line, outside=length_of(line, lettering) < needed)


def holds_its_value(line: DimensionLine, lettering: Lettering) -> bool:
    """Whether the value has room above the line."""
    return not line.text or text_box(line.text, line.style, lettering.type_size)[0] <= length_of(line, lettering)


def value_within(
    mark: SceneMark, seen: tuple[float, float, float, float], lettering: Lettering
) -> tuple[SceneMark, ...]:
    """The mark; a level dimension line whose value would be cut off by what is seen has it shifted inside."""
    if not isinstance(mark, DimensionLine) or not mark.text or mark.start[1] != mark.end[1]:
        return (mark,)
    label = dimension_label(mark, lettering)
    wide = lettering.scale * text_box(mark.text, mark.style, lettering.type_size)[0]
    x = max(min(label.x, seen[2] - wide / 2), seen[0] + wide / 2)
    return (mark,) if x == label.x else (replace(mark, text=""), replace(label, x=x))


def value_aside(
    line: DimensionLine, lettering: Lettering, off: Geometry | None
) -> tuple[DimensionLine, Wanted | None]:
    """The line, and its value as a label looking for a place off the shape ``off`` where the line cannot hold it."""
    drawn = with_arrows(line, lettering)
    if holds_its_value(line, lettering):
        return drawn, None
    (x0, y0), (x1, y1) = dimension_ends(line)
    value = Wanted(
        (x0 + x1) / 2, (y0 + y1) / 2, line.text, line.style, line.key, ("right", "left", "right above", "left above"),
        off=off,
    )
    return replace(drawn, text=""), value
