"""``tiremap assess``: the answer for each job, with its reasons."""

import json
import sys
from functools import partial
from pathlib import Path
from typing import NamedTuple

from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.commands.all_cores import in_order
from tiremap.commands.progress import Progress
from tiremap.drawing.said import said_in
from tiremap.errors import TiremapError
from tiremap.model.cautions import full_cautions
from tiremap.model.job import Answer, Job
from tiremap.model.rule_set import RuleSet
from tiremap.model.rule_set_file import rule_set_named, usable_rule_sets
from tiremap.storage.job_file import read_job

ANSWER_WORDS: dict[Answer, str] = {
    "repairable": "Repairable",
    "measure_first": "Measure first",
    "not_repairable": "Not repairable",
}


class Told(NamedTuple):
    """What is said of one job file: lines for stdout, or what was wrong with it; and its answer, where there is one."""

    lines: tuple[str, ...]
    fault: str
    answer: Answer | None


def print_answers(paths: list[str], rules: str | None, as_json: bool) -> int:
    """Print the answer for each job file, under its own rule set, another, or ``all``.

    The exit code: 2 where any input was bad (the others are still answered), else 1 where any job was refused, else 3
    where any must be measured, else 0; with ``all``, by each job's own rule set. Many files are answered on all cores,
    and a terminal is told how far they are.
    """
    _rule_sets(rules)  # a name that is none is told before any file
    progress, done = Progress(len(paths)), 0
    found: set[Answer | None] = set()
    for part in in_order(partial(tell, rules, as_json), paths):
        progress.erase()
        _print(part)
        done += len(part)
        progress.show(done)
        found |= {None if told.fault else told.answer for told in part}
    if not as_json:
        print("Cautions: " + " ".join(full_cautions()))
    return next((code for answer, code in _EXIT_CODES if answer in found), 0)


_EXIT_CODES: tuple[tuple[Answer | None, int], ...] = ((None, 2), ("not_repairable", 1), ("measure_first", 3))
"""The first that was found decides; ``None`` stands for bad input."""


def _print(part: list[Told]) -> None:
    for told in part:
        for line in told.lines:
            print(line)
        if told.fault:
            sys.stdout.flush()  # what stands before it comes before it, wherever both go
            print(told.fault, file=sys.stderr)


def tell(rules: str | None, as_json: bool, paths: list[str]) -> list[Told]:
    """What is said of some job files, one after the other."""
    others = _rule_sets(rules)
    return [_tell(path, rules, others, as_json) for path in paths]


def _tell(path: str, rules: str | None, others: list[RuleSet], as_json: bool) -> Told:
    try:
        job = read_job(Path(path))
        own = assess(job, others[0] if rules not in (None, "all") else own_rule_set(job))
        shown = [assess(job, each) for each in others] if rules == "all" else [own]
    except TiremapError as error:
        return Told((), f"tiremap assess: {path}: {error}", None)
    return Told(tuple(_line(path, each, as_json) for each in shown), "", own.answer)


def _line(path: str, assessment: Assessment, as_json: bool) -> str:
    if as_json:
        return json.dumps({"job": path} | assessment.as_record(), ensure_ascii=False)
    return in_words(path, assessment)


def _rule_sets(rules: str | None) -> list[RuleSet]:
    if rules is None:
        return []
    return list(usable_rule_sets()) if rules == "all" else [rule_set_named(rules)]


def own_rule_set(job: Job) -> RuleSet | None:
    """The rule set a job follows, ``None`` where it names none. Raises `TiremapError` for one that cannot be read."""
    return None if job.rule_set is None else rule_set_named(job.rule_set)


def in_words(path: str, assessment: Assessment) -> str:
    """The answer and its reasons in order of weight, as text."""
    rules = assessment.rule_set.title if assessment.rule_set else "no rule set chosen"
    lines = [f"{path}: {ANSWER_WORDS[assessment.answer]} ({rules})"]
    for reason in assessment.all_reasons:
        unit = (reason.unit or "mm").partition(" ")[0]
        margin = "" if reason.margin is None else f" Margin {reason.margin:+.1f} {unit}."
        lines.append(f"  {reason.level}: {said_in(reason.says, 'mm')}{margin} [{reason.source}]")
    return "\n".join(lines)
