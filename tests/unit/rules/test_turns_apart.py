"""Two repairs against what is asked between them around the tire: mm on a tread 632/2 mm from the axle, or degrees.

Where a limit hangs on how the tire is built, 150 mm or 30 degrees are asked of a standard tire, 400 or 60 of a
self-supporting one.
"""

from dataclasses import replace
from math import degrees, radians

import pytest

from tests.helpers.jobs import at_angle, bench_job, crown_injury, evenly_worn, measured_tire
from tiremap.assess import assess
from tiremap.assessment import case_of
from tiremap.model.measures import Around, Lean, Length
from tiremap.model.rule_set import AngleApart, AroundApart
from tiremap.model.rule_set_file import rule_set_named
from tiremap.rules.pairs import apart, reach_of
from tiremap.rules.settling import advised
from tiremap.rules.turns_apart import angle_apart, around_apart

SIX = Length(value=6.0, how="exact")
UPRIGHT = Lean(value=0.0, how="exact")
MM, DEG = 1 / 316, radians(1.0)
BUILT = ("tire.built", "whether the tire is self-supporting")
AROUND = [(f"injury.{each}.around", f"the place of injury {each} around the tire") for each in "12"]


def limits(kind, *by_built):
    unit = "deg" if kind is AngleApart else "mm"
    ways = ((), ("standard",), ("self_supporting",))[len(by_built) > 1 :]
    return tuple(
        kind(
            classes=("passenger",), built=built, value=value, operator=">=", unit=unit,
            tighter="more", grade="assumed", source=f"the test: {value:g}",
        )
        for built, value in zip(ways, by_built, strict=False)
    )


def case_and_pair(one, other, built=None, mm=(), deg=()):
    marks = [crown_injury(id, around=around, lean_around=UPRIGHT) for id, around in (("1", one), ("2", other))]
    tire = measured_tire(**evenly_worn(SIX), under_grooves=SIX, built=built)
    asked = {"around_apart": limits(AroundApart, *mm), "angles_apart": limits(AngleApart, *deg)}
    rule_set = rule_set_named("united_kingdom").model_copy(update=asked)
    case = case_of(assess(bench_job(*marks, tire=tire), rule_set, advise=False))
    return case, apart(case.facts, *(reach_of(case.facts, mark) for mark in case.injuries))


def told(check, low, stated, high, per, **asked):
    """The reason of a pair that lies so far apart, whatever its places are."""
    case, pair = case_and_pair(at_angle(0.0), at_angle(90.0), **asked)
    around = None if stated is None else stated * per
    [reason] = check(case, replace(pair, angle=(low * per, high * per), around_rad=around))
    return reason


WAYS = [
    (around_apart, "around_apart", MM, "mm", 400.0, "mm on the tread"),
    (angle_apart, "angle_apart", DEG, "deg", 60.0, "degrees"),
]


@pytest.mark.parametrize(("check", "code", "per", "unit", "asked", "named"), WAYS)
@pytest.mark.parametrize(
    ("past", "level"),
    [
        ((0.0, 0.0, 0.0), "note"), ((0.0, 1.0, 2.0), "note"), ((-0.01, 1.0, 2.0), "measure"),
        ((-2.0, -1.0, 0.0), "measure"), ((-2.0, -1.0, -0.01), "refuse"), ((-2.0, None, -0.01), "refuse"),
        ((-2.0, None, 2.0), "measure"),
    ],
)
def test_the_limit_passes_itself_at_its_least_and_refuses_only_at_its_greatest(
    check, code, per, unit, asked, named, past, level
):
    ends = [None if each is None else asked + each for each in past]
    reason = told(check, *ends, per, **{unit: (asked,)})
    what = {
        "note": f"lie at least {asked:g} {named} apart around the tire.",
        "measure": f"may lie too close around the tire: at least {asked:g} {named} is asked.",
        "refuse": f"lie too close around the tire: at least {asked:g} {named} is asked.",
    }[level]
    assert (reason.code, reason.level, reason.says) == (code, level, f"Injury 1 and injury 2 {what}")
    assert (reason.limit, reason.unit, reason.measured, reason.source) == (
        asked, unit, "apart around", f"the test: {asked:g}"
    )
    assert (reason.margin_low, reason.margin_high) == pytest.approx((past[0], past[2]), abs=1e-9)
    assert reason.margin == (None if past[1] is None else pytest.approx(past[1], abs=1e-9))
    assert reason.value == (None if past[1] is None else pytest.approx(ends[1]))
    assert reason.subject == ("1", "2")
    assert (reason.settles is not None, reason.settles_later is not None) == (level == "measure",) * 2
    assert (reason.turns_later is not None) == (level == "refuse")


@pytest.mark.parametrize("check", [around_apart, angle_apart])
def test_a_rule_set_that_asks_nothing_around_is_told_nothing_of(check):
    assert check(*case_and_pair(at_angle(0.0), at_angle(1.0))) == []
    other = {"mm": (400.0,)} if check is angle_apart else {"deg": (60.0,)}
    assert check(*case_and_pair(at_angle(0.0), at_angle(1.0), **other)) == []


@pytest.mark.parametrize(
    ("low", "high", "level", "is_asked"),
    [
        (400.0, 500.0, "note", "400 mm"),
        (399.99, 500.0, "measure", "400 mm"),
        (150.0, 400.0, "measure", "400 mm"),
        (150.0, 150.0, "measure", "400 mm"),
        (100.0, 149.99, "refuse", "150 mm"),
    ],
)
def test_until_it_is_known_how_the_tire_is_built_the_strictest_must_pass_and_the_loosest_must_fail(
    low, high, level, is_asked
):
    reason = told(around_apart, low, low, high, MM, mm=(150.0, 400.0))
    assert reason.level == level
    assert f"at least {is_asked}" in reason.says
    assert (reason.limit, reason.source) == (400.0, "the test: 400")
    assert (reason.margin_low, reason.margin, reason.margin_high) == pytest.approx((low - 400, low - 400, high - 150))


@pytest.mark.parametrize(
    ("low", "settled"), [(150.0, True), (200.0, True), (150.5, True), (149.5, False), (0.0, False)]
)
def test_how_it_is_built_is_asked_where_that_alone_decides_and_else_the_places(low, settled):
    """Of a standard tire 150 mm are asked: where these are kept at the least, only the way of building is open."""
    reason = told(around_apart, low, low, 300.0, MM, mm=(150.0, 400.0))
    assert reason.asks == ((BUILT,) if settled else ())
    assert (reason.settles.field, reason.settles.words) == (BUILT if settled else AROUND[0])
    assert reason.settles.alone == settled
    if settled:
        assert advised(reason).settles == reason.settles
        assert advised(reason).advice == f"Measure {BUILT[1]}."


@pytest.mark.parametrize(("built", "level"), [("standard", "note"), ("self_supporting", "refuse")])
def test_of_a_tire_whose_building_is_known_its_own_limit_holds(built, level):
    assert told(around_apart, 160.0, 160.0, 160.0, MM, mm=(150.0, 400.0), built=built).level == level


EYE = Around(value=30.0, how="eye")


@pytest.mark.parametrize(
    ("one", "other", "first", "asks"),
    [
        (None, None, 0, AROUND),
        (None, at_angle(30.0), 0, AROUND[:1]),
        (at_angle(30.0), None, 1, AROUND[1:]),
        (EYE, None, 1, AROUND[1:]),
        (at_angle(30.0), EYE, 1, []),
        (EYE, at_angle(30.0), 0, []),
        (at_angle(30.0), at_angle(31.0), 0, []),
        (EYE, EYE, 0, []),
    ],
)
def test_a_place_never_entered_is_measured_before_one_by_eye_and_one_by_eye_before_one_taken(one, other, first, asks):
    case, pair = case_and_pair(one, other, deg=(60.0,))
    [reason] = angle_apart(case, replace(pair, angle=(0.0, 3.0)))
    assert reason.asks == tuple(asks)
    settles = reason.settles
    assert ((settles.field, settles.words), settles.unit, settles.alone) == (AROUND[first], "deg", False)


@pytest.mark.parametrize(
    ("check", "asked", "away"),
    [
        (angle_apart, {"deg": (59.5,)}, 62.0),  # 59.5 + 2 are 61.5
        (angle_apart, {"deg": (30.0, 59.5)}, 62.0),  # the strictest, while either may hold
        (around_apart, {"mm": (400.0,)}, 75.0),  # 400/316 radians are 72.53, + 2 are 74.53
        (around_apart, {"mm": (150.0, 400.0)}, 75.0),
    ],
)
def test_a_place_nobody_took_must_lie_as_far_off_as_is_asked_and_as_the_other_may_lie_aside(check, asked, away):
    """The other one was taken to 2 degrees."""
    assert degrees(400 / 316) == pytest.approx(72.53, abs=0.005)
    [reason] = check(*case_and_pair(at_angle(10.0), None, **asked))
    assert reason.level == "measure"
    settles = reason.settles_later()
    assert (settles.field, settles.away, settles.away_from) == ("injury.2.around", away, "injury 1")
    assert advised(reason).advice == (
        f"Measure the place of injury 2 around the tire: {away:g} degrees or more from injury 1 passes."
    )


@pytest.mark.parametrize(
    ("check", "asked", "at_least"),
    [
        (angle_apart, {"deg": (59.5,)}, 68.0),  # 10 - 2 + 59.5 are 67.5
        (angle_apart, {"deg": (59.5, 90.0)}, 68.0),  # the loosest, while either may hold
        (around_apart, {"mm": (400.0,)}, 81.0),  # 10 - 2 + 72.53 are 80.53
        (around_apart, {"mm": (400.0, 700.0)}, 81.0),
    ],
)
def test_a_refusal_falls_where_a_place_was_wrong_by_what_is_asked_less_what_the_other_may_lie_aside(
    check, asked, at_least
):
    """The second was clicked by eye: fewer of its own tolerances off, it is the likelier slip."""
    [reason] = check(*case_and_pair(at_angle(10.0), Around(value=12.0, how="eye"), **asked))
    assert reason.level == "refuse"
    turns = reason.turns_later()
    assert (turns.field, turns.at_least, turns.at_most, turns.stated) == ("injury.2.around", at_least, None, 12.0)
