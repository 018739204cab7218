"""Copies kept where something could otherwise be lost: new files in the settings folder, never the user's own.

A copy is kept when the program fails, and of the version that gives way when two of one job met.
"""

from datetime import datetime
from pathlib import Path

from tiremap.errors import TiremapError
from tiremap.model.job import Job
from tiremap.resources import settings_folder
from tiremap.storage.canonical import job_text
from tiremap.storage.checked_save import save_checked


def keep_copy(job: Job, now: datetime) -> Path:
    """Write the job to a file named by the time and give its path. Raises as `keep_bytes`."""
    return keep_bytes(job_text(job).encode(), now)


def keep_bytes(data: bytes, now: datetime) -> Path:
    """Write what a job file held, readable or not, to a file named by the time and give its path.

    A file already there is left alone: a second one in the same second gets a number. Raises `TiremapError` if
    nothing could be written.
    """
    folder = settings_folder() / "kept_jobs"
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise TiremapError(f"The folder {folder} cannot be made: {error.strerror}.") from None
    path = _unused(folder, now.strftime("%Y-%m-%d_%H-%M-%S"))
    save_checked(path, data)
    return path


def _unused(folder: Path, stem: str) -> Path:
    path, number = folder / f"{stem}.json", 2
    while path.exists():
        path, number = folder / f"{stem}_{number}.json", number + 1
    return path
