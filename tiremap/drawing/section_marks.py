"""Injuries and earlier repairs in the section: the channel at its lean, stem and head, the buffed band."""

import numpy as np
from shapely import Geometry

from tiremap.assessment import AssessedMark, Assessment
from tiremap.drawing.mark_looks import (
    chosen_mark,
    drawn_marks,
    from_back_to_front,
    head_style,
    is_unsound,
    key_of,
    symbol_of,
)
from tiremap.drawing.scene import Area, Line, SceneMark, View
from tiremap.drawing.section_tire import drawn_size, liner_band
from tiremap.drawing.sight import side
from tiremap.geometry.channel import channel_outline
from tiremap.geometry.frames import SectionPoint
from tiremap.geometry.section import Section

THINNEST_CHANNEL = 2.0
"""mm: a hole of unknown size is drawn as thin as this."""
SYMBOL_AWAY = 3.6
"""Paper mm from the tread to the middle of a symbol."""


def mark_shapes(assessment: Assessment, section: Section, view: View) -> list[SceneMark]:
    """The shapes of every injury and repair, the chosen one in full and in front."""
    chosen = chosen_mark(assessment, view)
    marks: list[SceneMark] = []
    for mark in drawn_marks(assessment, view):
        if not mark.facts.is_injury:
            marks += _repair(assessment, section, view, mark)
        elif chosen is not None and mark.id == chosen.id:
            marks += _chosen_injury(assessment, section, view, mark)
        else:
            marks.append(Area(_channel(section, view, mark, _hole(mark)), "channel_quiet", key_of(mark)))
    return marks


def mark_symbols(assessment: Assessment, section: Section, view: View) -> list[SceneMark]:
    """The symbol of every mark, off the tread above an injury and off the liner below a repair."""
    return [
        symbol_of(assessment, view, mark, *symbol_place(section, view, mark))
        for mark in from_back_to_front(assessment, view)
    ]


def symbol_place(section: Section, view: View, mark: AssessedMark) -> tuple[float, float]:
    """Where the symbol of a mark stands."""
    away = SYMBOL_AWAY * view.paper_scale
    if mark.facts.is_injury:
        x, r = section.outer_place(mark.outside, -away)
    else:
        x, r = section.liner_place(mark.inside)
        r -= away + drawn_size("head_thickness")
    return side(view) * x, r


def channel_ends(section: Section, view: View, mark: AssessedMark) -> tuple[SectionPoint, SectionPoint]:
    """The outer and inner end of an injury's channel in the drawing."""
    outer, inner = section.outer_place(mark.outside), section.liner_place(mark.inside)
    return SectionPoint(side(view) * outer.x, outer.r), SectionPoint(side(view) * inner.x, inner.r)


def _hole(mark: AssessedMark) -> float:
    """The hole as found, mm across."""
    sizes = [each.stated for each in (mark.facts.hole_outside, mark.facts.hole_inside) if each is not None]
    return max([THINNEST_CHANNEL, *(size for size in sizes if size)])


def _channel(section: Section, view: View, mark: AssessedMark, size: float) -> Geometry:
    outer, inner = channel_ends(section, view, mark)
    return channel_outline(outer, inner, size).intersection(section.body)


def _chosen_injury(assessment: Assessment, section: Section, view: View, mark: AssessedMark) -> list[SceneMark]:
    """Buffed band and head on the liner, stem in the channel."""
    key, across = key_of(mark), side(view)
    marks: list[SceneMark] = []
    if mark.head is not None:
        reach, border = mark.head.reach_across, assessment.stock.beyond_the_head.border
        buffed = liner_band(
            section, across, mark.inside - reach - border, mark.inside + reach + border, drawn_size("buffed_depth")
        )
        head = liner_band(section, across, mark.inside - reach, mark.inside + reach, drawn_size("head_thickness"))
        marks += [Area(buffed, "buffed_band", key), Area(head, head_style(assessment, mark), key)]
    lean_known = mark.facts.lean_across.stated is not None or mark.facts.inside is not None
    style = "channel" if lean_known else "channel_uncertain"
    marks.append(Area(_channel(section, view, mark, _hole(mark)), style, key))
    if mark.unit is not None:
        stem = f"stem_{assessment.answer_shown(mark)}"
        marks.append(Area(_channel(section, view, mark, mark.unit.stem_mm), stem, key))
    return marks


def _repair(assessment: Assessment, section: Section, view: View, mark: AssessedMark) -> list[SceneMark]:
    """The head of an earlier repair on the liner; an unsound one struck through."""
    if mark.head is None:
        return []
    key, across, reach = key_of(mark), side(view), mark.head.reach_across
    head = liner_band(section, across, mark.inside - reach, mark.inside + reach, drawn_size("head_thickness"))
    marks: list[SceneMark] = [Area(head, "head_earlier", key)]
    if is_unsound(assessment, mark):
        x_low, y_low, x_high, y_high = head.bounds
        marks.append(Line(np.array([(x_low, y_low), (x_high, y_high)]), "strike", key))
    return marks


def follow_line(section: Section, view: View, mark: AssessedMark, bottom: float) -> Line:
    """From the inside end of the chosen mark straight down to the strip."""
    x, r = section.liner_place(mark.inside)
    return Line(np.array([(side(view) * x, r), (side(view) * x, bottom)]), "follow", key_of(mark))
