"""Qt's mouse, wheel and keyboard at the drawings, turned into gestures and passed on as wishes.

Events are taken by a filter before the Qt canvas of matplotlib sees them: it would swallow exceptions of handlers.
"""

from collections.abc import Callable
from math import hypot

from PySide6.QtCore import QEvent, QObject, QPointF, Qt
from PySide6.QtGui import (
    QInputDevice,
    QKeyEvent,
    QMouseEvent,
    QNativeGestureEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QWidget

from tiremap.gestures.keys import key_pressed, mark_after, next_mark
from tiremap.gestures.on_the_tread import Gesture, hold_mark, press_free_tread
from tiremap.gestures.pointer import CLICK_SLACK_PX, DrawingName, Happening, Pointer
from tiremap.gestures.sight import Screen
from tiremap.gestures.snapping import snap_step
from tiremap.gestures.turning import press_ring, shift_picture
from tiremap.gestures.wheel import two_fingers_moved, wheel_turned
from tiremap.gestures.wishes import Choose, Edit, Hover, Wish, Zoom
from tiremap.ui.drawing_picture import Picture
from tiremap.ui.drawing_reach import Reach

_KEYS = {
    Qt.Key.Key_Left: "left",
    Qt.Key.Key_Right: "right",
    Qt.Key.Key_Up: "up",
    Qt.Key.Key_Down: "down",
    Qt.Key.Key_Delete: "delete",
    Qt.Key.Key_Backspace: "delete",
    Qt.Key.Key_Return: "enter",
    Qt.Key.Key_Enter: "enter",
    Qt.Key.Key_Escape: "escape",
    Qt.Key.Key_Home: "home",
    Qt.Key.Key_0: "0",
    Qt.Key.Key_Plus: "+",
    Qt.Key.Key_Equal: "+",
    Qt.Key.Key_Minus: "-",
    Qt.Key.Key_PageUp: "page up",
    Qt.Key.Key_PageDown: "page down",
}
_WALKS = {Qt.Key.Key_N: False, Qt.Key.Key_P: True}
"""Keys that go through all marks in turn, and whether backward."""
_NUDGES = ("left", "right", "up", "down")


class DrawingHands(QObject):
    """Watches a canvas and calls ``grant(wish, drawing)`` for each wish; ``drawing`` is where the hand is."""

    def __init__(
        self, canvas: QWidget, picture: Picture, grant: Callable[[Wish, DrawingName | None], None]
    ) -> None:
        super().__init__(canvas)
        self._canvas = canvas
        self._picture = picture
        self._reach = Reach(picture)
        self._grant = grant
        self._gesture: Gesture | None = None
        self._drawing: DrawingName | None = None
        self._button = Qt.MouseButton.NoButton
        self._space_held = False
        self._last_screen = (0.0, 0.0)
        self._clicked: tuple[DrawingName, Screen] | None = None
        """Where a mark was last clicked: a click there again chooses the next of those within reach."""
        self._held = ""
        self._answers: dict[QEvent.Type, Callable] = {
            QEvent.Type.MouseButtonPress: self._pressed,
            QEvent.Type.MouseButtonDblClick: self._double_clicked,
            QEvent.Type.MouseMove: self._moved,
            QEvent.Type.MouseButtonRelease: self._released,
            QEvent.Type.Wheel: self._wheel,
            QEvent.Type.NativeGesture: self._pinched,
            QEvent.Type.ShortcutOverride: self._claims_key,
            QEvent.Type.KeyPress: self._key_pressed,
            QEvent.Type.KeyRelease: self._key_released,
            QEvent.Type.Enter: self._entered,
            QEvent.Type.Leave: self._left,
            QEvent.Type.FocusOut: self._focus_lost,
        }
        canvas.installEventFilter(self)

    @property
    def busy(self) -> bool:
        """Whether a gesture is under way."""
        return self._gesture is not None

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Take the event; ``True`` where it is dealt with."""
        answer = self._answers.get(event.type())
        return bool(answer(event)) if answer is not None else False

    # --- mouse ----------------------------------------------------------------------------------------------------

    def _pressed(self, event: QMouseEvent) -> bool:
        if self._gesture is None:
            screen = _screen(event.position())
            drawing = self._picture.panels.under(screen)
            if drawing is not None:
                self._begin(event, drawing, screen)
        return True

    def _begin(self, event: QMouseEvent, drawing: DrawingName, screen: tuple[float, float]) -> None:
        self._drawing, self._button = drawing, event.button()
        press = self._pointer("press", screen, event.modifiers())
        gesture = self._gesture_of(press, event)
        if gesture is None:
            return
        self._gesture = gesture
        self._tell(next(gesture))
        self._show_cursor(screen)

    def _gesture_of(self, press: Pointer, event: QMouseEvent) -> Gesture | None:
        picture, reach, drawing = self._picture, self._reach, self._drawing
        left = event.button() == Qt.MouseButton.LeftButton
        if drawing != "ring" and (event.button() == Qt.MouseButton.MiddleButton or (left and self._space_held)):
            return shift_picture(press)
        if not left or not picture.has_tire:
            return None
        if drawing == "ring":
            over = self._next_on_ring(press.screen)
            return press_ring(press, reach.angle_at, picture.sight.turn, over and (over, reach.around_of(over)))
        over, step = self._over(drawing, press.screen), snap_step(picture.sight.scale)
        if over and not event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            return self._hold(press, over, step)
        # With Ctrl held a second hole can be placed on the head of the first.
        return press_free_tread(press, reach.free_place_at(drawing), picture.tread_radius, step)

    # --- marks under the hand -------------------------------------------------------------------------------------

    def _reached(self, drawing: DrawingName, screen: Screen) -> tuple[str, ...]:
        return self._reach.marks_at(drawing, self._picture.point_at(drawing, screen))

    def _over(self, drawing: DrawingName, screen: Screen) -> str:
        """The mark a press there takes hold of: the nearest, or the chosen one where it was last clicked."""
        reached = self._reached(drawing, screen)
        if self._clicked_at(drawing, screen) and self._picture.chosen in reached:
            return self._picture.chosen
        return reached[0] if reached else ""

    def _hold(self, press: Pointer, over: str, step: float) -> Gesture:
        """Take hold of a mark. It is shown as chosen at the press, so that a drag moves what one sees to be held;
        only letting go at once, where it was clicked before, goes on to the next.
        """
        drawing, reached = self._drawing, self._reached(self._drawing, press.screen)
        following = mark_after(reached, over)
        again = self._clicked_at(drawing, press.screen) and over == self._picture.chosen and following != over
        self._clicked, self._held = (drawing, press.screen), over
        clicked = Choose(following, len(reached)) if again else Choose(over, len(reached))
        return hold_mark(press, self._reach.held(over), self._reach.place_at(drawing), step, clicked)

    def _next_on_ring(self, screen: Screen) -> str:
        """The mark a press on the ring chooses: nothing is dragged there, so it goes on to the next at once."""
        over = self._over("ring", screen)
        if over and self._clicked_at("ring", screen) and over == self._picture.chosen:
            over = mark_after(self._reached("ring", screen), over) or over
        self._clicked = ("ring", screen) if over else None
        self._held = over
        return over

    def _clicked_at(self, drawing: DrawingName, screen: Screen) -> bool:
        if self._clicked is None or self._clicked[0] != drawing:
            return False
        (x, y) = self._clicked[1]
        return hypot(screen[0] - x, screen[1] - y) <= CLICK_SLACK_PX

    def _double_clicked(self, event: QMouseEvent) -> bool:
        screen = _screen(event.position())
        drawing = self._picture.panels.under(screen)
        over = ""
        if drawing is not None and event.button() == Qt.MouseButton.LeftButton and not self._space_held:
            over = self._over(drawing, screen)
            if self._clicked_at(drawing, screen) and self._held in self._reached(drawing, screen):
                over = self._held  # the first of the two clicks may have gone on to the next
        if not over:
            return self._pressed(event)
        self._grant(Choose(over), drawing)
        self._grant(Edit(over), drawing)
        return True

    def _moved(self, event: QMouseEvent) -> bool:
        screen = self._last_screen = _screen(event.position())
        if self._gesture is not None:
            self._send(self._pointer("move", screen, event.modifiers()))
        else:
            self._hover(screen)
        return True

    def _released(self, event: QMouseEvent) -> bool:
        if self._gesture is not None and event.button() == self._button:
            screen = _screen(event.position())
            self._send(self._pointer("release", screen, event.modifiers()))
            self._hover(screen)
        return True

    def _hover(self, screen: tuple[float, float]) -> None:
        drawing = self._picture.panels.under(screen)
        self._grant(Hover(self._over(drawing, screen) if drawing is not None else ""), drawing)
        self._show_cursor(screen)

    def _entered(self, event: QEvent) -> bool:
        return True

    def _left(self, event: QEvent) -> bool:
        if self._gesture is None:
            self._grant(Hover(""), None)
        return True

    def _focus_lost(self, event: QEvent) -> bool:
        self._space_held = False
        self._give_up()
        return False

    # --- wheel and touchpad ---------------------------------------------------------------------------------------

    def _wheel(self, event: QWheelEvent) -> bool:
        if self._gesture is not None:
            return True
        screen, held = _screen(event.position()), bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
        drawing = self._picture.panels.under(screen)
        fingers, turned = event.pixelDelta(), event.angleDelta()
        by_touchpad = event.device() is not None and event.device().type() == QInputDevice.DeviceType.TouchPad
        if by_touchpad and not fingers.isNull() and not held:
            window_px = self._picture.panels.strip.height
            wish = two_fingers_moved(fingers.x(), fingers.y(), drawing, window_px)
        else:
            # With Alt or Shift held some platforms report the wheel as turned sideways.
            wish = wheel_turned(turned.y() or turned.x(), drawing, screen, turning=held)
        if wish is not None:
            self._grant(wish, drawing)
            self._hover(screen)
        event.accept()
        return True

    def _pinched(self, event: QNativeGestureEvent) -> bool:
        if event.gestureType() != Qt.NativeGestureType.ZoomNativeGesture or self._gesture is not None:
            return False
        screen = _screen(event.position())
        self._grant(Zoom(max(0.1, 1 + event.value()), screen), self._picture.panels.under(screen))
        return True

    # --- keys -----------------------------------------------------------------------------------------------------

    def _claims_key(self, event: QKeyEvent) -> bool:
        """Keep a menu's shortcut from taking a key that speaks of the chosen mark, or from breaking into a drag."""
        if self._gesture is not None or self._wish_of(event) is not None:
            event.accept()
            return True
        return False

    def _key_pressed(self, event: QKeyEvent) -> bool:
        key = event.key()
        if key in (Qt.Key.Key_Tab, Qt.Key.Key_Backtab):
            return self._tabbed(back=key == Qt.Key.Key_Backtab)
        if key == Qt.Key.Key_Space:
            self._space_held = True
            self._show_cursor(self._last_screen)
            return True
        if key == Qt.Key.Key_Escape and self._gesture is not None:
            self._give_up()
            return True
        if self._gesture is not None:
            return True
        wish = self._wish_of(event)
        if wish is None:
            return False
        self._grant(wish, None)
        return True

    def _key_released(self, event: QKeyEvent) -> bool:
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._space_held = False
            self._show_cursor(self._last_screen)
        return False

    def _tabbed(self, back: bool) -> bool:
        following = next_mark(self._picture.ids, self._picture.chosen, back)
        if following is None:
            return False
        self._grant(Choose(following), None)
        return True

    def _wish_of(self, event: QKeyEvent) -> Wish | None:
        key, held = _KEYS.get(Qt.Key(event.key())), event.modifiers()
        if event.key() in _WALKS and not held & ~Qt.KeyboardModifier.ShiftModifier:
            following = mark_after(self._picture.ids, self._picture.chosen, _WALKS[Qt.Key(event.key())])
            return None if following is None else Choose(following)
        ctrl = bool(held & Qt.KeyboardModifier.ControlModifier)
        if key is None or held & (Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.MetaModifier):
            return None
        if ctrl and key not in (*_NUDGES, "+", "-", "0"):
            return None
        return key_pressed(
            key, self._picture.chosen, shift=bool(held & Qt.KeyboardModifier.ShiftModifier), ctrl=ctrl,
            outboard_right=self._picture.from_inside,
        )

    # --- the gesture under way ------------------------------------------------------------------------------------

    def _send(self, pointer: Pointer) -> None:
        gesture = self._gesture
        try:
            wish = gesture.send(pointer)
        except StopIteration as end:
            self._gesture, wish = None, end.value
            if pointer.happening == "move":
                # A click that slipped away: what is left of it is no gesture.
                self._button = Qt.MouseButton.NoButton
        self._tell(wish)

    def _give_up(self) -> None:
        if self._gesture is not None:
            self._send(self._pointer("cancel", self._last_screen, Qt.KeyboardModifier.NoModifier))

    def _tell(self, wish: Wish | None) -> None:
        if wish is not None:
            self._grant(wish, self._drawing)

    def _pointer(self, happening: Happening, screen: tuple[float, float], held: Qt.KeyboardModifier) -> Pointer:
        x, y = self._picture.point_at(self._drawing, screen)
        return Pointer(happening, x, y, screen, straight=bool(held & Qt.KeyboardModifier.ShiftModifier))

    def _show_cursor(self, screen: tuple[float, float]) -> None:
        if self._gesture is not None:
            shape = Qt.CursorShape.ClosedHandCursor
        elif self._space_held or self._picture.hovered or self._picture.panels.under(screen) == "ring":
            shape = Qt.CursorShape.OpenHandCursor
        elif self._picture.panels.under(screen) in ("section", "strip") and self._picture.has_tire:
            shape = Qt.CursorShape.CrossCursor
        else:
            shape = Qt.CursorShape.ArrowCursor
        if self._canvas.cursor().shape() != shape:
            self._canvas.setCursor(shape)


def _screen(position: QPointF) -> tuple[float, float]:
    return position.x(), position.y()
