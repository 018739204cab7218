"""Where in a JSON text a fault stands, for faults the reader tells without their place. Only asked after a fault."""

import re
from collections.abc import Callable, Iterator

_TOKEN = re.compile(r'"(?:[^"\\]|\\.)*"|[{}\[\],:]|[^\s{}\[\],:"]+', re.DOTALL)


def line_of_value(text: str, is_wrong: Callable[[str], bool]) -> str:
    """In words the line of the first text or number, as written, that is wrong; empty where none is."""
    return next((_in_words(text, start) for start, token in _tokens(text) if is_wrong(token)), "")


def line_of_second(text: str, name: str) -> str:
    """In words the line where a field's name stands the second time in its group, as written; empty if it does not."""
    groups: list[int] = []
    written = ""
    for start, token in _tokens(text):
        if token in "{[":
            groups.append(0)
        elif token in "}]":
            groups[-1:] = []
        elif token == ":" and groups and written == name:
            groups[-1] += 1
            if groups[-1] > 1:
                return _in_words(text, start)
        written = token
    return ""


def _tokens(text: str) -> Iterator[tuple[int, str]]:
    return ((match.start(), match[0]) for match in _TOKEN.finditer(text))


def _in_words(text: str, start: int) -> str:
    """As in "Line 3: ", to stand before what is wrong there."""
    return f"Line {text.count(chr(10), 0, start) + 1}: "
