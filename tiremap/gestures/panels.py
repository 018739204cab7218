"""Where the three drawings stand in the window: section over strip in one column, the wheel ring beside them.

Screen pixels, y down. Section and strip share left edge and width, so that on one scale a place in the section is
straight above its place on the strip.
"""

from dataclasses import dataclass

from tiremap.gestures.pointer import DrawingName

GAP_PX = 6.0
LEAST_RING_SHARE, GREATEST_RING_SHARE = 0.30, 0.42
"""Of the width. The ring takes what section and strip, limited by their height, leave over."""
LEAST_SECTION_SHARE, GREATEST_SECTION_SHARE = 0.40, 0.60
"""Of the height. The strip takes what the section, filling the width, leaves over."""


@dataclass(frozen=True)
class Panel:
    """A rectangle of the screen, pixels."""

    left: float
    top: float
    width: float
    height: float

    @property
    def middle(self) -> tuple[float, float]:
        """Its middle, pixels."""
        return self.left + self.width / 2, self.top + self.height / 2

    def holds(self, screen: tuple[float, float]) -> bool:
        """Whether the point lies in it."""
        return self.left <= screen[0] < self.left + self.width and self.top <= screen[1] < self.top + self.height


@dataclass(frozen=True)
class Panels:
    """The three panels of a window."""

    section: Panel
    strip: Panel
    ring: Panel

    def of(self, drawing: DrawingName) -> Panel:
        """The panel of a drawing."""
        panel: Panel = getattr(self, drawing)
        return panel

    def under(self, screen: tuple[float, float]) -> DrawingName | None:
        """The drawing at a point of the screen; ``None`` in the gaps."""
        return next((name for name in ("section", "strip", "ring") if self.of(name).holds(screen)), None)


def panels_in(
    width: float, height: float, ring_share: float = LEAST_RING_SHARE, section_share: float = GREATEST_SECTION_SHARE
) -> Panels:
    """Panels for a window of that size; a window too small to draw in gets panels of a pixel."""
    ring_width = max(1.0, (width - 3 * GAP_PX) * ring_share)
    column = max(1.0, width - 3 * GAP_PX - ring_width)
    section_height = max(1.0, (height - 3 * GAP_PX) * section_share)
    strip_height = max(1.0, height - 3 * GAP_PX - section_height)
    return Panels(
        section=Panel(GAP_PX, GAP_PX, column, section_height),
        strip=Panel(GAP_PX, 2 * GAP_PX + section_height, column, strip_height),
        ring=Panel(2 * GAP_PX + column, GAP_PX, ring_width, max(1.0, height - 2 * GAP_PX)),
    )


def shares_around(section_width: float, section_height: float, panels: Panels) -> tuple[float, float]:
    """The ring's share of the width and the section's of the height, for a section of that size (any unit).

    The section fills the width beside the ring; where that takes too much height the ring grows.
    """
    width, height = panels.section.width + panels.ring.width, panels.section.height + panels.strip.height
    needed = section_width / section_height * GREATEST_SECTION_SHARE * height
    ring = min(max(1 - needed / width, LEAST_RING_SHARE), GREATEST_RING_SHARE)
    filled = (1 - ring) * width * section_height / section_width
    return ring, min(max(filled / height, LEAST_SECTION_SHARE), GREATEST_SECTION_SHARE)
