"""Tries the tests on wrong programs: each mutant of `tiremap.rules` or `tiremap.geometry` should fail some test.

    QT_QPA_PLATFORM=offscreen .venv/bin/python -m tests.mutation rules --sample 400 --seed 1

Each mutant is a process of its own, forked once everything heavy is loaded, in which the changed module is imported in
the place of its file; no file is touched. One that no test fails is told, unless ``survivors.toml`` says why it is the
same program. Exit code 1 where any is told.
"""

import argparse
import ast
import importlib.abc
import importlib.util
import os
import random
import signal
import sys
import time
import tomllib
from importlib.machinery import SourceFileLoader
from pathlib import Path

from tests.mutation.mutants import Mutant, mutants_of

TOP = Path(__file__).resolve().parents[2]
TESTS = {
    "rules": (
        "tests/unit/rules", "tests/answers", "tests/unit/test_repair_dimensions.py", "tests/unit/test_free_places.py",
        "tests/jobs", "tests/worked/test_published_limits.py", "tests/worked/test_uk_zone_widths.py", "tests/laws",
    ),
    "geometry": ("tests/worked", "tests/unit/geometry", "tests/answers", "tests/unit/drawing", "tests/laws"),
}
"""Quickest first: most mutants fail within a second or two."""
SECONDS = 300
"""A mutant that takes longer goes around in a circle: found, as a test would find it."""


def main() -> int:
    """Run, and tell the survivors."""
    asked = argparse.ArgumentParser(prog="tests.mutation", description=__doc__)
    asked.add_argument("package", choices=sorted(TESTS))
    asked.add_argument("--module", help="one module of it, such as pairs.py")
    asked.add_argument("--sample", type=int, help="so many mutants, drawn by --seed; without it every one")
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    given = asked.parse_args()
    every = [
        mutant
        for path in sorted((TOP / "tiremap" / given.package).glob(given.module or "*.py"))
        for mutant in mutants_of(f"{given.package}/{path.name}", path.read_text(encoding="utf-8"))
    ]
    chosen = every if given.sample is None else random.Random(given.seed).sample(every, min(given.sample, len(every)))
    print(f"{len(chosen)} of {len(every)} mutants of {given.package}", flush=True)
    _load_what_is_heavy()
    if not _passes(_unchanged(chosen[0].file), TESTS[given.package]):
        print("The tests fail on the program as it stands.")
        return 2
    survivors = _run(chosen, TESTS[given.package], given.workers)
    same = _explained()
    told = [each for each in survivors if each.key not in same]
    for each in told:
        print(f"{each.file}:{each.line}: {each.was}  ->  {each.now}\n    {each.source}")
    print(f"{len(chosen)} tried, {len(survivors)} survived, {len(survivors) - len(told)} of them the same program")
    return 1 if told else 0


def _unchanged(file: str) -> Mutant:
    """A module as it is: what the tests must pass on."""
    return Mutant(file, 0, "", "", "", ast.parse((TOP / "tiremap" / file).read_text(encoding="utf-8")))


def _passes(mutant: Mutant, tests: tuple[str, ...]) -> bool:
    _, status = os.waitpid(_begin(mutant, tests), 0)
    return _is_passed(status)


def _is_passed(status: int) -> bool:
    return os.WIFEXITED(status) and os.WEXITSTATUS(status) == 0


def _run(mutants: list[Mutant], tests: tuple[str, ...], workers: int) -> list[Mutant]:
    """The mutants no test failed on, as many at a time as there are workers."""
    waiting, at_work, survivors = list(reversed(mutants)), {}, []
    done = 0
    while waiting or at_work:
        while waiting and len(at_work) < workers:
            mutant = waiting.pop()
            at_work[_begin(mutant, tests)] = mutant
        pid, status = os.wait()
        mutant, done = at_work.pop(pid), done + 1
        if _is_passed(status):
            survivors.append(mutant)
            where = f"{mutant.file}:{mutant.line}"
            print(f"[{done}/{len(mutants)}] survived {where}: {mutant.was}  ->  {mutant.now}", flush=True)
        elif done % 50 == 0:
            print(f"[{done}/{len(mutants)}]", flush=True)
    return survivors


def _begin(mutant: Mutant, tests: tuple[str, ...]) -> int:
    """Fork; the child runs the tests on the mutant and leaves with pytest's code."""
    pid = os.fork()
    if pid:
        return pid
    signal.alarm(SECONDS)
    silent = os.open(os.devnull, os.O_WRONLY)
    os.dup2(silent, 1)
    os.dup2(silent, 2)
    sys.meta_path.insert(0, _InItsPlace(mutant))
    import pytest

    options = ["-x", "-q", "-n", "0", "-m", "not long", "--import-mode=importlib", "-p", "no:cacheprovider",
               "--hypothesis-seed=0", "-o", "addopts=", "-W", "ignore::pytest.PytestAssertRewriteWarning"]
    os._exit(int(pytest.main([*options, *(each for each in tests if (TOP / each).exists())])))


class _InItsPlace(importlib.abc.MetaPathFinder):
    """Finds the changed module where its name is asked for."""

    def __init__(self, mutant: Mutant) -> None:
        self.path = TOP / "tiremap" / mutant.file
        self.name = f"tiremap.{mutant.file.removesuffix('.py').replace('/', '.')}"
        self.tree = mutant.tree

    def find_spec(self, name: str, path: object = None, target: object = None) -> object:
        """Only its own."""
        if name != self.name:
            return None
        loader = _Changed(name, str(self.path))
        loader.tree = self.tree
        return importlib.util.spec_from_file_location(name, self.path, loader=loader)


class _Changed(SourceFileLoader):
    """Compiles a tree instead of the file."""

    tree: ast.Module

    def get_code(self, fullname: str) -> object:
        """The code of the tree."""
        return compile(self.tree, self.path, "exec")


def _load_what_is_heavy() -> None:
    """Everything tests load but the program itself."""
    os.environ.setdefault("TIREMAP_EXAMPLES", "0.2")
    os.chdir(TOP)
    import hypothesis  # noqa: F401
    import numpy  # noqa: F401
    import platformdirs  # noqa: F401
    import pydantic  # noqa: F401
    import pytest  # noqa: F401
    import shapely.ops  # noqa: F401


def _explained() -> set[tuple[str, str, str, str]]:
    """The keys of survivors that are the same program."""
    with (Path(__file__).parent / "survivors.toml").open("rb") as file:
        entries = tomllib.load(file).get("same", [])
    return {(each["file"], each["source"], each["was"], each["now"]) for each in entries}


if __name__ == "__main__":
    begun = time.monotonic()
    code = main()
    print(f"{time.monotonic() - begun:.0f} s")
    sys.exit(code)
