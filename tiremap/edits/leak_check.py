"""What is read for a leak check: two pressures, their temperatures, the time between, the gauge, the air volume."""

from typing import Any

from tiremap.edits.change import changed
from tiremap.model.after_repair import LeakCheck
from tiremap.model.job import Job

_NOTHING_READ = LeakCheck()


def set_leak_check(job: Job, **fields: Any) -> Job:
    """Set fields of the leak check, such as ``before``, ``hours``, ``gauge``; ``None`` is not read.

    With nothing read the job holds no leak check. `TypeError` for a field there is not.
    """
    check = changed(job.leak_check or _NOTHING_READ, **fields)
    return changed(job, leak_check=None if check == _NOTHING_READ else check)
