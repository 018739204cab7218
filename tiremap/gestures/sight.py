"""What part of the tire the window shows: one scale and one across-axis for section and strip, the ring whole.

Drawing frames are those of `tiremap.drawing.scene` (mm, y up); screen pixels have y down. Equal aspect always.
"""

from dataclasses import dataclass, replace

from tiremap.gestures.panels import Panel, Panels
from tiremap.gestures.pointer import DrawingName

Frame = tuple[float, float, float, float]
"""x low, y low, x high, y high of a drawing, mm."""
Screen = tuple[float, float]

CLOSEST_PX_PER_MM = 60.0
_FURTHEST_SHARE_OF_FIT = 0.5


@dataclass(frozen=True)
class Sight:
    """``scale`` px per mm; ``across`` mm in the middle of section and strip; ``radius`` mm in the section's middle.

    ``turn``: angle (radians) in the middle of the strip; ``liner_radius`` mm turns it into length along the strip.
    ``section_frame`` and ``ring_frame`` are what there is to see.
    """

    scale: float
    across: float
    radius: float
    turn: float
    liner_radius: float
    section_frame: Frame
    ring_frame: Frame
    strip_rooms: tuple[float, float] = (0.0, 0.0)
    """Pixels kept above and below the strip's window for what is written there."""

    def limits(self, drawing: DrawingName, panels: Panels) -> Frame:
        """What the drawing's panel shows, mm."""
        panel = panels.of(drawing)
        (x, y), scale = self._middle(drawing), self.scale_of(drawing, panels)
        half_width, half_height = panel.width / 2 / scale, panel.height / 2 / scale
        return x - half_width, y - half_height, x + half_width, y + half_height

    def point_at(self, drawing: DrawingName, screen: Screen, panels: Panels) -> tuple[float, float]:
        """The point of the drawing (mm) under a point of the screen, which may lie outside its panel."""
        (x, y), scale = self._middle(drawing), self.scale_of(drawing, panels)
        middle = panels.of(drawing).middle
        return x + (screen[0] - middle[0]) / scale, y - (screen[1] - middle[1]) / scale

    def screen_at(self, drawing: DrawingName, point: tuple[float, float], panels: Panels) -> Screen:
        """Where a point of the drawing (mm) stands on the screen; undoes `point_at`."""
        (x, y), scale = self._middle(drawing), self.scale_of(drawing, panels)
        middle = panels.of(drawing).middle
        return middle[0] + (point[0] - x) * scale, middle[1] - (point[1] - y) * scale

    def scale_of(self, drawing: DrawingName, panels: Panels) -> float:
        """Pixels per mm of a drawing; the ring is always shown whole."""
        return _fitting_scale(self.ring_frame, panels.ring) if drawing == "ring" else self.scale

    def strip_length(self, panels: Panels) -> float:
        """Length around (mm) of the strip's window."""
        return max(1.0, panels.strip.height - sum(self.strip_rooms)) / self.scale

    def zoomed(self, factor: float, about: Screen | None, panels: Panels) -> "Sight":
        """Magnified about a point of section or strip, which keeps the place under it; about the middle without one.

        From the strip the section is magnified about its liner's height, so that the crown does not leave the window.
        """
        fit = _fitting_scale(self.section_frame, panels.section)
        least, most = fit * _FURTHEST_SHARE_OF_FIT, max(CLOSEST_PX_PER_MM, fit)
        scale = min(max(self.scale * factor, least), most)
        drawing = panels.under(about) if about else None
        if drawing == "section":
            nearer = replace(self, scale=scale)
        else:
            below = (self.liner_radius - self.radius) * self.scale / scale
            nearer = replace(self, scale=scale, radius=self._within_frame(self.liner_radius - below))
        if about is None or drawing in (None, "ring"):
            return nearer
        before, after = self.point_at(drawing, about, panels), nearer.point_at(drawing, about, panels)
        return nearer._shifted(drawing, before[0] - after[0], before[1] - after[1])

    def panned(self, drawing: DrawingName, right: float, down: float) -> "Sight":
        """Shifted by so many pixels with the hand in that drawing; the strip turns, the ring stays."""
        if drawing == "ring":
            return self
        return self._shifted(drawing, -right / self.scale, down / self.scale)

    def turned_by(self, windows: float, panels: Panels) -> "Sight":
        """The strip turned on by so many of its window's lengths."""
        return replace(self, turn=self.turn + windows * self.strip_length(panels) / self.liner_radius)

    def turned_to(self, angle: float) -> "Sight":
        """That angle (radians) in the middle of the strip."""
        return replace(self, turn=angle)

    def mirrored(self) -> "Sight":
        """The same part of a tire whose drawing is mirrored."""
        low, bottom, high, top = self.section_frame
        return replace(self, across=-self.across + 0.0, section_frame=(-high, bottom, -low, top))

    def _middle(self, drawing: DrawingName) -> tuple[float, float]:
        if drawing == "section":
            return self.across, self.radius
        if drawing == "strip":
            above, below = self.strip_rooms
            return self.across, (above - below) / 2 / self.scale
        return _middle_of(self.ring_frame)

    def _shifted(self, drawing: DrawingName, right: float, up: float) -> "Sight":
        """Looking so many mm further right and up; the section never leaves the window altogether."""
        low, _, high, _ = self.section_frame
        moved = replace(self, across=min(max(self.across + right, low), high))
        if drawing == "strip":
            return replace(moved, turn=self.turn - up / self.liner_radius)
        return replace(moved, radius=self._within_frame(self.radius + up))

    def _within_frame(self, radius: float) -> float:
        return min(max(radius, self.section_frame[1]), self.section_frame[3])


def fitted(section_frame: Frame, ring_frame: Frame, liner_radius: float, turn: float, panels: Panels) -> Sight:
    """The sight that shows the whole section as large as its panel allows."""
    across, radius = _middle_of(section_frame)
    scale = _fitting_scale(section_frame, panels.section)
    return Sight(scale, across, radius, turn, liner_radius, section_frame, ring_frame)


def _fitting_scale(frame: Frame, panel: Panel) -> float:
    return min(panel.width / (frame[2] - frame[0]), panel.height / (frame[3] - frame[1]))


def _middle_of(frame: Frame) -> tuple[float, float]:
    return (frame[0] + frame[2]) / 2, (frame[1] + frame[3]) / 2
