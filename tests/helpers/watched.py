"""A program that reads hostile files of every kind and tells each file, program and connection it touched.

Run with a folder: it makes the files there, does the same once with harmless ones, and prints as JSON what it touched
with each. Started by `tests/hostile/test_no_other_file.py`.
"""

import json
import os
import pickle
import re
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any

import tests.helpers.hostile_seeds as seeds
from tests.helpers.mutations import FORMULAS, PATHS, toml_bytes
from tiremap.assess import assess
from tiremap.errors import TiremapError
from tiremap.lesson_check import tried
from tiremap.model.rule_set_file import rule_set_from_bytes, rule_set_or_why, usable_rule_sets
from tiremap.render.sheet import write_sheet
from tiremap.resources import CACHE_VARIABLE, FOLDER_VARIABLE
from tiremap.storage.job_file import job_from_bytes, read_job, write_job
from tiremap.storage.lesson_file import lesson_from_bytes, read_lesson
from tiremap.storage.register import Register
from tiremap.storage.settings import read_settings, settings_from_bytes, write_settings
from tiremap.storage.shop_rule_sets import import_rule_set
from tiremap.workshop.stock import stock_from_bytes, stock_in_use

MARKS = ("$(touch x)$", "$\\frac{$", "%PDF-1.4", "</text><script>")
"""Texts that mean something where they are drawn."""
HOSTILE = tuple(text for text in (*PATHS, *FORMULAS, *MARKS) if "\0" not in text)
WATCHED = (
    "open", "os.", "subprocess.", "socket.", "shutil.", "sqlite3.", "ctypes.", "import", "pty.", "urllib.",
    "webbrowser.", "winreg.", "ftplib.", "http.", "smtplib.", "marshal.", "pickle.", "glob.",
)
"""What the interpreter tells of when a program reaches outside itself."""

Read = Callable[[bytes], Any]


class Watch:
    """What was touched since the last `taken`: pairs of what was done and to what."""

    def __init__(self) -> None:
        self.touched: list[tuple[str, str]] = []
        self.on = False
        sys.addaudithook(self._noted)

    def taken(self) -> list[tuple[str, str]]:
        """What was touched; forgets it."""
        touched, self.touched = self.touched, []
        return sorted(set(touched))

    def _noted(self, event: str, args: tuple[Any, ...]) -> None:
        if self.on and event.startswith(WATCHED):
            self.touched.append((_kind(event, args), os.fsdecode(args[0]) if _is_path(args) else ""))


def _is_path(args: tuple[Any, ...]) -> bool:
    return bool(args) and isinstance(args[0], str | bytes | os.PathLike)


def _kind(event: str, args: tuple[Any, ...]) -> str:
    """``open`` told apart by whether it may write."""
    if event != "open":
        return event
    flags = args[2] if isinstance(args[2], int) else 0
    return "write" if flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC) else "read"


def with_texts(data: bytes, fields: Any, written: Callable[[Any], bytes], read: Read, texts: tuple[str, ...]) -> bytes:
    """A right file with a hostile text in each field that takes one."""
    for number, (inside, key) in enumerate(list(_texts_in(fields))):
        before, inside[key] = inside[key], texts[number % len(texts)]
        try:
            read(written(fields))
        except TiremapError:
            inside[key] = before
    return written(fields)


def _texts_in(fields: Any) -> Iterator[tuple[Any, Any]]:
    for key, value in fields.items() if isinstance(fields, dict) else enumerate(fields):
        if isinstance(value, str):
            yield fields, key
        elif isinstance(value, dict | list):
            yield from _texts_in(value)


def fill(folder: Path, texts: tuple[str, ...]) -> None:
    """A folder with a job, a lesson, and settings of each kind; hostile where there are ``texts``."""
    def made(seed: Any, read: Read) -> bytes:
        fields = pickle.loads(seed.fields)
        return with_texts(seed.data, fields, seed.written, read, texts) if texts else seed.written(fields)

    settings = folder / "settings"
    (settings / "rule_sets").mkdir(parents=True)
    (folder / "jobs").mkdir()
    files: dict[Path, bytes] = {
        folder / "jobs" / "job.json": made(seeds.job_seeds()[-1], job_from_bytes),
        folder / "mine.toml": made(seeds.lesson_seeds()[0], lambda data: lesson_from_bytes(data, "mine.toml")),
        settings / "settings.json": made(seeds.settings_seeds()[-1], settings_from_bytes),
        settings / "stock.toml": made(seeds.stock_seeds()[0], lambda data: stock_from_bytes(data, "stock.toml")),
        settings / "rule_sets" / "our_shop.toml": made(
            seeds.rule_set_seeds()[0], lambda data: rule_set_from_bytes(data, seeds.SHOP)
        ),
    }
    for number, text in enumerate(texts or ("our_shop_2",)):
        fields = pickle.loads(seeds.rule_set_seeds()[0].fields)
        files[folder / f"shared_{number}.toml"] = toml_bytes({**fields, "name": text})
    for path, data in files.items():
        path.write_bytes(data)


def work(folder: Path, texts: tuple[str, ...]) -> None:
    """Read every file of the folder, weigh the job, put it on a sheet, in a table and back into its file."""
    path = folder / "jobs" / "job.json"
    job = read_job(path)
    assessment = assess(job)
    write_sheet(assessment, folder / "sheet.pdf")
    write_job(path, job.model_copy(update={"note": f"{job.note} again"}))
    register = Register(folder / "jobs")
    register.refresh()
    register.write_csv(folder / "register.csv", register.find())
    write_settings(read_settings()[0].model_copy(update={"theme": "dark"}))
    stock_in_use()
    usable_rule_sets()
    tried(read_lesson(folder / "mine.toml"))
    for text in texts or ("our_shop_2",):
        rule_set_or_why(text)
    for shared in sorted(folder.glob("shared_*.toml")):
        with suppress(TiremapError):
            import_rule_set(shared)


def _told(path: str, folder: Path, here: Path) -> str:
    """A path with names in place of what differs each time."""
    path = path.replace(str(here), "HERE").replace(str(folder), "FOLDER")
    return re.sub(r"registers/\w+\.sqlite", "registers/INDEX", re.sub(r"FOLDER/temp/\w+", "TEMP", path))


def main(folder: Path) -> None:
    """Do it all with harmless files, twice, so that all is loaded that is loaded once; then with hostile ones."""
    watch, told = Watch(), {}
    os.environ[CACHE_VARIABLE] = str(folder / "cache")
    (folder / "temp").mkdir()
    tempfile.tempdir = str(folder / "temp")
    hostile = ((f"hostile_{first}", HOSTILE[first:] + HOSTILE[:first]) for first in (0, 5))
    for name, texts in (("loading", ()), ("harmless", ()), *hostile):
        here = folder / name
        fill(here, texts)
        os.environ[FOLDER_VARIABLE] = str(here / "settings")
        watch.on = True
        work(here, texts)
        watch.on = False
        told[name] = sorted({(what, _told(path, folder, here)) for what, path in watch.taken()})
        told[f"{name}_left"] = sorted(str(path.relative_to(here)) for path in here.rglob("*"))
    print(json.dumps(told))


if __name__ == "__main__":
    main(Path(sys.argv[1]).resolve())
