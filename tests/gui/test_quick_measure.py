"""Quick measure: from a fresh click to an answer with five entries and one tick, by key alone."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QLabel

from tiremap.geometry.section import draw_section
from tiremap.ui.next_sign import is_next
from tiremap.ui.quick_measure import NOT_NEEDED


def type_in(qtbot, widget, text):
    """Type into whatever has the focus, then Enter; fail where the focus is elsewhere."""
    assert widget.edit.hasFocus(), QApplication.focusWidget()
    qtbot.keyClicks(widget.edit, text)
    qtbot.keyClick(widget.edit, Qt.Key.Key_Return)


def on_the_section(drawing, across_mm):
    """The pixel of a place on the tread in the section."""
    QApplication.processEvents()
    canvas, place = drawing.canvas, draw_section(drawing.picture.assessment.section_inputs).outer_place(across_mm)
    x, y = canvas.axes_of("section").transData.transform(place)
    return QPoint(round(x), round(canvas.height() - y))


def click_the_tread(window, across_mm=10.0, around_rad=0.5):
    """What the drawing asks for at a click on free tread."""
    window.desk.drawing.injury_wanted.emit(across_mm, around_rad)


def test_a_fresh_click_to_an_answer_takes_five_entries_and_one_tick(qtbot, sized_window):
    quick = sized_window.desk.quick
    click_the_tread(sized_window)
    for field, text in (
        (quick.depth, "6"), (quick.width, "170"), (quick.edge, "75"), (quick.hole, "4 to 5"), (quick.probe, "upright"),
    ):
        assert sized_window.session.assessment.answer == "measure_first"
        type_in(qtbot, field, text)
    assert quick.nothing.hasFocus()
    qtbot.keyClick(quick.nothing, Qt.Key.Key_Space)
    assert sized_window.session.assessment.answer == "repairable"


def test_a_second_hole_takes_three_entries(qtbot, sized_window):
    quick = sized_window.desk.quick
    test_a_fresh_click_to_an_answer_takes_five_entries_and_one_tick(qtbot, sized_window)
    click_the_tread(sized_window, across_mm=-10.0, around_rad=3.5)
    for field, text in ((quick.edge, "75"), (quick.hole, "4 to 5"), (quick.probe, "upright")):
        assert sized_window.session.assessment.answer == "measure_first"
        type_in(qtbot, field, text)
    assert sized_window.session.assessment.answer == "repairable"
    assert [injury.outside.origin for injury in sized_window.session.job.injuries] == ["outboard_edge", "inboard_edge"]


def test_nothing_is_filled_in_at_a_fresh_mark(sized_window):
    click_the_tread(sized_window)
    assert [field.edit.text() for field in sized_window.desk.quick.fields.values()] == [""] * 5


def test_upright_is_one_key_and_answers_both_leans(qtbot, sized_window):
    quick = sized_window.desk.quick
    click_the_tread(sized_window)
    quick.probe.edit.setFocus()
    type_in(qtbot, quick.probe, "u")
    injury = sized_window.session.job.injuries[0]
    assert (injury.lean_across.value, injury.lean_around.value) == (0, 0)
    assert (injury.lean_across.how, injury.lean_around.how) == ("probe", "probe")


def test_enter_never_gives_the_tick(qtbot, sized_window):
    quick = sized_window.desk.quick
    click_the_tread(sized_window)
    quick.nothing.setFocus()
    qtbot.keyClick(quick.nothing, Qt.Key.Key_Return)
    assert sized_window.session.job.checks.inspected is None


def test_the_distance_from_the_edge_is_kept_as_it_was_taped(qtbot, sized_window):
    quick = sized_window.desk.quick
    click_the_tread(sized_window, across_mm=-40.0)
    quick.edge.edit.setFocus()
    type_in(qtbot, quick.edge, "1 3/8 in")
    outside = sized_window.session.job.injuries[0].outside
    assert (outside.value, outside.unit, outside.origin, outside.how) == (1.375, "in", "inboard_edge", "tape")


def test_two_gauges_are_the_ends_of_a_hole(qtbot, sized_window):
    quick = sized_window.desk.quick
    click_the_tread(sized_window)
    quick.hole.edit.setFocus()
    type_in(qtbot, quick.hole, "4 to 5")
    hole = sized_window.session.job.injuries[0].size_outside
    assert (hole.value, hole.stops, hole.how) == (4, 5, "gauge")


@pytest.mark.parametrize("text", ["banana", "-3", "1/0", "5 to 4"])
def test_bad_text_stays_and_changes_nothing(qtbot, sized_window, text):
    quick = sized_window.desk.quick
    click_the_tread(sized_window)
    before = sized_window.session.job
    quick.hole.edit.setFocus()
    type_in(qtbot, quick.hole, text)
    assert sized_window.session.job == before
    assert quick.hole.edit.text() == text
    assert quick.hole.error.isVisible() and quick.hole.error.text()
    assert quick.hole.edit.hasFocus()


def test_bad_text_is_still_there_after_another_field_was_entered(qtbot, sized_window):
    quick = sized_window.desk.quick
    click_the_tread(sized_window)
    quick.hole.edit.setFocus()
    type_in(qtbot, quick.hole, "banana")
    quick.depth.edit.setFocus()
    type_in(qtbot, quick.depth, "6")
    assert quick.hole.edit.text() == "banana"
    assert sized_window.session.job.tire.tread_depth.value == 6


def test_bad_text_of_one_injury_waits_while_another_is_chosen(qtbot, sized_window):
    quick = sized_window.desk.quick
    click_the_tread(sized_window)
    quick.hole.edit.setFocus()
    type_in(qtbot, quick.hole, "banana")
    click_the_tread(sized_window, across_mm=-10.0)
    assert quick.hole.edit.text() == "" and not quick.hole.edit.is_faulty
    sized_window.desk.choose("1")
    assert quick.hole.edit.text() == "banana" and quick.hole.error.isVisible()


def test_a_hole_far_past_the_shoulder_is_refused_at_once_and_asks_for_nothing(sized_window):
    click_the_tread(sized_window, across_mm=150.0)
    assert sized_window.session.assessment.answer == "not_repairable"
    assert sized_window.desk.quick.edge.edit.placeholderText() == NOT_NEEDED


def test_a_field_that_cannot_change_the_answer_is_grey_and_passed_over(qtbot, open_window):
    from tests.helpers.jobs import bench_job, crown_injury

    window = open_window(bench_job(crown_injury(across_mm=0)))
    tire = window.desk.quick.width
    window.desk.choose("1")
    window.desk.form.lengths["tread_width"].edit.setFocus()
    window.desk.form.lengths["tread_width"].edit.clear()
    qtbot.keyClick(window.desk.form.lengths["tread_width"].edit, Qt.Key.Key_Return)
    assert window.session.job.tire.tread_width is None
    assert window.session.assessment.answer == "repairable"  # from center under a share of the section width
    assert tire.edit.placeholderText() == NOT_NEEDED
    assert not window.desk.quick.is_needed(tire)
    assert tire.edit.fontMetrics().horizontalAdvance(NOT_NEEDED) + 12 <= tire.edit.width()  # its words are whole


def test_how_it_was_measured_can_be_changed_and_brings_its_tolerance(bench_window):
    bench_window.desk.choose("1")
    field = bench_window.desk.quick.depth
    assert field.how.currentText() == "gauge ±0.2"
    field.how.activated.emit(field.how.findData("rule"))
    assert bench_window.session.job.tire.tread_depth.how == "rule"
    assert field.how.currentText() == "rule ±1"
    assert bench_window.session.undo_name == "Tread depth"


def test_the_tread_depth_stays_needed_while_a_depth_at_a_place_is_asked_for(open_window):
    from tests.helpers.jobs import bench_job, crown_injury, gauged, measured_tire

    outer = measured_tire(tread_depth=None, tread_depth_outboard=gauged(5), tread_depth_inboard=gauged(5))
    window = open_window(bench_job(crown_injury(), rule_set="new_zealand", tire=outer))
    assert [each.field for each in window.session.assessment.needed] == ["tire.tread_depth_central"]
    window.desk.choose("1")
    assert window.desk.quick.is_needed(window.desk.quick.depth)


def test_enter_goes_where_the_sign_stands_also_to_a_place_clicked_on_the_section(qtbot, sized_window):
    desk = sized_window.desk
    qtbot.mouseClick(desk.drawing.canvas, Qt.MouseButton.LeftButton, pos=on_the_section(desk.drawing, 20))
    assert len(sized_window.session.job.injuries) == 1
    for name, text in (("depth", "5.2"), ("width", "168"), ("edge", "75"), ("hole", "4.5"), ("probe", "upright")):
        edit = getattr(desk.quick, name).edit
        assert edit.hasFocus() and is_next(edit), name
        qtbot.keyClicks(edit, text)
        qtbot.keyClick(edit, Qt.Key.Key_Return)
    assert sized_window.session.job.injuries[0].outside.value == 75


def test_each_field_of_the_row_has_its_caption(bench_window):
    labels = {each.buddy(): each.text() for each in bench_window.desk.quick.findChildren(QLabel) if each.isVisible()}
    assert [labels[field.edit] for field in bench_window.desk.quick.fields.values()] == [
        "Tread depth", "Tread width", "Distance from", "Hole", "Probe",
    ]
