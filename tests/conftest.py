"""Every test has settings and cache folders of its own: the user's are never read or touched."""

import tempfile

import pytest


def pytest_configure(config):
    """Tests ask for the rule sets there are while they are collected, before any fixture."""
    folder = tempfile.TemporaryDirectory()
    config.add_cleanup(folder.cleanup)
    patch = pytest.MonkeyPatch()
    config.add_cleanup(patch.undo)
    patch.setenv("TIREMAP_SETTINGS_FOLDER", folder.name)


@pytest.fixture(autouse=True)
def settings_of_the_test(tmp_path, monkeypatch):
    """Settings and cache folders that do not exist yet."""
    monkeypatch.setenv("TIREMAP_SETTINGS_FOLDER", str(tmp_path / "settings"))
    monkeypatch.setenv("TIREMAP_CACHE_FOLDER", str(tmp_path / "cache"))
