"""Reading JSON strictly: what two programs could read differently is refused, and what could exhaust this one."""

import json
import math
from typing import Any

from tiremap.errors import TiremapError


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
    except json.JSONDecodeError as error:
        raise TiremapError(f"It is not JSON: line {error.lineno}, column {error.colno}: {error.msg}.") from None
    except RecursionError:
        raise _too_deep(deepest) from None
    _check_inside(value, deepest)
    return value


def _fields_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    fields = dict(pairs)
    if len(fields) < len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise TiremapError(f"The field {twice!r} stands twice in one group.", "Each field may stand there once.")
    return fields


def _no_such_number(text: str) -> float:
    raise TiremapError(f"{text} is not a number that can be measured.", "Write null for what is not known.")


def _finite(text: str) -> float:
    value = float(text)
    return value if math.isfinite(value) else _no_such_number(text)


def _whole(text: str) -> int:
    """Whole numbers a float can hold: longer ones could not be read as a measurement, and slowly as anything."""
    if len(text) > 300:
        _no_such_number(f"{text[:20]}...")
    return int(text)


def _check_inside(value: Any, deepest: int) -> None:
    """Raise `TiremapError` for text UTF-8 cannot hold, or nesting too deep to be written again. Never recurses."""
    level = 0
    inside = [value]
    while inside:
        level += 1
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
        half = f"\\u{ord(text[error.start]):04x}"
        raise TiremapError(f"A text holds {half}, half of a character.", "Write the character itself.") from None


def _too_deep(deepest: int) -> TiremapError:
    return TiremapError("Its groups stand too deep inside each other.", f"At most {deepest} levels are read.")
