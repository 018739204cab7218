"""An empty window stands at once where the program was left; the program comes in its place."""

import json
import subprocess
import sys

import pytest
from PySide6.QtCore import QEvent, QObject, QRect
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QWidget

from tiremap.resources import settings_folder
from tiremap.ui.first_window import FirstWindow
from tiremap.ui.palettes import THEMES

OPEN_AND_CLOSE = """
import sys
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from tiremap import app

def look():
    active = QApplication.activeWindow()
    if active is not None and "crown_hole" in active.windowTitle():
        print(active.windowTitle(), flush=True)
        QApplication.closeAllWindows()
    else:
        QTimer.singleShot(50, look)

made = QApplication(sys.argv[:1])
QTimer.singleShot(0, look)
from pathlib import Path
print(app.run(Path(sys.argv[1])))
"""


def keep(**settings):
    settings_folder().mkdir(parents=True, exist_ok=True)
    (settings_folder() / "settings.json").write_text(json.dumps(settings))


def test_it_goes_on_once_when_it_was_painted(qtbot):
    calls = []
    first = FirstWindow(lambda: calls.append(first.isVisible()))
    qtbot.addWidget(first)
    first.show()
    qtbot.waitUntil(lambda: bool(calls))
    first.update()
    qtbot.wait(600)
    assert calls == [True] and first.windowTitle() == "Tiremap"


def test_it_stands_where_the_program_was_left_and_in_its_colors(qtbot):
    keep(window=[20, 30, 700, 500], theme="dark")
    first = FirstWindow(lambda: None)
    qtbot.addWidget(first)
    assert first.geometry() == QRect(20, 30, 700, 500)
    assert first.palette().color(QPalette.ColorRole.Window).name() == THEMES["dark"].window


@pytest.mark.parametrize(
    "text", ["", "[1, 2]", "{", '{"window": [1, 2], "theme": 5}', '{"window": ["a", 1, 2, 3]}',
             '{"window": [90000, 90000, 10, 10]}', "[" * 100_000],
)
def test_settings_it_cannot_use_are_left_to_their_reader(qtbot, text):
    settings_folder().mkdir(parents=True)
    (settings_folder() / "settings.json").write_text(text)
    first = FirstWindow(lambda: None)
    qtbot.addWidget(first)
    assert first.width() > 300 and first.palette().color(QPalette.ColorRole.Window).name() == THEMES["light"].window
    assert (settings_folder() / "settings.json").read_text() == text


def test_nothing_heavy_is_loaded_before_it_stands():
    heavy = ("pydantic", "shapely", "numpy", "matplotlib")
    code = f"import sys, tiremap.app; print([name for name in {heavy} if name in sys.modules])"
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "[]\n"


def test_nothing_but_the_window_shows_itself_while_it_opens(open_window, qapp):
    """A part that is made visible before it has a parent is a window for a moment."""

    class Watch(QObject):
        def eventFilter(self, watched, event):
            if event.type() == QEvent.Type.Show and isinstance(watched, QWidget) and watched.isWindow():
                shown.append(type(watched).__name__)
            return False

    shown = []
    watch = Watch()
    qapp.installEventFilter(watch)
    window = open_window()
    window.show_teach()
    window.show_review()
    qapp.removeEventFilter(watch)
    assert shown == ["MainWindow"]


def test_the_program_comes_in_its_place_and_the_first_window_goes():
    from tiremap.resources import sample_jobs_folder

    done = subprocess.run(
        [sys.executable, "-c", OPEN_AND_CLOSE, str(sample_jobs_folder() / "crown_hole.json")], capture_output=True,
        text=True, timeout=120,
    )
    assert done.stdout.splitlines() == ["crown_hole.json[*] – Tiremap", "0"], done.stderr
