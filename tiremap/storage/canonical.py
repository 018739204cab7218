"""The one text of a job: sorted keys, two spaces per level, every measurement with a decimal point, newline at the end.

A number that is a float is written as the shortest text that reads back as the same float (``35.0``, ``0.1``), and
minus zero as ``0.0``. Fields the program does not know are written back as they were read.
"""

import json
from typing import Any

from tiremap.model.job import Job


def job_text(job: Job) -> str:
    """The text of a job file. Equal jobs have equal text; `ValueError` for NaN and infinity."""
    return canonical_text(job.model_dump(mode="json"))


def canonical_text(data: Any) -> str:
    """Any JSON value in the form job files are written in."""
    return json.dumps(_without_minus_zero(data), indent=2, sort_keys=True, ensure_ascii=False, allow_nan=False) + "\n"


def _without_minus_zero(data: Any) -> Any:
    match data:
        case dict():
            return {key: _without_minus_zero(value) for key, value in data.items()}
        case list():
            return [_without_minus_zero(value) for value in data]
        case float():
            return data + 0.0
        case _:
            return data
