"""The nastiest files are refused in plain words, and cost little memory: tried in a program of its own."""

import json
import os
import subprocess
import sys
import tracemalloc
from pathlib import Path

import pytest

from tests.helpers.hostile import not_plain
from tests.helpers.nasty_files import all_of_them
from tiremap.errors import TiremapError
from tiremap.resources import shop_rule_sets_folder, shop_stock_path
from tiremap.storage.job_file import read_job
from tiremap.storage.lesson_file import read_lesson
from tiremap.storage.settings import Settings, read_settings, settings_path
from tiremap.storage.shop_rule_sets import import_rule_set
from tiremap.workshop.stock import stock_in_use

HUGE_BYTES = 100_000_000
MOST_READ_BYTES = 3_000_000
"""Of a huge file: a little more than the largest job file."""
MOST_GROWN_MB = 300
"""Of a program that reads all the nasty files: they are refused within a few times the memory of a large job."""
TOP = Path(__file__).parents[2]


@pytest.mark.parametrize("times", [1, pytest.param(20, marks=pytest.mark.long)])
def test_the_nastiest_files_cost_little_memory(times):
    done = subprocess.run(
        [sys.executable, "-m", "tests.helpers.nasty_files", str(times)], cwd=TOP, capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout)["grown_mb"] < MOST_GROWN_MB, done.stderr


def test_the_nastiest_files_are_refused_in_plain_words():
    told = {}
    for name, read in all_of_them(times=1):
        try:
            read()
        except TiremapError as error:
            told[name] = str(error)
            assert not_plain(error) == "", name
    assert len(told) > 60


@pytest.mark.parametrize(
    ("place", "read"),
    [
        ("job.json", lambda path: _refusal(read_job, path)),
        ("mine.toml", lambda path: _refusal(read_lesson, path)),
        ("theirs.toml", lambda path: _refusal(import_rule_set, path)),
        ("settings/stock.toml", lambda path: stock_in_use()[1]),
        ("settings/settings.json", lambda path: read_settings()[1]),
    ],
)
def test_a_huge_file_is_refused_before_it_is_read(tmp_path, place, read):
    path = tmp_path / place
    path.parent.mkdir(exist_ok=True)
    with path.open("wb") as file:
        file.truncate(HUGE_BYTES)
    tracemalloc.start()
    try:
        says = read(path)
        most = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert "too large" in says and "more than" in says and str(path) in says
    assert most < MOST_READ_BYTES * 2
    assert path.stat().st_size == HUGE_BYTES


def test_a_huge_settings_file_leaves_the_usual_settings_and_the_file():
    settings_path().parent.mkdir()
    settings_path().write_bytes(b" " * 1_000_001)
    assert read_settings()[0] == Settings()
    assert settings_path().stat().st_size == 1_000_001


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes that stand in a folder here")
@pytest.mark.parametrize("kind", ["rule_sets", "stock"])
def test_a_pipe_in_the_settings_folder_is_refused_and_not_waited_for(kind):
    path = shop_rule_sets_folder() / "pipe.toml" if kind == "rule_sets" else shop_stock_path()
    path.parent.mkdir(parents=True)
    os.mkfifo(path)
    says = _refusal(import_rule_set, path) if kind == "rule_sets" else stock_in_use()[1]
    assert "not a file" in says


def _refusal(read, path):
    with pytest.raises(TiremapError) as caught:
        read(path)
    return str(caught.value)
