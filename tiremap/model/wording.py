"""What the validation of a record found wrong, in words for the person at the bench."""

from typing import Any

from pydantic import ValidationError

from tiremap.errors import TiremapError
from tiremap.model.measures import Across, BeadToes

_WAYS_OF_MEASURING = {Across.__name__, BeadToes.__name__}
"""Parts of a path that name one of two allowed records, not a field: dropped from the words."""


def in_words(error: ValidationError) -> TiremapError:
    """The first fault of a record as a `TiremapError`: which field, what stands there, what a right one is."""
    fault = _first_fault(error.errors(include_url=False))
    where = place_in_words(fault["loc"])
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
            words.append(part)
    return ": ".join(words)


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
        case "value_error":
            return str(fault["ctx"]["error"])
        case _:
            return f"{_shown(fault['input'])} cannot be used"


def _what_is_right(fault: Any) -> str:
    limits = fault.get("ctx", {})
    match fault["type"]:
        case "missing" | "value_error":
            return ""
        case "float_type" | "finite_number" | "float_parsing":
            return "It should be a number, such as 35.0"
        case "string_type" | "string_unicode":
            return "It should be text"
        case "bool_type":
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
        case "tuple_type":
            return "It should be a list, as in [ ... ]"
        case "model_type" | "model_attributes_type":
            return "It should be a group of named fields, as in { ... }"
        case _:
            return fault["msg"].replace("Input should", "It should").rstrip(".")


def _shown(value: Any) -> str:
    text = "null" if value is None else repr(value)
    return text if len(text) <= 60 else f"{text[:57]}..."


def _ordinal(number: int) -> str:
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"
