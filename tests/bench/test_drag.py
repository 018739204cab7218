"""How long a frame of a drag takes, against what the screen alone needs: ``pytest --benchmark-only tests/bench``.

Twelve injuries and six repairs, drawn as large as in a window of 1280 by 800. The bare blit restores the background,
draws the same marks as matplotlib draws them and shows them; ``extra_info`` holds how many times as long a frame takes,
and ``worked_ms``, the median of a frame's parts in this process's own time, which other work on the machine stretches
less; ``own blit`` is the bare blit as we do it. ``QT_SCALE_FACTOR=2`` in front of the command draws at scale 2.
"""

from math import radians
from statistics import median, quantiles
from time import perf_counter, process_time

import pytest
from PySide6.QtWidgets import QApplication

from tests.bench.bare_blit import as_matplotlib_does, bare_blit
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


def test_a_frame_of_a_drag(drag, benchmark, garbage_kept):
    session, panel, jobs = drag
    canvas, picture = panel.canvas, panel.picture
    frames, bare = [], []
    worked: dict[str, list[float]] = {"answer": [], "scenes": [], "laid": [], "own blit": [], "bare blit": []}

    def frame(job):
        begun, began = process_time(), perf_counter()
        garbage_kept()
        picture.tried = session.preview(job)
        assert len(picture.tried.pairs) == 153
        answered = process_time()
        scenes = picture.dragged_scenes()
        drawn = process_time()
        panel._show_upper(scenes)
        laid = process_time()
        return perf_counter() - began, (answered - begun, drawn - answered, laid - drawn)

    def blit():
        begun, began = process_time(), perf_counter()
        bare_blit(canvas)
        return perf_counter() - began, process_time() - begun

    def both():
        for job in jobs:
            taken, parts = frame(job)
            frames.append(taken)
            for name, part in zip(("answer", "scenes", "laid"), parts, strict=True):
                worked[name].append(part)
        for job in jobs:
            frame(job)
            worked["own blit"].append(blit()[1])
        with as_matplotlib_does(canvas):
            for job in jobs:
                frame(job)
                taken, part = blit()
                bare.append(taken)
                worked["bare blit"].append(part)

    benchmark.pedantic(both, rounds=3, warmup_rounds=1)
    benchmark.extra_info["frame_over_bare_blit"] = round(median(frames) / median(bare), 2)
    benchmark.extra_info["frame_p95_ms"] = round(1000 * quantiles(frames, n=20)[-1], 2)
    benchmark.extra_info["bare_blit_p95_ms"] = round(1000 * quantiles(bare, n=20)[-1], 2)
    benchmark.extra_info["worked_ms"] = {name: round(1000 * median(each), 2) for name, each in worked.items()}
    benchmark.extra_info["scale"] = canvas.device_pixel_ratio
    assert picture.shown.mark("1").outside == pytest.approx(-40 + 0.6 * 119)
