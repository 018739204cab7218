"""The refit page by itself: fields as typed, the order as a picture, a tightening kept and taken back."""

import pytest
from PySide6.QtCore import Qt

from tests.helpers.jobs import bench_job, crown_injury
from tests.helpers.widget_walk import faults
from tiremap.edits.refit import set_refit
from tiremap.model.after_repair import Torque
from tiremap.session import Session
from tiremap.ui.editor import Editor
from tiremap.ui.palettes import dress
from tiremap.ui.preferences import Preferences
from tiremap.ui.refit_page import RefitPage

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def page(qtbot, qapp):
    """The page on a tire with one hole, as narrow as its column; it follows every change."""
    qapp.setStyle("Fusion")
    session = Session(bench_job(crown_injury(across_mm=40.0)))
    page = RefitPage(Editor(session, lambda text: None), Preferences())
    qtbot.addWidget(page)
    dress(page, "light", "desk")
    session.listen(lambda: page.show_assessment(session.assessment))
    page.session = session
    page.resize(274, 640)
    page.show_assessment(session.assessment)
    page.show()
    return page


def type_in(qtbot, field, text: str) -> None:
    field.clear()
    qtbot.keyClicks(field, text)
    qtbot.keyClick(field, Qt.Key.Key_Return)


def choose(box, value) -> None:
    box.setCurrentIndex(box.findData(value))
    box.activated.emit(box.currentIndex())


def test_a_torque_is_kept_as_typed_with_its_unit_written_or_chosen(page, qtbot):
    type_in(qtbot, page.torque, "80 ft-lb")
    assert page.session.job.refit.torque == Torque(value=80.0, unit="ft-lb")
    assert page.unit.currentData() == "ft-lb" and "108 N.m (80 ft-lb)" in page.torque_says.text()
    choose(page.unit, "N.m")
    assert page.session.job.refit.torque == Torque(value=80.0, unit="N.m")
    page.session.undo()
    assert page.torque.text() == "80" and page.unit.currentData() == "ft-lb"


def test_a_number_without_a_unit_waits_for_one_and_nothing_is_guessed(page, qtbot):
    type_in(qtbot, page.torque, "110")
    assert page.session.job.refit is None and "which unit" in page.faults["torque"].text()
    choose(page.unit, "N.m")
    assert page.session.job.refit.torque == Torque(value=110.0, unit="N.m") and page.faults["torque"].isHidden()


def test_a_thread_that_cannot_be_read_stays_with_its_reason_and_the_job_is_left_alone(page, qtbot):
    type_in(qtbot, page.thread_, "12 mm")
    assert page.thread_.text() == "12 mm" and page.thread_.is_faulty and "M12x1.5" in page.faults["thread"].text()
    assert page.session.job.refit is None
    type_in(qtbot, page.thread_, "m12 x 1,5")
    assert page.session.job.refit.thread == page.thread_.text() == "M12x1.5"
    assert "not a setting" in page.torque_says.text() and "135 N.m" in page.cautions.text()


def test_what_was_typed_and_not_taken_does_not_go_over_into_another_job(page, qtbot, tmp_path):
    type_in(qtbot, page.torque, "110")
    page.session.apply("note", page.session.job.model_copy(update={"note": "x"}))
    page.session.saved(tmp_path / "one.json")
    assert page.torque.text() == "110" and page.torque.is_faulty
    page.session.load(bench_job(crown_injury()), tmp_path / "other.json")
    assert page.torque.text() == "" and not page.torque.is_faulty


def test_the_order_is_told_and_drawn_once_the_nuts_are_counted(page):
    assert page.picture.isHidden() and "how many nuts" in page.order.text()
    blank = page.picture.grab().toImage()
    choose(page.nuts, 5)
    assert page.order.text() == "1 – 3 – 5 – 2 – 4" and page.picture.accessibleDescription().startswith("1, then 3")
    five = page.picture.grab().toImage()
    choose(page.nuts, 6)
    assert blank != five != page.picture.grab().toImage()


def test_tightened_is_kept_with_its_time_asks_for_the_figure_first_and_can_be_taken_back(page, qtbot):
    qtbot.mouseClick(page.tightened, LEFT)
    assert "Enter the number of nuts" in page.faults["tighten"].text() and page.session.job.refit is None
    choose(page.nuts, 5)
    type_in(qtbot, page.torque, "110 N.m")
    qtbot.mouseClick(page.tightened, LEFT)
    assert page.session.job.refit.tightened is not None and page.faults["tighten"].isHidden()
    assert "80 to 160 km" in page.when.text() and page.tightened.isHidden()
    qtbot.mouseClick(page.take_back, LEFT)
    assert page.session.job.refit.tightened is None and page.tightened.isVisible()


def test_balance_stands_beside_it_and_the_wheel_is_balanced_whatever_it_says(page):
    assert "injury 1 adds" in page.balance.text() and page.balance.text().endswith("whatever these figures say.")


def test_what_cannot_be_read_of_a_job_written_elsewhere_is_told(page):
    job = page.session.job
    strange = set_refit(job, nuts=4)
    strange = strange.model_copy(update={"refit": strange.refit.model_copy(update={"thread": "bolt"})})
    page.session.apply("opened", strange)
    assert '"bolt" is no thread' in page.faults["thread"].text() and page.order.text() == "1 – 3 – 2 – 4"


@pytest.mark.parametrize(("density", "least"), [("desk", 24), ("bench", 44)])
def test_every_control_can_be_named_and_hit_and_nothing_is_wider_than_the_column(page, qtbot, density, least):
    page.session.apply(
        "all of it", set_refit(page.session.job, nuts=10, thread="M14x1.5", torque=Torque(value=120.0, unit="ft-lb"))
    )
    dress(page, "light", density)
    qtbot.waitUntil(lambda: faults(page, least) == [])
    assert page.widget().minimumSizeHint().width() <= page.viewport().width()
