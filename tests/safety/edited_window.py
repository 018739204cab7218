"""A window in which someone works without a pause: started by file, killed by a test.

Every few milliseconds an edit writes its number into the job's note, and its number and the time are printed.
"""

import sys
import time

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.edits.change import changed
from tiremap.session import Session
from tiremap.ui.main_window import MainWindow
from tiremap.ui.preferences import Preferences

EDIT_EVERY_MS = 40


def main() -> None:
    app = QApplication(sys.argv[:1])
    app.setStyle("Fusion")
    session = Session(bench_job(crown_injury()))
    window = MainWindow(session, Preferences())
    window.show()
    numbers = iter(range(1, 1_000_000))

    def edit() -> None:
        number = next(numbers)
        session.apply("Note", changed(session.job, note=str(number)))
        print(number, time.time_ns(), flush=True)

    timer = QTimer()
    timer.setInterval(EDIT_EVERY_MS)
    timer.timeout.connect(edit)
    timer.start()
    app.exec()


if __name__ == "__main__":
    main()
