"""Where the data files lie, those that ship and the user's own. Only this module knows.

In a checkout ``resources/`` and ``sample_jobs/`` stand beside the package; in an installed copy the wheel
carries them inside it.
"""

import os
import tomllib
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

from platformdirs import user_cache_path, user_config_path

FOLDER_VARIABLE = "TIREMAP_SETTINGS_FOLDER"
"""Environment variable that names another settings folder."""

CACHE_VARIABLE = "TIREMAP_CACHE_FOLDER"
"""Environment variable that names another cache folder."""

_FOLDERS_KEPT = 16
"""How many settings folders are remembered; outside tests there is one."""

_PACKAGE = Path(__file__).resolve().parent
_SHIPPED = _PACKAGE / "_shipped"
_TOP = _SHIPPED if _SHIPPED.is_dir() else _PACKAGE.parent


@cache
def resource_path(*parts: str) -> Path:
    """The path of a file or folder under ``resources/``; ``parts`` are its path elements."""
    return _TOP.joinpath("resources", *parts)


def sample_jobs_folder() -> Path:
    """The folder of the sample jobs that ship with the program."""
    return _TOP / "sample_jobs"


def settings_folder() -> Path:
    """The user's settings folder; it need not exist yet."""
    return _settings_folder(os.environ.get(FOLDER_VARIABLE, ""))


@lru_cache(_FOLDERS_KEPT)
def _settings_folder(named: str) -> Path:
    """The folder of that name, else the user's own. Made once: every assessment looks there for the shop's stock."""
    return Path(named) if named else user_config_path("tiremap", appauthor=False)


def cache_folder() -> Path:
    """Where what can be worked out again is kept; it need not exist yet, and deleting it loses nothing."""
    named = os.environ.get(CACHE_VARIABLE)
    return Path(named) if named else user_cache_path("tiremap", appauthor=False)


def shop_rule_sets_folder() -> Path:
    """Where the shop's own rule sets lie; it need not exist yet."""
    return settings_folder() / "rule_sets"


def shop_stock_path() -> Path:
    """The file of the shop's own stock of repair units; it need not exist."""
    return _stock_in(settings_folder())


@lru_cache(_FOLDERS_KEPT)
def _stock_in(folder: Path) -> Path:
    return folder / "stock.toml"


@cache
def read_toml(*parts: str) -> dict[str, Any]:
    """The content of a TOML file under ``resources/``, read once. Callers must not change it."""
    with resource_path(*parts).open("rb") as file:
        return tomllib.load(file)
