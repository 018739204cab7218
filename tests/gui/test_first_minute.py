"""The first minute: a start page, one field marked as next, checks answered one by one, an answer seen from afar."""

from xml.etree import ElementTree

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.assess import assess
from tiremap.model.job import Job
from tiremap.resources import resource_path, sample_jobs_folder
from tiremap.rules.condition import condition_checks
from tiremap.storage.job_file import read_job
from tiremap.ui.next_sign import is_next
from tiremap.ui.start_page import SAMPLES


def press(qtbot, key):
    """A key to whatever has the focus."""
    qtbot.keyClick(QApplication.focusWidget(), key)


def enter(qtbot, text):
    """Type into whatever has the focus, then Enter."""
    qtbot.keyClicks(QApplication.focusWidget(), text)
    press(qtbot, Qt.Key.Key_Return)


def signs(window):
    """What carries the sign of the next one and can be seen."""
    return [each for each in window.findChildren(QWidget) if is_next(each) and each.isVisible()]


def test_someone_new_comes_to_an_answer_in_nine_steps_by_key_led_by_the_sign(qtbot, open_window):
    window = open_window(Job())
    desk = window.desk
    assert desk.start.isVisible() and not desk.drawing.isVisible() and not desk.quick.isVisible()
    assert signs(window) == [desk.start.size.code]
    press(qtbot, Qt.Key.Key_F6)
    assert desk.start.size.code.hasFocus()
    enter(qtbot, "205/55R16 91V")  # 1
    assert not desk.start.isVisible() and desk.drawing.isVisible()
    assert signs(window) == [desk.form.rule_set] and desk.form.rule_set.hasFocus()
    press(qtbot, Qt.Key.Key_Down)  # 2: the first guidance of the list
    assert window.session.job.rule_set is not None
    press(qtbot, Qt.Key.Key_F6)
    assert signs(window) == [desk.table.add_injury] and desk.table.add_injury.hasFocus()
    press(qtbot, Qt.Key.Key_Space)  # 3
    for field, text in (("depth", "6"), ("width", "170"), ("edge", "75"), ("hole", "4 to 5"), ("probe", "upright")):
        edit = getattr(desk.quick, field).edit
        assert edit.hasFocus() and signs(window) == [edit]
        assert window.session.assessment.answer == "measure_first"
        enter(qtbot, text)  # 4 to 8
    assert signs(window) == [desk.form.checks.inspected]
    assert desk.quick.nothing.hasFocus()
    press(qtbot, Qt.Key.Key_Space)  # 9
    assert window.session.assessment.answer == "repairable"
    assert signs(window) == []


def test_tab_from_the_size_goes_where_the_sign_stands_and_not_onto_whatever_lies_next(qtbot, open_window):
    window = open_window()
    qtbot.keyClicks(window.desk.start.size.code, "205/55R16")
    qtbot.keyClick(window.desk.start.size.code, Qt.Key.Key_Tab)
    qtbot.waitUntil(window.desk.form.rule_set.hasFocus)
    assert signs(window) == [window.desk.form.rule_set]
    assert window.session.job.injuries == ()


def test_a_sample_and_a_file_open_from_the_start_page_and_a_new_job_brings_it_back(qtbot, open_window, tmp_path):
    window = open_window(Job())
    start = window.desk.start
    path = tmp_path / "van.json"
    path.write_bytes((sample_jobs_folder() / SAMPLES[0].file).read_bytes())
    window.preferences.keep_recent(path)
    for sample in SAMPLES:
        qtbot.mouseClick(start.samples[sample.file], Qt.MouseButton.LeftButton)
        assert window.session.assessment.answer == sample.answer and window.session.path is None
        assert start.isHidden()
        window.files.new()
        assert start.isVisible()
    start.rule_set.activated.emit(start.rule_set.findData("north_america"))
    assert window.session.job.rule_set == "north_america"
    assert [button.text() for button in start.files] == ["van.json"]
    qtbot.mouseClick(start.files[0], Qt.MouseButton.LeftButton)
    assert window.session.path == path


def test_the_samples_of_the_start_page_are_one_of_each_answer():
    answers = [assess(read_job(sample_jobs_folder() / sample.file)).answer for sample in SAMPLES]
    assert answers == [sample.answer for sample in SAMPLES]
    assert sorted(answers) == ["measure_first", "not_repairable", "repairable"]


def test_arrows_pass_found_without_answering_and_space_answers(qtbot, sized_window):
    form = sized_window.desk.form
    for answers in form.checks.answers.values():
        form.ensureWidgetVisible(answers)
        answers.setFocus()
        job = sized_window.session.job
        press(qtbot, Qt.Key.Key_Left)
        press(qtbot, Qt.Key.Key_Left)
        assert sized_window.session.job == job and answers.value is None
        press(qtbot, Qt.Key.Key_Space)
        assert answers.value in ("fine", "none") and sized_window.session.job != job
        assert sized_window.session.assessment.answer == "measure_first"
        press(qtbot, Qt.Key.Key_Right)
        press(qtbot, Qt.Key.Key_Tab)
        assert not answers.isAncestorOf(QApplication.focusWidget())


def test_each_check_is_answered_by_click_and_by_key_and_fits_the_form(qtbot, sized_window):
    form = sized_window.desk.form
    ring, beads = form.checks.singles["run_flat_ring"], form.checks.singles["bead"]
    assert [button.text() for button in ring.buttons.values()] == ["Fine", "Found", "Not looked at"]
    assert ring.value is None and ring.buttons[None].isChecked()
    form.ensureWidgetVisible(ring)
    qtbot.mouseClick(ring.buttons["found"], Qt.MouseButton.LeftButton)
    assert sized_window.session.job.checks.run_flat_ring.state == "found"
    assert sized_window.session.assessment.answer == "not_repairable"
    assert signs(sized_window) == []  # nothing measured would change a refusal
    press(qtbot, Qt.Key.Key_Left)
    assert ring.value == "found" and ring.buttons["fine"].hasFocus()
    press(qtbot, Qt.Key.Key_Space)
    assert sized_window.session.job.checks.run_flat_ring.state == "fine" and ring.buttons["fine"].hasFocus()
    press(qtbot, Qt.Key.Key_Left)
    assert ring.value == "fine"
    press(qtbot, Qt.Key.Key_Tab)
    assert beads.buttons[None].hasFocus()
    sized_window.session.undo()
    assert ring.value == "found"
    for theme, density, least in (("light", "bench", 44), ("projector", "desk", 24)):
        sized_window.preferences.keep(theme=theme, density=density)
        QApplication.processEvents()
        assert form.widget().minimumSizeHint().width() <= form.viewport().width()
        buttons = [button for each in form.checks.answers.values() for button in each.buttons.values()]
        assert min(button.height() for button in buttons) >= least
    sized_window.preferences.keep(theme="light", density="desk")


def test_every_check_has_a_picture_of_its_own():
    names = [check.name for check in condition_checks()] + ["inspected", "earlier_repairs", "tread_edge"]
    drawn = {name: resource_path("help", "checks", f"{name}.svg").read_text(encoding="utf-8") for name in names}
    assert len(set(drawn.values())) == len(names)
    assert all(ElementTree.fromstring(text).get("viewBox") for text in drawn.values())


def test_the_sign_stands_in_the_table_for_a_hole_that_is_not_chosen_and_the_answer_is_read_from_afar(
    qtbot, open_window
):
    unmeasured = crown_injury("2", around_deg=180, size_outside=None, size_inside=None)
    window = open_window(bench_job(crown_injury(), unmeasured))
    desk = window.desk
    desk.choose("1")
    model = desk.table.model
    texts = [model.data(model.index(1, column)) for column in range(model.columnCount())]
    assert [text for text in texts if "next" in text] == ["▸ next"]
    assert signs(window) == []
    press(qtbot, Qt.Key.Key_F6)
    assert desk.chosen == "2" and signs(window) == [desk.quick.hole.edit] and desk.quick.hole.edit.hasFocus()

    press(qtbot, Qt.Key.Key_F8)
    large = window.large
    assert large.isVisible() and large.geometry() == window.rect()
    assert "size of injury 2" in large.accessibleDescription()
    assert large.word_line_px >= large.px(40)  # at 1280 x 800 on a screen of 96 px an inch
    assert large.sentence_capital_px >= large.px(12.8)  # 22 minutes of arc at 2 m
    before = window.session.job
    qtbot.keyClick(large, Qt.Key.Key_5)
    assert not large.isVisible() and window.session.job == before and desk.quick.hole.edit.hasFocus()
    window.actions_.answer_large.trigger()
    qtbot.mouseClick(large, Qt.MouseButton.LeftButton)
    assert not large.isVisible()
