"""How far the work on many files is, as a line on the terminal of errors; nothing where that is no terminal."""

import sys

_ERASED = "\r\x1b[K"
"""Back to the start of the line, and what stands there is gone."""


class Progress:
    """The line, for ``of`` files. It is erased before anything else is printed, which may go to the same terminal."""

    def __init__(self, of: int) -> None:
        self._of = of
        self._seen = sys.stderr.isatty()

    def erase(self) -> None:
        """Make room for other lines."""
        self._write(_ERASED)

    def show(self, done: int) -> None:
        """Show how many files are done; once all are, the line is gone."""
        self._write(f"{_ERASED}{done} of {self._of} files" if done < self._of else _ERASED)

    def _write(self, text: str) -> None:
        if self._seen:
            print(text, end="", file=sys.stderr, flush=True)
