"""Where the least radius of the liner says nothing, every pair is asked."""

from dataclasses import replace

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.assess import assess
from tiremap.assessment import case_of
from tiremap.rules.near_pairs import near_pairs
from tiremap.rules.pairs import reach_of

ALL_THREE = [(0, 1), (0, 2), (1, 2)]


def case_and_reaches(*around_deg: float):
    marks = [crown_injury(str(number), around_deg=angle) for number, angle in enumerate(around_deg, 1)]
    case = case_of(assess(bench_job(*marks, rule_set="united_kingdom")))
    return case, [reach_of(case.facts, mark) for mark in case.injuries]


def test_three_marks_a_third_of_the_tire_apart_are_not_near_and_three_in_one_place_are():
    assert near_pairs(*case_and_reaches(0.0, 120.0, 240.0)) == []
    assert near_pairs(*case_and_reaches(10.0, 11.0, 12.0)) == ALL_THREE
    assert near_pairs(*case_and_reaches(359.0, 1.0, 180.0)) == [(0, 1)]


def test_one_mark_whose_liner_may_reach_the_axle_has_every_pair_asked():
    case, reaches = case_and_reaches(0.0, 120.0, 240.0)
    for least in (0.0, -5.0):
        reaches[1] = replace(reaches[1], radii=(least, 300.0))
        assert near_pairs(case, reaches) == ALL_THREE


def test_no_mark_has_no_pair():
    case, _ = case_and_reaches(0.0)
    assert near_pairs(case, []) == []
