"""The register in the window: a folder's jobs are found, counted, opened and written, by mouse and by keyboard."""

import csv
from datetime import date
from time import sleep

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit, QTableView, QWidget

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair
from tiremap.edits.tire import set_size_code
from tiremap.storage.job_file import read_job, write_job
from tiremap.storage.register import Register
from tiremap.storage.settings import read_settings
from tiremap.ui import dialogs
from tiremap.ui.register_filters import period
from tiremap.ui.register_model import ANSWER, COLUMNS, DECIDES
from tiremap.ui.register_pictures import across_says, last_months

REPAIRS = len(COLUMNS) - 1


def shop_job(number: str, date: str, across_mm: float = 0.0, **fields):
    """A job with a number and a date; refused where its hole lies in the shoulder."""
    return bench_job(crown_injury(across_mm=across_mm)).model_copy(
        update={"job_number": number, "date": date, "fleet_number": "F-1", **fields}
    )


@pytest.fixture
def shop(tmp_path):
    """A folder with a repairable job, a refused one in a subfolder, one of another size, and a broken file."""
    folder = tmp_path / "jobs"
    (folder / "older").mkdir(parents=True)
    write_job(folder / "one.json", shop_job("501", "2026-03-05"))
    write_job(folder / "older" / "two.json", shop_job("502", "2026-02-04", across_mm=80.0))
    repaired = shop_job("503", "2026-01-03", repairs=(earlier_repair(date="2025-12-01"),))
    write_job(folder / "three.json", set_size_code(repaired, "225/45R17 94W"))
    (folder / "broken.json").write_text("{", encoding="utf-8")
    return folder


@pytest.fixture
def panel_on(qtbot, monkeypatch, shop):
    """Opens the Review desk of a window and chooses the shop's folder with a click."""
    monkeypatch.setattr(dialogs, "ask_folder_of_jobs", lambda parent, at: shop)

    def opened(window):
        qtbot.keyClick(window, Qt.Key.Key_2, Qt.KeyboardModifier.ControlModifier)
        panel = window.review.panel
        qtbot.mouseClick(panel.begin, Qt.MouseButton.LeftButton)
        read(qtbot, panel)
        return panel

    return opened


def read(qtbot, panel):
    """Wait until the folder is read."""
    qtbot.waitUntil(lambda: not panel.reads, timeout=20000)


def own_places(panel) -> set:
    """The parents of the panel's own buttons, fields and table; Qt's own parts inside them lie elsewhere."""
    return {widget.parent() for widget in (panel.again, panel.csv, panel.table)}


def numbers(panel) -> list[str]:
    """The job numbers, or file names, as they stand in the table."""
    return [panel.jobs.index(row, 1).data() for row in range(panel.jobs.rowCount())]


def text(panel, job: str, column: int) -> str:
    return panel.jobs.index(numbers(panel).index(job), column).data()


def test_the_folder_chosen_is_listed_answered_counted_and_remembered(window, qtbot, panel_on, shop):
    panel = panel_on(window)
    assert numbers(panel) == ["501", "502", "503", "broken.json"]
    assert [text(panel, job, ANSWER) for job in ("501", "502", "broken.json")] == [
        "Repairable", "Not repairable", "Not readable",
    ]
    assert "shoulder" in text(panel, "502", DECIDES) and text(panel, "broken.json", DECIDES)
    assert text(panel, "503", REPAIRS) == "1"
    assert panel.count.text() == "4 files; 1 cannot be read or answered"
    assert read_settings()[0].register_folder == str(shop)

    qtbot.mouseClick(panel.unfold, Qt.MouseButton.LeftButton)
    assert panel.figures.isVisible() and sum(panel.figures.across.counts) == 3
    assert panel.figures.across.accessibleDescription() == (
        "3 injuries: 2 in the central half of the tread, 1 between there and the tread edges, 0 beyond an edge."
    )
    assert panel.figures.months.months[-1] == "2025-12" and panel.figures.months.counts[-1] == 1

    write_job(shop / "four.json", shop_job("504", "2026-04-01"))
    qtbot.keyClick(panel.table, Qt.Key.Key_F5)
    read(qtbot, panel)
    assert numbers(panel)[0] == "504" and sum(panel.figures.across.counts) == 4

    used = (QAbstractButton, QComboBox, QLineEdit, QTableView)
    for widget in panel.findChildren(QWidget):
        if isinstance(widget, used) and widget.isVisible() and widget.parent() in (panel.filters, *own_places(panel)):
            named = widget.accessibleName() or getattr(widget, "text", str)()
            assert named and min(widget.width(), widget.height()) >= 24, widget


def test_what_is_sought_is_followed_as_it_is_typed_and_chosen_and_written_as_a_table(
    window, qtbot, panel_on, tmp_path, monkeypatch
):
    panel = panel_on(window)
    qtbot.keyClicks(panel.filters.words, "20555")
    qtbot.waitUntil(lambda: numbers(panel) == ["501", "502"])
    assert panel.count.text() == "2 of 4 files; 1 cannot be read or answered"
    qtbot.keyClick(panel.filters.answer, Qt.Key.Key_N)  # Not repairable
    assert numbers(panel) == ["502"]

    written = tmp_path / "found.csv"
    monkeypatch.setattr(dialogs, "ask_where_to_write_csv", lambda parent, suggested: written)
    qtbot.mouseClick(panel.csv, Qt.MouseButton.LeftButton)
    with written.open(newline="", encoding="utf-8") as file:
        assert [row["job_number"] for row in csv.DictReader(file)] == ["502"]
    before = written.read_bytes()
    qtbot.mouseClick(panel.csv, Qt.MouseButton.LeftButton)  # never over a file
    assert written.read_bytes() == before and str(written) in window.message.text

    qtbot.mouseClick(panel.every, Qt.MouseButton.LeftButton)
    assert len(numbers(panel)) == 4 and not panel.every.isVisible()
    panel.filters.deciding.setCurrentIndex(panel.filters.deciding.findData("place"))
    assert numbers(panel) == ["502"] and panel.filters.deciding.currentText() == "Place (1)"
    panel.filters.deciding.setCurrentIndex(0)
    panel.filters.period.setCurrentIndex(panel.filters.period.count() - 1)
    assert panel.filters.since.isVisible()
    panel.filters.since.setDate(panel.filters.since.date().fromString("2026-02-04", "yyyy-MM-dd"))
    panel.filters.until.setDate(panel.filters.until.date().fromString("2026-03-04", "yyyy-MM-dd"))
    qtbot.waitUntil(lambda: numbers(panel) == ["502"])


def test_a_chosen_job_is_told_stays_chosen_and_opens_at_the_mark_desk(
    window, qtbot, panel_on, shop, unsaved_answers
):
    panel = panel_on(window)
    told = []
    panel.tire_chosen.connect(told.append)
    panel.table.setFocus()  # the first row
    qtbot.keyClick(panel.table, Qt.Key.Key_Down)
    qtbot.keyClick(panel.table, Qt.Key.Key_Up)
    assert [row.job_number for row in told] == ["501", "502", "501"]
    write_job(shop / "four.json", shop_job("504", "2026-04-01"))
    qtbot.mouseClick(panel.again, Qt.MouseButton.LeftButton)
    read(qtbot, panel)
    assert panel.table.chosen.job_number == "501" and panel.table.currentIndex().row() == 1 and len(told) == 3

    window.session.apply("Note", bench_job(crown_injury("7")))
    unsaved_answers.append("stay")
    qtbot.keyClick(panel.table, Qt.Key.Key_Return)
    assert window.session.path is None and panel.isVisible()
    qtbot.keyClick(panel.table, Qt.Key.Key_Return)
    assert window.session.path == shop / "one.json" and not panel.isVisible()
    assert window.session.job == read_job(shop / "one.json")
    qtbot.keyClick(window, Qt.Key.Key_2, Qt.KeyboardModifier.ControlModifier)
    where = panel.table.visualRect(panel.jobs.index(2, 0)).center()
    qtbot.mouseClick(panel.table.viewport(), Qt.MouseButton.LeftButton, pos=where)
    qtbot.mouseDClick(panel.table.viewport(), Qt.MouseButton.LeftButton, pos=where)
    assert window.session.path == shop / "older" / "two.json"


def test_samples_are_looked_at_without_being_remembered_or_saved_over(window, qtbot):
    window.actions_.review_desk.trigger()
    panel = window.review.panel
    assert not window.actions_.add_injury.isEnabled()  # its marks are out of sight
    qtbot.mouseClick(panel.samples, Qt.MouseButton.LeftButton)
    read(qtbot, panel)
    assert "2041" in numbers(panel) and read_settings()[0].register_folder is None
    panel.table.selectRow(0)
    qtbot.mouseClick(panel.open, Qt.MouseButton.LeftButton)
    assert window.session.path is None and window.session.job.job_number == numbers(panel)[0]
    assert window.desk.isVisible() and window.actions_.add_injury.isEnabled()


def test_a_period_names_its_first_and_last_day():
    assert period("last_month", date(2026, 1, 15)) == ("2025-12-01", "2025-12-31")
    assert period("last_year", date(2026, 1, 15)) == ("2025-01-01", "2025-12-31")
    assert period("month", date(2024, 2, 29)) == ("2024-02-01", None)
    assert period(None, date(2026, 1, 15)) == (None, None)


def test_months_run_over_the_year_and_places_are_told_by_where_they_lie():
    assert last_months("2026-02", 3) == ("2025-12", "2026-01", "2026-02")
    assert across_says((1, 2, 4, 8), (-1.2, -1.0, 0.0, 0.8, 1.0)) == (
        "15 injuries: 6 in the central half of the tread, 8 between there and the tread edges, 1 beyond an edge."
    )


def test_reading_shows_how_far_it_is_and_stops_when_asked(window, qtbot, panel_on, monkeypatch):
    panel = panel_on(window)
    really = Register.refresh

    def slowly(register, progress, stopped):
        progress(1, 3)
        while not stopped():
            sleep(0.005)

    monkeypatch.setattr(Register, "refresh", slowly)
    qtbot.mouseClick(panel.again, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: panel.progress.isVisible() and panel.progress.value() == 1)
    assert panel.progress.maximum() == 3 and panel.again.isHidden()
    qtbot.mouseClick(panel.stop, Qt.MouseButton.LeftButton)
    read(qtbot, panel)
    assert "Stopped" in panel.trouble.text() and panel.progress.isHidden() and panel.again.isVisible()
    monkeypatch.setattr(Register, "refresh", really)
    qtbot.keyClick(panel.again, Qt.Key.Key_Space)
    read(qtbot, panel)
    assert panel.trouble.isHidden() and len(numbers(panel)) == 4
