"""The drawings of a tire: section over liner strip, wheel ring beside them; marks are placed and moved on them.

Importing this loads matplotlib's Qt canvas (about half a second): show the window first, then import.
"""

from collections.abc import Callable
from math import degrees
from time import monotonic

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from tiremap.assessment import Assessment
from tiremap.drawing.scene import Scene
from tiremap.drawing.wording import Unit
from tiremap.free_places import FreePlaces
from tiremap.gestures.pointer import DrawingName
from tiremap.gestures.snapping import snap_step
from tiremap.gestures.wishes import (
    Choose,
    Edit,
    Fit,
    Hover,
    MoveMark,
    Nudge,
    Pan,
    PlaceInjury,
    PutBack,
    Remove,
    TryPlace,
    TurnBy,
    TurnTo,
    Wish,
    Zoom,
)
from tiremap.ui.drawing_canvas import DrawingCanvas
from tiremap.ui.drawing_hands import DrawingHands
from tiremap.ui.drawing_picture import Picture
from tiremap.ui.drawing_words import dragged_in_words, drawing_in_words, several_in_words

Preview = Callable[[str, float | None, float | None], Assessment]
FRAME_S = 1 / 60
"""A drag asks for a new assessment at most once in this time, seconds."""


class DrawingPanel(QWidget):
    """Shows an assessment and passes on what the user wishes done to it; it changes no job.

    Across is the tread coordinate in mm, + outboard, of the end a mark is placed by: where an injury enters, where
    an earlier repair's head has its center. Around is radians from the datum. ``None`` is a coordinate that was not
    changed and stays as it was measured. Places set by hand fall on steps that a pixel can tell apart, at least tenths
    of a millimeter.

    Signals:
        ``injury_wanted(across_mm, around_rad or None)``: a click on free tread, or with Ctrl anywhere on it.
        ``mark_chosen(id)``: chosen, or let go (empty id).
        ``mark_moved(id, across_mm or None, around_rad or None)``: a finished drag, one step.
        ``mark_nudged(id, across_mm, around_deg)``: shifted by so much with the keyboard; up and down go as many
        millimeters along the tread as left and right go across.
        ``mark_removed(id)``, ``mark_edit_wanted(id)``.
    """

    injury_wanted = Signal(float, object)
    mark_chosen = Signal(str)
    mark_moved = Signal(str, object, object)
    mark_nudged = Signal(str, float, float)
    mark_removed = Signal(str)
    mark_edit_wanted = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.canvas = DrawingCanvas(self._lay_anew)
        self.picture = Picture(self.canvas.px_per_paper_mm)
        self._preview: Preview | None = None
        self._wanted: TryPlace | None = None
        self._last_frame = 0.0
        self._frame = QTimer(self, singleShot=True)
        self._frame.timeout.connect(self._show_frame)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.canvas)
        self.hands = DrawingHands(self.canvas, self.picture, self._grant)
        self.canvas.resized.connect(self._resized)
        self._grants: dict[type, Callable[[Wish, DrawingName | None], None]] = {
            Choose: self._choose,
            Hover: self._hover,
            PlaceInjury: self._place_injury,
            TryPlace: self._try_place,
            MoveMark: self._move,
            PutBack: self._put_back,
            Nudge: self._nudge,
            Remove: self._remove,
            Edit: self._edit,
            Pan: self._pan,
            Zoom: self._zoom,
            TurnTo: self._turn_to,
            TurnBy: self._turn_by,
            Fit: self._fit,
        }

    # --- what the window says -------------------------------------------------------------------------------------

    def show_assessment(
        self, assessment: Assessment, chosen: str | None, shown_reason: tuple[str, tuple[str, ...]] | None
    ) -> None:
        """Show this assessment, with that mark chosen and that reason (code, subject ids) shown.

        Zoom and pan stay, unless it is of another tire.
        """
        self._forget_trial()
        self.picture.show(assessment, chosen or "", shown_reason)
        self._show_all()

    def show_free_places(self, free: FreePlaces | None) -> None:
        """Show where one more unit could go, or no longer; a drag leaves it as it stands until it ends."""
        if free is not self.picture.free:
            self.picture.free = free
            self._show_all()

    def turn_to(self, angle: float) -> None:
        """Turn the strip so that an angle (radians from the datum) lies in the middle of its window."""
        self._look(self.picture.sight.turned_to(angle))

    def set_preview(self, function: Preview | None) -> None:
        """``function(id, across_mm or None, around_rad or None)`` assesses the job with the mark there, in a drag."""
        self._preview = function

    def fit(self) -> None:
        """Show the whole section again."""
        self.picture.fit()
        self._show_all()

    def set_palette_name(self, name: str) -> None:
        """Take the colors of that palette; the projector's comes with larger type."""
        self.picture.set_large_type(name == "projector")
        self.canvas.set_palette_name(name)
        self._show_all()

    def set_unit(self, unit: Unit) -> None:
        """Write lengths in millimeters or inches."""
        self.picture.unit = unit
        self._show_all()

    def set_datum_hour(self, hour: float) -> None:
        """Where the datum stands on the ring, clock hour seen from outboard."""
        self.picture.datum_hour = hour
        self._show_all()

    def set_seen_from_inside(self, from_inside: bool) -> None:
        """Look at the liner from inside, or at the tread: section and strip are mirrored."""
        self.picture.see_from_inside(from_inside)
        self._show_all()

    # --- what the user wishes -------------------------------------------------------------------------------------

    def _grant(self, wish: Wish, drawing: DrawingName | None) -> None:
        self._grants[type(wish)](wish, drawing)

    def _choose(self, wish: Choose, drawing: DrawingName | None) -> None:
        if wish.id != self.picture.chosen:
            self.picture.chosen = wish.id
            if drawing not in ("strip", "ring"):
                # There the hand may be about to drag: nothing may turn under it.
                self.picture.bring_into_view(wish.id)
            self._show_all()
            self.mark_chosen.emit(wish.id)
        mark = self.picture.shown.mark(wish.id)
        self.canvas.note.say(several_in_words(mark, wish.of) if mark is not None and wish.of > 1 else "")

    def _hover(self, wish: Hover, _: DrawingName | None) -> None:
        if not wish.id:
            self.canvas.note.say("")
        if wish.id != self.picture.hovered:
            self.picture.hovered = wish.id
            if self.picture.has_tire and not self.canvas.is_stale:
                self._show_upper(self.picture.hovered_scenes())

    def _place_injury(self, wish: PlaceInjury, _: DrawingName | None) -> None:
        self.injury_wanted.emit(wish.across, wish.around)

    def _nudge(self, wish: Nudge, _: DrawingName | None) -> None:
        self.mark_nudged.emit(wish.id, wish.across, degrees(wish.along / self.picture.tread_radius))

    def _remove(self, wish: Remove, _: DrawingName | None) -> None:
        self.mark_removed.emit(wish.id)

    def _edit(self, wish: Edit, _: DrawingName | None) -> None:
        self.mark_edit_wanted.emit(wish.id)

    def _try_place(self, wish: TryPlace, _: DrawingName | None) -> None:
        self._wanted = wish
        if not self._frame.isActive():
            due = self._last_frame + FRAME_S - monotonic()
            self._frame.start(max(0, round(due * 1000)))

    def _move(self, wish: MoveMark, _: DrawingName | None) -> None:
        self._forget_trial()
        self.canvas.note.say("")
        self.mark_moved.emit(wish.id, wish.across, wish.around)
        # Whoever granted the move has shown its assessment by now; if nobody did, the mark is where it was.
        if self.picture.tried is not None:
            self._drop_trial()

    def _put_back(self, wish: PutBack, _: DrawingName | None) -> None:
        self._forget_trial()
        self.canvas.note.say("")
        self._drop_trial()

    def _pan(self, wish: Pan, drawing: DrawingName | None) -> None:
        self._look(self.picture.sight.panned(drawing or "section", wish.right, wish.down))

    def _zoom(self, wish: Zoom, _: DrawingName | None) -> None:
        about = wish.about or self.picture.chosen_on_screen()
        self._look(self.picture.sight.zoomed(wish.factor, about, self.picture.panels))

    def _turn_to(self, wish: TurnTo, _: DrawingName | None) -> None:
        self.turn_to(wish.angle)

    def _turn_by(self, wish: TurnBy, _: DrawingName | None) -> None:
        self._look(self.picture.sight.turned_by(wish.windows, self.picture.panels))

    def _fit(self, wish: Fit, _: DrawingName | None) -> None:
        self.fit()

    def _look(self, sight) -> None:
        self.picture.look(sight)
        self._show_all()

    # --- showing --------------------------------------------------------------------------------------------------

    def _show_frame(self) -> None:
        """One frame of a drag: the mark where the hand is, and everything that follows from it."""
        wish, self._wanted = self._wanted, None
        if wish is None or self._preview is None:
            return
        self._last_frame = monotonic()
        self.picture.tried = self._preview(wish.id, wish.across, wish.around)
        mark = self.picture.tried.mark(wish.id)
        if mark is not None:
            step = snap_step(self.picture.sight.scale)
            self.canvas.note.say(dragged_in_words(self.picture.tried, mark, step, self.picture.unit))
        if not self.canvas.is_stale:
            self._show_upper(self.picture.dragged_scenes())

    def _forget_trial(self) -> None:
        self._wanted = None
        self._frame.stop()

    def _drop_trial(self) -> None:
        self.picture.tried = None
        self._show_all()

    def _show_upper(self, scenes: dict[DrawingName, Scene]) -> None:
        picture = self.picture
        self.canvas.set_leader(picture.leader())
        self.canvas.lay_upper(scenes, picture.upper_keys, picture.symbol_keys)

    def _show_all(self) -> None:
        """Show everything anew when the hand rests, and say what is chosen."""
        picture = self.picture
        if picture.shown is not None:
            self.canvas.draw_idle()
            self.canvas.say(drawing_in_words(picture.shown, picture.chosen, picture.unit))

    def _lay_anew(self) -> None:
        picture = self.picture
        if picture.shown is not None:
            self.canvas.lay(picture.scenes(), picture.sight, picture.panels, picture.upper_keys)
            self.canvas.set_leader(picture.leader())

    def _resized(self) -> None:
        self.picture.px_per_paper_mm = self.canvas.px_per_paper_mm
        self.picture.resize(self.canvas.width(), self.canvas.height())
        self._show_all()
