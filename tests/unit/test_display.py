"""Whether a window can open is found out in words before Qt would abort."""

import importlib.machinery
import sys

import pytest

from tiremap import display

linux = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="only Linux aborts there")


@linux
def test_a_platform_plugin_that_cannot_load_names_the_library_and_what_to_install(monkeypatch, tmp_path):
    plugins = tmp_path / "Qt" / "plugins" / "platforms"
    plugins.mkdir(parents=True)
    (plugins / "libqoffscreen.so").write_bytes(b"not a library")
    found = importlib.machinery.ModuleSpec("PySide6", None, is_package=True)
    found.submodule_search_locations = [str(tmp_path)]
    monkeypatch.setattr(display.importlib.util, "find_spec", lambda name: found)
    monkeypatch.setenv("QT_QPA_PLATFORM", "offscreen")
    needs = display.window_needs()
    assert needs is not None
    assert "libqoffscreen.so" in needs
    assert "libxcb-cursor0" in needs
    assert "\n" not in needs


@linux
def test_without_any_display_it_says_so(monkeypatch):
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    assert "display" in display.window_needs()


@linux
def test_an_offscreen_window_needs_no_display(monkeypatch):
    for name in ("DISPLAY", "WAYLAND_DISPLAY"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("QT_QPA_PLATFORM", "offscreen")
    assert display.window_needs() is None
