"""One pytest session that tries many mutants: all is loaded and collected once, and each mutant is a fork of it.

In the fork the code of the changed functions takes the place of the code they have, and those tests run which run the
changed line in the program as it stands, the quickest first, up to the first that fails.
"""

import functools
import gc
import os
import pickle
import random
import resource
import shutil
import signal
import sys
import tempfile
import time
import traceback
from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from types import FunctionType

import coverage
import pytest

from tests.mutation.mutants import Mutant
from tests.mutation.outcome import CRASHED, KILLED, NOT_RUN, NOT_TRIED, OUT_OF_TIME, SURVIVED, Outcome

TOP = Path(__file__).resolve().parents[2]
NOT_PUT_IN_PLACE = 77
"""A fork leaves with it where no function took the change."""
MEMORY_BYTES = 8 << 30
KEPT_CACHES = ("tiremap.resources", "tiremap.model", "tiremap.storage")
"""Rooms no changed function is called from: what they remember holds for every mutant."""


@dataclass
class Ran:
    """What ran where: of a file the lines and by which tests, by number; seconds of processor time of each test."""

    tests_of_line: dict[str, dict[int, set[int]]] = field(default_factory=lambda: defaultdict(lambda: defaultdict(set)))
    seconds: dict[int, float] = field(default_factory=dict)
    failed: list[str] = field(default_factory=list)

    def add(self, other: "Ran") -> None:
        """The tests another process ran."""
        for file, lines in other.tests_of_line.items():
            for line, tests in lines.items():
                self.tests_of_line[file][line] |= tests
        self.seconds |= other.seconds
        self.failed += other.failed

    def tests(self, file: str, first: int, last: int) -> set[int]:
        """Those that run one of these lines."""
        lines = self.tests_of_line.get(file, {})
        return set().union(*(tests for line, tests in lines.items() if first <= line <= last))


class Trials:
    """A pytest plugin: instead of running what was collected, it tries the mutants on it."""

    def __init__(self, mutants: list[Mutant], workers: int, told: Callable[[Mutant, Outcome], None]) -> None:
        self.mutants, self.workers, self.told = mutants, workers, told
        self.left_over: list[tuple[Mutant, list[str]]] = []
        self.failed: list[str] = []
        self.failing = ""
        self.killers: dict[tuple[str, str], list[int]] = defaultdict(list)

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Remembers the first that fails."""
        if report.failed and not self.failing:
            self.failing = report.nodeid

    def pytest_runtestloop(self, session: pytest.Session) -> bool | None:
        """In the place of the run."""
        if session.testsfailed:
            return None
        self.items = session.items
        self.live, self.caches = _live_functions(), _caches()
        gc.freeze()
        begun = time.monotonic()
        self.ran = self._run_unchanged()
        print(f"{len(self.items)} tests, {sum(self.ran.seconds.values()):.0f} s of processor time, "
              f"{time.monotonic() - begun:.0f} s", flush=True)
        self.failed = self.ran.failed
        if not self.failed:
            self._try_all()
        return True

    def _run_unchanged(self) -> Ran:
        """All tests on the program as it stands, shared out by file, with the lines of the package they run."""
        files = sorted({item.path for item in self.items})
        random.Random(0).shuffle(files)
        shares = [[item for item in self.items if item.path in files[at::self.workers]] for at in range(self.workers)]
        at_work = [_Fork(functools.partial(self._watch, share)) for share in shares if share]
        ran = Ran()
        for fork in at_work:
            fork.wait()
            if fork.outcome().how != SURVIVED:
                raise RuntimeError(f"the tests could not be run on the program as it stands: {fork.said().decode()}")
            ran.add(pickle.loads(fork.said()))
            fork.clear()
        return ran

    def _watch(self, items: list[pytest.Item], say: Callable[[bytes], None]) -> int:
        number = {item.nodeid: at for at, item in enumerate(self.items)}
        packages = {mutant.file.split("/")[0] for mutant in self.mutants}
        include = [f"{TOP}/tiremap/{each}/*" for each in sorted(packages)]
        watching = coverage.Coverage(data_file=None, config_file=False, include=include)
        watching.set_option("run:disable_warnings", ["no-data-collected"])  # the tests may run nothing of the package
        ran = Ran()
        watching.start()
        for item, following in _with_following(items):
            self._forget()
            self.failing = ""
            watching.switch_context(str(number[item.nodeid]))
            begun = time.process_time()
            item.ihook.pytest_runtest_protocol(item=item, nextitem=following)
            ran.seconds[number[item.nodeid]] = time.process_time() - begun
            if self.failing:
                ran.failed.append(self.failing)
        watching.stop()
        data = watching.get_data()
        for path in data.measured_files():
            name = Path(path).relative_to(TOP / "tiremap").as_posix()
            for line, contexts in data.contexts_by_lineno(path).items():
                ran.tests_of_line[name][line] |= {int(each) for each in contexts if each}
        ran.tests_of_line = {file: dict(lines) for file, lines in ran.tests_of_line.items()}
        say(pickle.dumps(ran))
        return 0

    def _try_all(self) -> None:
        waiting, at_work = list(reversed(self.mutants)), {}
        while waiting or at_work:
            while waiting and len(at_work) < self.workers:
                mutant = waiting.pop()
                tests = self._tests(mutant)
                if not mutant.within:
                    whole = self.ran.tests(mutant.file, 1, sys.maxsize)
                    self.left_over.append((mutant, self._files(whole)))
                elif not tests:
                    self.told(mutant, Outcome(NOT_RUN))
                else:
                    seconds = sum(self.ran.seconds[each] for each in tests)
                    fork = _Fork(functools.partial(self._try, mutant, tests), cpu_seconds=20 + 5 * seconds)
                    at_work[fork] = mutant
            for fork in [each for each in at_work if each.has_ended()]:
                self._tell(at_work.pop(fork), fork)
            time.sleep(0.005)

    def _tell(self, mutant: Mutant, fork: "_Fork") -> None:
        outcome, said = fork.outcome(), fork.said().decode()
        fork.clear()
        if outcome.how == KILLED and said:
            number = next(at for at, item in enumerate(self.items) if item.nodeid == said)
            killers = self.killers[mutant.file, mutant.within]
            self.killers[mutant.file, mutant.within] = [number, *(each for each in killers if each != number)][:5]
            outcome = Outcome(KILLED, said)
        if outcome.by == str(NOT_PUT_IN_PLACE):
            self.left_over.append((mutant, self._files(set(self._tests(mutant)))))
        else:
            self.told(mutant, outcome)

    def _tests(self, mutant: Mutant) -> list[int]:
        """Those that run its statement: what found others of the same function first, then the quickest."""
        tests = self.ran.tests(mutant.file, *mutant.lines)
        first = [each for each in self.killers[mutant.file, mutant.within] if each in tests]
        return first + sorted(tests - set(first), key=self.ran.seconds.__getitem__)

    def _files(self, tests: set[int]) -> list[str]:
        seconds: dict[str, float] = defaultdict(float)
        for each in tests:
            seconds[str(self.items[each].path)] += self.ran.seconds[each]
        return sorted(seconds, key=seconds.__getitem__)

    def _try(self, mutant: Mutant, tests: list[int], say: Callable[[bytes], None]) -> int:
        try:
            if not self._put_in_place(mutant):
                return NOT_PUT_IN_PLACE
        except Exception:  # the module cannot even be run: every test would say so
            return 1
        self._forget()
        self.failing = ""
        for item, following in _with_following([self.items[each] for each in tests]):
            item.ihook.pytest_runtest_protocol(item=item, nextitem=following)
            if self.failing:
                say(self.failing.encode())
                return 1
        return 0

    def _put_in_place(self, mutant: Mutant) -> bool:
        """The changed functions of a module take the place of those at work; whether any did."""
        path = TOP / "tiremap" / mutant.file
        live = self.live[f"tiremap.{mutant.file.removesuffix('.py').replace('/', '.')}"]
        name = next(iter(next(iter(live.values())))).__module__
        namespace = {"__name__": name, "__file__": str(path), "__package__": name.rpartition(".")[0]}
        exec(compile(mutant.tree(), str(path), "exec"), namespace)
        put = False
        for new in _functions():
            if new.__globals__ is namespace:
                for old in live.get((new.__code__.co_qualname, new.__code__.co_firstlineno), ()):
                    put |= take_over(old, new)
        return put

    def _forget(self) -> None:
        for each in self.caches:
            each.cache_clear()


def take_over(old: FunctionType, new: FunctionType) -> bool:
    """A function gets another's code and plain defaults, where they differ."""
    changed = False
    if old.__code__ != new.__code__ and len(old.__code__.co_freevars) == len(new.__code__.co_freevars):
        old.__code__, changed = new.__code__, True
    defaults = tuple(map(_plainer, old.__defaults__ or (), new.__defaults__ or ()))
    named, changed_named = old.__kwdefaults__ or {}, new.__kwdefaults__ or {}
    by_name = {key: _plainer(value, changed_named.get(key, value)) for key, value in named.items()}
    if defaults != (old.__defaults__ or ()) or by_name != named:
        old.__defaults__, old.__kwdefaults__, changed = defaults, by_name, True
    return changed


def _plainer(old: object, new: object) -> object:
    return new if isinstance(new, bool | int | float | str) else old


def _functions() -> Iterator[FunctionType]:
    return (each for each in gc.get_objects() if type(each) is FunctionType)


def _live_functions() -> dict[str, dict[tuple[str, int], list[FunctionType]]]:
    """By module, then by qualified name and first line."""
    live: dict[str, dict[tuple[str, int], list[FunctionType]]] = defaultdict(lambda: defaultdict(list))
    for each in _functions():
        module = each.__globals__.get("__name__", "")
        if module.startswith("tiremap."):
            live[module][each.__code__.co_qualname, each.__code__.co_firstlineno].append(each)
    return live


def _caches() -> list[functools._lru_cache_wrapper]:
    return [
        each for each in gc.get_objects() if isinstance(each, functools._lru_cache_wrapper)
        and each.__module__.startswith("tiremap.") and not each.__module__.startswith(KEPT_CACHES)
    ]


def _with_following(items: list[pytest.Item]) -> Iterator[tuple[pytest.Item, pytest.Item | None]]:
    return zip(items, [*items[1:], None], strict=True)


class _Fork:
    """A fork at work, with a folder of its own for what tests leave and bounds on time and memory."""

    def __init__(self, work: Callable[[Callable[[bytes], None]], int], cpu_seconds: float | None = None) -> None:
        self.folder = Path(tempfile.mkdtemp(prefix="tiremap-mutant-"))
        self.cpu_seconds, self.begun = cpu_seconds, time.monotonic()
        self.status: int | None = None
        self.pid = os.fork()
        if self.pid == 0:
            self._work(work)

    def _work(self, work: Callable[[Callable[[bytes], None]], int]) -> None:
        code = 99
        try:
            silent = os.open(os.devnull, os.O_RDWR)
            for each in (0, 1, 2):
                os.dup2(silent, each)
            os.environ["PYTEST_DEBUG_TEMPROOT"] = str(self.folder)
            tempfile.tempdir = str(self.folder)
            resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, MEMORY_BYTES))
            if self.cpu_seconds is not None:
                used = sum(resource.getrusage(resource.RUSAGE_SELF)[:2])
                resource.setrlimit(resource.RLIMIT_CPU, (int(used + self.cpu_seconds) + 1, resource.RLIM_INFINITY))
            code = work((self.folder / "said").write_bytes)
        except BaseException:
            (self.folder / "said").write_text(traceback.format_exc())
        finally:
            os._exit(code)

    def has_ended(self) -> bool:
        """Whether it has; one that waits for ever is stopped after twenty times its processor time."""
        if self.status is None:
            pid, status = os.waitpid(self.pid, os.WNOHANG)
            if pid:
                self.status = status
            elif self.cpu_seconds is not None and time.monotonic() - self.begun > 20 * self.cpu_seconds:
                os.kill(self.pid, signal.SIGXCPU)
        return self.status is not None

    def wait(self) -> None:
        """Until it has ended."""
        if self.status is None:
            _, self.status = os.waitpid(self.pid, 0)

    def outcome(self) -> Outcome:
        """By the way it ended: 0 no test failed, 1 one did; any other code is told as it is."""
        if os.WIFSIGNALED(self.status):
            number = os.WTERMSIG(self.status)
            return Outcome(OUT_OF_TIME) if number == signal.SIGXCPU else Outcome(CRASHED, signal.Signals(number).name)
        code = os.WEXITSTATUS(self.status)
        return Outcome({0: SURVIVED, 1: KILLED}.get(code, NOT_TRIED), "" if code < 2 else str(code))

    def said(self) -> bytes:
        """What it said."""
        said = self.folder / "said"
        return said.read_bytes() if said.exists() else b""

    def clear(self) -> None:
        """Its folder goes."""
        shutil.rmtree(self.folder, ignore_errors=True)
