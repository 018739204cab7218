"""Undo goes back to the identical job, says what it undoes, and works from within a field."""

from PySide6.QtCore import Qt


def test_undo_and_redo_carry_their_names(sized_window):
    a = sized_window.actions_
    assert not a.undo.isEnabled()
    sized_window.desk.drawing.injury_wanted.emit(10.0, 0.5)
    assert a.undo.text() == "&Undo Place injury"
    a.undo.trigger()
    assert sized_window.session.job.injuries == ()
    assert a.redo.text() == "&Redo Place injury"
    a.redo.trigger()
    assert len(sized_window.session.job.injuries) == 1


def test_the_key_for_undo_works_while_a_field_has_the_focus(qtbot, sized_window):
    depth = sized_window.desk.form.lengths["tread_depth"].edit
    depth.setFocus()
    qtbot.keyClicks(depth, "6")
    qtbot.keyClick(depth, Qt.Key.Key_Return)
    assert sized_window.session.job.tire.tread_depth.value == 6
    qtbot.keyClick(depth, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert sized_window.session.job.tire.tread_depth is None
    assert depth.text() == ""


def test_what_is_being_typed_is_undone_first(qtbot, sized_window):
    form = sized_window.desk.form
    width = form.lengths["tread_width"].edit
    width.setFocus()
    qtbot.keyClicks(width, "170")
    qtbot.keyClick(width, Qt.Key.Key_Return)
    depth = form.lengths["tread_depth"].edit
    depth.setFocus()
    qtbot.keyClicks(depth, "6")
    qtbot.keyClick(depth, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert depth.text() == ""
    assert sized_window.session.job.tire.tread_width.value == 170


def test_undoing_back_to_the_saved_job_counts_as_saved(sized_window):
    assert not sized_window.isWindowModified()
    sized_window.desk.drawing.injury_wanted.emit(10.0, 0.5)
    assert sized_window.isWindowModified()
    sized_window.actions_.undo.trigger()
    assert not sized_window.isWindowModified()


def test_a_mark_that_is_undone_is_not_chosen_any_more(sized_window):
    sized_window.desk.drawing.injury_wanted.emit(10.0, 0.5)
    sized_window.actions_.undo.trigger()
    assert sized_window.desk.chosen is None
    assert sized_window.desk.quick.title.text() == "Quick measure"
