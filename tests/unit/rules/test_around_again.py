"""Which place around would settle a pair, or would have to be wrong: asked with margins known beforehand."""

from math import degrees, inf, radians

import pytest

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.assess import assess
from tiremap.assessment import case_of
from tiremap.rules.around_again import around_settles, around_turns
from tiremap.rules.pairs import Apart, apart, reach_of


def pair_of(*around_deg: float | None):
    marks = [crown_injury(str(number), around_deg=angle) for number, angle in enumerate(around_deg, 1)]
    case = case_of(assess(bench_job(*marks)))
    one, other = (reach_of(case.facts, mark) for mark in case.injuries)
    return case.facts, apart(case.facts, one, other)


def least_apart(wanted_deg: float):
    """A margin that passes from ``wanted_deg`` apart on, in degrees."""
    return lambda pair: degrees(pair.angle[0]) - wanted_deg


def never(pair: Apart) -> float:
    return -1.0


def test_a_place_around_nobody_took_cannot_have_been_taken_wrongly():
    facts, pair = pair_of(10.0, None)
    assert around_turns(facts, pair, lambda pair: inf) is None


def test_where_even_the_far_side_of_the_tire_is_refused_no_wrong_entry_is_named():
    facts, pair = pair_of(10.0, 20.0)
    assert around_turns(facts, pair, never) is None


def test_the_place_that_would_have_to_be_wrong_is_far_enough_from_the_other():
    facts, pair = pair_of(10.0, 20.0)
    turns = around_turns(facts, pair, lambda pair: degrees(pair.angle[1]) - 30.0)
    slack = degrees(pair.second.around.high - pair.second.around.low) / 2  # the other mark may lie this far aside
    assert turns.field in ("injury.1.around", "injury.2.around")
    moved = turns.at_least if turns.at_least is not None else turns.at_most
    other = 20.0 if turns.field == "injury.1.around" else 10.0
    apart_deg = abs((moved - other + 180.0) % 360.0 - 180.0)
    assert apart_deg == pytest.approx(30.0 - slack, abs=1.0)


def test_a_place_that_would_have_to_be_known_closer_than_any_tape_is_not_asked_for():
    """The pair passes as stated but by less than the tenth of a degree a tolerance is told in."""
    facts, pair = pair_of(0.0, 40.0)
    own = degrees(pair.first.around.high - pair.first.around.low) / 2
    one_exact = degrees(pair.angle[0]) + own  # the least angle, were one of the two places around exactly known
    assert own > 0.35
    assert around_settles(facts, pair, least_apart(one_exact - 0.05)) is None
    assert around_settles(facts, pair, least_apart(one_exact - 0.35)).tolerance == pytest.approx(0.3)


def test_a_place_nobody_took_is_asked_for_only_where_somewhere_passes():
    facts, pair = pair_of(0.0, None)
    assert around_settles(facts, pair, never) is None
    settles = around_settles(facts, pair, least_apart(45.0))
    slack = degrees(pair.first.around.high - pair.first.around.low) / 2
    assert (settles.field, settles.away_from) == ("injury.2.around", "injury 1")
    assert settles.away == pytest.approx(45.0 + slack, abs=1.0) and radians(settles.away) > radians(45.0)
