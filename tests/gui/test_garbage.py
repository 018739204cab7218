"""Cycles that hold widgets are collected in the thread of the window and in no other."""

import gc
import threading
import weakref

import pytest
from PySide6.QtWidgets import QWidget

from tiremap.ui import garbage


@pytest.fixture(autouse=True)
def no_window_before(monkeypatch):
    """As in a fresh program: windows that other tests let go without closing them still hold the collection."""
    monkeypatch.setattr(garbage, "_held", set())
    gc.enable()


class Held(QWidget):
    """A widget in a cycle, as every widget with a bound method of its own among its attributes is."""

    def __init__(self) -> None:
        super().__init__()
        self.me = self


def ask_for_memory() -> None:
    """More containers than any threshold of the collection waits for."""
    kept = [[number] for number in range(200_000)]
    assert len(kept) == 200_000


def test_another_thread_destroys_no_widget_while_a_window_is_open(open_window, qtbot):
    window = open_window()
    assert not gc.isenabled()
    gc.collect()
    held = Held()
    seen = weakref.ref(held)
    del held
    thread = threading.Thread(target=ask_for_memory)
    thread.start()
    thread.join()
    assert seen() is not None
    kept = [[number] for number in range(2000)]  # past the first threshold in the window's own thread
    qtbot.waitUntil(lambda: seen() is None, timeout=5000)
    assert len(kept) == 2000
    window.close()
    assert gc.isenabled()


def test_the_last_of_two_windows_hands_the_collection_back(open_window):
    first, second = open_window(), open_window()
    first.close()
    assert not gc.isenabled()
    second.close()
    assert gc.isenabled()
