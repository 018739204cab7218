"""Only pairs that lie further apart than any check asks are left out; where nothing bounds the liner, none is.

House stock is buffed 6 mm beyond a head, so that two heads less than 12 mm apart are told of.
"""

from dataclasses import replace
from math import pi, radians

import pytest

from tests.helpers.jobs import bench_job, crown_injury, evenly_worn, measured_tire
from tiremap.assess import assess
from tiremap.assessment import case_of
from tiremap.model.measures import Length
from tiremap.model.rule_set import AngleApart, AroundApart
from tiremap.model.rule_set_file import rule_set_named
from tiremap.rules.marks import HeadSize
from tiremap.rules.near_pairs import near_pairs
from tiremap.rules.pairs import Reach, reach_of
from tiremap.rules.reading import UNBOUNDED, Reading

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


SIX = Length(value=6.0, how="exact")
A_TOUCH = 1e-5
"""More than the hair an arc is longer than it need be, and far below any tape: radians or mm."""


def limit(kind, value):
    unit, said = ("deg", "degrees") if kind is AngleApart else ("mm", "mm")
    return kind(
        classes=("passenger",), value=value, operator=">=", unit=unit, tighter="more", grade="assumed",
        source=f"the test: {value} {said}",
    )


def exact_case(**limits):
    """A tire 632 mm high with a crown exactly 12 mm thick; ``limits`` replace those of a rule set silent on turns."""
    rule_set = rule_set_named("united_kingdom").model_copy(update=limits)
    tire = measured_tire(**evenly_worn(SIX), under_grooves=SIX)
    return case_of(assess(bench_job(crown_injury(), tire=tire), rule_set, advise=False))


def heads_asked(case, gap):
    """The case with another gap asked between heads."""
    limits = tuple(each.model_copy(update={"value": gap}) for each in case.rule_set.heads_apart)
    return exact_case(heads_apart=limits)


PLAIN = exact_case()


def lying(around=(0.0, 0.0), across=(0.0, 0.0), radius=20.0, half_across=0.0, half_around=0.0, least_radius=300.0):
    """A mark that may lie between these angles (radians) and tread coordinates (mm); its head at its greatest."""
    head = HeadSize(
        Reading("", "", 0.0, 0.0, radius), (0.0, 0.0, half_across), (0.0, 0.0, half_around),
    )
    mark = replace(PLAIN.injuries[0], head=head)
    return Reach(mark, (across,) * 4, around, (least_radius, 304.0), None, None)


def at(angle, **more):
    return lying((angle, angle), **more)


def near(case, one, other):
    """Whether two marks are asked about; in whichever order they come."""
    found = near_pairs(case, [one, other])
    assert near_pairs(case, [other, one]) == found
    assert found in ([], [(0, 1)])
    return bool(found)


@pytest.mark.parametrize("start", [0.0, 1.0, 2 * pi - 0.1, -0.1, 2 * pi - 0.2, 7.0])
@pytest.mark.parametrize(
    ("one", "other", "clear"),
    [
        ({}, {}, (20 + 20 + 12) / 300),
        ({"radius": 10.0, "half_around": 15.0}, {"radius": 30.0}, (10 + 15 + 30 + 12) / 300),
        ({"half_across": 50.0}, {}, (20 + 20 + 12) / 300),  # how far it reaches across is another matter
        ({}, {"least_radius": 250.0}, (20 + 20 + 12) / 250),  # the least radius of all
    ],
)
def test_heads_are_near_up_to_their_reach_around_and_two_buffed_borders(start, one, other, clear):
    assert near(PLAIN, at(start, **one), at(start + clear, **other))
    assert near(PLAIN, at(start, **one), at(start - clear, **other))
    for off in (clear + A_TOUCH, -clear - A_TOUCH, pi):
        assert not near(PLAIN, at(start, **one), at(start + off, **other))


@pytest.mark.parametrize("start", [0.0, 2.0, 6.2])
def test_a_mark_that_may_lie_in_several_places_is_near_wherever_it_may_lie(start):
    """From 0.1 before to 0.3 after, and 52/300 beside either end."""
    wide, clear = lying((start - 0.1, start + 0.3)), 52 / 300
    for nearest in (start + 0.3 + clear, start - 0.1 - clear, start, start + 0.1, start + 0.3):
        assert near(PLAIN, wide, at(nearest))
    assert not near(PLAIN, wide, at(start + 0.3 + clear + A_TOUCH))
    assert not near(PLAIN, wide, at(start - 0.1 - clear - A_TOUCH))


@pytest.mark.parametrize(("gap", "between"), [(0.0, 12.0), (5.0, 12.0), (12.0, 12.0), (30.0, 30.0)])
def test_the_larger_of_the_rule_sets_gap_and_two_borders_is_kept_between_heads(gap, between):
    case, clear = heads_asked(PLAIN, gap), (40 + between) / 300
    assert near(case, at(1.0), at(1.0 + clear))
    assert not near(case, at(1.0), at(1.0 + clear + A_TOUCH))


@pytest.mark.parametrize(
    ("limits", "clear"),
    [
        ({"around_apart": (limit(AroundApart, 400.0),)}, 400 / 316),  # on the tread, 632/2 mm from the axle
        ({"around_apart": (limit(AroundApart, 150.0), limit(AroundApart, 400.0))}, 400 / 316),
        ({"angles_apart": (limit(AngleApart, 90.0),)}, radians(90)),
        ({"angles_apart": (limit(AngleApart, 90.0), limit(AngleApart, 30.0))}, radians(90)),
        ({"around_apart": (limit(AroundApart, 400.0),), "angles_apart": (limit(AngleApart, 90.0),)}, radians(90)),
        ({"around_apart": (limit(AroundApart, 400.0),), "angles_apart": (limit(AngleApart, 60.0),)}, 400 / 316),
        ({"around_apart": (limit(AroundApart, 30.0),)}, 52 / 300),  # the heads ask for more
    ],
)
def test_what_is_asked_around_keeps_marks_near_however_far_across_they_lie(limits, clear):
    case = exact_case(**limits)
    for across in (0.0, 160.0):
        other = {"across": (across, across)}
        assert near(case, at(2.0), at(2.0 + clear, **other))
        assert not near(case, at(2.0), at(2.0 + clear + A_TOUCH, **other))


@pytest.mark.parametrize(
    ("one", "other", "clear"),
    [
        ({}, {}, 20 + 20 + 12),
        ({"half_across": 15.0}, {"radius": 30.0}, 15 + 20 + 30 + 12),
        ({"half_around": 50.0}, {}, 20 + 20 + 12),
    ],
)
def test_with_nothing_asked_around_marks_are_not_near_where_they_keep_clear_across_alone(one, other, clear):
    """On the liner, 808/820 of the tread; from the furthest one may lie to the nearest the other may."""
    gap = clear * 820 / 808
    for low, high, off in ((10.0, 15.0, 15.0 + gap), (-15.0, -10.0, -10.0 + gap), (-gap, 5.0 - gap, 5.0)):
        marks = [at(1.0, across=(low, high), **one), at(1.0, across=(off, off + 3.0), **other)]
        assert near(PLAIN, *marks)
        marks[1] = at(1.0, across=(off + A_TOUCH, off + 3.0), **other)
        assert not near(PLAIN, *marks)


@pytest.mark.parametrize("across", [(-5.0, 3.0), (-200.0, 200.0), (0.0, 0.0), (4.0, 9.0)])
def test_places_across_that_overlap_never_keep_clear_however_small_heads_and_border_are(across):
    beyond = PLAIN.stock.beyond_the_head.model_copy(update={"border": 0.1})
    case = replace(PLAIN, stock=PLAIN.stock.model_copy(update={"beyond_the_head": beyond}))
    assert near(case, at(1.0, radius=0.01, across=across), at(1.0, radius=0.01, across=(0.0, 5.0)))


@pytest.mark.parametrize("angle", [0.0, 0.3, 0.9, 1.1, 3.0, 5.1, 5.4, 6.2])
@pytest.mark.parametrize(
    "anywhere", [{"around": (-pi, pi)}, {"radius": UNBOUNDED}, {"around": (-3.0, 3.0)}, {"around": (-9.0, 9.0)}]
)
def test_a_mark_that_may_lie_anywhere_is_near_every_other(angle, anywhere):
    assert near(PLAIN, lying(**anywhere), at(angle))


def test_of_many_marks_those_that_meet_are_told_once_each_in_the_order_of_the_marks():
    """Clear are 52/300, 0.173: of 6.2, 0.0 and 0.1, some over the datum, all but 3.0 meet."""
    marks = [at(0.1), at(3.0), at(6.2), at(0.0), at(0.0)]
    assert near_pairs(PLAIN, marks) == [(0, 3), (0, 4), (2, 3), (2, 4), (3, 4)]
    marks[2] = at(6.25)
    assert near_pairs(PLAIN, marks) == [(0, 2), (0, 3), (0, 4), (2, 3), (2, 4), (3, 4)]


def test_a_liner_that_may_come_within_a_millimeter_of_the_axle_still_has_a_radius():
    far = {"across": (150.0, 150.0), "least_radius": 0.5}
    assert not near(PLAIN, at(0.0), at(3.0, **far))
    assert near(PLAIN, at(0.0), at(3.0, least_radius=0.5))


@pytest.mark.parametrize("angle", [0.0, 0.05, 1.0, 3.1, 5.4, 6.0, 6.25])
def test_a_mark_that_may_lie_anywhere_hides_no_other_pair(angle):
    anywhere = lying((-pi, pi))
    assert near_pairs(PLAIN, [anywhere, at(angle), at(angle + 0.1)]) == ALL_THREE
    assert near_pairs(PLAIN, [anywhere, at(angle), at(angle + 0.3)]) == [(0, 1), (0, 2)]
