"""Was the tire looked at inside and out: each answer, word for word."""

import pytest

from tests.helpers.jobs import all_fine, bench_job, crown_injury
from tiremap.assess import assess
from tiremap.edits.change import changed
from tiremap.model.job import Finding
from tiremap.rules.inspected import SOURCE
from tiremap.rules.reasons import Reason, Settles, Turns

TIRE = "the tire inside and out, off the rim"


def inspected(finding: Finding | None) -> Reason:
    found = assess(bench_job(crown_injury(), checks=changed(all_fine(), inspected=finding)), advise=False)
    (reason,) = [each for each in found.reasons if each.code == "inspected"]
    return reason


@pytest.mark.parametrize(
    ("finding", "level", "says"),
    [
        (None, "measure", "Not yet looked at inside and out, off the rim: tread, sidewalls, beads, liner."),
        (Finding(state="found"), "refuse", "Damage was found when the tire was looked at inside and out."),
        (Finding(state="fine"), "note", "Looked at inside and out, off the rim: nothing found."),
        (Finding(state="fine", together=True), "note",
         "Looked at inside and out, off the rim: nothing found, answered together with the other checks."),
    ],
)
def test_each_answer_is_told_in_its_own_words(finding, level, says):
    reason = inspected(finding)
    assert (reason.level, reason.says, reason.source) == (level, says, SOURCE)
    assert reason.settles == (Settles("checks.inspected", TIRE, "") if level == "measure" else None)
    assert reason.asks == ((("checks.inspected", TIRE),) if level == "measure" else ())
    assert reason.turns == (Turns("checks.inspected", "what was found") if level == "refuse" else None)
