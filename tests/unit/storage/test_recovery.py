"""Copies kept lie in the settings folder under the time, and none takes the place of another."""

from datetime import datetime

import pytest

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.errors import TiremapError
from tiremap.resources import settings_folder
from tiremap.storage.job_file import read_job
from tiremap.storage.recovery import keep_bytes, keep_copy

NOW = datetime(2026, 11, 27, 9, 5, 3)


def test_a_job_kept_is_read_back_as_it_was():
    job = bench_job(crown_injury())
    path = keep_copy(job, NOW)
    assert path == settings_folder() / "kept_jobs" / "2026-11-27_09-05-03.json"
    assert read_job(path) == job


def test_what_is_kept_in_one_second_gets_a_number_and_nothing_is_replaced():
    paths = [keep_bytes(data, NOW) for data in (b"one", b"no \xff job", b"three")]
    assert [path.name for path in paths] == [f"2026-11-27_09-05-03{end}.json" for end in ("", "_2", "_3")]
    assert [path.read_bytes() for path in paths] == [b"one", b"no \xff job", b"three"]


def test_a_folder_that_cannot_be_made_is_told():
    settings_folder().write_text("a file where the folder would be")
    with pytest.raises(TiremapError, match="kept_jobs cannot be made"):
        keep_bytes(b"{}", NOW)
