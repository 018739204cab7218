"""The value of one limit as the shop reads and types it: shares in percent, the rest in the limit's own unit."""

import re
from typing import get_args

from pydantic import ValidationError

from tiremap.errors import TiremapError
from tiremap.model.measures import LengthUnit
from tiremap.model.rule_set import CrownZone, RuleSet, Sourced, ValuedLimit
from tiremap.model.typed_measures import read_length
from tiremap.model.units import mm_from_inches

_A_NUMBER = re.compile(r"\s*(?P<number>\d+(?:[.,]\d*)?|[.,]\d+)\s*(?P<unit>[^\d.,]*)")
_PERCENT = "%"


def limit_at(rule_set: RuleSet, key: str) -> Sourced:
    """The limit of that key, such as ``tread_depths.0``. Raises `TiremapError` with the keys there are."""
    field, _, number = key.partition(".")
    limits = getattr(rule_set, field, None) if field in RuleSet.model_fields else None
    if isinstance(limits, tuple) and number.isascii() and number.isdigit() and int(number) < len(limits):
        limit: Sourced = limits[int(number)]
        return limit
    keys = (f"{name}.{each}" for name, value in rule_set if isinstance(value, tuple) for each in range(len(value)))
    raise TiremapError(f"The rule set {rule_set.name} has no limit {key!r}.", f"There are: {', '.join(keys)}.")


def value_of(limit: Sourced) -> float | None:
    """The value that can be changed, as its file holds it; of a crown zone that of the inner edge."""
    if isinstance(limit, CrownZone):
        return None if limit.edge.kind == "whole_tread" else limit.edge.value
    return limit.value if isinstance(limit, ValuedLimit) else None


def unit_shown(limit: Sourced) -> str:
    """The unit the value is read and typed in: percent for a share of a width."""
    return limit.unit.replace("share", _PERCENT, 1) if is_share(limit) else limit.unit


def number_shown(limit: Sourced) -> str:
    """The value as it is read and typed, without its unit; empty where the limit has none."""
    value = value_of(limit)
    if value is None:
        return ""
    return f"{100 * value:.10g}" if is_share(limit) else f"{value:.10g}"


def value_typed(limit: Sourced, text: str) -> float:
    """A typed value as the file holds it.

    A length may be typed in another unit; a share is percent, unless it is at most 1 and has no percent sign. Raises
    `TiremapError` for anything else.
    """
    if value_of(limit) is None:
        raise TiremapError("This limit has no value that can be changed here.", "Change the file of the set itself.")
    if limit.unit in get_args(LengthUnit):
        typed = read_length(text, "mm")
        return mm_from_inches(typed.value) if typed.unit == "in" else typed.value
    match = _A_NUMBER.fullmatch(text)
    unit = match["unit"].strip() if match else ""
    if match is None or unit not in ("", limit.unit, unit_shown(limit), *([_PERCENT] if is_share(limit) else [])):
        right = f"Such as {number_shown(limit)} {unit_shown(limit)}."
        raise TiremapError(f'"{text}" is no value for this limit.', right)
    value = float(match["number"].replace(",", "."))
    if is_share(limit) and (value > 1 or unit.startswith(_PERCENT)):
        return value / 100
    counts = isinstance(value_of(limit), int) and value.is_integer()
    return int(value) if counts else value


def with_value(rule_set: RuleSet, key: str, value: float) -> RuleSet:
    """The rule set with another value in one limit; no file is touched. Raises `TiremapError` where it cannot be."""
    limit = limit_at(rule_set, key)
    field, _, number = key.partition(".")
    edge = {"edge": limit.edge.model_copy(update={"value": value})} if isinstance(limit, CrownZone) else None
    changed = limit.model_copy(update=edge or {"value": value})
    limits = list(getattr(rule_set, field))
    limits[int(number)] = changed
    try:
        return RuleSet.model_validate(rule_set.model_copy(update={field: tuple(limits)}).model_dump())
    except ValidationError as error:
        raise TiremapError(f"{key}: {error.errors()[0]['msg']}.") from None


def is_share(limit: Sourced) -> bool:
    """Whether the value is a share of a width, held from 0 to 1."""
    return isinstance(limit, CrownZone) and limit.edge.kind.startswith("share_of_")
