"""Weather cracks measured under their check, and what a hole is in its details."""

import pytest
from PySide6.QtCore import Qt

from tests.helpers.jobs import all_fine, bench_job, crown_injury, gauged, measured_tire
from tiremap.edits.change import changed
from tiremap.model.job import Finding


def retype(qtbot, edit, text):
    """Put other text in a line, with real keys."""
    edit.setFocus()
    edit.selectAll()
    qtbot.keyClick(edit, Qt.Key.Key_Delete)
    qtbot.keyClicks(edit, text)
    qtbot.keyClick(edit, Qt.Key.Key_Return)


def choose(box, value):
    """Choose the option of that value, as a click on it does."""
    box.setCurrentIndex(box.findData(value))
    box.activated.emit(box.currentIndex())


def window_with_cracks(open_window, **tire):
    checks = changed(all_fine(), cracks=Finding(state="found"))
    return open_window(bench_job(crown_injury(), checks=checks, tire=measured_tire(**tire)))


def test_depth_and_joined_up_are_asked_where_cracks_are_found_and_not_before(bench_window):
    checks = bench_window.desk.form.checks
    assert not checks.crack_details.isVisible()
    checks.singles["cracks"].buttons["found"].click()
    assert checks.crack_details.isVisible()
    assert bench_window.session.assessment.answer == "not_repairable"


def test_shallow_cracks_not_joined_up_are_entered_one_after_the_other_and_can_be_undone(qtbot, open_window):
    window = window_with_cracks(open_window)
    details = window.desk.form.checks.crack_details
    retype(qtbot, details.depth.edit, "1/32 in")
    taken = window.session.job.tire.crack_depth
    assert (taken.value, taken.unit, taken.how) == (1 / 32, "in", "gauge")
    assert [each.field for each in window.session.assessment.needed] == ["tire.cracks_joined"]
    choose(details.joined, False)
    assert window.session.job.tire.cracks_joined is False
    assert window.session.assessment.answer == "repairable"
    assert window.session.undo_name == "Cracks joined up"
    window.session.undo()
    assert details.joined.currentData() is None


def test_what_was_measured_of_cracks_stays_in_sight_though_the_check_says_fine(open_window):
    window = window_with_cracks(open_window, crack_depth=gauged(2.0))
    checks = window.desk.form.checks
    checks.singles["cracks"].buttons["fine"].click()
    assert checks.crack_details.isVisible()
    assert window.session.assessment.answer == "not_repairable"


@pytest.mark.parametrize("field", ["tire.crack_depth", "tire.cracks_joined"])
def test_a_reason_leads_to_the_cracks_and_brings_them_in_sight(open_window, qtbot, field):
    window = window_with_cracks(open_window, cracks_joined=False)
    qtbot.waitExposed(window)
    window.desk.focus_field(field)
    widget = window.desk.form.checks.crack_details.fields[field]
    assert window.focusWidget() in (widget, widget.focusProxy())
    assert not widget.visibleRegion().isEmpty()


def test_kind_object_and_cords_of_a_hole_are_entered_in_its_details(qtbot, bench_window):
    bench_window.desk.show_details("1")
    details = bench_window.desk._details
    choose(details.choices["kind"], "cut")
    retype(qtbot, details.texts["object"], "broken glass")
    choose(details.choices["cords_splayed"], True)
    hole = bench_window.session.job.injuries[0]
    assert (hole.kind, hole.object, hole.cords_splayed) == ("cut", "broken glass", True)
    assert bench_window.session.assessment.answer == "not_repairable"
    retype(qtbot, details.texts["object"], "")
    choose(details.choices["cords_splayed"], None)
    hole = bench_window.session.job.injuries[0]
    assert (hole.object, hole.cords_splayed) == ("", None)


def test_the_details_of_a_hole_show_every_choice_whole(open_window):
    window = open_window(bench_job(crown_injury(kind="puncture", object="nail", cords_splayed=False)))
    window.desk.show_details("1")
    details = window.desk._details
    assert details.height() <= 800
    for box in details.choices.values():
        assert box.accessibleName()
        words = [box.fontMetrics().horizontalAdvance(box.itemText(row)) for row in range(box.count())]
        assert max(words) + 30 < box.width()
