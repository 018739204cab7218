"""The set-up of the tests, tried: what a test must not overlook fails it. Faulty tests run in a child process."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FAULTY = '''
import threading, warnings

from PySide6.QtCore import QTimer, qWarning
from PySide6.QtWidgets import QPushButton, QWidget


def broken(*_):
    raise ZeroDivisionError("a bug")


def test_sound(qtbot):
    qtbot.wait(1)


def test_warning_of_python():
    warnings.warn("old", DeprecationWarning)


def test_warning_of_qt(qtbot):
    qWarning("not as it should be")


def test_error_in_a_slot(qtbot):
    button = QPushButton()
    qtbot.addWidget(button)
    button.clicked.connect(broken)
    button.click()


def test_error_in_a_timer(qtbot):
    QTimer.singleShot(0, broken)
    qtbot.wait(20)


def test_error_in_painting(qtbot):
    class Painted(QWidget):
        paintEvent = broken

    widget = Painted()
    qtbot.addWidget(widget)
    widget.grab()


def test_error_in_a_callback_of_the_drawing(qtbot):
    from tiremap.ui.drawing_canvas import DrawingCanvas

    canvas = DrawingCanvas(lambda: None)
    qtbot.addWidget(canvas)
    canvas.mpl_connect("draw_event", broken)
    canvas.draw()


def test_error_in_drawing_anew(qtbot):
    from tiremap.ui.drawing_canvas import DrawingCanvas

    canvas = DrawingCanvas(broken)
    qtbot.addWidget(canvas)
    canvas.show()
    canvas.draw_idle()
    qtbot.wait(50)


def test_error_in_a_thread():
    thread = threading.Thread(target=broken)
    thread.start()
    thread.join()


def test_error_while_something_is_forgotten():
    class Forgotten:
        __del__ = broken

    Forgotten()


def test_file_left_open(tmp_path):
    (tmp_path / "a").open("w").write("x")
'''
FAULTS = [line.split("(")[0].removeprefix("def ") for line in FAULTY.splitlines() if line.startswith("def test_")]


@pytest.fixture(scope="module")
def outcomes(tmp_path_factory):
    """How each of the faulty tests ended, by the settings of this project."""
    file = tmp_path_factory.mktemp("faulty") / "test_faulty.py"
    file.write_text(FAULTY, encoding="utf-8")
    run = subprocess.run(
        [sys.executable, "-m", "pytest", "-c", ROOT / "pyproject.toml", "--rootdir", ROOT, "-n", "0", "-q", "-rA",
         "-p", "no:cacheprovider", file],
        capture_output=True, text=True, cwd=ROOT, env={**os.environ, "QT_QPA_PLATFORM": "offscreen"}, check=False,
    )
    said = [line.split() for line in run.stdout.splitlines() if line.startswith(("PASSED ", "FAILED ", "ERROR "))]
    return {words[1].rpartition("::")[2]: words[0] for words in said}


@pytest.mark.parametrize("fault", FAULTS)
def test_what_a_test_must_not_overlook_fails_it(outcomes, fault):
    assert outcomes.get(fault) == ("PASSED" if fault == "test_sound" else "FAILED")
