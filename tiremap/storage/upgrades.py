"""Old job files made new: one small named step from each version to the next.

A step takes and gives the plain data of a file (a dict as read from JSON) and need not set ``version``.
A change to the job file adds a step here and freezes an old file under ``tests/jobs/old_versions``.
"""

from collections.abc import Callable, Mapping
from typing import Any

from tiremap.errors import TiremapError
from tiremap.model.job import VERSION

Fields = dict[str, Any]
Step = Callable[[Fields], Fields]

UPGRADES: Mapping[int, Step] = {}
"""The step that leads from each old version to the one after it. Version 1 is the first: no step yet."""


def upgraded(data: Fields, upgrades: Mapping[int, Step] = UPGRADES, newest: int = VERSION) -> Fields:
    """The data of a job file, brought to the newest version. Raises `TiremapError` for a newer one or none."""
    version = version_of(data)
    if version is None:
        raise TiremapError("It does not say which version it is.", f'It should hold "version": {newest}.')
    if version > newest:
        raise newer_version(version, newest)
    for old in range(version, newest):
        data = {**upgrades[old](data), "version": old + 1}
    return data


def version_of(data: Fields) -> int | None:
    """The version a job file states, or ``None`` if it states none that there can be."""
    version = data.get("version")
    return version if type(version) is int and version >= 1 else None


def newer_version(version: int, newest: int = VERSION) -> TiremapError:
    """The error for a file of a version this program does not know."""
    return TiremapError(
        f"It was written by a newer Tiremap: it is version {version}, and this one reads up to {newest}.",
        "Open it with the newer Tiremap; it is left as it is.",
    )
