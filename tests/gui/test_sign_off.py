"""Signing off in the window: by mouse alone, by keyboard alone, and against the answer only when asked once more."""

from datetime import datetime

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QPushButton, QRadioButton

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.edits.injuries import move_injury
from tiremap.storage.job_file import read_job
from tiremap.ui.sign_off import SignOff

LEFT = Qt.MouseButton.LeftButton


def sign_off(window, qtbot) -> SignOff:
    """The open sign-off."""
    qtbot.waitUntil(lambda: any(each.isVisible() for each in window.findChildren(SignOff)))
    form = next(each for each in window.findChildren(SignOff) if each.isVisible())
    qtbot.waitUntil(form.isActiveWindow)
    return form


def click(widget, qtbot) -> None:
    """A click where a person would: on a radio button's own words."""
    at = widget.rect().center()
    if isinstance(widget, QRadioButton):
        at.setX(12)
    qtbot.mouseClick(widget, LEFT, pos=at)


def test_a_decision_is_signed_by_mouse_kept_through_undo_once_saved_and_stays_when_the_answer_changes(
    bench_window, qtbot, tmp_path
):
    window, session = bench_window, bench_window.session
    click(window.desk.answer.sign, qtbot)
    form = sign_off(window, qtbot)
    assert form.chosen is None  # nothing is decided beforehand
    assert form.date.text()[:10] == f"{datetime.now():%Y-%m-%d}"
    click(form.record, qtbot)
    assert "Choose" in form.fault.text() and not session.job.decisions
    click(form.choices["repair"], qtbot)
    click(form.record, qtbot)
    assert "initials" in form.fault.text() and form.sign.hasFocus()
    form.sign.setText("12")
    click(form.record, qtbot)
    [signed] = session.job.decisions
    assert (signed.decision, signed.by, signed.rule_set, signed.answer) == (
        "repair", "12", "united_kingdom", "repairable"
    )
    assert signed.date.tzinfo is not None
    assert "Repair, by 12" in window.desk.answer.decided.text()
    assert window.desk.answer.overtaken.isHidden()

    window.actions_.undo.trigger()
    assert not session.job.decisions  # not saved yet: undone as any edit
    window.actions_.redo.trigger()
    session.saved(tmp_path / "job.json")
    assert not window.actions_.undo.isEnabled()

    session.apply("Move", move_injury(session.job, "1", across_mm=80.0))
    assert "changed since it was signed: it was Repairable" in window.desk.answer.overtaken.text()
    window.actions_.undo.trigger()
    assert session.job.decisions == (signed,)
    assert window.desk.answer.overtaken.isHidden()


def test_by_keyboard_alone_a_repair_against_the_answer_is_asked_about_once_more_and_kept_as_such(
    open_window, qtbot, tmp_path
):
    window = open_window(bench_job(crown_injury("1", 80.0)))
    qtbot.keyClick(window, Qt.Key.Key_D, Qt.KeyboardModifier.ControlModifier)
    form = sign_off(window, qtbot)

    def key(key: Qt.Key) -> None:
        qtbot.keyClick(QApplication.focusWidget(), key)

    assert form.choices["repair"].hasFocus()
    key(Qt.Key.Key_Space)
    key(Qt.Key.Key_Tab)
    qtbot.keyClicks(QApplication.focusWidget(), "KM")
    key(Qt.Key.Key_Tab)
    qtbot.keyClicks(QApplication.focusWidget(), "customer insists")
    key(Qt.Key.Key_Return)
    assert form.asked.isVisible() and form.back.hasFocus() and not window.session.job.decisions
    assert "Not repairable" in form.asked_words.text()
    key(Qt.Key.Key_Return)  # the way back is the one at hand
    assert not form.asked.isVisible() and not window.session.job.decisions
    for _ in range(3):
        key(Qt.Key.Key_Tab)
    assert form.record.hasFocus()
    key(Qt.Key.Key_Return)
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Backtab)
    assert form.against.hasFocus()
    key(Qt.Key.Key_Space)
    [signed] = window.session.job.decisions
    assert signed.against_answer and (signed.by, signed.note) == ("KM", "customer insists")
    assert "AGAINST THE ANSWER" in window.desk.answer.decided.text()

    window.session.saved(tmp_path / "job.json")
    window.desk.record_decision()
    form = sign_off(window, qtbot)
    assert form.earlier.count() == 1 and "AGAINST THE ANSWER" in form.earlier.item(0).text()
    assert not form.earlier.item(0).flags() & Qt.ItemFlag.ItemIsEditable
    named = [each for kind in (QPushButton, QRadioButton, QLineEdit) for each in form.findChildren(kind)]
    for widget in named:
        if widget.isVisible():
            assert (widget.accessibleName() or widget.text()) and min(widget.width(), widget.height()) >= 24
    assert all(label.width() >= label.minimumSizeHint().width() for label in form.findChildren(QLabel))
    form.reject()


def test_measure_first_is_against_a_repair_too(sized_window, qtbot, tmp_path):
    window = sized_window
    window.desk.record_decision()
    form = sign_off(window, qtbot)
    assert form.answer.text() == "Measure first"
    click(form.choices["repair"], qtbot)
    form.sign.setText("12")
    click(form.record, qtbot)
    assert form.asked.isVisible()
    click(form.back, qtbot)
    click(form.choices["measure"], qtbot)
    click(form.record, qtbot)
    assert [each.against_answer for each in window.session.job.decisions] == [False]
    assert window.files._write(tmp_path / "job.json")
    assert read_job(tmp_path / "job.json").decisions == window.session.job.decisions
