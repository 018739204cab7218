"""What every drawing carries: the size code, a scale bar, the caution line."""

import math

import numpy as np

from tiremap.assessment import Assessment
from tiremap.drawing.labels import Lettering
from tiremap.drawing.lettering import broken, text_box
from tiremap.drawing.scene import Label, Line, SceneMark, View
from tiremap.drawing.wording import Unit
from tiremap.model.cautions import short_caution
from tiremap.model.units import MM_PER_INCH

ROW_GAP = 1.2
"""Paper mm between two rows of captions."""


def size_words(assessment: Assessment) -> str:
    """The size as it was typed, or the dimensions typed in its place."""
    tire = assessment.job.tire
    if tire.size_code:
        return tire.size_code
    dimensions = assessment.known_facts.dimensions
    return f"{dimensions.overall_diameter_mm:g} × {dimensions.section_width_mm:g} mm"


def captions(
    assessment: Assessment, lettering: Lettering, x_low: float, x_high: float, top: float, unit: Unit,
    head: str | None = None, caution: bool = True,
) -> tuple[list[SceneMark], float]:
    """Size code and scale bar in one row, ``head`` and the caution under them, downward from ``top``.

    Gives the marks and the y below them.
    """
    room = (x_high - x_low) / lettering.scale
    marks, y = _row_with_bar(size_words(assessment), "title", lettering, x_low, x_high, top, unit)
    for text, style in ((head, "label_quiet"), (short_caution() if caution else None, "caution")):
        if text:
            lines = broken(text, style, lettering.type_size, room)
            high = lettering.scale * text_box(lines, style, lettering.type_size)[1]
            marks.append(Label(x_low, y - high / 2, lines, style, anchor="right"))
            y -= high
    return marks, y - ROW_GAP * lettering.scale


def caution_with_ring(view: View) -> bool:
    """Whether the caution stands under the ring and not over the section: in large type it takes too much height."""
    return view.composed and view.type_size == "large"


def caution_over_section(view: View) -> bool:
    """Whether the caution stands over the section; for a class it stands under the answer."""
    return not caution_with_ring(view) and view.type_size != "room"


def short_captions(
    head: str, lettering: Lettering, x_low: float, x_high: float, top: float, unit: Unit, caution: bool
) -> tuple[list[SceneMark], float]:
    """``head``, scale bar and perhaps the caution, for a drawing beside one that carries the rest; as `captions`."""
    marks, y = _row_with_bar(head, "label_quiet", lettering, x_low, x_high, top, unit)
    if caution:
        y -= ROW_GAP * lettering.scale
        lines = broken(short_caution(), "caution", lettering.type_size, (x_high - x_low) / lettering.scale)
        high = lettering.scale * text_box(lines, "caution", lettering.type_size)[1]
        marks.append(Label(x_low, y - high / 2, lines, "caution", anchor="right"))
        y -= high
    return marks, y - ROW_GAP * lettering.scale


def _row_with_bar(
    text: str, style: str, lettering: Lettering, x_low: float, x_high: float, top: float, unit: Unit
) -> tuple[list[SceneMark], float]:
    """Words at the left and a scale bar at the right, under them where both have no room; and the y below."""
    scale, room = lettering.scale, x_high - x_low
    text = broken(text, style, lettering.type_size, room / scale)
    wide, tall = (scale * each for each in text_box(text, style, lettering.type_size))
    long, short = (_round_length(room / share, unit) for share in (4, 8))
    bar_tall = scale * text_box(long[1], "label", lettering.type_size)[1]
    y = top - max(tall, bar_tall)
    row = y + max(tall, bar_tall) / 2
    marks: list[SceneMark] = [Label(x_low, row, text, style, anchor="right")]
    beside = next((each for each in (long, short) if wide + _bar_room(*each, lettering) <= room), None)
    if beside is None:  # the bar gets a row of its own
        y -= 1.2 * bar_tall
        row = y + bar_tall / 2
    return marks + scale_bar(x_high, row, lettering, *(beside or long)), y


def _bar_room(bar: float, called: str, lettering: Lettering) -> float:
    """Width of a scale bar with its length beside it, and a gap before it."""
    return bar + lettering.scale * (2.0 + text_box(called, "label", lettering.type_size)[0])


def scale_bar(x_high: float, y: float, lettering: Lettering, bar: float, text: str) -> list[SceneMark]:
    """A bar of ``bar`` mm, ending at ``x_high``, with its length to the left of it."""
    tick = 0.7 * lettering.scale
    points = np.array([
        (x_high - bar, y + tick), (x_high - bar, y - tick), (x_high - bar, y), (x_high, y),
        (x_high, y - tick), (x_high, y + tick),
    ])
    return [
        Line(points, "scale_bar"),
        Label(x_high - bar - lettering.scale, y, text, "label", anchor="left"),
    ]


def _round_length(longest: float, unit: Unit) -> tuple[float, str]:
    """The longest of 1, 2, 5 times a power of ten not above ``longest`` mm: in mm, and as written."""
    per = MM_PER_INCH if unit == "in" else 1.0
    power = 10.0 ** math.floor(math.log10(longest / per))
    value = max(step * power for step in (1, 2, 5) if step * power <= longest / per)
    return value * per, f"{value:g} {unit}"
