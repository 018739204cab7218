"""The index is kept whole or not at all, and one that cannot be used is told, never trusted."""

import os
import sqlite3
from pathlib import Path

import pytest

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.errors import TiremapError
from tiremap.resources import shop_rule_sets_folder
from tiremap.storage import register as register_module
from tiremap.storage import register_scan
from tiremap.storage.job_file import write_job
from tiremap.storage.register import Register
from tiremap.storage.register_index import SCHEMA, _set_up, opened, writing
from tiremap.storage.register_rows import rules_in_force
from tiremap.storage.register_scan import files_found
from tiremap.storage.shop_stock import write_stock
from tiremap.workshop.stock import house_stock


@pytest.fixture
def folder(tmp_path) -> Path:
    (tmp_path / "jobs" / "below").mkdir(parents=True)
    write_job(tmp_path / "jobs" / "a.json", bench_job(crown_injury()))
    return tmp_path / "jobs"


def test_a_write_that_fails_halfway_leaves_nothing(tmp_path):
    with opened(tmp_path / "index") as index:
        index.execute("CREATE TABLE jotted (word TEXT)")
        with pytest.raises(KeyboardInterrupt), writing(index):
            index.execute("INSERT INTO jotted VALUES ('half')")
            raise KeyboardInterrupt
        assert index.execute("SELECT count(*) FROM jotted").fetchone() == (0,)


def test_an_index_another_program_has_set_up_meanwhile_keeps_its_rows(tmp_path):
    with opened(tmp_path / "index") as index:
        index.execute("CREATE TABLE jotted (word TEXT)")
        _set_up(index)
        assert index.execute("SELECT count(*) FROM jotted").fetchone() == (0,)
        assert index.execute("PRAGMA user_version").fetchone() == (SCHEMA,)


def test_a_cache_folder_that_cannot_be_made_is_told(folder, tmp_path, monkeypatch):
    (tmp_path / "cache").write_text("a file where the folder would be")
    monkeypatch.setenv("TIREMAP_CACHE_FOLDER", str(tmp_path / "cache"))
    with pytest.raises(TiremapError, match="cannot be used"):
        Register(folder).refresh()


def test_an_index_that_cannot_be_opened_is_told_and_left(folder):
    register = Register(folder)
    register.index_path.mkdir(parents=True)
    with pytest.raises(TiremapError, match="cannot be used"):
        register.find()
    assert register.index_path.is_dir()


def test_a_broken_index_that_cannot_be_deleted_is_told(folder, monkeypatch):
    register = Register(folder)
    register.index_path.parent.mkdir(parents=True, exist_ok=True)
    register.index_path.write_bytes(b"not an index" * 1000)
    monkeypatch.setattr(register_module, "throw_away", lambda path: None)
    with pytest.raises(TiremapError, match="cannot be used"):
        register.refresh()


def test_a_broken_index_is_made_anew_by_a_refresh(folder):
    register = Register(folder)
    register.index_path.parent.mkdir(parents=True, exist_ok=True)
    register.index_path.write_bytes(b"not an index" * 1000)
    register.refresh()
    assert [row.path for row in register.find()] == ["a.json"]


def test_a_fault_that_became_another_is_told_anew(folder, tmp_path):
    os.mkfifo(folder / "b.json")
    register = Register(folder)
    register.refresh()
    [was] = [row for row in register.find() if row.path == "b.json"]
    (folder / "b.json").unlink()
    (tmp_path / "elsewhere.json").write_text("{}")
    (folder / "b.json").symlink_to(tmp_path / "elsewhere.json")
    register.refresh()
    [now] = [row for row in register.find() if row.path == "b.json"]
    assert "not a file" in was.fault and now.fault == register_scan.LEAVES


def test_a_folder_below_that_cannot_be_listed_is_a_row_and_the_top_an_error(folder, monkeypatch):
    listed = os.scandir

    def refused(path):
        if Path(path) in closed:
            raise PermissionError(13, "Permission denied")
        return listed(path)

    monkeypatch.setattr(register_scan.os, "scandir", refused)
    closed = [folder / "below"]
    found = {each.path: each.fault for each in files_found(folder)}
    assert not found["a.json"] and found["below"] == "The folder cannot be read: Permission denied."
    closed = [folder]
    with pytest.raises(TiremapError, match=r"cannot be read: Permission denied"):
        files_found(folder)


def test_answers_of_another_stock_or_shop_s_rule_set_are_not_those_of_today():
    before = rules_in_force()
    write_stock(house_stock().model_copy(update={"source": "the shop"}))
    with_stock = rules_in_force()
    (shop_rule_sets_folder() / "a_folder.toml").mkdir(parents=True)
    assert len({before, with_stock, rules_in_force()}) == 3


def test_an_index_set_up_by_a_later_program_is_emptied(tmp_path):
    with opened(tmp_path / "index") as index:
        index.execute(f"PRAGMA user_version = {SCHEMA + 1}")
        index.execute("CREATE TABLE jotted (word TEXT)")
    with opened(tmp_path / "index") as index, pytest.raises(sqlite3.OperationalError, match="no such table"):
        index.execute("SELECT * FROM jotted")
