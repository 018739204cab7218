"""The marks table: the drawing's twin, with a typed equal for every drag."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QApplication, QDialog, QLineEdit

from tests.helpers.jobs import all_fine, bench_job, crown_injury, earlier_repair
from tiremap.model.job import Finding
from tiremap.resources import sample_jobs_folder
from tiremap.storage.job_file import read_job
from tiremap.ui.marks_columns import COLUMNS

TITLES = [column.title for column in COLUMNS]


def cell(window, row, title):
    """The index of a cell by its row and column title."""
    return window.desk.table.model.index(row, TITLES.index(title))


def edit_cell(qtbot, window, row, title, text):
    """Open a cell with Enter, replace its text, and press Enter again."""
    view = window.desk.table.view
    view.setFocus()
    view.setCurrentIndex(cell(window, row, title))
    qtbot.keyClick(view, Qt.Key.Key_Return)
    editor = QApplication.focusWidget()
    assert isinstance(editor, QLineEdit)
    editor.selectAll()
    qtbot.keyClicks(editor, text)
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    QApplication.processEvents()  # the view takes over the text a moment later


def text_of(window, row, title):
    return cell(window, row, title).data()


def test_every_injury_and_repair_has_a_row(open_window):
    window = open_window(bench_job(crown_injury(), earlier_repair()))
    assert [text_of(window, row, "Mark") for row in range(2)] == ["1", "R1"]
    assert text_of(window, 0, "Answer") == "Repairable"
    assert text_of(window, 1, "Answer") == "earlier repair"
    assert text_of(window, 1, "Reamed / head") == "40 mm"


def test_a_hole_that_passes_is_not_told_as_repairable_in_a_tire_that_is_refused(open_window):
    refused = all_fine().model_copy(update={"inspected": Finding(state="found")})
    window = open_window(bench_job(crown_injury(), checks=refused))
    assert text_of(window, 0, "Answer") == "Not repairable"
    told = cell(window, 0, "Answer").data(Qt.ItemDataRole.ToolTipRole)
    assert told == "Not repairable (its own checks pass)"
    assert cell(window, 0, "Answer").data(Qt.ItemDataRole.AccessibleTextRole) == f"injury 1, Answer: {told}"
    window.desk.choose("1")
    assert window.desk.answer.margin.text().startswith("Injury 1: its own checks pass, margin ")


def test_a_cell_is_edited_with_enter_and_keeps_edge_and_unit(qtbot, bench_window):
    edit_cell(qtbot, bench_window, 0, "Across", "2 3/4 in from outboard edge")
    outside = bench_window.session.job.injuries[0].outside
    assert (outside.value, outside.unit, outside.origin) == (2.75, "in", "outboard_edge")
    edit_cell(qtbot, bench_window, 0, "Across", "80")
    assert bench_window.session.job.injuries[0].outside.origin == "outboard_edge"


def test_around_is_read_as_degrees_tape_or_clock(qtbot, bench_window):
    for text, unit, how in (("90", "deg", "protractor"), ("400 mm", "mm", "tape"), ("3:30", "h", "clock")):
        edit_cell(qtbot, bench_window, 0, "Around", text)
        around = bench_window.session.job.injuries[0].around
        assert (around.unit, around.how) == (unit, how)
    assert text_of(bench_window, 0, "Around") == "3:30"


def test_bad_text_stays_in_its_cell_and_changes_nothing(qtbot, bench_window):
    before = bench_window.session.job
    edit_cell(qtbot, bench_window, 0, "Size", "banana")
    assert bench_window.session.job == before
    assert text_of(bench_window, 0, "Size") == "! banana"
    assert cell(bench_window, 0, "Size").data(Qt.ItemDataRole.EditRole) == "banana"
    assert "banana" in bench_window.desk.table.fault.text()
    edit_cell(qtbot, bench_window, 0, "Size", "3")
    assert text_of(bench_window, 0, "Size") == "3 mm"
    assert not bench_window.desk.table.fault.isVisible()


def test_the_reamed_size_makes_the_hole_larger(qtbot, bench_window):
    edit_cell(qtbot, bench_window, 0, "Reamed / head", "8")
    assert bench_window.session.job.injuries[0].size_prepared.value == 8
    assert bench_window.session.assessment.answer == "not_repairable"  # 6 mm is the limit here


def test_a_place_by_eye_shows_as_such_until_it_is_taken_as_taped(sized_window):
    sized_window.desk.drawing.injury_wanted.emit(10.0, 0.5)
    assert text_of(sized_window, 0, "Across") == "≈ 10 mm center"
    sized_window.desk.table.confirm.click()
    assert text_of(sized_window, 0, "Across") == "10 mm center"
    assert sized_window.session.job.injuries[0].outside.how == "tape"
    assert not sized_window.desk.table.confirm.isEnabled()


def test_leaving_a_place_by_eye_unchanged_does_not_make_it_measured(qtbot, sized_window):
    sized_window.desk.drawing.injury_wanted.emit(10.0, 0.5)
    before = sized_window.session.job
    view = sized_window.desk.table.view
    view.setFocus()
    view.setCurrentIndex(cell(sized_window, 0, "Across"))
    qtbot.keyClick(view, Qt.Key.Key_Return)
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)
    QApplication.processEvents()
    assert sized_window.session.job == before


def test_delete_in_the_table_removes_the_mark(qtbot, bench_window):
    bench_window.desk.choose("1")
    bench_window.desk.table.view.setFocus()
    qtbot.keyClick(bench_window.desk.table.view, Qt.Key.Key_Delete)
    assert bench_window.session.job.injuries == ()
    assert bench_window.session.undo_name == "Remove injury 1"


def test_choosing_a_row_chooses_the_mark_everywhere(open_window):
    window = open_window(bench_job(crown_injury(), crown_injury("2", across_mm=-60, around_deg=90)))
    window.desk.table.view.setCurrentIndex(cell(window, 1, "Mark"))
    assert window.desk.chosen == "2"
    assert window.desk.quick.title.text() == "Quick measure: injury 2"
    window.desk.drawing.mark_chosen.emit("1")
    assert window.desk.table.current_id == "1"


def test_details_hold_what_the_table_has_no_room_for(qtbot, open_window):
    window = open_window(bench_job(crown_injury(), earlier_repair()))
    window.desk.show_details("R1")
    details = window.desk._details
    box = details.choices["kind"]
    box.activated.emit(box.findData("plug_only"))
    inside = details.fields["inside"]
    inside.edit.setFocus()
    inside.edit.selectAll()
    qtbot.keyClicks(inside.edit, "118 and 122")
    qtbot.keyClick(inside.edit, Qt.Key.Key_Return)
    repair = window.session.job.repairs[0]
    assert repair.kind == "plug_only"
    assert (repair.inside.from_outboard, repair.inside.from_inboard) == (118, 122)
    details.close()


def test_a_margin_that_passes_is_not_told_of_a_hole_its_neighbor_refuses(open_window):
    """The sample's two heads overlap; each hole by itself lies well inside the crown zone."""
    window = open_window(read_job(sample_jobs_folder() / "two_heads.json"))
    window.desk.choose("1")
    assert window.desk.answer.margin.text() == "Injury 1: Not repairable"
    window = open_window(bench_job(crown_injury("1", across_mm=80.0)))
    window.desk.choose("1")
    assert window.desk.answer.margin.text().startswith("Injury 1: Not repairable, margin −")


def test_a_cutter_is_exact_as_it_is_typed_and_says_so(qtbot, open_window):
    window = open_window(bench_job(crown_injury()))
    window.desk.show_details("1")
    reamed = window.desk._details.fields["size_prepared"]
    assert reamed.how.currentText() == "exact"
    reamed.edit.setFocus()
    qtbot.keyClicks(reamed.edit, "5")
    qtbot.keyClick(reamed.edit, Qt.Key.Key_Return)
    cutter = window.session.job.injuries[0].size_prepared
    assert (cutter.value, cutter.how, cutter.plus) == (5.0, "exact", None)
    assert window.session.assessment.injuries[0].facts.channel.high == 5.0
    window.desk._details.close()


def test_a_fresh_injury_in_the_table_knows_nothing(bench_window):
    bench_window.desk.table.add_injury.click()
    injury = bench_window.session.job.injuries[1]
    assert (injury.outside, injury.around, injury.size_outside, injury.lean_across) == (None, None, None, None)
    assert bench_window.desk.chosen == "2"


def test_a_cell_asked_for_twice_from_another_window_is_opened_once(open_window, qtbot):
    window = open_window(bench_job(crown_injury(), earlier_repair()))
    table, other = window.desk.table, QDialog(window)
    other.show()
    other.activateWindow()
    qtbot.waitUntil(other.isActiveWindow)
    for _ in range(2):  # Qt would warn the second time
        assert table.edit_field("R1", "around")
        assert table.view.state() == QAbstractItemView.State.EditingState


@pytest.mark.parametrize("make", ["add_injury", "add_repair"])
def test_a_mark_that_is_made_is_shown_once_and_chosen_already(bench_window, monkeypatch, make):
    desk, shown = bench_window.desk, []
    desk.choose("1")
    show = desk.table.show_assessment

    def noted(assessment, chosen, *more):
        shown.append(chosen)
        show(assessment, chosen, *more)

    monkeypatch.setattr(desk.table, "show_assessment", noted)
    getattr(desk, make)()
    made = {"add_injury": "2", "add_repair": "R1"}[make]
    assert desk.chosen == made and set(shown) == {made} and len(shown) == 1
    bench_window.session.undo()
    assert desk.chosen is None
    bench_window.session.redo()  # brought back, not made: nothing is chosen by it
    assert desk.chosen is None


def test_a_field_that_shows_the_same_keeps_the_place_one_types_at(bench_window):
    edit = bench_window.desk.form.lengths["tread_width"].edit
    text = edit.text()
    edit.setCursorPosition(2)
    bench_window.desk.add_injury()
    assert (edit.text(), edit.cursorPosition()) == (text, 2)
