"""Tries the tests on wrong programs: each mutant of `tiremap.rules` or `tiremap.geometry` should fail some test.

    QT_QPA_PLATFORM=offscreen .venv/bin/python -m tests.mutation rules

No file of the program is touched. A mutant that no test fails is told, unless ``survivors.toml`` says why it is the
same program, or why nothing should tell it. Exit code 1 where any is told, 2 where the tests fail on the program as it
stands. What was found is kept in ``.mutation/``: a run that was stopped goes on, and a second
one tries survivors alone.
"""

import argparse
import importlib
import os
import random
import sys
import time
import tomllib
from collections import Counter
from pathlib import Path

from tests.mutation import fresh
from tests.mutation.mutants import Mutant, mutants_of
from tests.mutation.outcome import CRASHED, FOUND, NOT_TRIED, Kept, Outcome

TOP = Path(__file__).resolve().parents[2]
PACKAGES = ("rules", "geometry")
TESTS = (
    "tests/unit/rules", "tests/unit/geometry", "tests/unit/drawing", "tests/unit/edits", "tests/unit/workshop",
    "tests/unit/test_assess_before.py", "tests/unit/test_free_places.py", "tests/unit/test_repair_dimensions.py",
    "tests/unit/test_repair_steps.py", "tests/unit/test_balance.py", "tests/answers", "tests/worked", "tests/jobs",
    "tests/golden", "tests/laws",
)
"""Those that say what is right and ask it in this process; not those of pictures, files and commands."""
OPTIONS = [
    "-q", "-s", "-m", "not long", "--import-mode=importlib", "-p", "no:cacheprovider", "-p", "no:xdist", "-o",
    "addopts=", "--hypothesis-seed=0", "--hypothesis-profile=mutation", "-W",
    "ignore::pytest.PytestAssertRewriteWarning",
]


def main() -> int:
    """Run, and tell the survivors."""
    asked = argparse.ArgumentParser(prog="tests.mutation", description=__doc__.splitlines()[0])
    asked.add_argument("package", choices=PACKAGES)
    asked.add_argument("--module", help="one module of it, such as pairs.py")
    asked.add_argument("--tests", nargs="+", default=TESTS, help="other tests than all that say what is right")
    asked.add_argument("--sample", type=int, help="so many mutants, drawn by --seed; without it every one")
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    asked.add_argument("--afresh", action="store_true", help="forget what an earlier run found")
    given = asked.parse_args()
    missing = [each for each in given.tests if not (TOP / each.partition("::")[0]).exists()]
    if missing:
        asked.error(f"no such tests: {', '.join(missing)}")
    every = [
        mutant
        for path in sorted((TOP / "tiremap" / given.package).glob(given.module or "*.py"))
        for mutant in mutants_of(f"{given.package}/{path.name}", path.read_text(encoding="utf-8"))
    ]
    chosen = every if given.sample is None else random.Random(given.seed).sample(every, min(given.sample, len(every)))
    kept = Kept(TOP / ".mutation" / f"{given.package}.jsonl")
    known = {} if given.afresh else {each.key: found for each in chosen if (found := kept.of(each)) is not None}
    print(f"{len(chosen)} of {len(every)} mutants of {given.package}, {len(known)} of them found before", flush=True)
    outcomes = _Told(kept, len(chosen), known)
    failed = _try([each for each in chosen if each.key not in known], list(given.tests), given.workers, outcomes)
    if failed:
        print("These fail on the program as it stands:", *failed, sep="\n  ")
        return 2
    return outcomes.summed_up(chosen, every)


class _Told:
    """Tells each survivor as it is met, and all of them in the end."""

    def __init__(self, kept: Kept, count: int, known: dict[tuple, Outcome]) -> None:
        self.kept, self.count, self.outcomes = kept, count, dict(known)

    def __call__(self, mutant: Mutant, outcome: Outcome) -> None:
        self.outcomes[mutant.key] = outcome
        self.kept.keep(mutant, outcome)
        if outcome.how not in FOUND:
            print(f"[{len(self.outcomes)}/{self.count}] {outcome.how}: {_words(mutant)}", flush=True)
        elif len(self.outcomes) % 100 == 0:
            print(f"[{len(self.outcomes)}/{self.count}]", flush=True)

    def summed_up(self, chosen: list[Mutant], every: list[Mutant]) -> int:
        """The survivors without an explanation, the explanations of what is no more, and the counts; the exit code."""
        explained = _explained()
        survivors = [each for each in chosen if self.outcomes[each.key].how not in FOUND]
        told = [each for each in survivors if each.key not in explained]
        for each in told:
            print(f"{_words(each)}\n    {each.source}")
        counts = Counter(each.how for each in self.outcomes.values())
        print(", ".join(f"{count} {how}" for how, count in counts.most_common()), end="")
        print(f"; {len(survivors) - len(told)} of those that are left explained, {len(told)} not")
        files, keys = {each.file for each in every}, {each.key for each in every}
        for key in sorted(explained):
            if key[0] in files and key not in keys:
                print(f"explained, and no more in the code: {key}")
        for each in chosen:
            if self.outcomes[each.key].how in (CRASHED, NOT_TRIED):
                print(f"{self.outcomes[each.key].how} ({self.outcomes[each.key].by}): {_words(each)}")
        return 1 if told else 0


def _words(mutant: Mutant) -> str:
    return f"{mutant.file}:{mutant.line} in {mutant.within or 'the module'}: {mutant.was}  ->  {mutant.now}"


def _try(mutants: list[Mutant], tests: list[str], workers: int, told: _Told) -> list[str]:
    """All of them; gives the tests that fail on the program as it stands."""
    if not mutants:
        return []
    os.environ.setdefault("TIREMAP_EXAMPLES", "0.2")
    os.chdir(TOP)
    _load_what_is_heavy()
    reading, writing = os.pipe()
    if os.fork() == 0:
        os._exit(_try_warm(mutants, tests, workers, told, writing))
    os.close(writing)
    import pickle

    with os.fdopen(reading, "rb") as pipe:
        said = pipe.read()
    os.wait()
    if not said:
        return ["the run ended before its first mutant"]
    failed, outcomes, left_over = pickle.loads(said)
    told.outcomes |= outcomes
    for mutant, files in left_over:
        told(mutant, fresh.tried(mutant, files, OPTIONS))
    return failed


def _try_warm(mutants: list[Mutant], tests: list[str], workers: int, told: _Told, writing: int) -> int:
    import pickle

    import pytest

    from tests.mutation.warm import Trials

    for package in PACKAGES:
        for path in sorted((TOP / "tiremap" / package).glob("*.py")):
            importlib.import_module(f"tiremap.{package}.{path.stem}")
    trials = Trials(mutants, workers, told)
    code = int(pytest.main([*OPTIONS, *tests], plugins=[trials]))
    if code not in (0, 5):
        trials.failed = trials.failed or [f"pytest left with {code}"]
    with os.fdopen(writing, "wb") as pipe:
        pickle.dump((trials.failed, told.outcomes, trials.left_over), pipe)
    return 0


def _load_what_is_heavy() -> None:
    """Everything tests load but the program itself; laws try the same examples each time, and make none smaller."""
    from hypothesis import Phase, settings

    settings.register_profile(
        "mutation", database=None, deadline=None, phases=[Phase.explicit, Phase.generate], derandomize=True
    )
    import numpy  # noqa: F401
    import platformdirs  # noqa: F401
    import pydantic  # noqa: F401
    import pytest  # noqa: F401
    import shapely.ops  # noqa: F401


def _explained() -> set[tuple]:
    """The keys of survivors that are the same program."""
    with (Path(__file__).parent / "survivors.toml").open("rb") as file:
        entries = tomllib.load(file).get("same", [])
    return {
        (each["file"], each["within"], each["source"], each["was"], each["now"], each.get("nth", 0)) for each in entries
    }


if __name__ == "__main__":
    begun = time.monotonic()
    code = main()
    print(f"{time.monotonic() - begun:.0f} s")
    sys.exit(code)
