"""Is the shop's own rule set looser than the published one it was copied from? Then every answer says so."""

from functools import lru_cache

from tiremap.model.looser import looser_than
from tiremap.model.rule_set import RuleSet
from tiremap.model.rule_set_file import rule_set_named
from tiremap.rules.case import Case
from tiremap.rules.reasons import Reason


def shop_set(case: Case) -> list[Reason]:
    """A caution for each limit in which the shop's rule set is looser than its parent, whatever this tire's class."""
    if case.rule_set.parent is None:
        return []
    source = f"the shop's own rule set {case.rule_set.name}, compared limit by limit with {case.rule_set.parent}"
    return [
        Reason("looser_than_parent", "caution", f"Looser than the set it was copied from. {says}", source)
        for says in looser_than_parent(case.rule_set)
    ]


@lru_cache(maxsize=32)
def looser_than_parent(rule_set: RuleSet) -> tuple[str, ...]:
    """A sentence for each limit in which a shop's rule set is looser than its parent; none for a published set."""
    return () if rule_set.parent is None else looser_than(rule_set, rule_set_named(rule_set.parent))
