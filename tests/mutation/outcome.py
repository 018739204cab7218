"""How a mutant fared, and the file in which a run keeps it, so that a stopped run goes on where it was."""

import json
from dataclasses import asdict, dataclass
from hashlib import sha256
from pathlib import Path

from tests.mutation.mutants import Mutant

KILLED, SURVIVED, NOT_RUN = "killed", "survived", "no test runs it"
OUT_OF_TIME, CRASHED, NOT_TRIED = "out of time", "crashed", "could not be tried"
FOUND = (KILLED, OUT_OF_TIME, CRASHED)
"""Out of time is found as a test that hangs is found; it is counted apart, since a slow machine looks the same."""


@dataclass(frozen=True)
class Outcome:
    """One of the words above, and what told: a test, or the code a process left with."""

    how: str
    by: str = ""


class Kept:
    """The outcomes in a file, one line each, with a digest of the module they hold for."""

    def __init__(self, path: Path) -> None:
        self.path = path
        lines = path.read_text(encoding="utf-8").splitlines() if path.exists() else []
        self.known = {
            (tuple(each["key"]), each["text"]): Outcome(each["how"], each["by"]) for each in map(json.loads, lines)
        }

    def of(self, mutant: Mutant) -> Outcome | None:
        """What is known of it; survivors are tried again, since a test may have been written for them."""
        found = self.known.get((mutant.key, _digest(mutant)))
        return found if found is not None and found.how in FOUND else None

    def keep(self, mutant: Mutant, outcome: Outcome) -> None:
        """One more line."""
        self.path.parent.mkdir(parents=True, exist_ok=True)
        with self.path.open("a", encoding="utf-8") as file:
            file.write(json.dumps({"key": mutant.key, "text": _digest(mutant), **asdict(outcome)}) + "\n")


def _digest(mutant: Mutant) -> str:
    return sha256(mutant.text.encode()).hexdigest()[:16]
