"""How long one waits for the window and for an answer, each against what Qt and the libraries alone need.

Start-ups are whole processes, ours and the floor in turn, the quicker of several runs: what else runs on the machine
slows both. Byte code is kept, as it is where the program is installed. ``extra_info`` holds the ratios.
"""

import os
import subprocess
import sys
from statistics import median
from time import perf_counter

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.resources import sample_jobs_folder
from tiremap.session import Session
from tiremap.ui.main_window import MainWindow
from tiremap.ui.preferences import Preferences

pytestmark = pytest.mark.qt_log_ignore("does not support propagateSizeHints", extend=True)
RUNS = 5

EMPTY_WINDOW = """
import time; begun = time.perf_counter()
import os, sys
from PySide6.QtWidgets import QApplication, QMainWindow
class Window(QMainWindow):
    def paintEvent(self, event):
        super().paintEvent(event)
        print(time.perf_counter() - begun, flush=True)
        os._exit(0)
app = QApplication([])
app.setStyle("Fusion")
window = Window()
window.resize(1280, 800)
window.show()
app.exec()
"""
FIRST_WINDOW = """
import time; begun = time.perf_counter()
import os, sys
from tiremap import app
from tiremap.ui.first_window import FirstWindow
from PySide6.QtWidgets import QMainWindow
def painted(self, event):
    QMainWindow.paintEvent(self, event)
    print(time.perf_counter() - begun, flush=True)
    os._exit(0)
FirstWindow.paintEvent = painted
app.run(None)
"""
DRAWING_READY = """
import time; begun = time.perf_counter()
import os, sys
from pathlib import Path
from PySide6.QtCore import QTimer
from tiremap import app
def look():
    from PySide6.QtWidgets import QApplication
    for window in QApplication.topLevelWidgets():
        drawing = getattr(getattr(window, "desk", None), "drawing", None)
        if drawing is not None and not drawing.canvas.is_stale:
            print(time.perf_counter() - begun, flush=True)
            os._exit(0)
    QTimer.singleShot(2, look)
from PySide6.QtWidgets import QApplication
application = QApplication([])
QTimer.singleShot(0, look)
app.run(Path(sys.argv[1]))
"""
EMPTY_CANVAS = """
import time; begun = time.perf_counter()
import os, sys
import numpy, platformdirs, shapely
import PySide6.QtSvg
from matplotlib.backends.backend_qtagg import FigureCanvasQTAgg
from matplotlib.figure import Figure
from pydantic import BaseModel  # pydantic loads itself by name: a bare import brings nothing
from PySide6.QtWidgets import QApplication, QMainWindow
class Canvas(FigureCanvasQTAgg):
    def paintEvent(self, event):
        super().paintEvent(event)
        print(time.perf_counter() - begun, flush=True)
        os._exit(0)
app = QApplication([])
app.setStyle("Fusion")
window = QMainWindow()
window.setCentralWidget(Canvas(Figure()))
window.resize(1280, 800)
window.show()
app.exec()
"""


def seconds(code, *arguments):
    keeps_byte_code = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    done = subprocess.run(
        [sys.executable, "-c", code, *arguments], capture_output=True, text=True, check=True, env=keeps_byte_code
    )
    return float(done.stdout)


def quickest_of_both(ours, floor, *arguments):
    """The quickest of several runs of each, taken in turn."""
    runs = [(seconds(ours, *arguments), seconds(floor)) for _ in range(RUNS)]
    return min(each for each, _ in runs), min(each for _, each in runs)


def tell(benchmark, ours, floor):
    benchmark.extra_info["over_floor"] = round(ours / floor, 2)
    benchmark.extra_info["ours_ms"], benchmark.extra_info["floor_ms"] = round(1000 * ours), round(1000 * floor)


def test_the_first_window_over_an_empty_one(benchmark):
    ours, floor = benchmark.pedantic(quickest_of_both, (FIRST_WINDOW, EMPTY_WINDOW), rounds=1)
    tell(benchmark, ours, floor)
    assert ours > 0


def test_the_drawing_of_a_sample_over_an_empty_canvas(benchmark):
    sample = str(sample_jobs_folder() / "two_heads.json")
    ours, floor = benchmark.pedantic(quickest_of_both, (DRAWING_READY, EMPTY_CANVAS, sample), rounds=1)
    tell(benchmark, ours, floor)
    assert ours > 0


def test_from_a_click_to_the_painted_answer(qtbot, benchmark):
    """A click on the strip places a hole; the whole window shows the answer to the job with it."""
    QApplication.setStyle("Fusion")
    window = MainWindow(Session(bench_job(crown_injury())), Preferences())
    qtbot.addWidget(window)
    window.resize(1280, 800)
    with qtbot.waitExposed(window):
        window.show()
    window.desk.build_drawing()
    QApplication.processEvents()
    canvas, waits = window.desk.drawing.canvas, []
    strip = window.desk.drawing.picture.panels.strip

    def click():
        place = QPoint(round(strip.left + strip.width / 2), round(strip.top + strip.height * 0.2))
        begun = perf_counter()
        qtbot.mouseClick(canvas, Qt.MouseButton.LeftButton, pos=place)
        while canvas.is_stale:
            QApplication.processEvents()
        QApplication.processEvents()
        waits.append(perf_counter() - begun)
        assert len(window.session.job.injuries) == 2
        window.session.undo()
        QApplication.processEvents()

    benchmark.pedantic(click, rounds=15, warmup_rounds=2)
    benchmark.extra_info["click_to_answer_ms"] = round(1000 * median(waits))
