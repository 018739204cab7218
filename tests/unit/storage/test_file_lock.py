"""Locks hold others off while they are held, and are gone with whoever held them."""

import errno
import os

import pytest

from tiremap.errors import TiremapError
from tiremap.storage import file_lock
from tiremap.storage.checked_save import save_checked
from tiremap.storage.file_lock import folder_held, held_file, let_go


@pytest.fixture
def no_patience(monkeypatch):
    """A save that finds the folder held does not wait."""
    monkeypatch.setattr(file_lock, "read_toml", lambda name: {"saving": {"wait_for_others_s": 0, "look_again_s": 0}})


def test_a_save_that_meets_another_that_does_not_end_is_told_so_and_the_file_stands(tmp_path, no_patience):
    path = tmp_path / "job.json"
    path.write_bytes(b"old")
    with folder_held(tmp_path) as held:
        assert held
        with pytest.raises(TiremapError, match="another program is saving in this folder") as raised:
            save_checked(path, b"new")
    assert raised.value.right.startswith("Wait a moment")
    assert path.read_bytes() == b"old"
    save_checked(path, b"new")
    assert path.read_bytes() == b"new"


def test_where_the_file_system_knows_no_locks_saving_goes_on_without_and_leaves_nothing_over(tmp_path, monkeypatch):
    def none(handle):
        raise OSError(errno.ENOTSUP, "Operation not supported")

    monkeypatch.setattr(file_lock, "_take", none)
    with folder_held(tmp_path) as held:
        assert not held
    save_checked(tmp_path / "job.json", b"one")
    save_checked(tmp_path / "job.json", b"two")
    assert sorted(each.name for each in tmp_path.iterdir()) == ["job.json", "job.json~"]


def test_a_file_is_held_by_one_alone_until_it_is_let_go(tmp_path):
    first = held_file(tmp_path / "lock")
    assert held_file(tmp_path / "lock") is None
    let_go(first)
    again = held_file(tmp_path / "lock")
    assert again is not None
    let_go(again)


def test_a_held_folder_gets_no_file_of_ours(tmp_path):
    with folder_held(tmp_path):
        assert list(tmp_path.iterdir()) == []


def test_a_file_that_cannot_be_held_for_another_reason_says_so_and_stays_closed(tmp_path, monkeypatch):
    opened = []

    def none(handle, how):
        opened.append(handle)
        raise OSError(errno.ENOTSUP, "Operation not supported")

    monkeypatch.setattr(file_lock.fcntl, "flock", none)
    with pytest.raises(OSError, match="not supported"):
        held_file(tmp_path / "lock")
    with pytest.raises(OSError, match="Bad file descriptor"):
        os.fstat(opened[0])


def test_a_save_waits_for_another_that_ends(tmp_path, monkeypatch):
    other = file_lock._handle_for(tmp_path)
    assert file_lock._take(other)
    monkeypatch.setattr(file_lock.time, "sleep", lambda seconds: let_go(other))  # while it waits, the other ends
    with folder_held(tmp_path) as held:
        assert held
