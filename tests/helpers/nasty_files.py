"""The nastiest files of each kind: short to make, costly to read for a program that does not look at what it reads.

``times`` makes them larger. Run as a program it reads them all and prints by how many MB its memory grew at the most.
"""

import json
import resource
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path

from tiremap.errors import TiremapError
from tiremap.model.rule_set_file import rule_set_from_bytes
from tiremap.storage.job_file import job_from_bytes, read_job
from tiremap.storage.lesson_file import lesson_from_bytes
from tiremap.storage.settings import settings_from_bytes
from tiremap.workshop.stock import stock_from_bytes

JOB = '{"format": "tiremap-job", "version": 1, '
LESSON = 'format = "tiremap-lesson"\nversion = 1\ntitle = "T"\n'
KB = 1024


def nasty_jobs(times: int = 1) -> Iterator[tuple[str, bytes]]:
    """Job files, each with a name in words; at ``times`` 20 they come near the largest size that is read."""
    many = 7_000 * times
    ids = (f'{{"id": "{each}"}}' for each in range(many * 6 // 7))
    names = (f'"{each}": 0' for each in range(many))
    for name, inside in (
        ("a million injuries", f'"injuries": [{",".join(ids)}]'),
        ("injuries all with one id", _list("injuries", '{"id": "1"}', many)),
        ("injuries that are nothing", _list("injuries", "0", many * 6)),
        ("repairs that are empty", _list("repairs", "{}", many * 4)),
        ("decisions that are empty", _list("decisions", "{}", many * 4)),
        ("steps that are lists", _list("steps_done", "[]", many * 4)),
        ("a field twice among many", f'{",".join(names)}, "0": 1'),
        ("a long note", f'"note": "{"x" * many * 12}"'),
        ("a long name of a field", f'"{"x" * many * 12}": 1'),
        ("a long id", _list("injuries", '{"id": "%s"}' % ("x" * many * 12), 1)),
        ("a long number", f'"note": {"9" * many * 12}'),
        ("a long fraction", f'"later": 0.{"9" * many * 12}'),
        ("many unknown lists", _list("later", "[[]]", many * 2)),
        ("many unknown numbers", _list("later", "1e-7", many * 2)),
        ("groups without an end", '"later": ' + '{"a":' * many * 2),
        ("lists without an end", '"later": ' + "[" * many * 10),
        ("halves of characters", r'"later": "%s"' % (r"\ud800" * many)),
        ("escapes", r'"note": "%s"' % (r"\u0041" * many)),
    ):
        yield name, (JOB + inside + "}").encode()


def _list(field: str, item: str, number: int) -> str:
    return f'"{field}": [{",".join([item] * number)}]'


def nasty_toml() -> Iterator[tuple[str, bytes]]:
    """TOML of at most the size that is read."""
    for name, text in (
        ("a name of many parts", "a." * 90_000 + "a = 1"),
        ("a heading of many parts", "[" + "a." * 90_000 + "a]"),
        ("a quoted name of many parts", '"a" . ' * 30_000 + "a = 1"),
        ("lists without an end", "a = " + "[" * 190_000),
        ("groups without an end", "a = " + "{a=" * 60_000),
        ("a long number", "a = " + "9" * 190_000),
        ("a long number of another base", "a = 0x" + "f" * 190_000),
        ("many headings", "".join(f"[a{each}]\n" for each in range(20_000))),
        ("many steps", "[[step]]\n" * 20_000),
        ("many units", "[[units]]\n" * 19_000),
        ("many zones", "[[crown_zones]]\n" * 12_000),
        ("many names", "".join(f"a{each} = 1\n" for each in range(15_000))),
        ("a long name", "a" * 190_000 + " = 1"),
        ("a long text", f'title = "{"x" * 190_000}"'),
        ("blanks", "a" + " " * 190_000),
        ("quotes", "\"'" * 95_000),
        ("dates", "a = [" + "1979-05-27," * 17_000 + "]"),
    ):
        yield name, (LESSON + text).encode()


READERS: dict[str, Callable[[bytes], object]] = {
    "lesson": lambda data: lesson_from_bytes(data, "mine.toml"),
    "stock": lambda data: stock_from_bytes(data, "stock.toml"),
    "rule set": lambda data: rule_set_from_bytes(data, Path("our_shop.toml")),
}


def all_of_them(times: int = 1) -> Iterator[tuple[str, Callable[[], object]]]:
    """Each nasty file by name, with what reads it."""
    for name, data in nasty_jobs(times):
        yield f"job: {name}", lambda data=data: job_from_bytes(data)
        yield f"settings: {name}", lambda data=data: settings_from_bytes(data)
    for name, data in nasty_toml():
        for kind, read in READERS.items():
            yield f"{kind}: {name}", lambda data=data, read=read: read(data)


def peak_mb() -> float:
    """The most memory this program ever held, MB."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / KB


def grown_mb(times: int, tell: Callable[[str], object] = lambda _: None) -> float:
    """By how many MB the most memory held grew while all of them were read."""
    first = before = peak_mb()
    for name, read in all_of_them(times):
        with suppress(TiremapError):
            read()
        if peak_mb() > before:
            tell(f"{peak_mb() - before:6.0f} MB more: {name}")
            before = peak_mb()
    return peak_mb() - first


def huge_file_grown_mb(size: int) -> float:
    """By how many MB memory grew while a job file of that size, all zero bytes, was refused."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "huge.json")
        with path.open("wb") as file:
            file.truncate(size)
        first = peak_mb()
        try:
            read_job(path)
        except TiremapError:
            return peak_mb() - first
    raise AssertionError("a huge file was read")


if __name__ == "__main__":
    times = int(sys.argv[1])
    print(json.dumps({"grown_mb": grown_mb(times, lambda text: print(text, file=sys.stderr))}))
