"""The tire form: nothing is taken that cannot be read, nothing typed is lost, nothing is a silent default."""

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QAbstractButton, QAbstractItemView, QApplication, QComboBox, QLineEdit

from tiremap.storage.settings import read_settings
from tiremap.ui.check_list import WHAT_IT_MEANS


def retype(qtbot, edit, text, leave=Qt.Key.Key_Return):
    """Put other text in a line, with real keys."""
    edit.setFocus()
    edit.selectAll()
    qtbot.keyClick(edit, Qt.Key.Key_Delete)
    qtbot.keyClicks(edit, text)
    qtbot.keyClick(edit, leave)


def test_a_size_code_is_understood_while_it_is_typed(qtbot, window):
    size = window.desk.form.size
    size.code.setFocus()
    qtbot.keyClicks(size.code, "205/")
    assert size.says.text() == "205 mm wide; next: the aspect ratio, such as 55"
    assert not size.code.is_faulty
    qtbot.keyClicks(size.code, "55R16 91V")
    assert "load 91 = 615 kg" in size.says.text() and "speed V = 240 km/h" in size.says.text()
    assert window.session.job.tire.size_code is None  # not before the field is left
    qtbot.keyClick(size.code, Qt.Key.Key_Tab)
    assert window.session.job.tire.size_code == "205/55R16 91V"


def test_a_wrong_size_code_stays_with_its_sentence_and_changes_nothing(qtbot, sized_window):
    size = sized_window.desk.form.size
    retype(qtbot, size.code, "205/55Q16")
    assert sized_window.session.job.tire.size_code == "205/55R16 91V"
    assert size.code.text() == "205/55Q16"
    assert size.code.is_faulty and "character" in size.says.text()
    retype(qtbot, sized_window.desk.form.lengths["tread_depth"].edit, "6")
    assert size.code.text() == "205/55Q16"  # another field changed the job: still here


def test_a_size_of_another_family_offers_its_dimensions(qtbot, window):
    size = window.desk.form.size
    retype(qtbot, size.code, "11R22.5")
    assert size.dimensions.isVisible()
    for name, text in (
        ("overall_diameter_mm", "1054"), ("section_width_mm", "11 in"), ("rim_diameter_mm", "572"),
        ("rim_width_in", "8.25"),
    ):
        retype(qtbot, size.dimension_edits[name], text, leave=Qt.Key.Key_Tab)
    typed = window.session.job.tire.typed_dimensions
    assert window.session.job.tire.size_code is None or typed is not None
    assert (typed.overall_diameter_mm, typed.rim_width_in) == (1054, 8.25)
    assert typed.section_width_mm == pytest.approx(11 * 25.4)


def test_a_rim_that_may_not_suit_is_warned_of(qtbot, sized_window):
    retype(qtbot, sized_window.desk.form.rim, "9")
    assert sized_window.session.job.tire.rim_width_in == 9
    assert "wider than approved" in sized_window.desk.form.rim_says.text()


def test_no_guidance_is_a_silent_default(open_window):
    from tiremap.model.job import Job

    window = open_window(Job())
    assert window.desk.form.rule_set.currentIndex() == -1
    assert window.desk.form.ask.isVisible()
    assert read_settings()[0].rule_set is None


def test_guidance_once_chosen_is_taken_for_new_jobs_and_changes_no_other(window):
    box = window.desk.form.rule_set
    box.activated.emit(box.findData("north_america"))
    assert window.session.job.rule_set == "north_america"
    assert read_settings()[0].rule_set == "north_america"
    window.files.new()
    assert window.session.job.rule_set == "north_america" and not window.session.unsaved


def test_a_turning_wheel_answers_no_check(sized_window):
    box = sized_window.desk.form.checks.crack_details.joined
    before = sized_window.session.job
    where = QPointF(box.rect().center())
    QApplication.sendEvent(box, QWheelEvent(
        where, box.mapToGlobal(where), QPoint(0, -120), QPoint(0, -120), Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier, Qt.ScrollPhase.NoScrollPhase, False,
    ))
    assert sized_window.session.job == before


def test_nothing_found_answers_the_open_checks_and_keeps_single_findings(sized_window):
    checks = sized_window.desk.form.checks
    checks.inspected.buttons["found"].click()
    checks.nothing.click()
    inspected, repairs = sized_window.session.job.checks.inspected, sized_window.session.job.checks.earlier_repairs
    assert (inspected.state, inspected.together) == ("found", False)
    assert (repairs.state, repairs.together) == ("none", True)
    assert not checks.nothing.isChecked()  # damage was found: the tick would say the opposite
    assert len(WHAT_IT_MEANS) == 3


def test_taking_the_tick_off_takes_back_what_it_answered(sized_window):
    checks = sized_window.desk.form.checks
    checks.nothing.click()
    assert checks.nothing.isChecked()
    checks.nothing.click()
    assert sized_window.session.job.checks.inspected is None
    assert sized_window.session.job.checks.earlier_repairs is None


def test_the_unit_switch_converts_what_is_shown_and_not_what_is_stored(bench_window):
    before = bench_window.session.job
    bench_window.actions_.inches.trigger()
    field = bench_window.desk.form.lengths["tread_width"]
    assert field.edit.text() == "6.693 in"  # 170 / 25.4
    assert field.how.currentText() == "tape ±.079"
    field.edit.setFocus()
    field.commit()
    assert bench_window.session.job == before
    bench_window.actions_.millimeters.trigger()
    assert field.edit.text() == "170 mm"


def test_a_number_without_unit_is_in_the_unit_on_show(qtbot, bench_window):
    bench_window.actions_.inches.trigger()
    retype(qtbot, bench_window.desk.form.lengths["tread_width"].edit, "6 3/4")
    taken = bench_window.session.job.tire.tread_width
    assert (taken.value, taken.unit) == (6.75, "in")


def test_a_figure_of_the_maker_is_taken_only_with_its_source(qtbot, bench_window):
    word = bench_window.desk.form.maker_word
    bench_window.desk.form.more.setChecked(True)
    retype(qtbot, word.figures["zone_inset"], "30")
    assert bench_window.session.job.tire.maker_word is None
    assert "needs its source" in word.fault.text()
    retype(qtbot, word.source, "bulletin 12, March 2024")
    assert bench_window.session.job.tire.maker_word.zone_inset.value == 30


def test_everything_one_can_use_has_a_name(bench_window):
    bench_window.desk.choose("1")
    nameless = [
        each for each in _controls(bench_window)
        if each.isVisible() and not (each.accessibleName() or getattr(each, "text", str)())
    ]
    assert nameless == []


def _controls(window):
    kinds = (QLineEdit, QComboBox, QAbstractButton)
    inner = (QAbstractItemView, QComboBox)  # parts Qt makes for itself
    return [each for kind in kinds for each in window.findChildren(kind) if not isinstance(each.parent(), inner)]


def test_depth_at_a_place_and_the_groove_distance_are_entered_under_more_about_the_tire(qtbot, sized_window):
    form = sized_window.desk.form
    form.more.click()
    for name, words, text in (
        ("tread_depth_outboard", "Depth outboard", "2"), ("tread_depth_central", "Depth central", "6/32 in"),
        ("tread_depth_inboard", "Depth inboard", "3"), ("between_outer_grooves", "Between grooves", "118"),
    ):
        edit = form.lengths[name].edit
        assert edit.accessibleName() == words
        retype(qtbot, edit, text)
    tire = sized_window.session.job.tire
    assert (tire.tread_depth_outboard.mm, tire.tread_depth_inboard.mm) == (2, 3)
    assert tire.tread_depth_central.mm == pytest.approx(6 / 32 * 25.4)
    assert (tire.between_outer_grooves.mm, tire.tread_depth) == (118, None)
