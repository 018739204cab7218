"""Compare the guidance: one job by every rule set, the bands they allow, and a button that follows one of them."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QAbstractButton, QApplication

from tests.helpers.jobs import bench_job, crown_injury, from_center, gauged, measured_tire, probed, taped
from tiremap.assess import assess
from tiremap.edits.tire import set_tire
from tiremap.model.job import Job, MakerWord
from tiremap.model.rule_set_file import rule_set_named, rule_set_names
from tiremap.resources import sample_jobs_folder
from tiremap.storage.job_file import read_job
from tiremap.ui.compare_bands import band_says, stripes
from tiremap.ui.compare_rows import compared
from tiremap.ui.palettes import THEMES
from tiremap.ui.wording import ANSWER_WORDS

DISPUTED = read_job(sample_jobs_folder() / "third_repair_across_the_datum.json")
"""205/55R16, tread 168 mm, followed by Japan: two earlier repairs, and the sets disagree about a third."""


@pytest.fixture
def compare(open_window, qtbot):
    """Opens the comparison on a job from the menu's action; gives the main window and the comparison."""

    def opened(job: Job = DISPUTED):
        window = open_window(job)
        window.actions_.compare.trigger()
        comparison = window.comparison
        activate(qtbot, comparison)
        comparison.resize(1080, 760)
        return window, comparison

    return opened


def activate(qtbot, window) -> None:
    """Give a window the keys; without a window manager one activated late may take them back."""

    def is_active() -> bool:
        window.activateWindow()
        return QApplication.activeWindow() is window and QApplication.focusWidget() is not None

    qtbot.waitUntil(is_active)


def cell(comparison, name: str, column: int):
    return comparison.table.item(rule_set_names().index(name), column)


def choose(comparison, name: str) -> None:
    comparison.table.selectRow(rule_set_names().index(name))


def test_every_guidance_answers_the_job_by_word_and_by_symbol(compare):
    _, comparison = compare()
    answers = {}
    for name in rule_set_names():
        answers[name] = assess(DISPUTED, rule_set_named(name)).answer
        shown = cell(comparison, name, 1)
        assert shown.text() == ANSWER_WORDS[answers[name]]
        assert not shown.icon().isNull()
    assert set(answers.values()) == {"repairable", "measure_first", "not_repairable"}  # they do disagree


def test_the_guidance_the_job_follows_is_told_by_words(compare):
    _, comparison = compare()
    marked = [name for name in rule_set_names() if "this job" in cell(comparison, name, 0).text()]
    assert marked == ["japan"]
    assert comparison.chosen.rule_set.name == "japan"


def test_what_decides_is_the_weightiest_reason_with_its_margin(compare):
    _, comparison = compare()
    assert cell(comparison, "japan", 2).text() == "Refused: The tire would have 3 repairs; at most 2 are allowed."
    assert cell(comparison, "japan", 3).text() == "−1 repairs"
    assert cell(comparison, "new_zealand", 2).text().startswith("Measure: Injury 1 and repair R1 may lie too close")
    # 26 degrees on a circumference of pi * 632 mm, less the 150 mm asked: -6.603, and margins are rounded down
    assert cell(comparison, "new_zealand", 3).text().startswith("−6.7 mm")
    assert cell(comparison, "united_kingdom", 2).text().startswith("Caution: The tire is marked for 240 km/h")


def test_where_everything_passed_the_reason_nearest_its_limit_is_shown():
    row = next(row for row in compared(bench_job(crown_injury(across_mm=20.0))) if row.own)
    least = [reason.margin_low for reason in row.assessment.all_reasons if reason.unit == "mm"]
    assert row.assessment.answer == "repairable"
    assert row.decides.margin_low == min(each for each in least if each is not None)
    assert row.decides_says.startswith("Passed, nearest its limit: ")


def test_open_measurements_are_counted_and_named(compare):
    _, comparison = compare()
    assert cell(comparison, "germany", 4).text() == "1"
    assert "sealant" in cell(comparison, "germany", 4).toolTip()
    assert cell(comparison, "japan", 4).text() == "0"  # nothing still to measure turns a refusal
    assert cell(comparison, "new_zealand", 4).text() == "1"  # known too coarsely
    choose(comparison, "germany")
    assert "Still open (1)" in comparison.details.text()


def test_choosing_a_row_changes_nothing_and_the_button_is_one_step(compare, qtbot):
    window, comparison = compare()
    choose(comparison, "australia")
    assert window.session.job == DISPUTED and window.session.undo_name is None
    qtbot.mouseClick(comparison.follow, Qt.MouseButton.LeftButton)
    assert window.session.job == DISPUTED.model_copy(update={"rule_set": "australia"})
    assert "this job" in cell(comparison, "australia", 0).text()
    assert not comparison.follow.isEnabled()
    assert window.desk.answer.by.text() == "By: Australia"
    window.session.undo()
    assert window.session.job == DISPUTED
    assert "this job" in cell(comparison, "japan", 0).text()


def test_it_follows_every_edit_and_keeps_the_chosen_row(compare):
    window, comparison = compare(bench_job(crown_injury()))
    choose(comparison, "australia")
    assert cell(comparison, "australia", 1).text() == "Repairable"
    window.session.apply("Tread depth", set_tire(window.session.job, tread_depth_central=gauged(1.0)))
    assert {cell(comparison, name, 1).text() for name in rule_set_names()} == {"Not repairable"}
    assert comparison.chosen.rule_set.name == "australia"


def test_a_closed_comparison_catches_up_when_it_is_opened_again(compare, qtbot):
    window, comparison = compare(bench_job(crown_injury()))
    qtbot.keyClick(comparison.table, Qt.Key.Key_Escape)
    assert not comparison.isVisible()
    window.session.apply("Tread depth", set_tire(window.session.job, tread_depth_central=gauged(1.0)))
    activate(qtbot, window)
    qtbot.keyClick(window, Qt.Key.Key_G, Qt.KeyboardModifier.ControlModifier)
    assert comparison.isVisible()
    assert cell(comparison, "united_kingdom", 1).text() == "Not repairable"


def test_the_keyboard_chooses_a_row_and_reaches_the_button(compare, qtbot):
    window, comparison = compare()
    assert comparison.table.hasFocus()
    qtbot.keyClick(comparison.table, Qt.Key.Key_Down)
    assert comparison.chosen.rule_set.name == "new_zealand"
    qtbot.keyClick(comparison.table, Qt.Key.Key_Return)
    assert window.session.job.rule_set == "japan" and comparison.isVisible()
    for _ in range(4):
        if not comparison.follow.hasFocus():
            qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
    assert comparison.follow.hasFocus()
    qtbot.keyClick(comparison.follow, Qt.Key.Key_Space)
    assert window.session.job.rule_set == "new_zealand"


def test_the_bands_are_told_by_their_half_widths():
    rows = {row.rule_set.name: row for row in compared(DISPUTED)}
    says = {name: band_says(row, "mm") for name, row in rows.items()}
    assert says["united_kingdom"] == "71.8 mm"  # 70 % of 205, halved: 71.75
    assert says["european_makers"] == "63 mm"  # three quarters of 168, halved
    assert says["north_america"] == "58.6 mm"  # 168 / 2 - 25.4
    assert says["japan"] == "58.6 mm, by the maker to 84 mm"  # 168 / 2
    assert band_says(rows["north_america"], "in") == "2.31 in"  # 58.6 / 25.4 = 2.307


def test_a_figure_of_the_tire_maker_draws_every_band_in_to_where_the_answer_ends_it():
    word = MakerWord(source="the maker's letter", zone_inset=taped(20.0))
    job = bench_job(crown_injury(), tire=measured_tire(maker_word=word))  # tread 170 mm wide
    says = {row.rule_set.name: band_says(row, "mm") for row in compared(job)}
    assert says["united_kingdom"] == "65 mm"  # 170 / 2 - 20, stricter than 71.75
    assert says["north_america"] == "59.6 mm"  # 170 / 2 - 25.4, stricter than the maker's figure
    assert says["japan"] == "65 mm"  # the figure settles the band between Japan's two edges
    for row in compared(job):
        reached = band_says(row, "mm").removesuffix(" mm").removeprefix("about ")
        (injury,) = row.assessment.injuries
        # of an upright hole in the center the margin is the half-width less half its size
        assert float(reached) == pytest.approx(injury.margin_mm + injury.facts.channel.stated / 2, abs=0.05)


def test_each_band_is_drawn_from_edge_to_edge_on_one_scale(compare):
    _, comparison = compare()
    bands = comparison.bands
    ink = drawn(bands)
    assert [ink("united_kingdom", s) for s in (-73.5, -70, 30, 70, 73.5)] == [False, True, True, True, False]
    assert [ink("european_makers", s) for s in (-65, -61, 61, 65)] == [False, True, True, False]
    between = [ink("australia", 59.6 + 0.4 * step) for step in range(58)]
    assert 15 < sum(between) < 50  # dashed: neither a line nor nothing
    assert not any(ink("north_america", 59.6 + 0.4 * step) for step in range(58))


def drawn(bands):
    """Whether the band of a rule set is drawn ``s`` mm across, by the color of the line in the middle of its lane."""
    image, accent = bands.grab().toImage(), QColor(THEMES["light"].accent)
    scale = image.devicePixelRatio()

    def ink(name: str, s: float) -> bool:
        across, lane = bands._across(bands.width()), rule_set_names().index(name)
        at = QPoint(round(across.x(s) * scale), round((bands._head + (lane + 0.5) * bands._lane) * scale))
        found = (image.pixelColor(at + QPoint(0, shift)) for shift in (-1, 0, 1))
        return any(abs(c.red() - accent.red()) + abs(c.blue() - accent.blue()) < 90 for c in found)

    return ink


def test_an_upright_hole_is_one_stripe_and_a_leaning_one_two():
    upright = compared(bench_job(crown_injury(across_mm=20.0)))[0]
    assert [(stripe.name, stripe.s) for stripe in stripes(upright)] == [("1", 20.0)]
    leaning = compared(bench_job(crown_injury(outside=from_center(40.0), lean_across=probed(30.0))))[0]
    outside, inside = stripes(leaning)
    assert (outside.name, inside.name, outside.s, inside.is_inside) == ("1 outside", "1 inside", 40.0, True)
    assert inside.s == leaning.assessment.injuries[0].inside > 40.0 + 5.0


def test_a_set_silent_about_the_class_and_a_tire_without_a_size_say_so(compare):
    van = compared(read_job(sample_jobs_folder() / "old_van_tire.json"))
    says = {row.rule_set.name: band_says(row, "mm") for row in van}
    assert says["european_makers"] == "no word on this class"
    _, comparison = compare(Job(rule_set="japan"))
    assert {cell(comparison, name, 1).text() for name in rule_set_names()} == {"Measure first"}
    assert "no band" in comparison.bands.accessibleDescription()
    assert comparison.bands.grab().toImage().size().isValid()


@pytest.mark.parametrize("density", ["desk", "bench"])
def test_every_control_is_large_enough_and_has_a_name(compare, density):
    window, comparison = compare(bench_job(crown_injury(), tire=measured_tire()))
    window.preferences.keep(density=density)
    for button in comparison.findChildren(QAbstractButton):
        if button.isVisible() and button.focusPolicy() != Qt.FocusPolicy.NoFocus:
            assert button.height() >= (40 if density == "bench" else 24), button.text()
            assert button.accessibleName() or button.text()
    for widget in (comparison.table, comparison.bands, comparison.details):
        assert widget.accessibleName()
    assert "United Kingdom: 71.8 mm" in comparison.bands.accessibleDescription()


def test_no_row_is_lower_than_its_words_and_nothing_runs_out_at_the_side(compare):
    _, comparison = compare(read_job(sample_jobs_folder() / "leaning_channel.json"))
    table = comparison.table
    for row in range(table.rowCount()):
        wide = table.columnWidth(2) - 8
        text = table.fontMetrics().boundingRect(0, 0, wide, 9999, Qt.TextFlag.TextWordWrap, table.item(row, 2).text())
        assert table.rowHeight(row) >= text.height()
    assert sum(table.columnWidth(column) for column in range(table.columnCount())) <= table.viewport().width()
