"""Why no check could be asked: what is unknown then is to be measured first, never passed."""

from tiremap.model.job import TireClass
from tiremap.model.rule_set import RuleSet
from tiremap.rules.reasons import Reason, Settles

OURS = "Tiremap: what is unknown is never a pass"


def no_size() -> Reason:
    """Neither a size code nor dimensions were entered."""
    says = "The tire's size is unknown: type its size code, or its diameter, section width and rim."
    return _reason("size_unknown", says, OURS, "tire.size_code", "the size code from the sidewall")


def no_rule_set() -> Reason:
    """No guidance was chosen; none is a silent default."""
    says = "No guidance is chosen: choose the rule set the shop follows."
    return _reason("no_rule_set", says, OURS, "rule_set", "which guidance the shop follows")


def rule_set_unreadable(name: str, why: str) -> Reason:
    """The job names a rule set that is not on this machine, or whose file cannot be used; ``why`` says so in words."""
    says = f"The guidance {name!r} cannot be read, so nothing is answered by it. {why}"
    settles = Settles("rule_set", "a guidance that can be read", "")
    return Reason("rule_set_unreadable", "measure", says, OURS, settles=settles)


def stock_unreadable(why: str) -> Reason:
    """The shop's own stock cannot be used: which unit a hole takes, and so its head, is not known."""
    says = f"The shop's stock cannot be read, so which unit a hole takes is not known. {why}"
    return Reason("stock_unreadable", "measure", says, OURS, settles=Settles("stock", "a stock that can be read", ""))


def class_not_spoken_of(rule_set: RuleSet, tire_class: TireClass | None) -> Reason:
    """The rule set gives no limits for the class of tire, or the class is unknown."""
    if tire_class is None:
        says = (
            f"The class of this tire is unknown, or nothing is said of it by {rule_set.title}. Say whether it is a "
            "passenger, light truck or truck tire; for a special trailer tire ask its maker."
        )
    else:
        says = f"Nothing is said of a {tire_class.replace('_', ' ')} tire by {rule_set.title}: ask the tire maker."
    return _reason("class_not_covered", says, rule_set.issuer, "tire.tire_class", "the class of tire")


def nothing_marked() -> Reason:
    """The job has no injury yet."""
    says = "No injury is marked: click the hole on the drawing, or add it to the table."
    return _reason("nothing_marked", says, OURS, "injuries", "where the hole is")


def _reason(code: str, says: str, source: str, field: str, words: str) -> Reason:
    return Reason(code, "measure", says, source, settles=Settles(field, words, ""), asks=((field, words),))
