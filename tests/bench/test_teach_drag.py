"""A frame of a drag before a class, against what the screen alone needs, with the loaded tire beside the section."""

from statistics import median, quantiles
from time import perf_counter

import pytest
from PySide6.QtWidgets import QApplication

from tests.bench.bare_blit import as_matplotlib_does, bare_blit
from tiremap.storage.lesson_file import lesson_paths, read_lesson
from tiremap.ui.presentation import Presentation
from tiremap.ui.teach_canvas import TeachCanvas

pytestmark = pytest.mark.qt_log_ignore("does not support propagateSizeHints", extend=True)


def test_a_frame_of_a_drag_from_the_center_to_the_sidewall(qtbot, benchmark, garbage_kept):
    presentation = Presentation(read_lesson(lesson_paths()[0]))
    presentation.go(8)
    canvas = TeachCanvas(presentation)
    qtbot.addWidget(canvas)
    canvas.resize(1252, 470)
    with qtbot.waitExposed(canvas):
        canvas.show()
    QApplication.processEvents()
    frames, bare = [], []

    def frame(step):
        canvas._wanted = (1.5 * step, None)
        begun = perf_counter()
        garbage_kept()
        canvas._show_frame()
        return perf_counter() - begun

    def both():
        frames.extend(frame(step) for step in range(100))
        with as_matplotlib_does(canvas):
            for step in range(100):
                frame(step)
                begun = perf_counter()
                bare_blit(canvas)
                bare.append(perf_counter() - begun)

    benchmark.pedantic(both, rounds=2, warmup_rounds=1)
    benchmark.extra_info["frame_over_bare_blit"] = round(median(frames) / median(bare), 2)
    benchmark.extra_info["frame_p95_ms"] = round(1000 * quantiles(frames, n=20)[-1], 2)
    benchmark.extra_info["bare_blit_p95_ms"] = round(1000 * quantiles(bare, n=20)[-1], 2)
    assert presentation.across == pytest.approx(148.5, abs=0.1)
