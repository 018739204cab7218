"""The house's floor plan: who may import whom, and which rooms stay free of Qt and matplotlib."""

import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parents[1]
WITHOUT_QT_AND_MATPLOTLIB = (
    "errors", "resources", "model", "geometry", "rules", "workshop", "edits", "assess", "assessment", "free_places",
    "drawing", "session", "storage", "gestures", "cli", "display",
)

LOAD_ROOM = """
import importlib, pkgutil, sys
room = importlib.import_module("tiremap.{room}")
for found in pkgutil.walk_packages(getattr(room, "__path__", []), room.__name__ + "."):
    importlib.import_module(found.name)
print(sorted(name for name in ("PySide6", "matplotlib") if name in sys.modules))
"""


def run_python(code: str) -> str:
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=TOP, check=True)
    return done.stdout.strip()


@pytest.mark.parametrize("room", WITHOUT_QT_AND_MATPLOTLIB)
def test_a_room_below_the_window_loads_neither_qt_nor_matplotlib(room):
    assert run_python(LOAD_ROOM.format(room=room)) == "[]"


def test_the_painter_loads_matplotlib_and_no_qt():
    assert run_python(LOAD_ROOM.format(room="render")) == "['matplotlib']"


def test_help_loads_neither_qt_nor_matplotlib_nor_shapely():
    code = """
import sys
from tiremap.cli import run
try:
    run(["--help"])
except SystemExit:
    pass
print([name for name in ("PySide6", "matplotlib", "shapely") if name in sys.modules])
"""
    assert run_python(code).splitlines()[-1] == "[]"


def test_no_room_imports_from_a_floor_above_it():
    done = subprocess.run(
        [str(Path(sys.executable).with_name("lint-imports")), "--no-cache"], capture_output=True, text=True, cwd=TOP
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_every_folder_of_the_top_level_is_one_of_the_agreed_ones():
    done = subprocess.run(["git", "ls-files"], capture_output=True, text=True, cwd=TOP)
    if done.returncode != 0:
        pytest.skip("not a git checkout")
    agreed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "tiremap", "resources", "tests", "sample_jobs"}
    tops = {line.split("/")[0] for line in done.stdout.splitlines()}
    assert {top for top in tops if not top.startswith(".")} <= agreed


def test_the_checks_of_every_change_run_the_test_command_of_the_readme_word_for_word():
    command = next(line for line in (TOP / "README.md").read_text().splitlines() if line.endswith(".venv/bin/pytest"))
    assert command in (TOP / ".ci" / "run").read_text().splitlines()


def test_the_readme_names_every_system_library_the_program_asks_for():
    from tiremap.display import DEBIAN_LIBRARIES

    readme = (TOP / "README.md").read_text()
    assert [name for name in DEBIAN_LIBRARIES.split() if name not in readme] == []
