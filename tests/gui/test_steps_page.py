"""The steps in the window: ticked by key and click, stops answered where they stand, waits that run on, one record."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QPushButton

from tests.helpers.jobs import bench_job, crown_injury, evenly_worn, gauged, measured_tire
from tests.helpers.widget_walk import faults
from tiremap.edits.steps import HOLE, LINER
from tiremap.ui import steps_page
from tiremap.ui.stop_form import StopForm

Key = Qt.Key
LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def window(open_window):
    """A window on a repairable job, its steps in sight."""
    window = open_window(bench_job(crown_injury(), tire=measured_tire(**evenly_worn(gauged(6.0)))))
    window.actions_.repair_work.trigger()
    return window


@pytest.fixture
def page(window):
    return window.desk.left.work.pages["steps"]


def done(window) -> list[str]:
    return [each.step for each in window.session.job.steps_done]


def tick_to(qtbot, page, stop: str) -> None:
    """Space after Space, the focus going on by itself, until that step is the one to do."""
    page.row(page.to_do.id).check.setFocus()
    for _ in range(30):
        if page.to_do.id == stop:
            return
        before = page.to_do.id
        qtbot.keyClick(QApplication.focusWidget(), Key.Key_Space)
        qtbot.waitUntil(lambda before=before: page.to_do.id != before)
        qtbot.waitUntil(lambda: _focus_is_on(page))
    raise AssertionError(stop)


def _focus_is_on(page) -> bool:
    row = page.row(page.to_do.id)
    return row.isAncestorOf(QApplication.focusWidget())


def choose(form: StopForm, **answers) -> None:
    for name, value in answers.items():
        box = form.choices[name.replace("_", " ")]
        box.setCurrentIndex(box.findData(value))


def form_of(page, stop: str) -> StopForm:
    return page.row(stop).findChild(StopForm)


def test_the_whole_list_is_done_by_key_with_both_stops_and_the_record(window, qtbot, page):
    tick_to(qtbot, page, HOLE)
    form = form_of(page, HOLE)
    qtbot.mouseClick(form.answer, LEFT)
    assert form.fault.isVisible() and "not answered yet" in form.fault.text()
    choose(form, cutter_1=5.0, cords_1=False)
    form.leans["across 1"].setText("4°")
    qtbot.mouseClick(form.answer, LEFT)
    [injury] = window.session.job.injuries
    assert (injury.size_prepared.mm, injury.lean_across.value, injury.cords_splayed) == (5.0, 4.0, False)
    tick_to(qtbot, page, LINER)
    form = form_of(page, LINER)
    choose(form, liner=True, cords=False)
    qtbot.mouseClick(form.answer, LEFT)
    tick_to(qtbot, page, "record")
    [button] = [each for each in page.row("record").findChildren(QPushButton) if "mended" in each.text()]
    qtbot.mouseClick(button, LEFT)
    job = window.session.job
    assert job.injuries == () and job.repairs[0].fitted.stem_mm == 5.0
    assert "record" in done(window) and page.to_do.id == "mount"
    window.actions_.undo.trigger()
    assert len(window.session.job.injuries) == 1 and "record" not in done(window)


def test_a_cutter_too_large_turns_the_answer_and_the_list_ends_with_why(window, qtbot, page):
    tick_to(qtbot, page, HOLE)
    choose(form_of(page, HOLE), cutter_1=8.0, cords_1=False)
    qtbot.mouseClick(form_of(page, HOLE).answer, LEFT)
    assert window.session.assessment.answer == "not_repairable"
    assert page.rows[-1].step.id == "refused" and "Not repairable" in window.desk.answer.word.text()
    window.actions_.undo.trigger()
    assert page.to_do.id == HOLE


def test_a_step_out_of_its_safe_order_is_told_and_not_ticked(window, qtbot, page):
    row = page.row("demount")
    qtbot.mouseClick(row.check, LEFT, pos=row.check.rect().center())
    assert page.fault.isVisible() and "Let all the air out" in page.fault.text()
    assert done(window) == [] and not page.row("demount").check.isChecked()
    row = page.row("find")
    qtbot.mouseClick(row.check, LEFT, pos=row.check.rect().center())
    assert done(window) == ["find"] and page.fault.isHidden()
    row = page.row("find")
    qtbot.mouseClick(row.check, LEFT, pos=row.check.rect().center())
    assert done(window) == []


def test_a_wait_counts_down_through_other_changes_and_says_when_it_is_over(window, qtbot, page, monkeypatch):
    moment = [1000.0]
    monkeypatch.setattr(steps_page.time, "monotonic", lambda: moment[0])
    qtbot.mouseClick(page.row("find").wait, LEFT)
    assert page.row("find").waits.text() == "15:00 left"
    moment[0] += 61
    page.row("find").check.setFocus()
    qtbot.keyClick(page.row("find").check, Key.Key_Space)
    window.desk.left.show_tire()
    window.desk.left.show_work()
    assert page.row("find").waits.text() == "13:59 left"
    moment[0] += 900
    qtbot.waitUntil(lambda: "over" in page.row("find").waits.text(), timeout=3000)


@pytest.mark.parametrize(("density", "least"), [("desk", 24), ("bench", 44)])
def test_every_control_of_the_steps_can_be_named_and_hit(window, qtbot, page, density, least):
    getattr(window.actions_, density).trigger()
    qtbot.waitUntil(lambda: faults(window, least) == [])  # layouts inside layouts settle in turns
    window.actions_.desk.trigger()


def test_f7_goes_to_the_work_and_back_and_a_reason_s_field_brings_the_form(window, qtbot):
    left = window.desk.left
    assert left.works and window.actions_.repair_work.isChecked()
    qtbot.keyClick(window, Key.Key_F7)
    assert not left.works and left.form.isVisible()
    qtbot.keyClick(window, Key.Key_F7)
    window.desk.focus_field("tire.tread_width")
    assert not left.works and not window.actions_.repair_work.isChecked()


def test_f7_puts_the_focus_on_the_step_to_do_and_gives_it_back(open_window, qtbot):
    window = open_window(bench_job(crown_injury(), tire=measured_tire(**evenly_worn(gauged(6.0)))))
    window.desk.choose("1")
    for field in (window.desk.quick.probe.edit, window.desk.form.rule_set):
        field.setFocus()
        chosen = window.session.job.rule_set
        qtbot.keyClick(field, Key.Key_F7)
        row = window.desk.left.work.pages["steps"].rows[len(done(window))]
        assert row.isAncestorOf(QApplication.focusWidget())
        ticked = len(done(window))
        qtbot.keyClick(QApplication.focusWidget(), Key.Key_Space)
        assert len(done(window)) == ticked + 1 and window.session.job.rule_set == chosen
        qtbot.waitUntil(lambda: window.desk.left.work.isAncestorOf(QApplication.focusWidget()))
        qtbot.keyClick(QApplication.focusWidget(), Key.Key_F7)
        assert field.hasFocus()


@pytest.mark.parametrize("name", ["dimensions", "leak", "refit"])
def test_every_page_of_the_repair_work_takes_the_focus(open_window, qtbot, name):
    window = open_window(bench_job(crown_injury()))
    field = window.desk.form.lengths["tread_depth"].edit
    qtbot.mouseClick(field, LEFT)
    getattr(window.actions_, name).trigger()
    assert window.desk.left.work.isAncestorOf(QApplication.focusWidget())
    qtbot.mouseClick(window.desk.left.to_tire, LEFT)
    assert field.hasFocus()
