"""What the window shows of the drawing is what was laid, to the last pixel."""

import numpy as np
from PySide6.QtCore import QRect
from PySide6.QtGui import QImage

from tests.gui.drawing_desk import Desk


def seen(canvas, part: QRect) -> np.ndarray:
    """What a part of the window shows, ``(rows, columns, 4)``; grabbed by that part alone."""
    image = canvas.grab(part).toImage().convertToFormat(QImage.Format.Format_RGBA8888)
    return np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.width(), 4).copy()


def test_the_window_shows_what_was_laid_in_whole_and_in_part(qtbot):
    desk = Desk(qtbot, size=(640, 520))
    canvas, ratio = desk.canvas, desk.canvas.device_pixel_ratio
    canvas.note.hide()
    canvas.clearFocus()  # the frame of who has the keyboard lies over it
    pictures = []
    for across in (30, 12, -8):
        desk.picture.chosen = "1"
        desk.picture.tried = desk._preview("1", across, None)
        desk.panel._show_upper(desk.picture.dragged_scenes())
        laid = np.asarray(canvas.buffer_rgba())
        assert np.array_equal(seen(canvas, canvas.rect()), laid)
        x, y, wide, tall = 40, 60, 200, 120
        part = laid[round(y * ratio):round((y + tall) * ratio), round(x * ratio):round((x + wide) * ratio)]
        assert np.array_equal(seen(canvas, QRect(x, y, wide, tall)), part)
        pictures.append(laid.copy())
    assert not np.array_equal(pictures[0], pictures[1]) and not np.array_equal(pictures[1], pictures[2])
