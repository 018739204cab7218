"""The shop's own guidance in the window: copied, changed, taken over, shared, and broken behind the window's back."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.model.rule_set_file import published_rule_set_names, rule_set_named, rule_set_names, rule_set_path
from tiremap.resources import shop_rule_sets_folder
from tiremap.storage.job_file import read_job, write_job
from tiremap.storage.shop_rule_sets import copy_rule_set, import_rule_set, share_rule_set, write_limit
from tiremap.ui import dialogs
from tiremap.ui.guidance_page import GuidancePage
from tiremap.ui.limits_page import LimitsPage

CTRL_SHIFT = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def page_of(qtbot):
    """Opens the page by its key; gives it with the focus on the list."""

    def opened(window) -> GuidancePage:
        qtbot.keyClick(window, Qt.Key.Key_G, CTRL_SHIFT)
        page = window.guidance
        page.resize(1180, 740)

        def is_active() -> bool:
            page.activateWindow()
            return QApplication.activeWindow() is page

        qtbot.waitUntil(is_active)
        page.list.setFocus()
        return page

    return opened


def own_job(**fields):
    """A repairable hole answered by the shop's own set."""
    return bench_job(crown_injury(), rule_set="our_shop", **fields)


def row_of(page, key: str) -> int:
    return [line.key for line in page.table.lines].index(key)


def click_row(qtbot, page, key: str) -> None:
    """Click the row of a limit, in the middle of its first cell."""
    item = page.table.item(row_of(page, key), 0)
    page.table.scrollToItem(item)
    at = page.table.visualItemRect(item).center()
    qtbot.mouseClick(page.table.viewport(), Qt.MouseButton.LeftButton, pos=at)


def click(qtbot, button) -> None:
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


def tab_to(qtbot, page, wanted) -> None:
    """Go on by Tab until a widget has the focus."""
    for _ in range(20):
        if wanted.hasFocus():
            return
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
    pytest.fail(f"Tab never comes to {wanted.accessibleName() or wanted.text()}")


def broken(path) -> None:
    path.write_text(path.read_text().replace("value = 6.0", 'value = "six"'))


def chooser(window) -> list[str]:
    box = window.desk.form.rule_set
    return [box.itemText(row) for row in range(box.count())]


def test_with_the_mouse_alone_a_set_is_copied_changed_and_followed(open_window, page_of, qtbot):
    window = open_window(bench_job(crown_injury()))
    page = page_of(window)
    page.choose("united_kingdom")
    assert page.edit.isHidden()
    qtbot.keyClicks(page.name, "our_shop")
    click(qtbot, page.copy)
    assert page.chosen == "our_shop" and page.title.text() == "our_shop"
    assert "our_shop, after United Kingdom" in chooser(window)
    click_row(qtbot, page, "largest_injuries.0")
    assert (page.edit.value.text(), page.edit.unit.text()) == ("6", "mm")
    qtbot.mouseDClick(page.edit.value, Qt.MouseButton.LeftButton)
    qtbot.keyClicks(page.edit.value, "5")
    qtbot.mouseClick(page.edit.source, Qt.MouseButton.LeftButton)
    qtbot.keyClicks(page.edit.source, "our foreman")
    click(qtbot, page.edit.change)
    limit = rule_set_named("our_shop").largest_injuries[0]
    assert (limit.value, limit.source, limit.grade) == (5.0, "our foreman", "assumed")
    row = row_of(page, "largest_injuries.0")
    assert [page.table.item(row, column).text() for column in (2, 3)] == ["tighter than 6 mm", "assumed: our foreman"]
    assert window.session.job.rule_set == "united_kingdom" and not window.session.unsaved


def test_with_the_keyboard_alone_a_set_is_copied_and_changed(open_window, page_of, qtbot):
    page = page_of(open_window(bench_job(crown_injury())))
    qtbot.keyClick(page.list, Qt.Key.Key_Home)
    qtbot.keyClick(page.list, Qt.Key.Key_Down)
    assert page.chosen == published_rule_set_names()[1]
    tab_to(qtbot, page, page.name)
    qtbot.keyClicks(page.name, "ours")
    qtbot.keyClick(page.name, Qt.Key.Key_Return)
    assert rule_set_named("ours").parent == published_rule_set_names()[1] and page.isVisible()
    assert page.table.hasFocus()
    while page.table.chosen.key != "tread_depths.0":
        qtbot.keyClick(page.table, Qt.Key.Key_Down)
    qtbot.keyClick(page.table, Qt.Key.Key_Return)
    assert page.edit.value.hasFocus()
    qtbot.keyClicks(page.edit.value, "3")
    qtbot.keyClick(page.edit.value, Qt.Key.Key_Return)
    assert page.edit.source.hasFocus()
    qtbot.keyClicks(page.edit.source, "the owner")
    qtbot.keyClick(page.edit.source, Qt.Key.Key_Return)
    assert rule_set_named("ours").tread_depths[0].value == 3.0
    assert page.table.hasFocus() and page.table.chosen.key == "tread_depths.0"
    qtbot.keyClick(page.table, Qt.Key.Key_Escape)
    assert not page.isVisible()


def test_a_looser_value_is_told_as_it_is_typed_and_one_looser_than_all_is_refused(open_window, page_of, qtbot):
    path = copy_rule_set("united_kingdom", "our_shop")
    before = path.read_bytes()
    page = page_of(open_window(own_job()))
    click_row(qtbot, page, "largest_injuries.0")
    edit = page.edit
    edit.value.setFocus()
    edit.value.selectAll()
    qtbot.keyClicks(edit.value, "6.2")
    assert edit.error.isVisible() and edit.error.text().startswith("Looser than United Kingdom; every answer will say")
    qtbot.keyClick(edit.value, Qt.Key.Key_Backspace)
    qtbot.keyClick(edit.value, Qt.Key.Key_Backspace)
    assert edit.error.isHidden() and edit.means.text() == "United Kingdom: 6 mm."
    qtbot.keyClicks(edit.value, "0")  # 60 mm
    assert edit.value.is_faulty and "north_america" in edit.error.text()
    qtbot.keyClicks(edit.source, "nobody")
    click(qtbot, edit.change)
    assert path.read_bytes() == before
    assert "north_america" in edit.error.text()
    assert (edit.value.text(), edit.source.text()) == ("60", "nobody")  # nothing typed is lost


def test_without_a_source_nothing_is_changed_and_the_source_is_asked_for(open_window, page_of, qtbot):
    path = copy_rule_set("united_kingdom", "our_shop")
    before = path.read_bytes()
    page = page_of(open_window(own_job()))
    click_row(qtbot, page, "crown_zones.2")
    page.edit.value.selectAll()
    qtbot.keyClicks(page.edit.value, "65")
    click(qtbot, page.edit.change)
    assert "on whose word" in page.edit.error.text() and page.edit.source.hasFocus()
    assert path.read_bytes() == before and page.edit.value.text() == "65"
    qtbot.keyClicks(page.edit.source, "our foreman")
    qtbot.keyClick(page.edit.source, Qt.Key.Key_Return)
    assert rule_set_named("our_shop").crown_zones[2].edge.value == 0.65


def test_a_change_of_the_set_a_job_follows_answers_the_job_anew(open_window, page_of, qtbot):
    copy_rule_set("united_kingdom", "our_shop")
    window = open_window(own_job())
    assert window.desk.answer.by.text() == "By: our_shop, after United Kingdom"
    assert window.session.assessment.answer == "repairable"
    page = page_of(window)
    click_row(qtbot, page, "largest_injuries.0")
    page.edit.value.selectAll()
    qtbot.keyClicks(page.edit.value, "2")
    qtbot.keyClicks(page.edit.source, "our foreman")
    click(qtbot, page.edit.change)
    assert window.desk.answer.word.text() == "Not repairable"
    assert window.session.undo_name is None and not window.session.unsaved


def test_a_name_that_cannot_be_used_is_told_and_stays_typed(open_window, page_of, qtbot):
    page = page_of(open_window(bench_job(crown_injury())))
    page.choose("japan")
    for name in ("germany", "a b", ""):
        page.name.clear()
        qtbot.keyClicks(page.name, name)
        click(qtbot, page.copy)
        assert "cannot be called" in page.error.text() and page.error.isVisible()
        assert page.name.text() == name
    assert rule_set_names() == published_rule_set_names()
    page.name.clear()
    qtbot.keyClicks(page.name, "our_shop")
    click(qtbot, page.copy)
    assert page.error.isHidden()


def test_a_file_is_taken_over_and_one_that_cannot_be_used_is_told(open_window, page_of, qtbot, tmp_path, monkeypatch):
    copy_rule_set("japan", "neighbor")
    shared = share_rule_set("neighbor", tmp_path)
    rule_set_path("neighbor").unlink()
    window = open_window(bench_job(crown_injury()))
    page = page_of(window)
    monkeypatch.setattr(dialogs, "ask_guidance_to_take", lambda parent, folder: shared)
    click(qtbot, page.take)
    assert page.chosen == "neighbor" and "neighbor, after Japan" in chooser(window)
    click(qtbot, page.take)
    assert "already a rule set 'neighbor'" in page.error.text()
    shared.write_text("broken")
    click(qtbot, page.take)
    assert "not readable TOML" in page.error.text() and page.chosen == "neighbor"


def test_a_set_is_shared_as_a_file_and_never_over_another(open_window, page_of, qtbot, tmp_path, monkeypatch):
    copy_rule_set("japan", "our_shop")
    page = page_of(open_window(own_job()))
    target = tmp_path / "shared.toml"
    monkeypatch.setattr(dialogs, "ask_where_to_share", lambda parent, suggested: target)
    click(qtbot, page.share)
    assert target.read_bytes() == rule_set_path("our_shop").read_bytes() and str(target) in page.done_.text()
    target.write_text("something else")
    click(qtbot, page.share)
    assert "already there" in page.error.text() and target.read_text() == "something else"
    page.choose("japan")
    assert not page.share.isEnabled()


def test_a_set_that_breaks_while_the_window_is_open_answers_nothing_and_says_why(open_window, page_of, qtbot):
    path = copy_rule_set("united_kingdom", "our_shop")
    sound = path.read_text()
    window = open_window(own_job())
    window.actions_.compare.trigger()
    window.actions_.limits.trigger()
    page, limits = page_of(window), window.findChild(LimitsPage)
    broken(path)
    qtbot.waitUntil(lambda: window.desk.answer.word.text() == "Measure first")  # found without being told
    for word in ("our_shop.toml", "largest_injuries.0.value", "should be a number"):
        assert word in window.message.text and word in page.trouble.text()
        assert word in window.comparison.broken.text() and word in limits.broken.text()
        assert word in window.desk.reasons.list.item(0).text()
    assert window.desk.reasons.list.count() == 1  # once, not for each injury
    assert window.desk.answer.by.text() == "our_shop cannot be read: no answer"
    assert window.desk.form.ask.isVisible() and window.desk.form.rule_set.currentIndex() == -1
    assert page.chosen == "our_shop" and page.table.rowCount() == 0 and not page.edit.change.isEnabled()
    assert [row.rule_set.name for row in window.comparison.rows] == list(published_rule_set_names())
    path.write_text(sound)
    window.watch.look()
    assert window.desk.answer.word.text() == "Repairable" and window.message.text == ""
    assert window.comparison.broken.isHidden() and page.trouble.isHidden()
    assert window.desk.form.rule_set.currentData() == "our_shop"


def test_a_set_that_disappears_is_told_and_every_action_still_works(open_window, page_of, qtbot):
    path = copy_rule_set("united_kingdom", "our_shop")
    window = open_window(own_job())
    page = page_of(window)
    path.unlink()
    click_row(qtbot, page, "largest_injuries.0")  # before anything noticed
    page.edit.value.selectAll()
    qtbot.keyClicks(page.edit.value, "5")
    qtbot.keyClicks(page.edit.source, "our foreman")
    click(qtbot, page.edit.change)
    assert "no rule set 'our_shop'" in page.edit.error.text()
    window.desk.drawing.mark_nudged.emit("1", 1.0, 0.0)  # an edit is taken, and answers nothing
    assert window.desk.answer.word.text() == "Measure first"
    window.session.undo()
    window.session.preview(window.session.job)
    window.watch.look()
    assert "no rule set 'our_shop'" in window.message.text
    assert "our_shop" not in chooser(window)
    copy_rule_set("united_kingdom", "our_shop")
    window.watch.look()
    assert window.desk.answer.word.text() == "Repairable" and window.message.text == ""


def test_typed_text_is_there_again_when_a_broken_file_is_put_right(open_window, page_of, qtbot):
    path = copy_rule_set("united_kingdom", "our_shop")
    window = open_window(own_job())
    page = page_of(window)
    click_row(qtbot, page, "largest_injuries.0")
    page.edit.value.selectAll()
    qtbot.keyClicks(page.edit.value, "5.5")
    qtbot.keyClicks(page.edit.source, "our foreman")
    sound = path.read_text()
    path.write_text("broken")
    window.watch.look()
    assert page.table.rowCount() == 0
    path.write_text(sound)
    window.watch.look()
    assert page.table.chosen.key == "largest_injuries.0"
    assert (page.edit.value.text(), page.edit.source.text()) == ("5.5", "our foreman")


def test_a_job_by_a_set_this_machine_does_not_have_opens_and_says_so(open_window, qtbot, tmp_path):
    job = tmp_path / "job.json"
    write_job(job, own_job())
    window = open_window()
    window.files.open_path(job)
    assert window.session.job == read_job(job)
    assert window.desk.answer.word.text() == "Measure first"
    assert "no rule set 'our_shop'" in window.message.text and "united_kingdom" in window.message.text
    qtbot.keyClick(window.desk.form.rule_set, Qt.Key.Key_End)
    assert window.session.job.rule_set == "united_kingdom"
    assert window.desk.answer.word.text() == "Repairable"


def test_a_broken_set_is_told_when_the_window_opens(open_window):
    broken(copy_rule_set("united_kingdom", "our_shop"))
    assert "our_shop.toml" in open_window(bench_job(crown_injury())).message.text


def test_a_set_written_by_another_program_is_offered_at_once(open_window, tmp_path, monkeypatch):
    window = open_window(bench_job(crown_injury()))
    copy_rule_set("japan", "our_shop")
    share_rule_set("our_shop", tmp_path / "shared.toml")
    window.watch.look()
    assert chooser(window)[-1] == "our_shop, after Japan"
    assert window.desk.form.rule_set.currentData() == "united_kingdom"
    rule_set_path("our_shop").unlink()
    import_rule_set(tmp_path / "shared.toml")
    assert shop_rule_sets_folder().is_dir()


def test_two_looser_limits_are_told_apart_by_the_chosen_reason(open_window):
    copy_rule_set("united_kingdom", "our_shop")
    write_limit("our_shop", "largest_injuries", 0, 6.2, "us")
    write_limit("our_shop", "second_repairs", 0, 270.0, "us")
    window = open_window(own_job())
    reasons = window.desk.reasons
    rows = [row for row, reason in enumerate(reasons._reasons) if reason.code == "looser_than_parent"]
    assert len(rows) == 2
    for row in rows:
        reasons.list.setCurrentRow(row)
        says = reasons.shown.says
        window.session.assess_again()
        assert reasons.shown.says == says
    write_limit("our_shop", "second_repairs", 0, 240.0, "us")  # the second one is gone: the first is not meant
    window.session.assess_again()
    assert reasons.shown is None


def test_a_chosen_reason_stays_chosen_when_its_sentence_changes(open_window):
    window = open_window(bench_job(crown_injury(across_mm=20.0)))
    reasons = window.desk.reasons
    row = next(row for row, reason in enumerate(reasons._reasons) if reason.code == "place")
    reasons.list.setCurrentRow(row)
    window.desk.drawing.mark_nudged.emit("1", 60.0, 0.0)
    assert reasons.shown.code == "place" and reasons.shown.level != "note"


@pytest.mark.parametrize("density", ["desk", "bench"])
def test_everything_on_the_page_has_a_name_is_large_enough_and_whole(open_window, page_of, qtbot, density):
    copy_rule_set("new_zealand", "our_shop")
    window = open_window(own_job())
    window.preferences.keep(density=density)
    page = page_of(window)
    least = 40 if density == "bench" else 24
    for button in page.findChildren(QAbstractButton):
        if button.isVisible() and button.focusPolicy() != Qt.FocusPolicy.NoFocus:
            assert button.height() >= least and (button.accessibleName() or button.text())
            assert button.width() >= button.sizeHint().width() - 1
    for field in (page.name, page.edit.value, page.edit.source):
        assert field.height() >= least and field.accessibleName()
    assert all(page.list.visualItemRect(page.list.item(row)).height() >= 24 for row in range(page.list.count()))
    for widget in (page.list, page.table):
        assert widget.accessibleName()
    for label in page.findChildren(QLabel):
        if label.isVisible() and label.wordWrap():
            assert label.height() >= label.heightForWidth(label.width()) - 1, label.text()
    names = [action.text() for action in window.menuBar().actions()]
    assert "&Guidance" in names


def test_the_comparison_is_reached_from_the_page(open_window, page_of, qtbot):
    copy_rule_set("japan", "our_shop")
    window = open_window(own_job())
    click(qtbot, page_of(window).compare)
    assert window.comparison.isVisible()
    titles = [window.comparison.table.item(row, 0).text() for row in range(window.comparison.table.rowCount())]
    assert titles[-1] == "our_shop\nafter Japan\n(this job follows it)"
