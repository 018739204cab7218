"""What a hand reaches on the drawings: which mark lies there, and which place on the tire a point is.

Geometry only: points are mm in a drawing's own frame.
"""

import shapely

from tiremap.drawing import places
from tiremap.drawing.sight import section_of, strip_half_width
from tiremap.gestures.on_the_tread import HeldMark, Place, PlaceAt
from tiremap.gestures.pointer import DrawingName
from tiremap.ui.drawing_picture import Picture

Point = tuple[float, float]

_REACH_PX = 9.0
"""How near to a mark the pointer is on it: the radius of its symbol."""
_BESIDE_TREAD_PX = 14.0
"""How far from the rubber a click on the section still means it: the tread is a thin line to hit."""


class Reach:
    """Asks a picture, as it is seen at the moment, what lies where on it."""

    def __init__(self, picture: Picture) -> None:
        self._picture = picture

    def marks_at(self, drawing: DrawingName, point: Point) -> tuple[str, ...]:
        """Ids of the marks there, the nearest first."""
        picture = self._picture
        if not picture.has_tire:
            return ()
        within = _REACH_PX / picture.sight.scale_of(drawing, picture.panels)
        return places.marks_at(picture.shown, picture.view(), drawing, *point, within)

    def held(self, id: str) -> HeldMark:
        """A mark as a hand takes it: by where an injury enters, by the center of an earlier repair's head."""
        mark = self._picture.assessment.mark(id)
        across = mark.outside if mark.facts.is_injury else mark.inside
        return HeldMark(id, across, mark.around, self._picture.tread_radius)

    def place_at(self, drawing: DrawingName) -> PlaceAt:
        """Turns points of section or strip, as it is seen now, into places; any point means the nearest tread."""
        assessment, view = self._picture.assessment, self._picture.view()

        def on_section(point: Point) -> Place | None:
            across = places.section_place(assessment, view, *point)
            return None if across is None else (across, None)

        def on_strip(point: Point) -> Place | None:
            return places.strip_place(assessment, view, *point)

        return on_section if drawing == "section" else on_strip

    def free_place_at(self, drawing: DrawingName) -> PlaceAt:
        """As `place_at`, but only on the rubber of the section and within the strip's window."""
        place_at = self.place_at(drawing)
        lies_on = self._lies_on_section if drawing == "section" else self._lies_on_strip
        return lambda point: place_at(point) if lies_on(point) else None

    def angle_at(self, point: Point) -> float:
        """The angle around the tire of a point of the ring, radians."""
        return places.ring_angle(self._picture.view(), *point)

    def around_of(self, id: str) -> float | None:
        """Where a mark lies around the tire on the liner, radians; ``None`` while unknown."""
        mark = self._picture.shown.mark(id)
        return None if mark is None or mark.inside_place is None else mark.inside_place.a

    def _lies_on_section(self, point: Point) -> bool:
        section = section_of(self._picture.assessment)
        if section is None:
            return False
        return section.body.distance(shapely.Point(point)) * self._picture.sight.scale <= _BESIDE_TREAD_PX

    def _lies_on_strip(self, point: Point) -> bool:
        picture = self._picture
        half_length = picture.sight.strip_length(picture.panels) / 2
        return abs(point[0]) <= strip_half_width(picture.assessment) and abs(point[1]) <= half_length
