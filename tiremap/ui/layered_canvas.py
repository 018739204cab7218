"""A matplotlib canvas of several drawings: scenes laid on axes of their own, and what moves laid over them by blit.

A full draw takes tens of milliseconds, a blit one or two. So what can be dragged always lies on a layer of its own: a
drag or a pointer passing over a mark redraws that layer alone, and no mouse handler draws the whole.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.backends.backend_qtagg import FigureCanvasQTAgg
from matplotlib.figure import Figure
from PySide6.QtCore import QPoint, Qt, QTimer, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QAccessibleEvent,
    QGuiApplication,
    QImage,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)

from tiremap.drawing.scene import Scene, Symbol, keys_of
from tiremap.gestures.panels import Panel
from tiremap.render.painter import Painter
from tiremap.render.palettes import palette

MM_PER_INCH_OF_SCREEN = 25.4
Limits = tuple[float, float, float, float]
"""x low, y low, x high, y high of what a drawing shows, in its own frame."""


def _raise_again(error: Exception) -> None:
    """matplotlib prints and forgets errors of its callbacks while a Qt application runs; ours must be seen."""
    raise error


class LayeredCanvas(FigureCanvasQTAgg):
    """Axes by name in the panels of a window. Lays what it is given; decides nothing.

    ``lay_anew`` is called before a draw that was asked for by `draw_idle`, to lay the scenes as they are by then:
    a dozen changes between two draws cost one.

    Signals: ``resized()`` after the window changed its size or pixel ratio.
    """

    resized = Signal()

    def __init__(self, names: Sequence[str], lay_anew: Callable[[], None], palette_name: str = "light") -> None:
        screen = QGuiApplication.primaryScreen()
        super().__init__(Figure(dpi=96.0 if screen is None else screen.logicalDotsPerInch()))
        self.callbacks.exception_handler = _raise_again
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._axes: dict[str, Axes] = {name: self._new_axes(name) for name in names}
        self._painters: dict[str, Painter] = {}
        self._upper: dict[str, list[Artist]] = {}
        self._lay_anew = lay_anew
        self._background = None
        self._stale = True
        self._idle = QTimer(self, singleShot=True, interval=0)
        self._idle.timeout.connect(self._draw_if_stale)
        self.set_palette_name(palette_name)

    @property
    def px_per_paper_mm(self) -> float:
        """Logical pixels in a millimeter of the screen."""
        return self.figure.dpi / self.device_pixel_ratio / MM_PER_INCH_OF_SCREEN

    @property
    def is_stale(self) -> bool:
        """Whether a whole draw is ahead, which will show everything there is."""
        return self._stale

    def axes_of(self, drawing: str) -> Axes:
        """The axes of a drawing."""
        return self._axes[drawing]

    def set_palette_name(self, name: str) -> None:
        """Take the colors of that palette from the next laying on."""
        for painter in self._painters.values():
            painter.clear()
        self._painters = {drawing: Painter(axes, name) for drawing, axes in self._axes.items()}
        self._upper = {}
        self.figure.set_facecolor(palette(name)["paper"])

    def say(self, words: str) -> None:
        """Tell those who hear the screen what is chosen; said aloud only to who works at the drawing."""
        if words != self.accessibleDescription():
            self.setAccessibleDescription(words)
            QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.DescriptionChanged))
            if self.hasFocus():
                QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, words))

    def _new_axes(self, name: str) -> Axes:
        axes = self.figure.add_axes((0, 0, 1, 1), label=name)
        axes.set_axis_off()
        return axes

    # --- laying ---------------------------------------------------------------------------------------------------

    def lay_scenes(
        self, scenes: Mapping[str, Scene], panels: Mapping[str, Panel], limits: Mapping[str, Limits],
        upper: frozenset[str],
    ) -> None:
        """Lay whole scenes; marks with a key in ``upper`` lie on the layer that `lay_upper` lays anew.

        A drawing with no scene given is empty.
        """
        width, height = max(1, self.width()), max(1, self.height())
        for drawing, axes in self._axes.items():
            axes.set_visible(drawing in scenes)
            if drawing not in scenes:
                self._painters[drawing].clear()
                self._upper[drawing] = []
                continue
            panel, (low, bottom, high, top) = panels[drawing], limits[drawing]
            axes.set_position((
                panel.left / width, 1 - (panel.top + panel.height) / height, panel.width / width, panel.height / height
            ))
            axes.set(xlim=(low, high), ylim=(bottom, top))
            self._upper[drawing] = self._painters[drawing].lay(scenes[drawing], upper)

    def lay_upper(self, scenes: Mapping[str, Scene], upper: frozenset[str], symbols: frozenset[str]) -> None:
        """Lay the upper layer anew and show it at once, over everything else as it stands.

        Of marks with a key in ``symbols`` only the symbol is laid: the rest of it stands below. A drawing with no
        scene given stays as it is; with a whole draw ahead nothing is done.
        """
        if self._stale or self._background is None:
            return
        for drawing, scene in scenes.items():
            marks = tuple(
                mark for mark in scene.marks
                if upper.intersection(keys_of(mark)) or (isinstance(mark, Symbol) and mark.key in symbols)
            )
            laid = self._painters[drawing].lay_moving(replace(scene, marks=marks), upper | symbols)
            self._upper[drawing] = laid
        self.restore_region(self._background)
        self._draw_upper()
        self.blit(self.figure.bbox)

    # --- drawing --------------------------------------------------------------------------------------------------

    def draw_idle(self) -> None:
        """Draw the whole once, when the hand rests: errors are raised, where matplotlib's own would print them."""
        self._stale = True
        self._idle.start()

    def draw(self) -> None:
        """Draw everything, and keep what lies under the upper layer."""
        if self._stale:
            self._stale = False
            self._lay_anew()
        super().draw()
        self._background = self.copy_from_bbox(self.figure.bbox)
        self._draw_upper()

    def _draw_if_stale(self) -> None:
        if self._stale and self.isVisible() and self.width() > 1 and self.height() > 1:
            self.draw()

    def _draw_upper(self) -> None:
        renderer = self.get_renderer()
        for artists in self._upper.values():
            for artist in sorted(artists, key=Artist.get_zorder):
                artist.draw(renderer)
        self._draw_over()

    def _draw_over(self) -> None:
        """Draw what lies over all drawings; here nothing does."""

    def paintEvent(self, event: QPaintEvent) -> None:
        """Show what was drawn last; draw first if it has grown stale."""
        self._draw_if_stale()
        if self._background is None:
            return
        painter = QPainter(self)
        self._show_ink(painter)
        if self.hasFocus():
            self._frame_focus(painter)
        painter.end()

    def _show_ink(self, painter: QPainter) -> None:
        """Show what Agg laid from Agg's own memory; matplotlib copies it first, and then blends it in."""
        ink = self.renderer.buffer_rgba()
        height, width, _ = ink.shape
        image = QImage(ink, width, height, QImage.Format.Format_RGBX8888)
        image.setDevicePixelRatio(self.device_pixel_ratio)
        painter.drawImage(QPoint(0, 0), image)

    def _frame_focus(self, painter: QPainter) -> None:
        # The window's palette: matplotlib gives the canvas a white one of its own.
        painter.setPen(QPen(self.window().palette().highlight().color(), 2))
        painter.drawRect(self.rect().adjusted(1, 1, -1, -1))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Take the new size, and let the scenes be laid for it."""
        super().resizeEvent(event)
        self.resized.emit()

