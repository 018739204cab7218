"""What a rule set is called where it stands beside others: its title, and of a shop's own the set it comes from."""

from tiremap.model.rule_set import RuleSet
from tiremap.model.rule_set_file import rule_set_or_why


def shown_title(rule_set: RuleSet) -> str:
    """The title; of a shop's own with its parent's, such as "Our shop, after Japan"."""
    if rule_set.parent is None:
        return rule_set.title
    return f"{rule_set.title}, after {parent_title(rule_set)}"


def parent_title(rule_set: RuleSet) -> str:
    """The title of the published set a shop's own was copied from; empty for a published one."""
    if rule_set.parent is None:
        return ""
    parent, _ = rule_set_or_why(rule_set.parent)
    return rule_set.parent if parent is None else parent.title
