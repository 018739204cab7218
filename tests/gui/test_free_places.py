"""Where a repair could go: a unit to choose, its words beside the drawing and its region on the strip."""

import math

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, hole
from tiremap.edits.injuries import nudge_injury
from tiremap.edits.job_card import choose_rule_set
from tiremap.free_places import where_a_repair_could_go
from tiremap.model.job import Job
from tiremap.resources import sample_jobs_folder
from tiremap.storage.job_file import read_job

THIRD = read_job(sample_jobs_folder() / "third_repair_across_the_datum.json")
"""205/55R16 by Japan, which allows two repairs: two are there and one is marked."""


@pytest.fixture
def asked(open_window, qtbot):
    """A window on a job with the question open."""

    def opened(job: Job, size: tuple[int, int] = (1280, 800)):
        window = open_window(job, size)
        window.desk.choose_first()
        window.actions_.free_places.trigger()
        qtbot.waitUntil(lambda: window.desk.free.isVisible())
        return window

    return opened


def regions(window) -> list:
    marks = window.desk.drawing.picture.scenes()["strip"].marks
    return [mark.shape for mark in marks if getattr(mark, "style", "") == "free_places"]


def test_until_it_is_asked_the_desk_is_as_it_was(bench_window):
    assert bench_window.desk.free.isHidden() and bench_window.desk.free.places is None
    assert not regions(bench_window)
    assert not bench_window.actions_.free_places.isChecked()


def test_the_key_opens_it_on_the_unit_of_the_chosen_hole_and_closes_it(bench_window, qtbot):
    desk = bench_window.desk
    desk.choose_first()
    qtbot.keyClick(bench_window, Qt.Key.Key_R, Qt.KeyboardModifier.ControlModifier)
    assert desk.free.isVisible() and desk.free.units.hasFocus()
    assert desk.free.units.currentText() == "4 mm stem, 40 mm head"  # the gauge of 4 mm enters
    assert regions(bench_window)
    qtbot.keyClick(desk.free.units, Qt.Key.Key_R, Qt.KeyboardModifier.ControlModifier)
    assert desk.free.isHidden() and not regions(bench_window)


def test_the_keyboard_chooses_another_unit_and_words_and_region_follow(asked, qtbot):
    window = asked(bench_job(crown_injury(), earlier_repair()))
    free = window.desk.free
    before = free.places
    qtbot.keyClick(free.units, Qt.Key.Key_Down)
    assert free.units.currentText() == "5 mm stem, 45 mm head"
    assert free.places.area_mm2 < before.area_mm2
    assert f"{int(free.places.area_mm2 / 10) / 10:g} cm²" in free.words.text()
    assert window.desk.drawing.picture.free is free.places


def test_a_unit_chosen_by_hand_stays_while_another_hole_is_chosen(asked, qtbot):
    small = hole(2.0, stops=2.5)
    window = asked(bench_job(crown_injury("1"), crown_injury("2", 20.0, 120.0, size_outside=small, size_inside=small)))
    free = window.desk.free
    window.desk.choose("2")
    assert free.units.currentText() == "3 mm stem, 35 mm head"
    qtbot.keyClick(free.units, Qt.Key.Key_End)
    window.desk.choose("1")
    assert free.units.currentText() == "10 mm stem, 70 mm head"


def test_it_follows_every_edit_and_undo(asked):
    window = asked(bench_job(crown_injury(across_mm=-20.0), rule_set="united_kingdom"))
    free, session = window.desk.free, window.session
    before = free.places
    session.apply("Move", nudge_injury(session.job, "1", across_mm=30.0))
    assert free.places.region.symmetric_difference(before.region).area > 100
    session.apply("Guidance", choose_rule_set(session.job, "japan"))
    assert free.places.widest_gap_mm == pytest.approx(
        where_a_repair_could_go(session.assessment, free.places.unit).widest_gap_mm
    )
    session.undo()
    session.undo()
    assert free.places.area_mm2 == pytest.approx(before.area_mm2)


def test_a_frame_of_a_drag_asks_nothing_and_the_end_of_it_does(asked, monkeypatch):
    window = asked(bench_job(crown_injury()))
    counted = []

    def count(*args):
        counted.append(args)
        return where_a_repair_could_go(*args)

    monkeypatch.setattr("tiremap.ui.free_places_bar.where_a_repair_could_go", count)
    desk = window.desk
    desk.drawing._preview("1", 20.0, 0.5)
    assert not counted
    desk.drawing.mark_moved.emit("1", 20.0, 0.5)
    assert len(counted) == 1


def test_choosing_a_mark_does_not_work_it_out_again(asked, monkeypatch):
    window = asked(bench_job(crown_injury(), earlier_repair()))
    before = window.desk.free.places
    window.desk.free._by_hand = before.unit
    window.desk.choose("R1")
    assert window.desk.free.places is before


def test_at_the_count_limit_the_words_say_why_nothing_is_free(asked):
    window = asked(THIRD)
    words = window.desk.free.words.text()
    assert words.startswith("Nothing is free. One more repair is one too many. The tire would have 4 repairs;")
    assert not regions(window) and window.desk.free.turn_there.isHidden()


def test_the_button_turns_the_strip_to_the_widest_gap(asked, qtbot):
    window = asked(bench_job(crown_injury(around_deg=90.0), rule_set="japan"))
    desk = window.desk
    assert not regions(window)  # 400 mm each way lie outside the strip's window
    qtbot.mouseClick(desk.free.turn_there, Qt.MouseButton.LeftButton)
    assert math.degrees(desk.drawing.picture.sight.turn) % 360 == pytest.approx(270.0, abs=1.0)
    assert regions(window)


def test_inches_are_shown_where_inches_are_chosen(asked):
    window = asked(bench_job(crown_injury(), rule_set="japan"))
    window.actions_.inches.trigger()
    assert window.desk.free.units.currentText() == "0.157 in stem, 1.575 in head"
    assert " in²" in window.desk.free.words.text() and " in around" in window.desk.free.words.text()


@pytest.mark.parametrize(
    ("job", "density"),
    [(THIRD, "desk"), (THIRD, "bench"), (bench_job(crown_injury(), rule_set="japan"), "bench"), (Job(), "desk")],
    ids=["third desk", "third bench", "one bench", "none desk"],
)
def test_every_control_has_a_name_and_its_size_and_no_word_is_cut_off(asked, qtbot, density, job):
    window = asked(job)
    window.preferences.keep(density=density)
    QApplication.processEvents()
    free = window.desk.free
    assert all(each.accessibleName() for each in (free, free.units, free.words, free.turn_there))
    for control in (free.units, free.turn_there):
        assert control.isHidden() or control.height() >= (40 if density == "bench" else 24)
    qtbot.waitUntil(lambda: free.words.height() >= free.words.heightForWidth(free.words.width()))


def test_a_fresh_job_has_a_reason_and_no_region(asked):
    window = asked(Job())
    assert window.desk.free.words.text().startswith("Nothing is free. The tire's size is unknown")
