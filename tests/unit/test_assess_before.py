"""What is taken over from an assessment before never answers for another tire, rule set or stock."""

from dataclasses import replace

import pytest

from tests.helpers.jobs import bench_job, crown_injury, measured_tire
from tiremap.assess import assess
from tiremap.model.stock import RepairUnit
from tiremap.workshop.stock import house_stock

WIDE_HEADS = house_stock().model_copy(update={"units": (RepairUnit(stem_mm=4.0, head_length_mm=90.0),)})
MARKS = (crown_injury("1", across_mm=30.0), crown_injury("2", across_mm=30.0, around_deg=90.0))


@pytest.mark.parametrize(
    ("job", "more"),
    [
        (bench_job(*MARKS, tire=measured_tire(tread_width_mm=100.0)), {}),
        (bench_job(*MARKS, tire=measured_tire(size_code="225/45R17")), {}),
        (bench_job(*MARKS, rule_set="japan"), {}),
        (bench_job(*MARKS), {"stock": WIDE_HEADS}),
    ],
)
def test_marks_are_asked_anew_where_tire_rule_set_or_stock_is_another(job, more):
    before = assess(bench_job(*MARKS), advise=False)
    afresh = assess(job, advise=False, **more)
    found = assess(job, advise=False, before=before, **more)
    assert found.injuries != before.injuries
    assert (found.answer, found.injuries, found.reasons) == (afresh.answer, afresh.injuries, afresh.reasons)


def test_a_mark_that_stays_is_taken_over_and_one_that_moved_is_not():
    before = assess(bench_job(*MARKS), advise=False)
    moved = crown_injury("2", across_mm=80.0, around_deg=90.0)
    found = assess(bench_job(MARKS[0], moved), advise=False, before=before)
    assert found.injuries[0] is before.injuries[0]
    assert found.injuries[1] == assess(bench_job(MARKS[0], moved), advise=False).injuries[1] != before.injuries[1]


def test_pairs_are_read_by_number_by_slice_and_in_order():
    pairs = assess(bench_job(*MARKS, crown_injury("3", around_deg=180.0))).pairs
    assert [(each.first, each.second) for each in pairs] == [("1", "2"), ("1", "3"), ("2", "3")]
    assert (len(pairs), pairs[2], pairs[1:]) == (3, list(pairs)[2], tuple(pairs)[1:])


def test_the_pairs_of_a_mark_and_those_among_some_are_those_of_all_pairs_in_their_order():
    found = assess(bench_job(*MARKS, crown_injury("3", around_deg=180.0), crown_injury("4", around_deg=300.0)))
    told = replace(found, pairs=tuple(found.pairs))  # as a drawing of some marks holds them
    for each in (found, told):
        for id in ("1", "2", "3", "4", "5"):
            assert each.pairs_with(id) == tuple(pair for pair in found.pairs if id in (pair.first, pair.second))
        assert [(pair.first, pair.second) for pair in each.pairs_with("3")] == [("1", "3"), ("2", "3"), ("3", "4")]
        assert [(pair.first, pair.second) for pair in each.pairs_among(["4", "1", "5"])] == [("1", "4")]
        assert each.pairs_among({"1", "2", "3", "4"}) == tuple(found.pairs)
        assert each.pair("4", "2") is each.pair("2", "4") is found.pairs[4]
        assert each.pair("2", "2") is each.pair("2", "5") is None


def test_the_pairs_of_two_assessments_are_equal_where_each_pair_is():
    pairs = assess(bench_job(*MARKS)).pairs
    assert pairs == assess(bench_job(*MARKS)).pairs == tuple(pairs)
    assert pairs != assess(bench_job(MARKS[0], crown_injury("2", across_mm=31.0, around_deg=90.0))).pairs
    assert pairs != list(pairs)
