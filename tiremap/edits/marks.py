"""What injuries and repairs share as marks on a tire: their ids, and finding one among the others."""

import re
from collections.abc import Sequence
from typing import TypeVar

from tiremap.errors import TiremapError
from tiremap.model.job import Injury, Job, Repair

M = TypeVar("M", Injury, Repair)


def new_id(job: Job, prefix: str = "") -> str:
    """An id no injury or repair of the job has: ``prefix`` and one more than the greatest number so far."""
    ids = [mark.id for mark in job.marks]
    numbered = [re.fullmatch(rf"{prefix}([0-9]+)", each) for each in ids]
    return f"{prefix}{max((int(found[1]) for found in numbered if found), default=0) + 1}"


def mark_with_id(marks: Sequence[M], id: str, word: str) -> M:
    """The mark of that id. Raises `TiremapError` naming the ids there are; ``word`` is "injury" or "repair"."""
    for mark in marks:
        if mark.id == id:
            return mark
    there_are = ", ".join(mark.id for mark in marks)
    raise TiremapError(f"There is no {word} {id!r} on this tire.", f"There are: {there_are}." if there_are else "")


def with_mark(marks: Sequence[M], mark: M) -> tuple[M, ...]:
    """The marks with the one of the same id replaced, in the same order."""
    return tuple(mark if each.id == mark.id else each for each in marks)


def without_mark(marks: Sequence[M], mark: M) -> tuple[M, ...]:
    """The marks but that one."""
    return tuple(each for each in marks if each.id != mark.id)
