"""A sample's whole job in one window, from a suspected leak to the repair on the map, with real clicks and keys."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton

from tests.helpers.widget_walk import faults
from tiremap.edits.steps import HOLE, LINER
from tiremap.resources import sample_jobs_folder
from tiremap.storage.job_file import read_job
from tiremap.storage.shop_stock import write_stock
from tiremap.ui import dialogs
from tiremap.ui.repair_work import PAGES
from tiremap.ui.stop_form import StopForm
from tiremap.workshop.stock import house_stock

LEFT = Qt.MouseButton.LeftButton
Key = Qt.Key


def click(qtbot, button) -> None:
    qtbot.waitUntil(button.isVisible)
    assert button.isEnabled()
    qtbot.mouseClick(button, LEFT)


def type_in(qtbot, field, text: str) -> None:
    field.setFocus()
    field.clear()
    qtbot.keyClicks(field, text)
    qtbot.keyClick(field, Key.Key_Return)


def tick_to(qtbot, page, stop: str) -> None:
    """Tick every step up to that one, as it comes."""
    while page.to_do.id != stop:
        before, row = page.to_do.id, page.row(page.to_do.id)
        qtbot.mouseClick(row.check, LEFT, pos=row.check.rect().center())
        assert page.to_do.id != before


def answer_stop(qtbot, page, stop: str, **answers) -> None:
    form = page.row(stop).findChild(StopForm)
    for name, value in answers.items():
        box = form.choices[name.replace("_", " ")]
        box.setCurrentIndex(box.findData(value))
    click(qtbot, form.answer)


def test_from_the_leak_to_the_record_and_the_saved_file(qtbot, open_window, monkeypatch, tmp_path):
    window = open_window(read_job(sample_jobs_folder() / "crown_hole.json"))
    monkeypatch.setattr(dialogs, "ask_where_to_save", lambda parent, suggested: tmp_path / "mended.json")
    qtbot.keyClick(window, Key.Key_F7)
    work = window.desk.left.work
    assert work.isVisible() and set(work.buttons) == set(PAGES)

    click(qtbot, work.buttons["leak"])
    leak = work.pages["leak"]
    readings = {"before": "33 psi", "after": "20 psi", "hours": "24", "before_temperature": "20 C",
                "after_temperature": "20 C"}
    for name, text in readings.items():
        type_in(qtbot, leak.fields[name], text)
    assert "leak" in leak.answer.text().casefold()
    assert window.session.job.leak_check.after.value == 20

    click(qtbot, work.buttons["dimensions"])
    assert work.shown == "dimensions"
    click(qtbot, work.buttons["steps"])
    steps = work.pages["steps"]
    tick_to(qtbot, steps, HOLE)
    answer_stop(qtbot, steps, HOLE, cutter_1=5.0, cords_1=False)
    tick_to(qtbot, steps, LINER)
    answer_stop(qtbot, steps, LINER, liner=True, cords=False)
    tick_to(qtbot, steps, "record")
    click(qtbot, next(each for each in steps.row("record").findChildren(QPushButton) if "mended" in each.text()))
    [repair] = window.session.job.repairs
    assert repair.fitted.stem_mm == 5.0 and repair.mended.id == "1" and window.session.job.injuries == ()

    click(qtbot, work.buttons["refit"])
    refit = work.pages["refit"]
    refit.nuts.setCurrentIndex(refit.nuts.findData(5))
    refit.nuts.activated.emit(refit.nuts.currentIndex())
    type_in(qtbot, refit.torque, "110 N.m")
    click(qtbot, refit.tightened)
    assert window.session.job.refit.torque.value == 110 and window.session.job.refit.tightened is not None

    click(qtbot, work.buttons["steps"])
    tick_to(qtbot, steps, "check_again")
    window.actions_.save.trigger()
    assert read_job(tmp_path / "mended.json") == window.session.job
    while window.actions_.undo.isEnabled():
        window.actions_.undo.trigger()
    assert window.session.job == read_job(sample_jobs_folder() / "crown_hole.json")


def test_every_page_of_the_work_can_be_named_hit_and_read_in_both_densities(qtbot, open_window):
    window = open_window(read_job(sample_jobs_folder() / "crown_hole.json"))
    for density, least in (("desk", 24), ("bench", 44)):
        getattr(window.actions_, density).trigger()
        for name in PAGES:
            getattr(window.actions_, name).trigger()
            assert window.desk.left.work.shown == name
            qtbot.waitUntil(lambda least=least: faults(window, least) == [])
            bar = window.desk.left.work.pages[name].horizontalScrollBar()
            assert bar.maximum() == 0
    window.actions_.desk.trigger()


def test_a_stock_kept_in_its_window_answers_the_open_job_at_once_and_a_template_is_written_from_the_menu(
    qtbot, open_window, monkeypatch, tmp_path
):
    window = open_window(read_job(sample_jobs_folder() / "crown_hole.json"))
    window.actions_.dimensions.trigger()
    write_stock(house_stock().model_copy(update={"units": house_stock().units[3:]}))
    qtbot.waitUntil(lambda: window.session.assessment.injuries[0].unit.stem_mm == 6.0, timeout=5000)
    window.actions_.stock.trigger()
    qtbot.waitUntil(window.stock.isActiveWindow)
    window.stock.close()
    target = tmp_path / "template.pdf"
    monkeypatch.setattr(dialogs, "ask_where_to_write_template", lambda parent, suggested: target)
    window.actions_.template.trigger()
    assert target.read_bytes().startswith(b"%PDF")
