"""A tire's story at the Review desk: gathered over its job files, drawn, listed, compared, and signed from there."""

from datetime import UTC, datetime

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QLabel, QPushButton, QTabBar, QTableWidget

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, measured_tire
from tiremap.model.job import Decision
from tiremap.model.rule_set_file import usable_rule_sets
from tiremap.resources import sample_jobs_folder
from tiremap.storage.job_file import read_job, write_job
from tiremap.ui import story_strip
from tiremap.ui.sign_off import SignOff

LEFT = Qt.MouseButton.LeftButton
TIRE = measured_tire(number="4711")
AGAINST = Decision(date=datetime(2025, 4, 1, 9, 30, tzinfo=UTC), rule_set="japan", answer="not_repairable",
                   decision="repair", by="KM")


@pytest.fixture
def folder(tmp_path):
    """Three jobs, two of one tire; the first of them decided against its answer."""
    jobs = tmp_path / "jobs"
    jobs.mkdir()
    shared = earlier_repair("R1", 20.0, 90.0, date="2024-03-01")
    only_first = earlier_repair("R2", -40.0, 250.0, date="2024-06-01")
    write_job(jobs / "17.json", bench_job(shared, only_first, crown_injury("1", 80.0), tire=TIRE, job_number="17",
                                          date="2025-04-01", decisions=(AGAINST,)))
    write_job(jobs / "23.json", bench_job(shared, crown_injury(), tire=TIRE, job_number="23", date="2026-05-01"))
    write_job(jobs / "31.json", bench_job(crown_injury(), job_number="31", date="2026-01-01"))
    return jobs


@pytest.fixture
def review(open_window, folder, qtbot):
    """A window at the Review desk with the register of that folder read."""
    window = open_window()
    window.actions_.review_desk.trigger()
    window.review.panel.show_folder(folder)
    qtbot.waitUntil(lambda: window.review.panel.jobs.rowCount() == 3, timeout=20_000)
    return window


def choose(window, number: int, qtbot) -> None:
    """A click on a row of the register; the newest job stands first."""
    table = window.review.panel.table
    rect = table.visualRect(table.model().index(number, 0))
    qtbot.mouseClick(table.viewport(), LEFT, pos=rect.center())
    qtbot.waitUntil(lambda: window.review.story.story is not None, timeout=10_000)
    qtbot.waitUntil(lambda: f"{('23', '31', '17')[number]}.json" in window.review.story.title.text(), timeout=10_000)


def texts(table: QTableWidget, column: int) -> list[str]:
    return [table.item(row, column).text() for row in range(table.rowCount())]


def test_the_story_is_gathered_drawn_compared_and_signed_from_the_review_desk(review, folder, qtbot):
    window, story = review, review.review.story
    assert "Choose a job" in story.title.text() and not story.sign.isVisible()
    choose(window, 0, qtbot)
    assert "Tire 4711" in story.title.text()
    assert texts(story.timeline, 1) == ["2024-03-01", "2024-06-01", "2025-04-01", "2025-04-01\n09:30", "2026-05-01"]
    what, answers = texts(story.timeline, 2), texts(story.timeline, 3)
    assert "Repair R1: stem and head" in what[0] and "Repair R2" in what[1]
    assert "AGAINST THE ANSWER" in what[3] and answers[3] == "Not repairable\nby Japan"
    assert not story.timeline.item(3, 3).icon().isNull() and story.timeline.item(3, 2).font().bold()
    assert "in job 23 (23.json) and job 17 (17.json)" in what[0]
    assert [mark.id for mark in story.strip.assessment.repairs] == ["R1", "R2"]  # one is only in job 17
    assert "repair R2, 40 mm inboard of center at 250°" in story.strip.accessibleDescription()
    assert story.strip.free is story.free.places and "free" in story.free.words.text().lower()
    qtbot.keyClick(story.free.units, Qt.Key.Key_End)
    assert story.strip.free is story.free.places

    before = (folder / "23.json").read_bytes()
    bar = story.tabs.findChild(QTabBar)
    qtbot.mouseClick(bar, LEFT, pos=bar.tabRect(1).center())
    assert story.guidance.rowCount() == len(usable_rule_sets())
    assert "Repairable" in texts(story.guidance, 1)

    for kind in (QPushButton, QComboBox, QTableWidget):
        for widget in story.findChildren(kind):
            if widget.isVisible():
                assert widget.accessibleName() or widget.text(), widget
                assert min(widget.width(), widget.height()) >= 24, widget
    assert all(label.text() for label in story.findChildren(QLabel) if label.isVisible())

    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    qtbot.keyClick(window, Qt.Key.Key_D, Qt.KeyboardModifier.ControlModifier)  # signs the chosen job, not the open one
    qtbot.waitUntil(lambda: any(each.isVisible() for each in window.findChildren(SignOff)))
    form = next(each for each in window.findChildren(SignOff) if each.isVisible())
    assert window.session.path == folder / "23.json" and "Job 23" in form.job.text()
    form.choices["repair"].setChecked(True)
    form.sign.setText("12")
    qtbot.mouseClick(form.record, LEFT)
    window.actions_.review_desk.trigger()
    qtbot.waitUntil(lambda: story.timeline.rowCount() == 6)  # told before it is saved
    assert (folder / "23.json").read_bytes() == before
    assert window.files.save()
    assert [each.by for each in read_job(folder / "23.json").decisions] == ["12"]


def test_a_tire_without_a_number_is_told_by_its_own_job_and_a_broken_file_is_named(review, folder, qtbot):
    story = review.review.story
    (folder / "17.json").write_text("{")
    choose(review, 0, qtbot)
    assert "17.json" in story.faults.text() and story.timeline.rowCount() == 2
    choose(review, 1, qtbot)
    assert "without a number" in story.title.text() and story.timeline.rowCount() == 1
    assert story.faults.isHidden()


def test_an_injury_of_a_refused_tire_is_nowhere_told_as_repairable(open_window, tmp_path, qtbot, monkeypatch):
    for name in ("two_heads", "earlier_plug"):
        write_job(tmp_path / f"{name}.json", read_job(sample_jobs_folder() / f"{name}.json"))
    painted = []
    monkeypatch.setattr(story_strip, "paint_answer", lambda painter, box, answer, theme: painted.append(answer))
    window = open_window()
    window.actions_.review_desk.trigger()
    panel, story = window.review.panel, window.review.story
    panel.show_folder(tmp_path)
    qtbot.waitUntil(lambda: panel.jobs.rowCount() == 2, timeout=20_000)
    for row in range(2):
        painted.clear()
        panel.table.selectRow(row)
        qtbot.waitUntil(lambda: {"not_repairable"} <= set(painted), timeout=10_000)
        assert "repairable" not in painted
        answers = [text for text in texts(story.timeline, 3) if text != "–"]
        assert answers and all(text.startswith("Not repairable\n") for text in answers)
        assert any("(its own checks pass)" in text for text in answers) == ("plug" in story.title.text())
