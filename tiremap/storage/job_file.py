"""Reading and writing job files. Whatever is wrong with a file is said in words, and never harms it."""

import json
from pathlib import Path

from pydantic import ValidationError

from tiremap.errors import TiremapError
from tiremap.model.job import FORMAT, VERSION, Decision, Job
from tiremap.model.wording import in_words
from tiremap.resources import read_toml
from tiremap.storage.canonical import job_text
from tiremap.storage.checked_save import save_checked
from tiremap.storage.json_text import read_json_text
from tiremap.storage.upgrades import newer_version, upgraded, version_of


class ChangedOnDisk(TiremapError):
    """A job file holds something else than when it was opened: another program or window saved it.

    ``theirs`` is the job it holds now; ``None`` if it holds none, and ``why`` says why. ``data`` are its bytes.
    """

    def __init__(self, path: Path, data: bytes, theirs: Job | None, why: str) -> None:
        self.path, self.data, self.theirs, self.why = path, data, theirs, why
        says = why and f" {why}"
        super().__init__(
            f"{path} was not saved: it was changed by another program or window since it was opened here.{says} The "
            "file on disk is as it was.",
            "Open that file to see it, or save under another name.",
        )


def read_job(path: Path) -> Job:
    """The job in a file, brought to the newest version. Raises `TiremapError` saying what keeps it from opening."""
    data = _read_bytes(path)
    try:
        return job_from_bytes(data)
    except TiremapError as error:
        raise TiremapError(f"{path} cannot be opened. {error.what}", error.right) from None


def write_job(path: Path, job: Job, opened_as: Job | None = None) -> None:
    """Save the job, keeping the file's previous content beside it (`checked_save`).

    ``opened_as`` is the job as it was read from that file or last saved there; ``None`` replaces whatever stands there.
    Raises `ChangedOnDisk` if another job stands there by now, `TiremapError` if it cannot be saved, or if there stands
    a file of a newer version or one with a decision this job does not hold; the old file is then as it was.
    """
    data = job_text(job).encode()
    job_from_bytes(data)  # nothing is written that could not be opened again
    _refuse_too_large(path)

    def may_replace(there: bytes | None) -> None:
        if there is None or there == data:
            return
        _refuse_to_overwrite_newer(path, there)
        theirs, why = _job_or_why(there)
        if opened_as is not None and (theirs is None or theirs not in (opened_as, job)):
            raise ChangedOnDisk(path, there, theirs, why)
        if theirs is not None:
            _refuse_to_lose_decisions(path, theirs, job)

    save_checked(path, data, may_replace)


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


def changed_meanwhile(path: Path, opened_as: Job) -> ChangedOnDisk | None:
    """What a job file holds if that is not the job it was opened as; ``None`` if it is, or there is no such file.

    Raises `TiremapError` if it cannot be read.
    """
    if not path.is_file():
        return None
    data = _read_bytes(path)
    theirs, why = _job_or_why(data)
    return None if theirs == opened_as else ChangedOnDisk(path, data, theirs, why)


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


def _refuse_too_large(path: Path) -> None:
    """Raise `TiremapError` if a file stands there that is too large to be sure of its version."""
    try:
        size = path.stat().st_size if path.is_file() else 0
    except (OSError, ValueError):  # whatever is wrong there, the save says it
        return
    if size > read_toml("storage.toml")["job_file"]["largest_bytes"]:
        raise TiremapError(f"{path} is not overwritten. {_too_large().what}", "Save under another name.")


def _refuse_to_overwrite_newer(path: Path, there: bytes) -> None:
    """Raise `TiremapError` if a job of a newer version stands there."""
    try:
        fields = json.loads(there)  # not strictly: a newer version may hold what this one refuses
    except (ValueError, RecursionError):
        return
    version = version_of(fields) if _is_job(fields) else None
    if version is not None and version > VERSION:
        raise TiremapError(f"{path} is not overwritten. {newer_version(version).what}", "Save under another name.")


def _refuse_to_lose_decisions(path: Path, theirs: Job, job: Job) -> None:
    """Raise `TiremapError` if the job that stands there has a decision that would be gone."""
    lost = first_decision_lost(theirs, job)
    if lost is not None:
        raise TiremapError(
            f"{path} is not overwritten. It holds a decision of {lost.date:%Y-%m-%d %H:%M} that this job does not.",
            "Open that file to see it, or save under another name.",
        )


def first_decision_lost(there: Job, job: Job) -> Decision | None:
    """The first decision that would be gone if ``job`` took the place of the one that is there."""
    held = set(job.decisions)
    return next((each for each in there.decisions if each not in held), None)


def _job_or_why(data: bytes) -> tuple[Job | None, str]:
    """The job in those bytes; else ``None`` and why there is none."""
    try:
        return job_from_bytes(data), ""
    except TiremapError as error:
        return None, str(error)


def _is_job(fields: object) -> bool:
    return isinstance(fields, dict) and fields.get("format") == FORMAT


def _too_large() -> TiremapError:
    largest = read_toml("storage.toml")["job_file"]["largest_bytes"]
    return TiremapError(f"It is too large for a job file: more than {largest / 1e6:g} MB.", "Job files have a few kB.")
