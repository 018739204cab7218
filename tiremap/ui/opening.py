"""Opening the program behind its first window: settings, the job asked for, and what a stopped program left unsaved.

Importing this loads everything but matplotlib.
"""

from functools import partial
from pathlib import Path

from PySide6.QtCore import QTimer

from tiremap.errors import TiremapError
from tiremap.session import Session
from tiremap.storage.job_file import read_job
from tiremap.storage.unsaved_work import WorkFound, work_found
from tiremap.ui import dialogs
from tiremap.ui.crash import CrashHook
from tiremap.ui.files import fresh_job
from tiremap.ui.left_work import name_of_found
from tiremap.ui.main_window import MainWindow
from tiremap.ui.preferences import Preferences


def open_window(path: Path | None) -> MainWindow:
    """The window as it stands on the screen, with the job in a file if one is given.

    A file that cannot be opened is told in the window, which then holds a fresh job.
    """
    hook = CrashHook()
    hook.install()
    preferences = Preferences()
    window, message = window_on(path, preferences)
    hook.session = window.session
    if path is None:
        window.show_last_desk()
    window.show()
    if message:
        window.message.show_text(message)
    QTimer.singleShot(0, partial(offer_left_work, window))
    return window


def offer_left_work(window: MainWindow) -> None:
    """Offer what a stopped program left unsaved, until the user goes on with one or wants none of it now."""
    found = list(work_found())
    wish = "throw_away"
    while found and wish == "throw_away":
        wish, chosen = dialogs.ask_about_left_work(window, tuple(found))
        if wish == "open":
            found.remove(chosen)
            _go_on_with(chosen, window)
        elif wish == "throw_away" and dialogs.ask_to_throw_away(window, name_of_found(chosen)):
            found.remove(chosen)
            chosen.remove()
    for each in found:
        each.leave()


def _go_on_with(found: WorkFound, window: MainWindow) -> None:
    """The window holds and keeps the work; only then what was left of it goes."""
    taken = window.files.take_up(found.work) and window.keeper.keep_now()
    found.taken_over() if taken else found.leave()


def window_on(path: Path | None, preferences: Preferences) -> tuple[MainWindow, str]:
    """The window, and what to tell about the file."""
    fresh = fresh_job(preferences)
    if path is None:
        return MainWindow(Session(fresh), preferences), ""
    try:
        session = Session(read_job(path), path)
    except TiremapError as error:
        return MainWindow(Session(fresh), preferences), str(error)
    preferences.keep_recent(path)
    window = MainWindow(session, preferences)
    window.desk.choose_first()
    return window, ""
