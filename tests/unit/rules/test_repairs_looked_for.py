"""Was the tire searched for earlier repairs: each answer beside none, one and two marked ones, word for word."""

import pytest

from tests.helpers.jobs import all_fine, bench_job, crown_injury, earlier_repair
from tiremap.assess import assess
from tiremap.edits.change import changed
from tiremap.model.job import RepairsLookedFor
from tiremap.rules.reasons import Settles
from tiremap.rules.repairs_looked_for import SOURCE

FIELD, WORDS = "checks.earlier_repairs", "the liner for earlier repairs"
NOT_YET = "Not yet searched for earlier repairs: look at the liner all the way around."


@pytest.mark.parametrize(
    ("state", "marked", "level", "says"),
    [
        (None, 0, "measure", NOT_YET),
        (None, 1, "measure", NOT_YET),
        ("none", 0, "note", "Searched for earlier repairs: none found."),
        ("none", 1, "measure", "Earlier repairs are said to be none, yet 1 is marked: answer anew."),
        ("none", 2, "measure", "Earlier repairs are said to be none, yet 2 are marked: answer anew."),
        ("all_marked", 0, "measure", "All earlier repairs are said to be marked, yet none is: answer anew."),
        ("all_marked", 1, "note", "Searched for earlier repairs: all marked (1)."),
        ("all_marked", 2, "note", "Searched for earlier repairs: all marked (2)."),
    ],
)
def test_the_answer_counts_only_where_it_agrees_with_what_is_marked(state, marked, level, says):
    repairs = [earlier_repair(f"R{number}", around_deg=100.0 * number) for number in range(1, marked + 1)]
    looked = None if state is None else RepairsLookedFor(state=state)
    checks = changed(all_fine(), earlier_repairs=looked)
    found = assess(bench_job(crown_injury(), *repairs, checks=checks), advise=False)
    (reason,) = [each for each in found.reasons if each.code == "earlier_repairs"]
    assert (reason.level, reason.says, reason.source) == (level, says, SOURCE)
    assert reason.settles == (Settles(FIELD, WORDS, "") if level == "measure" else None)
    assert reason.asks == (((FIELD, WORDS),) if level == "measure" else ())
