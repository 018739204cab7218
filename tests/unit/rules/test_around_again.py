"""Which place around would settle a pair, or would have to be wrong: asked with margins known beforehand."""

from math import atan, degrees, inf, pi, radians

import pytest

from tests.helpers.jobs import at_angle, bench_job, crown_injury, evenly_worn, measured_tire
from tiremap.assess import assess
from tiremap.assessment import case_of
from tiremap.model.measures import Around, Lean, Length
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


SIX = Length(value=6.0, how="exact")
ON_TREAD = 632.0 * pi
"""Once around a 205/55R16 on the tread, mm."""


def exactly_at(value: float, unit: str = "deg") -> Around:
    return Around(value=value, unit=unit, how="exact")


def leaning(value: float) -> Lean:
    """On this tire 45 degrees around carry the inside end on by 12 mm at a radius of 304 mm: 2.26 degrees."""
    return Lean(value=value, how="exact")


def exact_pair(one: Around | None, other: Around | None, leans: tuple[float, float] = (0.0, 0.0)):
    """Two holes on a crown exactly 12 mm thick, so that only their places around are open."""
    marks = [
        crown_injury(id, around=around, lean_around=leaning(lean))
        for id, around, lean in zip("12", (one, other), leans, strict=True)
    ]
    tire = measured_tire(**evenly_worn(SIX), under_grooves=SIX)
    case = case_of(assess(bench_job(*marks, tire=tire), advise=False))
    first, second = (reach_of(case.facts, mark) for mark in case.injuries)
    return case.facts, apart(case.facts, first, second)


def most_apart(wanted_deg: float):
    return lambda pair: degrees(pair.angle[1]) - wanted_deg


@pytest.mark.parametrize(
    ("stated", "at_least", "at_most"),
    [(20.0, 170.0, None), (340.0, None, 190.0), (150.0, 170.0, None), (210.0, None, 190.0), (0.5, 170.0, None)],
)
def test_a_wrong_entry_is_looked_for_both_ways_as_far_as_opposite_and_the_nearer_is_named(stated, at_least, at_most):
    """169.5 degrees asked from 0: 170 to 190, in whole degrees, is not refused. The other mark is exact: no slip."""
    for order in (1, -1):
        one, other = (exactly_at(0.0), at_angle(stated))[::order]
        turns = around_turns(*exact_pair(one, other), most_apart(169.5))
        mark = "2" if order == 1 else "1"
        assert (turns.field, turns.at_least, turns.at_most) == (f"injury.{mark}.around", at_least, at_most)
        assert turns.stated == stated


@pytest.mark.parametrize(("others", "at_least"), [(100.0, 270.0), (350.0, 160.0), (260.0, 70.0)])
def test_opposite_lies_half_around_from_the_other_mark_wherever_that_is(others, at_least):
    """Taken 20 degrees past the other; 169.5 past it is asked."""
    turns = around_turns(*exact_pair(exactly_at(others), at_angle((others + 20.0) % 360.0)), most_apart(169.5))
    assert (turns.at_least, turns.at_most) == (at_least, None)


def test_a_place_taped_around_the_datum_is_told_from_0_to_once_around_in_its_own_unit():
    """1950 mm on the tread are 353.56 degrees; 40 past the other, at 345, is 25: 385 - 360."""
    taped = Around(value=1950.0, unit="mm", how="tape")
    whole = 2124.0  # 385/360 of 632 pi are 2123.37, in whole millimeters
    for order in (1, -1):
        marks = (exactly_at(345.0), taped)[::order]
        turns = around_turns(*exact_pair(*marks), most_apart(40.0))
        assert (turns.unit, turns.at_least, turns.stated) == ("mm", round(whole - ON_TREAD, 6), 1950.0)
        assert turns.at_least != round(whole - ON_TREAD, 5)  # all six places are told


@pytest.mark.parametrize(
    ("asked", "away"),
    [
        (45.0, 45.0),  # a quarter of the way to the far side, met exactly: it passes on the limit
        (44.9, 45.0), (45.1, 46.0), (46.9999, 47.0), (90.0, 90.0), (179.5, 180.0),
        (180.0, 180.0),  # only the far side itself passes
    ],
)
def test_a_place_nobody_took_is_told_in_whole_degrees_that_pass(asked, away):
    settles = around_settles(*exact_pair(exactly_at(30.0), None), least_apart(asked))
    assert (settles.field, settles.away, settles.away_from) == ("injury.2.around", away, "injury 1")
    assert (settles.words, settles.unit, settles.tolerance) == ("the place of injury 2 around the tire", "deg", None)


def test_nothing_is_told_where_not_even_the_far_side_passes():
    assert around_settles(*exact_pair(exactly_at(30.0), None), least_apart(180.1)) is None


@pytest.mark.parametrize("lean", [45.0, -45.0])
def test_where_one_side_must_keep_further_off_than_the_other_the_further_is_told(lean):
    """The inside end lies 2.26 degrees on: 45 asked are 42.7 on one side and 47.3 on the other."""
    assert degrees(12 / 304) == pytest.approx(2.26, abs=0.005)
    assert around_settles(*exact_pair(exactly_at(30.0), None, (0.0, lean)), least_apart(45.0)).away == 48.0
    assert around_settles(*exact_pair(None, exactly_at(30.0), (lean, 0.0)), least_apart(45.0)).away == 48.0


@pytest.mark.parametrize("side", [1.0, -1.0])
def test_two_holes_that_lean_away_from_each_other_pass_in_one_place_and_not_a_little_beside_it(side):
    """60 degrees of lean carry either 3.92 degrees off: 7.83 with the lean, but against it 7 asked are 14.83."""
    lean = degrees(atan(3**0.5))
    pair = exact_pair(exactly_at(0.0), None, (-side * lean, side * lean))
    assert around_settles(*pair, least_apart(7.0)).away == 15.0


@pytest.mark.parametrize("around", [40.0, 320.0, -40.0])
def test_a_place_taken_too_coarsely_may_be_off_by_what_it_lies_further_than_asked(around):
    """40 apart, 34.45 asked: 5.55 to either side of the other, told in whole tenths."""
    play = Around(value=around, how="protractor", minus=9.0, plus=9.0)
    settles = around_settles(*exact_pair(exactly_at(0.0), play), least_apart(34.45))
    assert (settles.field, settles.tolerance, settles.away) == ("injury.2.around", 5.5, None)
    assert (settles.words, settles.unit) == ("the place of injury 2 around the tire", "deg")


@pytest.mark.parametrize(("around", "minus", "plus"), [(40.0, 9.0, 0.3), (320.0, 0.3, 9.0)])
def test_a_place_taken_well_to_one_side_is_asked_to_be_known_as_well_to_both(around, minus, plus):
    play = Around(value=around, how="protractor", minus=minus, plus=plus)
    assert around_settles(*exact_pair(exactly_at(0.0), play), least_apart(34.45)).tolerance == 0.3


def test_a_place_read_by_eye_is_asked_before_one_that_was_taped():
    """60 apart. One known, the other's 15 by eye leave 45, its 2 by protractor 58; 43.95 is asked."""
    coarse = Around(value=60.0, how="eye")
    assert around_settles(*exact_pair(at_angle(0.0), coarse), least_apart(43.95)).field == "injury.2.around"
    turned = around_settles(*exact_pair(coarse, at_angle(0.0)), least_apart(43.95))
    assert (turned.field, turned.tolerance) == ("injury.1.around", 14.0)
    alike = around_settles(*exact_pair(at_angle(0.0), at_angle(60.0)), least_apart(57.0))
    assert (alike.field, alike.tolerance) == ("injury.1.around", 1.0)


def test_a_place_that_is_broken_as_taken_is_not_asked_to_be_known_closer_even_if_both_its_ends_pass():
    """By eye on the very place of the other: 15 degrees to either side would do, but where it was taken does not."""
    coarse = Around(value=0.0, how="eye")
    assert around_settles(*exact_pair(exactly_at(0.0), coarse), least_apart(10.0)) is None


def test_a_place_exactly_known_is_not_asked_for_again():
    assert around_settles(*exact_pair(exactly_at(0.0), exactly_at(60.0)), least_apart(50.0)) is None
    known_twice = around_settles(*exact_pair(exactly_at(0.0), at_angle(60.0)), least_apart(58.95))
    assert (known_twice.field, known_twice.tolerance) == ("injury.2.around", 1.0)


def test_beside_a_place_nobody_took_no_other_is_asked_to_be_closer():
    """Of two never taken neither settles it; of one, only that one does."""
    assert around_settles(*exact_pair(None, None), least_apart(10.0)) is None
    assert around_settles(*exact_pair(at_angle(0.0), None), least_apart(10.0)).field == "injury.2.around"
    assert around_settles(*exact_pair(None, at_angle(0.0)), least_apart(10.0)).field == "injury.1.around"
