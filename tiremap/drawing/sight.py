"""How a view looks at a tire: which side, how wide, and which part of the strip."""

import math
from dataclasses import dataclass
from functools import lru_cache

import shapely
from shapely import Geometry

from tiremap.assessment import Assessment
from tiremap.drawing.scene import View
from tiremap.geometry.liner_strip import Strip
from tiremap.geometry.section import Section, SectionCannotBeDrawn, draw_section
from tiremap.geometry.section_inputs import SectionInputs
from tiremap.resources import read_toml

BESIDE = 17.0
"""Paper mm kept beside tire and strip, for ticks and labels."""


def side(view: View) -> int:
    """+1 where outboard lies to the right, -1 where the drawing is mirrored."""
    return 1 if view.from_inside else -1


@lru_cache(maxsize=64)
def drawn_section(inputs: SectionInputs) -> Section | SectionCannotBeDrawn:
    """The section, or why there is none; a failed one is remembered too."""
    try:
        return draw_section(inputs)
    except SectionCannotBeDrawn as why:
        return why


def section_of(assessment: Assessment) -> Section | None:
    """The section of a job's tire, or ``None`` where it is unknown or cannot be drawn."""
    if assessment.section_inputs is None:
        return None
    drawn = drawn_section(assessment.section_inputs)
    return None if isinstance(drawn, SectionCannotBeDrawn) else drawn


def strip_half_width(assessment: Assessment) -> float:
    """How far the strip is shown to each side of the center, mm: past the tread edge, or its band where estimated."""
    facts = assessment.facts
    past = read_toml("dimensions", "unmeasured.toml")["shoulder"]["reaches_past_tread_edge_mm"]
    measured = facts.tread_width.stated
    reach = facts.tread_width.high / 2 if measured is None else measured / 2 + past
    return assessment.strip.liner_across(max(reach, facts.drawn_tread_width / 2 + past))


def half_width_shown(assessment: Assessment, view: View) -> float:
    """Half the width of the frame that section and strip share, mm, so that they stand under each other."""
    section = section_of(assessment)
    tire = 0.0 if section is None else section.widest_half_width
    return max(tire, strip_half_width(assessment)) + BESIDE * view.paper_scale


@dataclass(frozen=True)
class StripWindow:
    """The part of the strip in view. ``middle`` and ``length`` in mm around; ``half_width`` mm across."""

    strip: Strip
    side: int
    middle: float
    length: float
    half_width: float

    def x(self, s: float) -> float:
        """Drawing x of the tread coordinate ``s``."""
        return self.side * self.strip.liner_across(s)

    def heights(self, angle: float, beyond: float = 0.0) -> list[float]:
        """Drawing y of every copy of an angle (radians) in the window, or within ``beyond`` mm of it."""
        around, half = self.strip.circumference, self.length / 2 + beyond
        t = angle * self.strip.R0 - self.middle
        first, last = math.ceil((-half - t) / around), math.floor((half - t) / around)
        return [-(t + turn * around) for turn in range(first, last + 1)]

    def height(self, angle: float) -> float:
        """Drawing y of the copy of an angle that is nearest to the middle of the window."""
        around = self.strip.circumference
        return -((angle * self.strip.R0 - self.middle + around / 2) % around - around / 2)

    def laid(self, shape: Geometry) -> list[Geometry]:
        """Every copy of a shape of the strip in the window, in drawing coordinates, cut at its edges."""
        low, high = self.middle - self.length / 2, self.middle + self.length / 2
        around = self.strip.circumference
        _, t_low, _, t_high = shape.bounds
        first, last = math.ceil((low - t_high) / around), math.floor((high - t_low) / around)
        copies = []
        for turn in range(first, last + 1):
            up = self.middle - turn * around
            copy = shapely.transform(shape, lambda c, up=up: c * (self.side, -1) + (0.0, up))
            if t_low + turn * around < low or t_high + turn * around > high:
                copy = shapely.clip_by_rect(copy, -1e6, -self.length / 2, 1e6, self.length / 2)
            if not copy.is_empty:
                copies.append(copy)
        return copies


def strip_window(assessment: Assessment, view: View) -> StripWindow:
    """The window a view opens on the strip; never longer than the strip is."""
    strip = assessment.strip
    return StripWindow(
        strip, side(view), view.strip_middle * strip.R0, min(view.strip_length, strip.circumference),
        strip_half_width(assessment),
    )
