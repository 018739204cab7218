"""Job files of every version there has been still open, and say what they said.

A frozen file is never changed: a new version adds one of its own.
"""

import json
from pathlib import Path

import pytest

from tiremap.assess import assess
from tiremap.model.job import VERSION
from tiremap.storage.canonical import job_text
from tiremap.storage.job_file import read_job

FOLDER = Path(__file__).with_name("old_versions")
FROZEN = {1: "version_1.json"}


def everything_in(old, new):
    """Whether all that an old file says stands in the new one too."""
    if isinstance(old, dict):
        return isinstance(new, dict) and all(name in new and everything_in(old[name], new[name]) for name in old)
    if isinstance(old, list):
        return len(old) == len(new) and all(everything_in(*pair) for pair in zip(old, new, strict=True))
    return old == new and type(old) is type(new)


def test_every_version_has_its_frozen_file():
    assert set(FROZEN) == set(range(1, VERSION + 1))
    assert {path.name for path in FOLDER.iterdir()} == set(FROZEN.values())


@pytest.mark.parametrize("version", FROZEN)
def test_a_file_of_each_version_opens_is_assessed_and_is_written_in_the_newest(version):
    job = read_job(FOLDER / FROZEN[version])
    assert assess(job).answer == "not_repairable"
    assert json.loads(job_text(job))["version"] == VERSION


def test_version_1_loses_nothing_of_what_it_says():
    path = FOLDER / FROZEN[1]
    assert everything_in(json.loads(path.read_text(encoding="utf-8")), json.loads(job_text(read_job(path))))
