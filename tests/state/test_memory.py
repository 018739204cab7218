"""A hundred windows opened on a job, drawn and closed leave almost nothing in a process that does nothing else."""

import subprocess
import sys

import pytest

HUNDRED_WINDOWS = """
import gc, sys
from matplotlib import text
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QApplication
from tests.helpers.jobs import bench_job, crown_injury
from tiremap.session import Session
from tiremap.ui.main_window import MainWindow
from tiremap.ui.preferences import Preferences

app = QApplication([])
app.setStyle("Fusion")

def megabytes():
    with open("/proc/self/statm") as file:
        return int(file.read().split()[1]) * 4096 / 1e6

def open_and_close(times):
    for _ in range(times):
        window = MainWindow(Session(bench_job(crown_injury())), Preferences())
        window.resize(1280, 800)
        window.show()
        app.processEvents()
        window.desk.build_drawing()
        app.processEvents()
        window.close()
        window.deleteLater()
        QCoreApplication.sendPostedEvents(window, QEvent.Type.DeferredDelete)
        app.processEvents()
        del window
        text._get_text_metrics_with_cache_impl.cache_clear()  # its last 4,096 texts, whoever draws them: no window's
        gc.collect()

open_and_close(25)
before = megabytes()
open_and_close(100)
print(megabytes() - before)
"""


@pytest.mark.long
@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="memory is read from /proc")
def test_a_hundred_windows_leave_less_than_five_megabytes():
    done = subprocess.run([sys.executable, "-c", HUNDRED_WINDOWS], capture_output=True, text=True, check=True)
    kept = float(done.stdout)
    print(f"100 windows leave {kept:.1f} MB")
    assert kept < 5
