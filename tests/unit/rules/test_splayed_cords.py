"""Cords that stand out of a hole."""

import pytest

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.assess import assess
from tiremap.rules.reasons import Reason


def told(splayed: bool | None) -> list[Reason]:
    found = assess(bench_job(crown_injury("7", cords_splayed=splayed)))
    return [each for each in found.mark("7").reasons if each.code == "cords_splayed"]


def test_where_nobody_looked_nothing_is_told():
    assert told(None) == []


@pytest.mark.parametrize(
    ("splayed", "level", "says"),
    [
        (True, "refuse", "Cords are bare, broken or splayed at injury 7."),
        (False, "note", "No cord is bare, broken or splayed at injury 7."),
    ],
)
def test_cords_that_stand_out_refuse_and_cords_that_do_not_are_noted_with_the_source_on_cords(splayed, level, says):
    (reason,) = told(splayed)
    assert (reason.level, reason.subject) == (level, ("7",))
    assert reason.says.startswith(says)
    assert reason.source.endswith("exposed or damaged cord is not repaired")


def test_a_refusal_falls_only_where_the_cords_were_seen_wrong():
    (reason,) = told(True)
    assert (reason.turns.field, reason.turns.words) == ("injury.7.cords_splayed", "the cords at injury 7")
