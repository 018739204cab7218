"""The Review desk with jobs in it: every widget has a name, a size to be hit, is reached by keyboard, shown whole."""

import pytest
from PySide6.QtWidgets import QAbstractButton

from tests.gui.test_every_widget import LEAST
from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, measured_tire
from tests.helpers.widget_walk import faults
from tiremap.storage.job_file import write_job
from tiremap.ui.preferences import Preferences


@pytest.fixture
def shop(tmp_path):
    """A repaired tire's job, a refused one, and a file that cannot be read."""
    folder = tmp_path / "jobs"
    folder.mkdir()
    for number, across_mm in (("501", 0.0), ("502", 80.0)):
        repair = earlier_repair(date="2025-12-01")
        job = bench_job(crown_injury(across_mm=across_mm), repair, job_number=number, tire=measured_tire(number="T-1"))
        write_job(folder / f"{number}.json", job)
    (folder / "broken.json").write_text("{", encoding="utf-8")
    return folder


@pytest.mark.parametrize(("density", "least"), LEAST.items())
def test_every_widget_of_the_review_desk_with_jobs_can_be_named_hit_reached_and_read(
    open_window, qtbot, shop, density, least
):
    Preferences().keep(density=density, register_folder=str(shop))
    window = open_window(bench_job(crown_injury()))
    window.show_review()
    panel = window.review.panel
    qtbot.waitUntil(lambda: not panel.reads and panel.jobs.rowCount() == 3, timeout=20000)
    panel.table.selectRow(0)
    panel.unfold.setChecked(True)
    panel.filters.words.setText("501")
    qtbot.waitUntil(lambda: panel.jobs.rowCount() == 1)
    qtbot.wait(120)  # the story is gathered when the choice rests
    found = faults(window, least)
    assert found == [], "\n".join(found)
    assert panel.figures.counts_what.isVisible()
    assert "all 3 files" in panel.figures.counts_what.text()  # one row is sought, the figures say they count every one


def test_no_letter_of_the_review_desk_belongs_to_a_menu_or_to_two_buttons(open_window):
    window = open_window(bench_job(crown_injury()))
    window.show_review()
    words = [menu.text() for menu in window.menuBar().actions()]
    words += [button.text() for button in window.review.findChildren(QAbstractButton)]
    tabs = window.review.story.tabs
    words += [tabs.tabText(number) for number in range(tabs.count())]
    letters = [text[text.index("&") + 1].lower() for text in words if "&" in text]
    assert len(letters) == len(set(letters)), letters
