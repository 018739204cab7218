"""Settings are remembered, and a broken settings file never keeps the program from starting."""

from pathlib import Path

import pytest

from tiremap.errors import TiremapError
from tiremap.storage.settings import (
    Settings,
    read_settings,
    settings_folder,
    settings_path,
    with_recent_file,
    write_settings,
)


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv("TIREMAP_SETTINGS_FOLDER", str(tmp_path / "settings"))
    return tmp_path / "settings"


def test_without_a_settings_file_the_usual_settings_hold_and_nothing_is_said():
    assert read_settings() == (Settings(), "")


def test_settings_written_are_read_again(folder):
    settings = Settings(units="in", rule_set="north_america", theme="projector", density="bench")
    write_settings(settings)
    assert settings_path() == folder / "settings.json"
    assert read_settings() == (settings, "")


def test_settings_of_a_later_program_are_kept(folder):
    folder.mkdir()
    settings_path().write_text('{"units": "in", "later": [1]}')
    write_settings(read_settings()[0])
    assert '"later": [\n    1\n  ]' in settings_path().read_text()


@pytest.mark.parametrize(
    "broken", [b"", b"{", b"[]", b'{"units": "furlong"}', b"\xff\xfe", b'{"theme": NaN}', b"[" * 9999]
)
def test_a_broken_settings_file_is_set_aside_with_a_message(folder, broken):
    folder.mkdir()
    settings_path().write_bytes(broken)
    settings, message = read_settings()
    assert settings == Settings()
    assert "set aside" in message and "settings.broken" in message
    assert (folder / "settings.broken").read_bytes() == broken
    assert read_settings() == (Settings(), "")


def test_a_folder_in_place_of_the_settings_file_is_no_crash(folder):
    settings_path().mkdir(parents=True)
    settings, message = read_settings()
    assert settings == Settings()
    assert "cannot be read" in message


def test_settings_that_cannot_be_saved_are_an_error_in_words(folder):
    folder.write_text("a file where the folder should be")
    with pytest.raises(TiremapError, match="settings folder"):
        write_settings(Settings())


def test_the_newest_recent_file_stands_first_once_and_the_eleventh_falls_out():
    settings = Settings()
    for number in range(12):
        settings = with_recent_file(settings, Path(f"/jobs/{number}.json"))
    settings = with_recent_file(settings, Path("/jobs/5.json"))
    assert settings.recent_files == tuple(f"/jobs/{n}.json" for n in (5, 11, 10, 9, 8, 7, 6, 4, 3, 2))


def test_without_the_variable_the_folder_is_the_users_own(monkeypatch, tmp_path):
    monkeypatch.delenv("TIREMAP_SETTINGS_FOLDER")
    assert settings_folder().name == "tiremap"


def test_broken_settings_that_cannot_be_set_aside_stay_and_the_usual_ones_hold(folder):
    folder.mkdir()
    settings_path().write_text("{")
    (folder / "settings.broken" / "full").mkdir(parents=True)
    settings, says = read_settings()
    assert settings == Settings() and says.endswith("The usual ones are used.")
    assert settings_path().read_text() == "{"
