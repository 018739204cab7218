"""Decisions as they are said on screen and paper alike."""

from tiremap.drawing.wording import ANSWER_WORDS
from tiremap.model.job import Choice, Decision
from tiremap.model.rule_set_file import rule_set_or_why
from tiremap.model.rule_set_titles import shown_title

CHOICE_WORDS: dict[Choice, str] = {"repair": "Repair", "do_not_repair": "Do not repair", "measure": "Measure first"}
AGAINST = "AGAINST THE ANSWER"


def decision_said(decision: Decision) -> str:
    """What was decided, when, by whom, and whether against the answer."""
    says = f"Decided {moment_said(decision)}: {CHOICE_WORDS[decision.decision]}"
    if decision.against_answer:
        says += f", {AGAINST}"
    return f"{says}, by {decision.by}" if decision.by else says


def decision_told(decision: Decision) -> str:
    """The same with the answer it was made under, by which guidance, and its note."""
    answer = ANSWER_WORDS[decision.answer]
    says = f"{decision_said(decision)}. The answer was {answer}, by {guidance_title(decision.rule_set)}."
    return f"{says} Note: {decision.note}" if decision.note else says


def overtaken_said(decision: Decision) -> str:
    """What stands where the answer has become another one since."""
    return f"The answer has changed since it was signed: it was {ANSWER_WORDS[decision.answer]}."


def moment_said(decision: Decision) -> str:
    """Date and time of day, as they were where it was made."""
    return f"{decision.date:%Y-%m-%d %H:%M}"


def guidance_title(name: str | None) -> str:
    """What a rule set is called; its bare name where it cannot be read any more."""
    if not name:
        return "no guidance"
    rule_set, _ = rule_set_or_why(name)
    return name if rule_set is None else shown_title(rule_set)
