"""Reading and writing job files. Whatever is wrong with a file is said in words, and never harms it."""

import json
from pathlib import Path

from pydantic import ValidationError

from tiremap.edits.wording import in_words
from tiremap.errors import TiremapError
from tiremap.model.job import FORMAT, VERSION, Job
from tiremap.resources import read_toml
from tiremap.storage.canonical import job_text
from tiremap.storage.checked_save import save_checked
from tiremap.storage.json_text import read_json_text
from tiremap.storage.upgrades import newer_version, upgraded, version_of


def read_job(path: Path) -> Job:
    """The job in a file, brought to the newest version. Raises `TiremapError` saying what keeps it from opening."""
    data = _read_bytes(path)
    try:
        return job_from_bytes(data)
    except TiremapError as error:
        raise TiremapError(f"{path} cannot be opened. {error.what}", error.right) from None


def write_job(path: Path, job: Job) -> None:
    """Save the job, keeping the file's previous content beside it (`checked_save`).

    Raises `TiremapError` if it cannot be saved, or if there stands a file of a newer version or one with a decision
    this job does not hold, such as one signed meanwhile in another window; the old file is then as it was.
    """
    data = job_text(job).encode()
    job_from_bytes(data)  # nothing is written that could not be opened again
    _refuse_to_overwrite_newer(path)
    _refuse_to_lose_decisions(path, job)
    save_checked(path, data)


def job_from_bytes(data: bytes) -> Job:
    """The job in the bytes of a job file. Raises `TiremapError` without the file's name."""
    limits = read_toml("storage.toml")["job_file"]
    if len(data) > limits["largest_bytes"]:
        raise _too_large()
    fields = read_json_text(data, limits["deepest_nesting"])
    if not _is_job(fields):
        raise TiremapError("It is not a Tiremap job.", f'A job file holds "format": "{FORMAT}".')
    try:
        return Job.model_validate_json(json.dumps(upgraded(fields)))
    except ValidationError as error:
        raise in_words(error) from None


def _read_bytes(path: Path) -> bytes:
    """The bytes of a file, at most one more than the limit. Folders, devices and pipes are refused unopened."""
    try:
        if path.exists() and not path.is_file():
            kind = "a folder" if path.is_dir() else "not a file"
            raise TiremapError(f"{path} is {kind}.", "Choose a job file; its name ends in .json.")
        with path.open("rb") as file:
            return file.read(read_toml("storage.toml")["job_file"]["largest_bytes"] + 1)
    except FileNotFoundError:
        raise TiremapError(f"There is no file {path}.", "Choose a job file; its name ends in .json.") from None
    except (OSError, ValueError) as error:  # ValueError: a zero byte in the name
        raise TiremapError(f"{path} cannot be read: {getattr(error, 'strerror', None) or error}.") from None


def _refuse_to_overwrite_newer(path: Path) -> None:
    """Raise `TiremapError` if a job of a newer version stands there, or a file too large to be sure."""
    if not path.is_file():
        return
    data = _read_bytes(path)
    if len(data) > read_toml("storage.toml")["job_file"]["largest_bytes"]:
        raise TiremapError(f"{path} is not overwritten. {_too_large().what}", "Save under another name.")
    try:
        fields = json.loads(data)  # not strictly: a newer version may hold what this one refuses
    except (ValueError, RecursionError):
        return
    version = version_of(fields) if _is_job(fields) else None
    if version is not None and version > VERSION:
        raise TiremapError(f"{path} is not overwritten. {newer_version(version).what}", "Save under another name.")


def _refuse_to_lose_decisions(path: Path, job: Job) -> None:
    """Raise `TiremapError` if a job stands there with a decision that would be gone."""
    try:
        there = read_job(path) if path.is_file() else Job()
    except TiremapError:
        return
    lost = next((each for each in there.decisions if each not in job.decisions), None)
    if lost is not None:
        raise TiremapError(
            f"{path} is not overwritten. It holds a decision of {lost.date:%Y-%m-%d %H:%M} that this job does not.",
            "Open that file to see it, or save under another name.",
        )


def _is_job(fields: object) -> bool:
    return isinstance(fields, dict) and fields.get("format") == FORMAT


def _too_large() -> TiremapError:
    largest = read_toml("storage.toml")["job_file"]["largest_bytes"]
    return TiremapError(f"It is too large for a job file: more than {largest / 1e6:g} MB.")
