"""Was liquid sealant used: asked, refused or noted where the set refuses it, else nothing is said."""

import pytest

from tests.helpers.jobs import bench_job, crown_injury, measured_tire
from tiremap.assess import assess
from tiremap.model.rule_set_file import rule_set_named
from tiremap.rules.reasons import Reason, Settles, Turns

FIELD, WORDS = "tire.sealant_used", "whether liquid sealant was used"


def sealant(used: bool | None, rule_set: str = "germany") -> list[Reason]:
    job = bench_job(crown_injury(), rule_set=rule_set, tire=measured_tire(sealant_used=used))
    return [each for each in assess(job, advise=False).reasons if each.code == "sealant"]


@pytest.mark.parametrize(
    ("used", "level", "says"),
    [
        (None, "measure", "Liquid sealant refuses a tire in this set: say whether it was used."),
        (True, "refuse", "Liquid sealant was used in this tire."),
        (False, "note", "No liquid sealant was used."),
    ],
)
def test_a_set_that_refuses_it_asks_refuses_or_notes(used, level, says):
    (reason,) = sealant(used)
    (limit, *_) = rule_set_named("germany").sealant_refused
    assert (reason.level, reason.says, reason.source) == (level, says, limit.source)
    assert reason.settles == (Settles(FIELD, WORDS, "") if level == "measure" else None)
    assert reason.asks == (((FIELD, WORDS),) if level == "measure" else ())
    assert reason.turns == (Turns(FIELD, WORDS) if level == "refuse" else None)


@pytest.mark.parametrize("used", [None, True, False])
def test_a_set_that_does_not_speak_of_it_says_nothing(used):
    assert sealant(used, "united_kingdom") == []
