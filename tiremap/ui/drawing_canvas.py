"""The canvas of the three drawings of a job: section, strip and ring, and the leader between the first two."""

from collections.abc import Callable

from matplotlib.transforms import IdentityTransform

from tiremap.drawing.scene import Scene
from tiremap.gestures.panels import Panels
from tiremap.gestures.pointer import DrawingName
from tiremap.gestures.sight import Sight
from tiremap.render.palettes import look
from tiremap.render.quick_artists import QuickLine
from tiremap.ui.drawing_note import DrawingNote
from tiremap.ui.drawing_words import WHAT_IT_IS
from tiremap.ui.language import told
from tiremap.ui.layered_canvas import LayeredCanvas

Scenes = dict[DrawingName, Scene]
Screen = tuple[float, float]
DRAWINGS: tuple[DrawingName, ...] = ("section", "strip", "ring")


class DrawingCanvas(LayeredCanvas):
    """Three axes in the panels of a window, as `LayeredCanvas` lays them."""

    def __init__(self, lay_anew: Callable[[], None], palette_name: str = "light") -> None:
        super().__init__(DRAWINGS, lay_anew, palette_name)
        self.setAccessibleName(told(WHAT_IT_IS))
        self.note = DrawingNote(self)

    def set_palette_name(self, name: str) -> None:
        """Take the colors of that palette from the next `lay` on."""
        super().set_palette_name(name)
        follow = look("follow", name)
        self._leader = QuickLine(
            [], [], transform=IdentityTransform(), color=follow.stroke, linewidth=follow.weight,
            linestyle=follow.line_style,
        )

    def lay(self, scenes: Scenes, sight: Sight, panels: Panels, upper: frozenset[str]) -> None:
        """Lay whole scenes; marks with a key in ``upper`` lie on the layer that `lay_upper` lays anew."""
        self.lay_scenes(
            scenes, {name: panels.of(name) for name in DRAWINGS},
            {name: sight.limits(name, panels) for name in DRAWINGS}, upper,
        )

    def set_leader(self, leader: tuple[Screen, Screen] | None) -> None:
        """The thin line from the chosen mark in the section to its place on the strip, from the next draw on."""
        ratio, height = self.device_pixel_ratio, self.height()
        points = [(x * ratio, (height - y) * ratio) for x, y in leader or ()]
        self._leader.set_data([x for x, _ in points], [y for _, y in points])

    def _draw_over(self) -> None:
        if len(self._leader.get_xdata()):
            self._leader.draw(self.get_renderer())
