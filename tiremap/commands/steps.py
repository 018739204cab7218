"""``tiremap steps``: the work on one tire, step by step, with this job's dimensions."""

import json
from pathlib import Path

from tiremap.assess import assess
from tiremap.commands.assess import ANSWER_WORDS, own_rule_set
from tiremap.model.cautions import full_cautions
from tiremap.repair_steps import done, steps_of
from tiremap.storage.job_file import read_job


def print_steps(path: str, *, as_json: bool) -> int:
    """Print the steps of a job file; 0. Raises `TiremapError` for a bad job."""
    job = read_job(Path(path))
    assessment = assess(job, own_rule_set(job))
    steps = steps_of(assessment)
    if as_json:
        record = {"job": path, "answer": assessment.answer, "steps": [each.as_record() for each in steps]}
        print(json.dumps(record, ensure_ascii=False))
        return 0
    print(f"{path}: {ANSWER_WORDS[assessment.answer]}")
    for step in steps:
        box = "x" if done(job, step) else " "
        print(f"[{box}] {step.number:2}. {step.title}. {step.text}")
        for line in (*step.details, step.must_not, *step.cautions):
            if line:
                print(f"        {line}")
        if step.wait is not None:
            wait = step.wait
            print(f"        Wait {wait.least_s / 60:g} to {wait.greatest_s / 60:g} min: {wait.what}.")
    print("Cautions: " + " ".join(full_cautions()))
    return 0
