"""``tiremap assess``: the answer for each job, with its reasons."""

import json
import sys
from pathlib import Path

from tiremap.assess import assess
from tiremap.assessment import Assessment
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


def print_answers(paths: list[str], rules: str | None, as_json: bool) -> int:
    """Print the answer for each job file, under its own rule set, another, or ``all``.

    The exit code: 2 where any input was bad (the others are still answered), else 1 where any job was refused, else 3
    where any must be measured, else 0; with ``all``, by each job's own rule set.
    """
    others = _rule_sets(rules)
    bad, answers = False, []
    for path in paths:
        try:
            job = read_job(Path(path))
            own = assess(job, others[0] if rules not in (None, "all") else own_rule_set(job))
            shown = [assess(job, each) for each in others] if rules == "all" else [own]
        except TiremapError as error:
            print(f"tiremap assess: {path}: {error}", file=sys.stderr)
            bad = True
            continue
        answers.append(own.answer)
        for assessment in shown:
            record = {"job": path} | assessment.as_record()
            print(json.dumps(record, ensure_ascii=False) if as_json else in_words(path, assessment))
    if not as_json:
        print("Cautions: " + " ".join(full_cautions()))
    if bad:
        return 2
    if "not_repairable" in answers:
        return 1
    return 3 if "measure_first" in answers else 0


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
        lines.append(f"  {reason.level}: {reason.says}{margin} [{reason.source}]")
    return "\n".join(lines)
