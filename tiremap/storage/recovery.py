"""A copy of the job kept when the program fails: a new file in the settings folder, never the user's own."""

from datetime import datetime
from pathlib import Path

from tiremap.errors import TiremapError
from tiremap.model.job import Job
from tiremap.resources import settings_folder
from tiremap.storage.job_file import write_job


def keep_copy(job: Job, now: datetime) -> Path:
    """Write the job to a file named by the time and give its path.

    A file already there is left alone: a second failure in the same second gets a number. Raises `TiremapError` if
    nothing could be written.
    """
    folder = settings_folder() / "kept_jobs"
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise TiremapError(f"The folder {folder} cannot be made: {error.strerror}.") from None
    path = _unused(folder, now.strftime("%Y-%m-%d_%H-%M-%S"))
    write_job(path, job)
    return path


def _unused(folder: Path, stem: str) -> Path:
    path, number = folder / f"{stem}.json", 2
    while path.exists():
        path, number = folder / f"{stem}_{number}.json", number + 1
    return path
