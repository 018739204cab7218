"""A language nobody speaks: every text of the window in accented letters and brackets, at least 40 % longer.

Whatever is shown without brackets never went through the translating function; whatever is cut off has no room for the
longer words of another language.
"""

import re
from math import ceil

from PySide6.QtCore import QTranslator

from tiremap.ui.language import CONTEXT

LONGER = 0.4
"""Share by which each line grows, at least. German and Finnish are about a third longer than English."""
_ACCENTS = "ÄÊÏÖÛÝàéïöüýçñšž"
_ACCENTED = str.maketrans("AEIOUYaeiouycnsz", _ACCENTS)
_KEPT = re.compile(
    r"\{[^{}]*\}"  # a placeholder
    r"|<[^<>]*>"  # a tag of rich text
    r"|&&|&\w"  # a mnemonic: its letter stays the key
    r"|%\w"  # a number a progress bar puts in
    r"|\[\*\]"  # where the title tells of unsaved work
    r"|\(\*[^()]*\)(?:;;)?"  # a file pattern
)


class PseudoLanguage(QTranslator):
    """Translates the texts of the window alone; Qt's own stay as they are. `twice` holds what came here again."""

    def __init__(self) -> None:
        super().__init__()
        self.twice: list[str] = []

    def isEmpty(self) -> bool:
        """It has words for every text."""
        return False

    def translate(self, context: str, text: str, disambiguation: str | None = None, n: int = -1) -> str | None:
        """The text in the pseudo language; `None` for those of others."""
        if context != CONTEXT:
            return None
        if any(each in text for each in _ACCENTS):
            self.twice.append(text)
        return pseudo(text)


def pseudo(text: str) -> str:
    """A text in the pseudo language: each line longer, brackets around the whole, line feeds at either end outside."""
    words = text.strip("\n")
    before, after = text[: len(text) - len(text.lstrip("\n"))], text[len(text.rstrip("\n")) :]
    if not words:
        return text
    lines = words.split("\n")
    lines[0] = f"[{lines[0]}"
    lines[-1] += "]"
    return before + "\n".join(map(_longer, lines)) + after


def _longer(line: str) -> str:
    """A line with accents, its words grown by their own beginnings as a compound grows: none has a place to break.

    A bracket at its beginning or end counts as grown already.
    """
    brackets = line.startswith("[") + line.endswith("]")
    seen = len(_KEPT.sub("", line)) - brackets
    missing = max(0, ceil(LONGER * seen) - brackets)
    grown, at = [], 0
    for kept in [*_KEPT.finditer(line), None]:
        piece = line[at : kept.start() if kept else len(line)]
        for part in re.split(r"(\W+)", piece):
            extra = min(missing, ceil(LONGER * len(part))) if part.isalpha() else 0
            grown.append((part + part.lower()[:extra]).translate(_ACCENTED))
            missing -= extra
        if kept:
            grown.append(kept.group())
            at = kept.end()
    whole = "".join(grown)
    end = "]" if whole.endswith("]") else ""
    return whole.removesuffix("]") + "~" * missing + end
