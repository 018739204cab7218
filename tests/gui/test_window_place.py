"""The window opens where and as it was left, and always where it can be reached."""

import json

import pytest
from PySide6.QtCore import QRect
from PySide6.QtWidgets import QSplitter

from tiremap.storage.settings import read_settings, settings_path
from tiremap.ui.window_place import on_a_screen

SCREEN = QRect(0, 0, 1920, 1080)
SECOND = QRect(1920, 0, 1280, 1024)


def test_size_parting_and_desk_are_found_again_the_next_day(open_window, qtbot):
    first = open_window(size=(1100, 700))
    first.findChild(QSplitter, "mark").setSizes([330, 420, 350])
    parted = first.findChild(QSplitter, "mark").sizes()
    first.show_review()
    first.close()
    kept = json.loads(settings_path().read_text())
    assert kept["window"][2:] == [1100, 700] and kept["splitters"]["mark"] == parted and kept["last_desk"] == "review"
    second = open_window(size=(1100, 700))
    assert second.findChild(QSplitter, "mark").sizes() == parted
    second.show_last_desk()
    assert second.desks.currentWidget() is second.review


def test_settings_written_before_windows_were_remembered_open_the_usual_window():
    settings_path().parent.mkdir(parents=True, exist_ok=True)
    settings_path().write_text('{"units": "in"}')
    settings, message = read_settings()
    assert (settings.window, settings.splitters, settings.last_desk, message) == (None, {}, "mark", "")


def test_a_window_on_any_screen_stays_where_it_is():
    for box in (QRect(100, 80, 1280, 800), QRect(2000, 90, 1000, 700), QRect(1500, 60, 800, 600)):
        assert on_a_screen(box, [SCREEN, SECOND]) == box


@pytest.mark.parametrize("box", [
    QRect(2000, 90, 1000, 700),  # the second screen is gone
    QRect(300, -700, 1000, 700),  # the title above the top
    QRect(-980, 200, 1000, 700),  # all but a sliver to the left
    QRect(300, 1200, 1000, 700),
])
def test_a_window_whose_title_could_not_be_caught_comes_to_the_middle(box):
    put = on_a_screen(box, [SCREEN])
    assert SCREEN.contains(put) and put.size() == box.size()
    assert abs(put.center().x() - SCREEN.center().x()) <= 1


def test_a_window_larger_than_the_screen_shrinks_to_it():
    put = on_a_screen(QRect(0, 40, 3000, 2000), [SECOND.translated(-1920, 0)])
    assert put.width() <= 1280 and put.height() <= 1024
