"""The floor of a frame: the marks it shows drawn as matplotlib draws them, and shown as matplotlib's canvas does."""

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from unittest.mock import patch

from matplotlib.backends.backend_qtagg import FigureCanvasQTAgg
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.text import Text

from tiremap.render.quick_artists import QuickLine, QuickPatch, QuickText
from tiremap.ui.layered_canvas import LayeredCanvas

_PARENTS = {QuickPatch: PathPatch, QuickLine: Line2D, QuickText: Text}


def bare_blit(canvas: LayeredCanvas) -> None:
    """Restore the background, draw what moves over it and show it."""
    canvas.restore_region(canvas._background)
    canvas._draw_upper()
    canvas.blit(canvas.figure.bbox)


@contextmanager
def as_matplotlib_does(canvas: LayeredCanvas) -> Iterator[None]:
    """Nothing is remembered from one draw to the next, and the canvas copies what it shows."""
    with ExitStack() as patched:
        for quick, parent in _PARENTS.items():
            patched.enter_context(patch.object(quick, "draw", parent.draw))
        patched.enter_context(patch.object(type(canvas), "paintEvent", FigureCanvasQTAgg.paintEvent))
        yield
