"""The drawings before a class: the section, and beside it what the lesson asks for; one hole is dragged on them.

Importing this loads matplotlib's Qt canvas: show the window first, then import.
"""

from time import monotonic

from PySide6.QtCore import QSize, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent

from tiremap.drawing import places
from tiremap.drawing.mark_looks import key_of
from tiremap.drawing.scene import View
from tiremap.drawing.teach_scenes import Placed, Room, Shown, at_fit, placed_scenes, rooms
from tiremap.gestures.panels import Panel
from tiremap.ui.language import tr
from tiremap.ui.layered_canvas import LayeredCanvas
from tiremap.ui.presentation import Presentation

NAMES = ("section", "loaded", "bending", "guidance", "strip")
FRAME_S = 1 / 60
"""A drag asks for a new assessment at most once in this time, seconds."""
_REACH_PX = 24.0
"""How near to a hole a press means that one."""
_LEAST = QSize(320, 200)
_QWIDGETSIZE_MAX = 16_777_215
"""What Qt calls a height without bound."""
_STEPS = {Qt.Key.Key_Left: -1.0, Qt.Key.Key_Right: 1.0}
_COARSE = 10.0


class TeachCanvas(LayeredCanvas):
    """Shows a presentation. A press takes the nearest hole and drags it across, on the strip around as well; the
    arrow keys move the chosen one by 1 mm, with Shift by 10.

    Signals: ``dragged()`` for each frame of a drag; ``moved()`` when a hole came to rest elsewhere or was chosen.
    """

    dragged = Signal()
    moved = Signal()

    def __init__(self, presentation: Presentation, palette_name: str = "projector") -> None:
        super().__init__(NAMES, self._lay_anew, palette_name)
        self.setAccessibleName(tr("Drawings for the class"))
        self.setMinimumSize(_LEAST)
        self.presentation = presentation
        self.placed: dict[str, Placed] = {}
        self._holding: str | None = None
        self._wanted: tuple[float, float | None] | None = None
        self._last_frame = 0.0
        self._frame = QTimer(self, singleShot=True)
        self._frame.timeout.connect(self._show_frame)
        self.resized.connect(self.draw_idle)

    @property
    def rooms(self) -> dict[str, Room]:
        """Where the drawings stand, px."""
        return rooms(self.width(), self.height(), self.presentation.beside)

    def _lay_anew(self) -> None:
        there, shown = self.rooms, self.presentation.shown()
        self.placed = placed_scenes(shown, there, self.px_per_paper_mm)
        self.lay_scenes(
            {name: each.scene for name, each in self.placed.items()},
            {name: Panel(*there[name]) for name in self.placed},
            {name: each.limits for name, each in self.placed.items()},
            self._upper_keys(shown),
        )

    def _upper_keys(self, shown: Shown) -> frozenset[str]:
        mark = None if shown.chosen is None else shown.assessment.mark(shown.chosen)
        return frozenset() if mark is None else frozenset({key_of(mark)})

    # --- the hand -------------------------------------------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take the nearest hole; anywhere else on section or strip the chosen one comes to the pointer."""
        if event.button() != Qt.MouseButton.LeftButton:
            return
        self.setFocus()
        drawing = self._drawing_at(event)
        if drawing not in ("section", "strip") or self.presentation.chosen is None:
            return
        near = self._hole_near(drawing, event)
        if near is not None and near != self.presentation.chosen:
            self.presentation.choose(near)
            self.draw_idle()
            self.moved.emit()
        self._holding = drawing
        self.setFixedHeight(self.height())  # words below come and go; nothing moves under the hand
        self.setCursor(Qt.CursorShape.ClosedHandCursor)
        if near is None:
            self._drag(drawing, event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag what is held."""
        if self._holding is not None:
            self._drag(self._holding, event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go: everything is answered and laid anew."""
        if self._holding is None or event.button() != Qt.MouseButton.LeftButton:
            return
        self._holding = None
        self.setMinimumHeight(_LEAST.height())
        self.setMaximumHeight(_QWIDGETSIZE_MAX)
        self.unsetCursor()
        self._frame.stop()
        if self._wanted is not None:
            self.presentation.move(*self._wanted)
            self._wanted = None
        self.draw_idle()
        self.moved.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """The arrows move the chosen hole; every other key is the desk's."""
        step, across = _STEPS.get(Qt.Key(event.key())), self.presentation.across
        if step is None or across is None or event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            event.ignore()
            return
        by = step * (_COARSE if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1.0)
        self.presentation.move(across + by)
        self.draw_idle()
        self.moved.emit()

    def _drawing_at(self, event: QMouseEvent) -> str | None:
        x, y = event.position().x(), event.position().y()
        return next((name for name, room in self.rooms.items() if Panel(*room).holds((x, y))), None)

    def _point_at(self, drawing: str, event: QMouseEvent) -> tuple[float, float]:
        room, placed = self.rooms[drawing], self.placed[drawing]
        x_low, _, _, y_high = placed.limits
        return (x_low + (event.position().x() - room.left) * placed.scale,
                y_high - (event.position().y() - room.top) * placed.scale)

    def _view(self, drawing: str) -> View:
        shown = self.presentation.shown(dragging=True)
        return View(
            chosen=shown.chosen, strip_middle=shown.strip_middle, paper_scale=self.placed[drawing].scale,
            type_size="room",
        )

    def _hole_near(self, drawing: str, event: QMouseEvent) -> str | None:
        shown, within = self.presentation.shown(dragging=True), _REACH_PX * self.placed[drawing].scale
        view, point = self._view(drawing), self._point_at(drawing, event)
        near = places.marks_at(shown.assessment, view, drawing, *point, within)
        return near[0] if near else None

    def _drag(self, drawing: str, event: QMouseEvent) -> None:
        shown, point = self.presentation.shown(dragging=True), self._point_at(drawing, event)
        if drawing == "section":
            across, around = places.section_place(shown.assessment, self._view(drawing), *point), None
        else:
            across, around = places.strip_place(shown.assessment, self._view(drawing), *point)
        if across is None:
            return
        self._wanted = across, around
        if not self._frame.isActive():
            self._frame.start(max(0, round((self._last_frame + FRAME_S - monotonic()) * 1000)))

    def _show_frame(self) -> None:
        """One frame of a drag: the hole where the hand is, and everything that follows from it."""
        if self._wanted is None or self.is_stale:
            return
        self._last_frame = monotonic()
        wanted, self._wanted = self._wanted, None
        self.presentation.move(*wanted, dragging=True)
        shown, there = self.presentation.shown(dragging=True), self.rooms
        scenes = {
            name: at_fit(name, shown, there[name], self.px_per_paper_mm, placed.fit).scene
            for name, placed in self.placed.items()
        }
        self.lay_upper(scenes, self._upper_keys(shown), frozenset())
        self.dragged.emit()
