"""One limit of a shop's own rule set against the set it was copied from."""

from collections.abc import Sequence
from typing import Any, Literal

from tiremap.model.limit_values import limit_at, number_shown, unit_shown, value_of
from tiremap.model.looser import NAMES, looser_than
from tiremap.model.rule_set import RuleSet, Sourced

Against = Literal["same", "looser", "tighter", "other"]
"""``other``: neither looser nor tighter, or not to be compared."""

_WHOM = ("classes", "built", "section_width_over", "section_width_up_to", "load_index_from")


def against_parent(rule_set: RuleSet, parent: RuleSet, key: str) -> Against:
    """How a limit stands to that of the parent."""
    limit, of_parent = limit_at(rule_set, key), parents_limit(rule_set, parent, key)
    if of_parent is not None and _asked(limit) == _asked(of_parent):
        return "same"
    if looser_in(rule_set, parent, key):
        return "looser"
    if of_parent is None or limit.tighter == "neither":
        return "other"
    here, there = value_of(limit), value_of(of_parent)
    if here is None or there is None or limit.unit != of_parent.unit or here == there:
        return "other"
    return "tighter" if (here < there) == (limit.tighter == "less") else "other"


def looser_in(rule_set: RuleSet, parent: RuleSet, key: str) -> Sequence[str]:
    """A sentence for each way in which this limit is looser than the parent's."""
    field, _, number = key.partition(".")
    if parents_limit(rule_set, parent, key) is None:
        about = NAMES.get(field, "crown zone").capitalize()
        return [says for says in looser_than(rule_set, parent) if says.startswith(about)]
    limits = list(getattr(parent, field))
    limits[int(number)] = limit_at(rule_set, key)
    return looser_than(parent.model_copy(update={field: tuple(limits)}), parent)


def parents_limit(rule_set: RuleSet, parent: RuleSet, key: str) -> Sourced | None:
    """The limit in the same place of the parent, where it is for the same tires; else ``None``."""
    field, _, number = key.partition(".")
    here, there = getattr(rule_set, field), getattr(parent, field)
    if len(here) != len(there):
        return None
    limit, of_parent = here[int(number)], there[int(number)]
    return of_parent if all(getattr(limit, who, None) == getattr(of_parent, who, None) for who in _WHOM) else None


def parents_value(rule_set: RuleSet, parent: RuleSet, key: str) -> str:
    """The parent's value and unit, such as ``6 mm``; empty where there is none to set beside it."""
    of_parent = parents_limit(rule_set, parent, key)
    if of_parent is None or value_of(of_parent) is None:
        return ""
    return f"{number_shown(of_parent)} {unit_shown(of_parent)}"


def _asked(limit: Sourced) -> dict[str, Any]:
    """All a limit says but where it comes from."""
    return limit.model_dump(exclude={"source", "grade"})
