"""Whatever stands in a file, no other file is read or written for it, nothing is started and nobody is called.

A program of its own is watched by the interpreter while it reads files whose every text is a path, an address, a
command or a formula, weighs and prints the job, fills the register and saves: it touches what it touches with harmless
files.
"""

import csv
import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests.helpers.hostile_seeds import rule_set_seeds
from tests.helpers.watched import HOSTILE
from tiremap.errors import TiremapError
from tiremap.model.rule_set_file import rule_set_or_why
from tiremap.resources import shop_rule_sets_folder
from tiremap.storage.register_csv import taken_for_a_formula
from tiremap.storage.shop_rule_sets import copy_rule_set, import_rule_set

TOP = Path(__file__).parents[2]
HOSTILE_RUNS = ("hostile_0", "hostile_5")
STARTS_OR_CALLS = (
    "subprocess.", "socket.", "os.system", "os.exec", "os.spawn", "os.posix_spawn", "os.fork", "os.startfile", "pty.",
    "urllib.", "webbrowser.", "ctypes.",
)


@pytest.fixture(scope="module")
def watched(tmp_path_factory):
    """The folder the watched program worked in, and what it touched."""
    folder = tmp_path_factory.mktemp("watched")
    command = [sys.executable, "-W", "ignore", "-m", "tests.helpers.watched", str(folder)]
    done = subprocess.run(command, cwd=TOP, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return folder, json.loads(done.stdout)


def test_the_watch_sees_what_is_touched_with_harmless_files(watched):
    touched = watched[1]["harmless"]
    for expected in (
        ["read", "HERE/jobs/job.json"], ["write", "HERE/sheet.pdf"], ["read", "HERE/settings/stock.toml"],
        ["write", "HERE/settings/rule_sets/our_shop_2.toml"], ["read", "HERE/settings/settings.json"],
        ["sqlite3.connect", "FOLDER/cache/registers/INDEX"], ["read", "HERE/mine.toml"],
    ):
        assert expected in touched


@pytest.mark.parametrize("run", HOSTILE_RUNS)
def test_hostile_files_lead_to_no_file_that_harmless_ones_do_not(watched, run):
    touched = watched[1]
    harmless = {tuple(each) for each in touched["harmless"]}
    more = {tuple(each) for each in touched[run]} - harmless
    assert more == {("read", f"HERE/shared_{number}.toml") for number in range(1, len(HOSTILE))}
    assert not [what for what, _ in touched[run] if what.startswith(STARTS_OR_CALLS)]


@pytest.mark.parametrize("run", HOSTILE_RUNS)
def test_hostile_files_leave_nothing_that_harmless_ones_do_not(watched, run):
    left = {name for name in watched[1][f"{run}_left"] if not name.startswith("shared_")}
    assert left == set(watched[1]["harmless_left"]) - {"settings/rule_sets/our_shop_2.toml", "shared_0.toml"}


@pytest.mark.parametrize("run", HOSTILE_RUNS)
def test_the_hostile_files_were_hostile_and_the_table_holds_no_formula(watched, run):
    folder = watched[0] / run
    for name in ("jobs/job.json~", "settings/settings.json", "settings/stock.toml", "mine.toml"):
        text = (folder / name).read_text(encoding="utf-8")
        assert sum(json.dumps(each, ensure_ascii=False) in text for each in HOSTILE) >= 2, name
    with (folder / "register.csv").open(encoding="utf-8", newline="") as file:
        cells = [cell for row in csv.reader(file) for cell in row]
    assert not [cell for cell in cells if taken_for_a_formula(cell) and not cell.startswith("'")]
    assert [cell for cell in cells if cell in HOSTILE or cell[1:] in HOSTILE]


@pytest.mark.parametrize("name", [*HOSTILE, "x\0y", "a/../../b", "nul", "COM1", "x" * 61, ".hidden", "our shop"])
def test_a_rule_set_of_a_name_that_leads_elsewhere_is_neither_read_copied_nor_taken_over(tmp_path, name):
    shared = tmp_path / "shared.toml"
    shared.write_bytes(rule_set_seeds()[0].data.replace(b'"our_shop"', json.dumps(name).encode(), 1))
    assert rule_set_or_why(name)[0] is None
    for change in (lambda: copy_rule_set("japan", name), lambda: import_rule_set(shared)):
        with pytest.raises(TiremapError):
            change()
    assert not shop_rule_sets_folder().exists()
    assert [path.name for path in tmp_path.iterdir()] == ["shared.toml"]
