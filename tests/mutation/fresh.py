"""A mutant of what runs when a module is imported: the changed module is imported in the place of its file."""

import ast
import importlib.abc
import importlib.util
import os
import signal
import sys
from importlib.machinery import SourceFileLoader
from pathlib import Path

from tests.mutation.mutants import Mutant
from tests.mutation.outcome import CRASHED, KILLED, NOT_TRIED, OUT_OF_TIME, SURVIVED, Outcome

TOP = Path(__file__).resolve().parents[2]
SECONDS = 300


def tried(mutant: Mutant, tests: list[str], options: list[str]) -> Outcome:
    """How it fares before the tests of these files, in a fork of a process that has not imported the program."""
    pid = os.fork()
    if pid == 0:
        code = 99
        try:
            signal.alarm(SECONDS)
            silent = os.open(os.devnull, os.O_WRONLY)
            os.dup2(silent, 1)
            os.dup2(silent, 2)
            sys.meta_path.insert(0, _InItsPlace(mutant))
            import pytest

            code = int(pytest.main([*options, "-x", *tests]))
        finally:
            os._exit(code)
    _, status = os.waitpid(pid, 0)
    if os.WIFSIGNALED(status):
        number = os.WTERMSIG(status)
        return Outcome(OUT_OF_TIME) if number == signal.SIGALRM else Outcome(CRASHED, signal.Signals(number).name)
    code = os.WEXITSTATUS(status)
    # 2: a file of tests could not be collected, since the module cannot be imported
    return Outcome({0: SURVIVED, 1: KILLED, 2: KILLED}.get(code, NOT_TRIED), "" if code < 3 else str(code))


class _InItsPlace(importlib.abc.MetaPathFinder):
    """Finds the changed module where its name is asked for."""

    def __init__(self, mutant: Mutant) -> None:
        self.path = TOP / "tiremap" / mutant.file
        self.name = f"tiremap.{mutant.file.removesuffix('.py').replace('/', '.')}"
        self.tree = mutant.tree()

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
