"""The leak check in the window: readings typed as people write them, the answer in words, kept in the job."""

import pytest
from PySide6.QtCore import Qt

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.model.after_repair import Pressure, Temperature
from tiremap.session import Session
from tiremap.ui.editor import Editor
from tiremap.ui.leak_page import LeakPage
from tiremap.ui.preferences import Preferences

Key = Qt.Key


@pytest.fixture
def page(qtbot):
    """The page alone, on a measured tire."""
    session = Session(bench_job(crown_injury()))
    page = LeakPage(Editor(session, lambda sentence: None), Preferences())
    qtbot.addWidget(page)
    page.resize(290, 700)
    page.session = session
    session.listen(lambda: page.show_assessment(session.assessment))
    page.show_assessment(session.assessment)
    page.show()
    return page


def put(qtbot, page, **texts):
    for name, text in texts.items():
        field = page.fields[name]
        field.setFocus()
        field.selectAll()
        qtbot.keyClick(field, Key.Key_Delete)
        qtbot.keyClicks(field, text)
        qtbot.keyClick(field, Key.Key_Return)


def test_readings_typed_in_the_order_of_the_page_end_in_an_answer_and_each_can_be_undone(qtbot, page):
    assert page.answer.text() == "Enter both pressures and the time between."
    put(qtbot, page, before="33 psi", before_temperature="20 C", after="20", after_temperature="20")
    put(qtbot, page, hours="17:30 to 8:00")
    check = page.session.job.leak_check
    assert (check.before, check.after) == (Pressure(value=33, unit="psi"), Pressure(value=20, unit="psi"))
    assert check.after_temperature == Temperature(value=20, unit="C")
    assert check.hours == 14.5
    assert page.answer.text() == "It lost 13.00 psi in 14.5 h, far more than rubber lets through: look for a leak."
    page.session.undo()
    assert page.session.job.leak_check.hours is None and page.numbers == []
    for _ in range(4):
        page.session.undo()
    assert page.session.job.leak_check is None and page.fields["before"].text() == ""


def test_a_text_that_cannot_be_read_stays_with_its_fault_and_changes_nothing(qtbot, page):
    put(qtbot, page, before="33 apples")
    field = page.fields["before"]
    assert field.text() == "33 apples" and field.is_faulty
    assert field.fault.isVisible() and "kPa" in field.fault.text()
    assert page.session.job.leak_check is None and not page.session.unsaved
    put(qtbot, page, after="200")  # another change leaves it standing
    assert field.text() == "33 apples" and field.is_faulty
    put(qtbot, page, before="230 kPa")
    assert not field.is_faulty and field.fault.isHidden()


def test_liters_typed_over_those_of_the_section_change_the_leak_rate_and_not_the_loss(qtbot, page):
    assert "of the section" in page.fields["air_volume_l"].placeholderText()
    put(qtbot, page, before="230 kPa", before_temperature="20 C", after="100", after_temperature="20", hours="10")
    before = page.numbers
    put(qtbot, page, air_volume_l="60 L")
    assert page.session.job.leak_check.air_volume_l == 60
    assert [line for line in page.numbers if line not in before] == [
        line for line in page.numbers if line.startswith("Leak rate")
    ]
    put(qtbot, page, air_volume_l="")
    assert page.numbers == before and page.session.job.leak_check.air_volume_l is None


def test_without_a_size_the_liters_are_asked_for(qtbot, page):
    page.session.apply("No size", page.session.job.model_copy(
        update={"tire": page.session.job.tire.model_copy(update={"size_code": None})}
    ))
    put(qtbot, page, before="230 kPa", after="220", hours="24")
    assert page.answer.text() == "Enter the size code, or the liters of air in the tire."
    put(qtbot, page, air_volume_l="30")
    assert page.numbers
