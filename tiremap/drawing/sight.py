"""How a view looks at a tire: which side, how wide, and which part of the strip."""

import math
from dataclasses import dataclass
from functools import lru_cache

import shapely
from shapely import Geometry

from tiremap.assessment import Assessment
from tiremap.drawing.lettering import text_box
from tiremap.drawing.scene import View
from tiremap.geometry.liner_strip import Strip
from tiremap.geometry.section import Section, SectionCannotBeDrawn, draw_section
from tiremap.geometry.section_inputs import SectionInputs
from tiremap.resources import read_toml

BESIDE_TIRE = 4.0
"""Paper mm kept beside the tire on a canvas with the other drawings."""
BESIDE_STRIP = "datum:"
"""The longest word beside the strip."""


def side(view: View) -> int:
    """+1 where outboard lies to the right, -1 where the drawing is mirrored."""
    return 1 if view.from_inside else -1


@lru_cache(maxsize=64)
def drawn_section(inputs: SectionInputs) -> Section | SectionCannotBeDrawn:
    """The section, or why there is none; a failed one is remembered too."""
    try:
        return draw_section(inputs)
    except SectionCannotBeDrawn as why:
        return why.with_traceback(None)  # which would hold whatever asked, up to the window


def section_of(assessment: Assessment) -> Section | None:
    """The section of a job's tire, or ``None`` where it is unknown or cannot be drawn."""
    if assessment.section_inputs is None:
        return None
    drawn = drawn_section(assessment.section_inputs)
    return None if isinstance(drawn, SectionCannotBeDrawn) else drawn


def strip_half_width(assessment: Assessment) -> float:
    """How far the strip is shown to each side of the center, mm: past the tread edge, or its band where estimated."""
    facts = assessment.known_facts
    past = read_toml("dimensions", "unmeasured.toml")["shoulder"]["reaches_past_tread_edge_mm"]
    measured = facts.tread_width.stated
    reach = facts.tread_width.high / 2 if measured is None else measured / 2 + past
    return assessment.known_strip.liner_across(max(reach, facts.drawn_tread_width / 2 + past))


def half_width_shown(assessment: Assessment, view: View) -> float:
    """Half the width of the frame that section and strip share, mm, so that they stand under each other."""
    section = section_of(assessment)
    tire = 0.0 if section is None else section.widest_half_width
    strip = strip_half_width(assessment) + beside_strip(view)
    return max(strip, tire + (BESIDE_TIRE * view.paper_scale if view.composed else beside_strip(view)))


def beside_strip(view: View) -> float:
    """Room kept at each side of the strip for the angles and the datum's name, mm of the drawing."""
    return view.paper_scale * (2.0 + text_box(BESIDE_STRIP, "label", view.type_size)[0])


def across_in_view(view: View, half: float) -> tuple[float, float]:
    """From which x to which section and strip are seen; ``half`` is half the width of their frame, mm."""
    return (-half, half) if view.visible is None else (view.visible[0], view.visible[2])


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
    strip = assessment.known_strip
    return StripWindow(
        strip, side(view), view.strip_middle * strip.R0, min(view.strip_length, strip.circumference),
        strip_half_width(assessment),
    )
