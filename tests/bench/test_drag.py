"""How long a frame of a drag takes, against what the screen alone needs: ``pytest --benchmark-only tests/bench``.

Twelve injuries and six repairs, drawn as large as in a window of 1280 by 800. The bare blit restores the background and
draws as many artists of the same kinds as the frame does; ``extra_info`` holds how many times as long a frame takes.
"""

from math import radians
from statistics import median, quantiles
from time import perf_counter

import pytest
from PySide6.QtWidgets import QApplication

from tests.unit.drawing.scenes_of import crowded
from tiremap.edits.injuries import move_injury
from tiremap.session import Session
from tiremap.ui.drawing_panel import DrawingPanel

# The offscreen platform warns about every window with a least size; real platforms do not.
pytestmark = pytest.mark.qt_log_ignore("does not support propagateSizeHints", extend=True)


@pytest.fixture
def drag(qtbot):
    """A panel with injury 1 chosen, and the places a hand takes it over."""
    session = Session(crowded().job)
    panel = DrawingPanel()
    qtbot.addWidget(panel)
    panel.resize(626, 591)
    with qtbot.waitExposed(panel):
        panel.show()
    panel.show_assessment(session.assessment, "1", None)
    panel.picture.sight = panel.picture.sight.turned_to(radians(29))
    panel.canvas.draw_idle()
    QApplication.processEvents()
    places = [(-40 + 0.6 * n, 20 + 0.15 * n) for n in range(120)]
    return session, panel, [move_injury(session.job, "1", across_mm=x, around_deg=turn) for x, turn in places]


def test_a_frame_of_a_drag(drag, benchmark):
    session, panel, jobs = drag
    canvas, picture = panel.canvas, panel.picture
    frames, bare = [], []

    def frame(job):
        picture.tried = session.preview(job)
        panel._show_upper(picture.dragged_scenes())

    def both():
        for job in jobs:
            begun = perf_counter()
            frame(job)
            laid = perf_counter()
            canvas.restore_region(canvas._background)
            canvas._draw_upper()
            canvas.blit(canvas.figure.bbox)
            frames.append(laid - begun)
            bare.append(perf_counter() - laid)

    benchmark.pedantic(both, rounds=3, warmup_rounds=1)
    benchmark.extra_info["frame_over_bare_blit"] = round(median(frames) / median(bare), 2)
    benchmark.extra_info["frame_p95_ms"] = round(1000 * quantiles(frames, n=20)[-1], 2)
    benchmark.extra_info["bare_blit_p95_ms"] = round(1000 * quantiles(bare, n=20)[-1], 2)
    assert picture.shown.mark("1").outside == pytest.approx(-40 + 0.6 * 119)
