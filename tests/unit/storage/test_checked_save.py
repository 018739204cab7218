"""A save that fails costs nothing; one that succeeds keeps mode, links and one previous generation."""

import errno
import os
import stat

import pytest

from tiremap.errors import TiremapError
from tiremap.storage import checked_save
from tiremap.storage.checked_save import previous_generation, save_checked

OLD, NEW = b"old bytes\n", b"new bytes, and more of them\n"


@pytest.fixture
def saved(tmp_path):
    path = tmp_path / "job.json"
    path.write_bytes(OLD)
    return path


def _fails(code):
    """A stand-in for a system call that fails with that error number."""

    def call(*args):
        raise OSError(code, os.strerror(code))

    return call


@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EACCES, errno.EIO])
@pytest.mark.parametrize("call", ["open", "write", "fsync", "replace", "fstat", "chmod"])
def test_whatever_system_call_fails_the_old_bytes_stand_and_nothing_is_left_over(saved, monkeypatch, call, code):
    with monkeypatch.context() as patch:
        patch.setattr(checked_save.os, call, _fails(code))
        with pytest.raises(TiremapError, match="was not saved"):
            save_checked(saved, NEW)
    assert saved.read_bytes() == OLD
    assert [path.name for path in saved.parent.iterdir()] == ["job.json"]


@pytest.mark.parametrize("failing", [1, 2])
def test_a_failure_in_either_replacement_leaves_the_old_bytes(saved, monkeypatch, failing):
    real, count = os.replace, []

    def replace(source, target):
        count.append(target)
        if len(count) == failing:
            raise OSError(errno.EIO, "input/output error")
        real(source, target)

    with monkeypatch.context() as patch:
        patch.setattr(checked_save.os, "replace", replace)
        with pytest.raises(TiremapError, match="as it was"):
            save_checked(saved, NEW)
    assert len(count) == failing
    assert saved.read_bytes() == OLD
    assert not list(saved.parent.glob(".tiremap-*"))


@pytest.mark.parametrize("existed", [True, False])
def test_a_folder_that_cannot_be_forced_to_disk_leaves_what_was_there(tmp_path, monkeypatch, existed):
    path = tmp_path / "job.json"
    if existed:
        path.write_bytes(OLD)
    real = os.fsync

    def fsync(handle):
        if stat.S_ISDIR(os.fstat(handle).st_mode):
            raise OSError(errno.EIO, "input/output error")
        real(handle)

    with monkeypatch.context() as patch:
        patch.setattr(checked_save.os, "fsync", fsync)
        with pytest.raises(TiremapError, match="was not saved"):
            save_checked(path, NEW)
    assert path.read_bytes() == OLD if existed else not path.exists()


def test_a_file_system_that_knows_no_folder_sync_saves_all_the_same(saved, monkeypatch):
    real = os.fsync

    def fsync(handle):
        if stat.S_ISDIR(os.fstat(handle).st_mode):
            raise OSError(errno.EINVAL, "invalid argument")
        real(handle)

    monkeypatch.setattr(checked_save.os, "fsync", fsync)
    save_checked(saved, NEW)
    assert saved.read_bytes() == NEW


def test_a_disk_that_takes_a_few_bytes_at_a_time_still_gets_them_all(saved, monkeypatch):
    real = os.write
    monkeypatch.setattr(checked_save.os, "write", lambda handle, data: real(handle, data[:3]))
    save_checked(saved, NEW)
    assert saved.read_bytes() == NEW


@pytest.mark.parametrize(
    ("claimed", "says"), [(len, "kept only a part"), (lambda data: 0, "the disk is full")], ids=["all", "nothing"]
)
def test_a_disk_that_drops_what_it_was_given_is_found_out_whatever_it_claims(saved, monkeypatch, claimed, says):
    with monkeypatch.context() as patch:
        patch.setattr(checked_save.os, "write", lambda handle, data: claimed(data))
        with pytest.raises(TiremapError, match=says):
            save_checked(saved, NEW)
    assert saved.read_bytes() == OLD
    assert [path.name for path in saved.parent.iterdir()] == ["job.json"]


def test_a_disk_that_garbles_a_byte_is_found_out_by_reading_back(saved, monkeypatch):
    real = os.write
    with monkeypatch.context() as patch:
        patch.setattr(checked_save.os, "write", lambda handle, data: real(handle, b"X" * len(data)))
        with pytest.raises(TiremapError, match="read back"):
            save_checked(saved, NEW)
    assert saved.read_bytes() == OLD


def test_a_disk_that_is_full_midway_leaves_the_old_bytes_and_nothing_over(saved, monkeypatch):
    real, count = os.write, []

    def write(handle, data):
        count.append(len(data))
        if len(count) > 2:
            raise OSError(errno.ENOSPC, "no space left on device")
        return real(handle, data[:4])

    with monkeypatch.context() as patch:
        patch.setattr(checked_save.os, "write", write)
        with pytest.raises(TiremapError, match="the disk is full"):
            save_checked(saved, NEW)
    assert count == [len(NEW), len(NEW) - 4, len(NEW) - 8]
    assert saved.read_bytes() == OLD
    assert [path.name for path in saved.parent.iterdir()] == ["job.json"]


def test_a_full_disk_is_called_a_full_disk_and_says_what_to_do(saved, monkeypatch):
    with monkeypatch.context() as patch:
        patch.setattr(checked_save.os, "write", _fails(errno.ENOSPC))
        with pytest.raises(TiremapError) as raised:
            save_checked(saved, NEW)
    assert "the disk is full" in raised.value.what
    assert "Free some space" in raised.value.right


def test_the_generation_before_is_kept_where_no_search_for_job_files_finds_it(saved):
    save_checked(saved, NEW)
    save_checked(saved, b"newest")
    assert previous_generation(saved).read_bytes() == NEW
    assert list(saved.parent.glob("*.json")) == [saved]


def test_saving_the_same_again_does_not_push_out_the_generation_before(saved):
    save_checked(saved, NEW)
    save_checked(saved, NEW)
    assert previous_generation(saved).read_bytes() == OLD


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o664])
def test_the_mode_of_a_file_stays(saved, mode):
    saved.chmod(mode)
    save_checked(saved, NEW)
    assert stat.S_IMODE(saved.stat().st_mode) == mode


def test_a_new_file_has_the_mode_any_new_file_has(tmp_path):
    (tmp_path / "any").touch()
    save_checked(tmp_path / "job.json", NEW)
    assert (tmp_path / "job.json").stat().st_mode == (tmp_path / "any").stat().st_mode
    assert not previous_generation(tmp_path / "job.json").exists()


def test_a_link_stays_a_link_and_the_file_it_leads_to_is_saved(tmp_path):
    shelf = tmp_path / "shelf"
    shelf.mkdir()
    real, link = shelf / "real.json", tmp_path / "link.json"
    real.write_bytes(OLD)
    link.symlink_to(real)
    save_checked(link, NEW)
    assert link.is_symlink()
    assert real.read_bytes() == NEW
    assert previous_generation(link) == shelf / "real.json~"


def test_a_write_protected_file_is_not_replaced(saved, monkeypatch):
    monkeypatch.setattr(checked_save.os, "access", lambda path, how: False)
    with pytest.raises(TiremapError, match="write-protected"):
        save_checked(saved, NEW)
    assert saved.read_bytes() == OLD


def test_a_folder_a_pipe_and_a_missing_folder_are_refused_in_words(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(TiremapError, match="it is a folder"):
        save_checked(tmp_path, NEW)
    with pytest.raises(TiremapError, match="it is not a file"):
        save_checked(tmp_path / "pipe", NEW)
    with pytest.raises(TiremapError, match="folder does not exist"):
        save_checked(tmp_path / "nowhere" / "job.json", NEW)


def test_links_in_a_circle_are_refused_and_stay(tmp_path):
    one, other = tmp_path / "one.json", tmp_path / "other.json"
    one.symlink_to(other)
    other.symlink_to(one)
    with pytest.raises(TiremapError, match="circle"):
        save_checked(one, NEW)
    assert one.is_symlink() and other.is_symlink()


def test_where_even_putting_back_fails_it_is_said_what_stands_where(saved, monkeypatch):
    real, count = os.replace, []

    def replace(source, target):
        count.append(target)
        if len(count) > 2:  # the copy and the new file are in place; then the disk fails
            raise OSError(errno.EIO, "input/output error")
        real(source, target)

    with monkeypatch.context() as patch:
        patch.setattr(checked_save.os, "replace", replace)
        with pytest.raises(TiremapError, match="holds what was to be saved") as raised:
            save_checked(saved, NEW)
    assert "job.json~~" in raised.value.what and "as it was" not in raised.value.what
    assert saved.read_bytes() == NEW and previous_generation(saved).read_bytes() == OLD


def test_a_file_locked_by_another_program_is_told_as_such(saved, monkeypatch):
    with monkeypatch.context() as patch:
        patch.setattr(checked_save.os, "replace", _fails(errno.EBUSY))
        with pytest.raises(TiremapError, match="another program has it locked") as raised:
            save_checked(saved, NEW)
    assert "close what else has it open" in raised.value.right
    assert saved.read_bytes() == OLD


def test_removing_takes_every_generation_and_what_a_stopped_save_left(saved):
    save_checked(saved, NEW)
    for each in (*checked_save._parts(saved, True), saved.with_name("job.json~~")):
        each.touch()
    checked_save.remove_with_generations(saved)
    assert list(saved.parent.iterdir()) == []
