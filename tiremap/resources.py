"""Where the data files lie. Only this module knows.

In a checkout ``resources/`` and ``sample_jobs/`` stand beside the package; in an installed copy the wheel
carries them inside it.
"""

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

_PACKAGE = Path(__file__).resolve().parent
_SHIPPED = _PACKAGE / "_shipped"
_TOP = _SHIPPED if _SHIPPED.is_dir() else _PACKAGE.parent


def resource_path(*parts: str) -> Path:
    """The path of a file or folder under ``resources/``; ``parts`` are its path elements."""
    return _TOP.joinpath("resources", *parts)


def sample_jobs_folder() -> Path:
    """The folder of the sample jobs that ship with the program."""
    return _TOP / "sample_jobs"


@cache
def read_toml(*parts: str) -> dict[str, Any]:
    """The content of a TOML file under ``resources/``, read once. Callers must not change it."""
    with resource_path(*parts).open("rb") as file:
        return tomllib.load(file)
