"""Limits and sources: every limit can be read and found in the window."""

from PySide6.QtCore import Qt

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.model.rule_set_file import rule_set_named, rule_set_names
from tiremap.model.rule_set_words import limit_lines
from tiremap.ui.limits_page import LimitsPage


def page_of(window) -> LimitsPage:
    """The page as the Help menu opens it."""
    window.actions_.limits.trigger()
    return window.findChild(LimitsPage)


def words(page: LimitsPage) -> str:
    return " ".join(page.text.toPlainText().split())


def test_the_help_menu_opens_the_guidance_the_job_follows(bench_window):
    page = page_of(bench_window)
    assert page.isVisible() and page.which.currentText() == "United Kingdom"
    text = words(page)
    for line in limit_lines(rule_set_named("united_kingdom")):
        for part in (line.asks, line.tires, line.source, line.grade):
            assert " ".join(part.split()) in text
    assert page.count.text() == f"{len(limit_lines(rule_set_named('united_kingdom')))} limits"


def test_a_job_without_guidance_shows_them_all(window):
    page = page_of(window)
    text = words(page)
    every = [line for name in rule_set_names() for line in limit_lines(rule_set_named(name))]
    assert page.count.text() == f"{len(every)} limits"
    assert all(" ".join(line.source.split()) in text for line in every)
    assert all(rule_set_named(name).deciding in text for name in rule_set_names())


def test_only_limits_that_hold_every_word_sought_are_shown(window, qtbot):
    page = page_of(window)
    qtbot.keyClicks(page.sought, "TRUCK 9.525")
    text = words(page)
    assert "at most 9.52 mm" in text and "6.35" not in text
    assert page.count.text().startswith("1 of ")
    qtbot.keyClicks(page.sought, " cheese")
    assert words(page) == "No limit holds all of these words."


def test_enter_in_the_words_sought_keeps_the_page_and_escape_closes_it(open_window, qtbot):
    page = page_of(open_window(bench_job(crown_injury())))
    qtbot.keyClick(page.sought, Qt.Key.Key_Return)
    assert page.isVisible()
    qtbot.keyClick(page.sought, Qt.Key.Key_Escape)
    assert not page.isVisible()


def test_everything_on_the_page_has_a_name_and_can_be_hit(bench_window):
    page = page_of(bench_window)
    for widget in (page.which, page.sought, page.count, page.text):
        assert widget.accessibleName()
    assert page.which.height() >= 24 and page.sought.height() >= 24
    assert page.which.geometry().right() < page.sought.geometry().left()
    assert page.which.width() > page.which.fontMetrics().horizontalAdvance("United Kingdom")
