"""The window as a whole: answer, reasons, looks, and the drawing's wishes."""

import subprocess
import sys

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLabel, QLineEdit

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, from_outboard_edge
from tiremap.storage.settings import read_settings
from tiremap.ui.answer_symbol import answer_icon
from tiremap.ui.mark_wishes import moved
from tiremap.ui.palettes import THEMES


def click_reason(window, code):
    """Click the reason of that code; fail where it does not stand in the list."""
    reasons = window.desk.reasons
    for row in range(reasons.list.count()):
        item = reasons.list.item(row)
        if item.data(Qt.ItemDataRole.UserRole).code == code:
            reasons.list.setCurrentItem(item)
            reasons.list.itemClicked.emit(item)
            return
    pytest.fail(f"no reason {code} in the list")


def test_the_answer_is_said_in_a_word_and_told_by_whom(bench_window):
    answer = bench_window.desk.answer
    assert answer.word.text() == "Repairable"
    assert answer.by.text() == "By: United Kingdom"
    assert answer.margin.text().startswith("Least margin: ")


def test_a_click_on_the_tread_places_an_injury_by_eye_and_opens_quick_measure(sized_window):
    sized_window.desk.drawing.injury_wanted.emit(-12.5, None)
    injury = sized_window.session.job.injuries[0]
    assert (injury.outside.value, injury.outside.origin, injury.outside.how) == (-12.5, "center", "eye")
    assert injury.around is None  # a click on the section does not say where around
    assert sized_window.desk.chosen == "1"
    assert sized_window.desk.quick.depth.edit.hasFocus()


def test_a_finished_drag_is_one_step_and_by_eye(bench_window):
    bench_window.desk.drawing.mark_moved.emit("1", 20.0, 1.0)
    outside = bench_window.session.job.injuries[0].outside
    assert (outside.value, outside.how) == (20.0, "eye")
    assert bench_window.session.undo_name == "Move injury 1"
    bench_window.session.undo()
    assert bench_window.session.job.injuries[0].outside.value == 0


def test_a_nudge_shifts_from_where_the_mark_lies(open_window):
    window = open_window(bench_job(crown_injury(outside=from_outboard_edge(75))))
    window.desk.drawing.mark_nudged.emit("1", 1.0, 0.0)
    assert window.session.job.injuries[0].outside.value == 170 / 2 - 75 + 1


def test_a_preview_during_a_drag_leaves_the_job_alone(bench_window):
    before = bench_window.session.job
    tried = bench_window.desk._preview("1", 80.0, None)
    assert tried.answer == "not_repairable"
    assert tried.job == moved(before, "1", 80.0, None)
    assert bench_window.session.job == before


def test_things_never_entered_are_one_line_in_bench_order(sized_window):
    sized_window.desk.drawing.injury_wanted.emit(10.0, 0.5)
    reasons = sized_window.desk.reasons
    assert "Still to measure (7)" in reasons.still.text()
    words = [each.words for each in sized_window.session.assessment.needed]
    places = [reasons.still.text().index(each) for each in (
        "the tread depth", "the tread width", "the size of injury 1", "the lean of injury 1 across",
    )]
    assert places == sorted(places) and len(words) == 7
    levels = [reasons.list.item(row).data(Qt.ItemDataRole.UserRole).level for row in range(reasons.list.count())]
    assert "measure" not in levels


def test_a_link_of_the_still_line_leads_to_its_field(sized_window):
    sized_window.desk.drawing.injury_wanted.emit(10.0, 0.5)
    desk = sized_window.desk
    desk.reasons.still.linkActivated.emit("injury.1.size_outside")
    assert desk.quick.hole.edit.hasFocus()
    desk.reasons.still.linkActivated.emit("tire.tread_width")
    assert desk.form.lengths["tread_width"].edit.hasFocus()
    desk.reasons.still.linkActivated.emit("checks.earlier_repairs")
    assert desk.form.checks.repairs.focusProxy().hasFocus()


def test_choosing_a_measure_reason_puts_the_focus_where_it_is_settled(open_window):
    window = open_window(bench_job(crown_injury(across_mm=69)))  # 71.75 less 2 and its tolerance of 2
    assert window.session.assessment.answer == "measure_first"
    click_reason(window, "place")
    assert window.desk.quick.edge.edit.hasFocus()
    assert window.desk.chosen == "1"


def test_the_chosen_reason_is_shown_on_the_drawing(bench_window, monkeypatch):
    shown = []
    monkeypatch.setattr(
        bench_window.desk.drawing, "show_assessment", lambda assessment, chosen, reason: shown.append(reason)
    )
    click_reason(bench_window, "place")
    assert shown[-1] == ("place", ("1",))


def test_a_reason_shows_its_figures_and_the_grade_of_its_source(bench_window):
    texts = [bench_window.desk.reasons.list.item(row).text() for row in range(bench_window.desk.reasons.list.count())]
    place = next(text for text in texts if "crown zone" in text)
    assert "limit 71.75 mm" in place  # 70 % of 205, halved
    assert "BS AU 159" in place and place.rstrip().endswith("]")


def test_the_cautions_are_always_in_sight(bench_window):
    assert bench_window.cautions.label.isVisible() and bench_window.cautions.label.text()
    assert any("eye protection" in each for each in bench_window.cautions.every)


@pytest.mark.parametrize("theme", sorted(THEMES))
def test_the_three_answers_are_told_apart_without_color(theme, qapp):
    pictures = []
    for answer in ("repairable", "measure_first", "not_repairable"):
        image = answer_icon(answer, THEMES[theme], 48).pixmap(48).toImage()
        pictures.append([image.pixelColor(x, y).alpha() > 128 and image.pixelColor(x, y).lightness() // 64
                         for x in range(0, 48, 2) for y in range(0, 48, 2)])
    for first, second in ((0, 1), (0, 2), (1, 2)):
        differing = sum(a != b for a, b in zip(pictures[first], pictures[second], strict=True))
        assert differing > len(pictures[0]) / 20


@pytest.mark.parametrize(("action", "theme"), [("dark", "dark"), ("projector", "projector"), ("light", "light")])
def test_a_theme_is_put_on_and_remembered(bench_window, action, theme):
    getattr(bench_window.actions_, action).trigger()
    assert bench_window.palette().window().color().name() == THEMES[theme].window
    assert read_settings()[0].theme == theme


def test_bench_density_makes_every_control_44_high_and_none_is_ever_under_24(bench_window):
    controls = [
        each for kind in (QComboBox, QAbstractButton) for each in bench_window.findChildren(kind)
        if each.isVisible() and each.parent() is not None and "qt_" not in each.objectName()
    ]
    assert min(each.height() for each in controls) >= 24
    bench_window.actions_.bench.trigger()
    bench_window.repaint()
    heights = {each.accessibleName() or each.text(): each.height() for each in controls if each.isVisible()}
    assert {name: height for name, height in heights.items() if height < 44} == {}
    bench_window.actions_.desk.trigger()


def test_links_to_what_is_still_to_measure_follow_the_theme_at_once(sized_window):
    still = sized_window.desk.reasons.still
    for theme in ("dark", "projector", "light"):
        getattr(sized_window.actions_, theme).trigger()
        image = still.grab().toImage()
        seen = {image.pixelColor(x, y).name() for x in range(image.width()) for y in range(image.height())}
        assert THEMES[theme].accent in seen
        assert not seen & {each.accent for name, each in THEMES.items() if name != theme}


@pytest.mark.parametrize(  # every two of theme, density and units together once
    ("theme", "density", "units"),
    [("light", "desk", "mm"), ("light", "bench", "in"), ("projector", "desk", "in"), ("projector", "bench", "mm")],
)
def test_nothing_is_cut_off_at_1280_by_800(open_window, theme, density, units):
    window = open_window(bench_job(crown_injury(outside=from_outboard_edge(75)), earlier_repair()))
    window.preferences.keep(theme=theme, density=density, units=units)
    window.desk.choose("1")
    QApplication.processEvents()
    assert (window.width(), window.height()) == (1280, 800)
    cut = [each.text() for each in _seen(window, QLabel) if not each.wordWrap() and _needs(each) > each.width()]
    cut += [each.text() for each in _seen(window, QAbstractButton) if each.sizeHint().width() > each.width()]
    cut += [each.text() for each in _seen(window, QLineEdit) if _needs(each) + 8 > each.width()]
    cut += [each.currentText() for each in _seen(window, QComboBox) if _needs(each) + 13 > each.width()]
    assert cut == []
    window.preferences.keep(theme="light", density="desk")


def _seen(window, kind):
    return [each for each in window.findChildren(kind) if each.isVisible() and "qt_" not in each.objectName()]


def _needs(widget):
    text = widget.currentText() if isinstance(widget, QComboBox) else widget.text()
    return widget.fontMetrics().horizontalAdvance(text)


def test_the_window_stands_before_the_drawing_is_loaded():
    """Importing the window must not import matplotlib, which takes half a second."""
    code = "import sys, tiremap.app; print('matplotlib' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "False\n"


def test_void_qt_calls_lose_no_reference(bench_window):
    """PySide 6.12.0 loses one reference to None in every such call, until the process dies."""
    before = sys.getrefcount(None)
    for _ in range(5000):
        bench_window.desk.answer.update()
    assert abs(sys.getrefcount(None) - before) < 100
