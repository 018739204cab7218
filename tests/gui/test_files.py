"""Files: what is typed is saved, unsaved work is asked about, a broken file harms nothing."""

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent

from tests.helpers.jobs import all_fine, bench_job, crown_injury
from tiremap.model.job import Checks
from tiremap.resources import sample_jobs_folder
from tiremap.storage.job_file import read_job, write_job
from tiremap.storage.settings import read_settings
from tiremap.ui import dialogs


@pytest.fixture
def told(monkeypatch):
    """What the window told about files."""
    texts: list[str] = []
    monkeypatch.setattr(dialogs, "tell_file_error", lambda parent, text: texts.append(text))
    return texts


@pytest.fixture
def save_to(tmp_path, monkeypatch):
    """The file the user names when asked where to save."""
    path = tmp_path / "job.json"
    monkeypatch.setattr(dialogs, "ask_where_to_save", lambda parent, suggested: path)
    return path


def test_saving_asks_where_once_and_then_saves_there(bench_window, save_to):
    bench_window.session.apply("Note", bench_job(crown_injury("7")))
    bench_window.actions_.save.trigger()
    assert read_job(save_to) == bench_window.session.job
    assert bench_window.windowTitle() == "job.json[*] – Tiremap" and not bench_window.isWindowModified()
    assert read_settings()[0].recent_files == (str(save_to),)
    message = bench_window.message
    assert message.isVisible() and message.text == f"Saved in {save_to}"
    assert message.label.property("role") != "fault"
    bench_window.editor.change("Note", lambda job: job.model_copy(update={"note": "more"}))
    assert not message.isVisible()  # it is no longer so


@pytest.mark.parametrize(("action", "what", "ask"), [
    ("sheet", "Job sheet", "sheet"), ("measuring_sheet", "Measuring sheet", "sheet"),
    ("template", "Template", "template"),
])
def test_a_sheet_that_was_written_is_said_with_its_file(open_window, tmp_path, monkeypatch, told, action, what, ask):
    window = open_window(bench_job(crown_injury(), checks=Checks() if action == "measuring_sheet" else all_fine()))
    target, nowhere = tmp_path / "written.pdf", tmp_path / "no folder" / "written.pdf"
    monkeypatch.setattr(dialogs, f"ask_where_to_write_{ask}", lambda parent, suggested: nowhere)
    getattr(window.actions_, action).trigger()
    assert told and window.message.text == ""
    monkeypatch.setattr(dialogs, f"ask_where_to_write_{ask}", lambda parent, suggested: target)
    getattr(window.actions_, action).trigger()
    assert target.exists() and window.message.text == f"{what} written to {target}"


def test_a_measure_still_being_typed_is_saved_too(qtbot, sized_window, save_to):
    depth = sized_window.desk.form.lengths["tread_depth"].edit
    depth.setFocus()
    qtbot.keyClicks(depth, "6")
    qtbot.keyClick(depth, Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    assert read_job(save_to).tire.tread_depth.value == 6


def test_leaving_unsaved_work_is_asked_about_and_can_be_refused(bench_window, unsaved_answers):
    changed = bench_job(crown_injury("7"))
    bench_window.session.apply("Note", changed)
    unsaved_answers.append("stay")
    bench_window.actions_.new.trigger()
    assert bench_window.session.job == changed and unsaved_answers == []
    unsaved_answers.append("stay")
    bench_window.close()
    assert bench_window.isVisible()
    unsaved_answers.append("discard")
    bench_window.actions_.new.trigger()
    assert bench_window.session.job.injuries == ()


def test_a_broken_file_is_told_and_the_open_job_stays(bench_window, tmp_path, told):
    broken = tmp_path / "broken.json"
    broken.write_text("{", encoding="utf-8")
    before = bench_window.session.job
    bench_window.files.open_path(broken)
    assert bench_window.session.job == before
    assert str(broken) in told[0]
    assert broken.read_text(encoding="utf-8") == "{"


def test_a_file_dropped_on_the_window_is_opened(window, tmp_path):
    path = tmp_path / "one.json"
    write_job(path, bench_job(crown_injury()))
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path))])
    window.dropEvent(QDropEvent(
        QPointF(5, 5), Qt.DropAction.CopyAction, data, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier,
    ))
    assert window.session.path == path
    assert window.desk.answer.word.text() == "Repairable"


def test_a_sample_is_opened_without_its_file_so_that_saving_never_changes_it(window, tmp_path):
    path = tmp_path / "sample.json"
    write_job(path, bench_job(crown_injury()))
    window.files.open_sample(path)
    assert window.session.path is None
    assert window.session.job.injuries[0].id == "1"


def test_a_recent_file_is_opened_from_its_menu(window, tmp_path):
    path = tmp_path / "one.json"
    write_job(path, bench_job(crown_injury()))
    window.preferences.keep_recent(path)
    window.menus.recent.actions()[0].trigger()
    assert window.session.path == path


def test_a_file_that_cannot_be_opened_still_opens_the_window(qtbot, tmp_path):
    from tiremap.ui.opening import window_on
    from tiremap.ui.preferences import Preferences

    window, message = window_on(tmp_path / "nowhere.json", Preferences())
    qtbot.addWidget(window)
    assert "nowhere.json" in message
    assert window.session.job.injuries == ()


def test_a_file_named_at_the_start_opens_as_any_other_with_its_first_mark_chosen(qtbot, told):
    from tiremap.ui.opening import window_on
    from tiremap.ui.preferences import Preferences

    window, message = window_on(sample_jobs_folder() / "two_heads.json", Preferences())
    qtbot.addWidget(window)
    assert (message, told, window.desk.chosen) == ("", [], "1")
    assert not window.session.unsaved


def test_every_sample_opens_from_the_help_menu(window, told):
    entries = {each.data(): each for each in window.menus.samples.actions()}
    for path in sample_jobs_folder().glob("*.json"):
        entries[str(path)].trigger()
        assert told == [], path
        assert window.session.job == read_job(path)
        for mark in window.session.assessment.marks:
            window.desk.choose(mark.id)
        assert not window.session.unsaved, path
