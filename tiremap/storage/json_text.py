"""Reading JSON strictly: what two programs could read differently is refused, and what could exhaust this one."""

import json
import math
from collections import Counter
from typing import Any

from tiremap.errors import TiremapError
from tiremap.model.wording import shown
from tiremap.resources import read_toml
from tiremap.storage.json_place import line_of_second, line_of_value

_A_RIGHT_LINE = 'A right line is "number": "4711", with the marks and the comma; the last in a group has no comma.'


_MOST_DIGITS = 300
"""Of a whole number: what a float can hold."""
_MOST_SHOWN = 20
"""Characters of a number that are shown."""


def read_json_text(data: bytes, deepest: int) -> Any:
    """The value in UTF-8 JSON text. Raises `TiremapError` with the place of the fault.

    Refused besides broken JSON: a field standing twice, NaN and infinity, numbers beyond a float, halves of
    character pairs, nesting deeper than ``deepest``.
    """
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        what = f"It is not UTF-8 text: byte {error.start + 1} fits no character."
        raise TiremapError(what, "Save it as UTF-8.") from None
    try:
        value = json.loads(
            text, object_pairs_hook=_fields_once, parse_constant=_no_such_number, parse_float=_finite, parse_int=_whole
        )
        _check_inside(value, deepest)
    except json.JSONDecodeError as error:
        raise TiremapError(
            f"It is not JSON: line {error.lineno}, column {error.colno}: {error.msg}.", _A_RIGHT_LINE
        ) from None
    except RecursionError:
        raise _too_deep(deepest) from None
    except _StandsTwice as error:
        raise _with_line(error, line_of_second(text, json.dumps(error.name, ensure_ascii=False))) from None
    except _NoSuchNumber as error:
        raise _with_line(error, line_of_value(text, error.written.__eq__)) from None
    except _HalfACharacter as error:
        raise _with_line(error, line_of_value(text, error.stands_in)) from None
    return value


def _with_line(error: TiremapError, line: str) -> TiremapError:
    """The same fault with its line."""
    return TiremapError(f"{line}{error.what}", error.right)


def _fields_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    fields = dict(pairs)
    if len(fields) < len(pairs):
        often = Counter(name for name, _ in pairs)
        raise _StandsTwice(next(name for name, times in often.items() if times > 1))
    return fields


def _no_such_number(text: str) -> float:
    raise _NoSuchNumber(text)


def _finite(text: str) -> float:
    value = float(text)
    return value if math.isfinite(value) else _no_such_number(text)


def _whole(text: str) -> int:
    """Whole numbers a float can hold: longer ones could not be read as a measurement, and slowly as anything."""
    if len(text) > _MOST_DIGITS:
        _no_such_number(text)
    return int(text)


def _check_inside(value: Any, deepest: int) -> None:
    """Raise `TiremapError` for text UTF-8 cannot hold, nesting too deep to be written again, or values without an end.

    Never recurses. Each wrong value among many would be told as a fault of its own, at ten times its memory.
    """
    level = values = 0
    most = read_toml("storage.toml")["json_text"]["most_values"]
    inside = [value]
    while inside:
        level += 1
        values += len(inside)
        if values > most:
            says = "It holds more than any job or settings do."
            raise TiremapError(says, f"At most {most} names and values are read.")
        below: list[Any] = []
        for each in inside:
            if isinstance(each, dict | list) and level > deepest:
                raise _too_deep(deepest)
            if isinstance(each, dict):
                below += each.keys()
                below += each.values()
            elif isinstance(each, list):
                below += each
            elif isinstance(each, str):
                _check_text(each)
        inside = below


def _check_text(text: str) -> None:
    try:
        text.encode()
    except UnicodeEncodeError as error:
        raise _HalfACharacter(text[error.start]) from None


def _too_deep(deepest: int) -> TiremapError:
    return TiremapError("Its groups stand too deep inside each other.", f"At most {deepest} levels are read.")


class _StandsTwice(TiremapError):
    """A field that stands twice in one group."""

    def __init__(self, name: str) -> None:
        self.name = name
        super().__init__(f"The field {shown(name)} stands twice in one group.", "Each field may stand there once.")


class _NoSuchNumber(TiremapError):
    """A number as written that no measurement can be."""

    def __init__(self, written: str) -> None:
        self.written = written
        says = written if len(written) <= _MOST_SHOWN else f"{written[:_MOST_SHOWN]}..."
        super().__init__(f"{says} is not a number that can be measured.", "Write null for what is not known.")


class _HalfACharacter(TiremapError):
    """Half of a pair that makes one character, which UTF-8 cannot hold."""

    def __init__(self, half: str) -> None:
        self.half = half
        super().__init__(f"A text holds \\u{ord(half):04x}, half of a character.", "Write the character itself.")

    def stands_in(self, written: str) -> bool:
        """Whether a text as written in the file holds that half."""
        return f"\\u{ord(self.half):04x}" in written.lower() or self.half in written
