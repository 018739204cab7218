"""What the validation of a record found wrong, in words for the person at the bench."""

from typing import Any

from pydantic import ValidationError

from tiremap.errors import TiremapError
from tiremap.model.measures import Across, BeadToes

_MOST_SHOWN = 60
"""Characters of a value that are shown: what is longer is recognized by its start."""
_LARGEST_SHOWN = 10**18
_WAYS_OF_MEASURING = {Across.__name__, BeadToes.__name__}
"""Parts of a path that name one of two allowed records, not a field: dropped from the words."""


def in_words(error: ValidationError, *, dotted: bool = False) -> TiremapError:
    """The first fault of a record as a `TiremapError`: which field, what stands there, what a right one is.

    ``dotted`` names the field by its key, as in ``largest_injuries.0.value``, and not in words.
    """
    fault = _first_fault(error.errors(include_url=False))
    where = ".".join(map(_name_shown, fault["loc"])) if dotted else place_in_words(fault["loc"])
    what = _what_is_wrong(fault)
    right = _what_is_right(fault)
    return TiremapError(f"{where}: {what}." if where else f"{what}.", f"{right}." if right else "")


def place_in_words(path: tuple[int | str, ...]) -> str:
    """A path inside a record in words, as in ``injuries, 2nd: size_outside: value``."""
    words: list[str] = []
    for part in path:
        if isinstance(part, int):
            words[-1:] = [f"{words[-1]}, {_ordinal(part + 1)}" if words else _ordinal(part + 1)]
        elif part not in _WAYS_OF_MEASURING:
            words.append(_name_shown(part))
    return ": ".join(words)


def shown(value: Any) -> str:
    """A value that cannot be used, as it is written in a file; groups and what is long in short."""
    match value:
        case None:
            return "null"
        case bool():
            return "true" if value else "false"
        case str():
            text = repr(value[: _MOST_SHOWN + 1])
        case int() if abs(value) > _LARGEST_SHOWN:
            return "a number of very many digits"
        case int() | float():
            text = repr(value)
        case dict():
            return "a group of fields"
        case list() | tuple():
            return "a list"
        case _:
            return "what stands there"
    return in_short(text)


def in_short(text: str) -> str:
    """A text as it is, or its start where it is long."""
    return text if len(text) <= _MOST_SHOWN else f"{text[: _MOST_SHOWN - 3]}..."


def _first_fault(faults: list[Any]) -> Any:
    """The first fault; where a place may be measured in two ways, the first one of the way that fits better."""
    arm_at = next((i for i, part in enumerate(faults[0]["loc"]) if part in _WAYS_OF_MEASURING), None)
    if arm_at is None:
        return faults[0]
    place = faults[0]["loc"][:arm_at]
    ways: dict[str, list[Any]] = {}
    for fault in faults:
        if fault["loc"][:arm_at] == place and len(fault["loc"]) > arm_at:
            ways.setdefault(str(fault["loc"][arm_at]), []).append(fault)
    return min(ways.values(), key=len)[0]


def _what_is_wrong(fault: Any) -> str:
    match fault["type"]:
        case "missing":
            return "it is missing"
        case "extra_forbidden":
            return "there is no entry of that name here"
        case "value_error":
            return str(fault["ctx"]["error"])
        case _:
            return f"{shown(fault['input'])} cannot be used"


def _what_is_right(fault: Any) -> str:
    limits = fault.get("ctx", {})
    match fault["type"]:
        case "missing":
            return "It must be there"
        case "value_error":
            return ""
        case "extra_forbidden":
            return "Look for a slip of the pen in the name"
        case "float_type" | "finite_number" | "float_parsing":
            return "It should be a number, such as 35.0"
        case "string_type" | "string_unicode":
            return "It should be text"
        case "int_type" | "int_from_float" | "int_parsing" | "int_parsing_size":
            return "It should be a whole number, such as 2"
        case kind if kind.startswith("datetime") or kind.startswith("timezone"):
            return "It should be a day and time, as in 2026-03-01T09:30:00Z"
        case "bool_type" | "bool_parsing":
            return "It should be true or false"
        case "literal_error":
            return f"It should be {limits['expected']}"
        case "greater_than_equal":
            return f"It should be {limits['ge']:g} or more"
        case "greater_than":
            return f"It should be more than {limits['gt']:g}"
        case "less_than_equal":
            return f"It should be {limits['le']:g} or less"
        case "less_than":
            return f"It should be less than {limits['lt']:g}"
        case "string_too_short":
            return "It should not be empty"
        case "string_too_long":
            return f"It should have {limits['max_length']} characters or fewer"
        case "too_short":
            return "It should hold one or more"
        case "too_long":
            return f"It should hold {limits['max_length']} or fewer"
        case "tuple_type" | "list_type":
            return "It should be a list, as in [ ... ]"
        case "model_type" | "model_attributes_type" | "dict_type":
            return "It should be a group of named fields, as in { ... }"
        case _:
            return str(fault["msg"]).replace("Input should", "It should").rstrip(".")


def _name_shown(name: int | str) -> str:
    """A field's own name as it is; a name that only a broken file can hold as a value is shown."""
    usual = isinstance(name, int) or (name.isidentifier() and len(name) <= _MOST_SHOWN)
    return str(name) if usual else shown(name)


def _ordinal(number: int) -> str:
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"
