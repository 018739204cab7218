"""Tread depth at several places: what each set of readings says under each kind of limit.

Readings are exact, so that each row of the tables has one outcome; the limit is 1.6 mm or more, over the central
three-quarters in the United Kingdom and anywhere on the tread in New Zealand.
"""

from itertools import product

import pytest

from tests.helpers.jobs import bench_job, crown_injury, from_center, gauged, hole, measured_tire
from tiremap.assess import assess
from tiremap.model.measures import Lean, Length
from tiremap.rules.facts import tire_facts
from tiremap.rules.reasons import Reason

WORN, GOOD = 1.5, 3.0
PLACES = ("tread_depth_outboard", "tread_depth_central", "tread_depth_inboard")


def exact(depth: float | None) -> Length | None:
    return None if depth is None else Length(value=depth, how="exact")


def depth_reason(rule_set: str, **depths: Length | None) -> Reason:
    tire = measured_tire(**{"tread_depth": None, **depths})
    found = assess(bench_job(crown_injury(), rule_set=rule_set, tire=tire))
    (reason,) = [each for each in found.reasons if each.code == "tread_depth"]
    return reason


def asked(reason: Reason) -> tuple[str, ...]:
    return tuple(field for field, _ in reason.asks)


# anywhere, outboard, central, inboard
@pytest.mark.parametrize(
    ("depths", "level", "asks"),
    [
        ((None, None, None, None), "measure", ("tire.tread_depth",)),
        ((GOOD, None, None, None), "note", ()),
        ((WORN, None, None, None), "refuse", ()),
        ((None, GOOD, GOOD, GOOD), "note", ()),
        ((None, GOOD, GOOD, WORN), "refuse", ()),
        ((None, GOOD, WORN, GOOD), "refuse", ()),
        ((None, WORN, None, None), "refuse", ()),
        ((None, None, WORN, None), "refuse", ()),
        ((None, GOOD, None, None), "measure", ("tire.tread_depth",)),
        ((None, None, GOOD, None), "measure", ("tire.tread_depth",)),
        ((None, GOOD, GOOD, None), "measure", ("tire.tread_depth_inboard",)),
        ((None, GOOD, None, GOOD), "measure", ("tire.tread_depth_central",)),
        ((GOOD, GOOD, None, None), "note", ()),
        ((GOOD, GOOD, GOOD, WORN), "refuse", ()),  # they disagree: the least counts
        ((GOOD, None, WORN, None), "refuse", ()),
        ((WORN, GOOD, GOOD, GOOD), "refuse", ()),
    ],
)
def test_anywhere_on_the_tread_every_reading_counts_and_all_of_it_must_be_covered(depths, level, asks):
    reason = depth_reason("new_zealand", **dict(zip(("tread_depth", *PLACES), map(exact, depths), strict=True)))
    assert (reason.level, asked(reason)) == (level, asks)


@pytest.mark.parametrize(
    ("depths", "level", "asks"),
    [
        ((None, None, None, None), "measure", ("tire.tread_depth",)),
        ((GOOD, None, None, None), "note", ()),  # the center is at least as deep as the shallowest anywhere
        ((WORN, None, None, None), "measure", ("tire.tread_depth_central",)),  # it may lie in a shoulder
        ((None, None, GOOD, None), "note", ()),
        ((None, None, WORN, None), "refuse", ()),
        ((WORN, None, GOOD, None), "note", ()),
        ((WORN, WORN, GOOD, WORN), "note", ()),
        ((GOOD, None, WORN, None), "refuse", ()),  # they disagree: the least counts
        ((None, GOOD, None, None), "measure", ("tire.tread_depth_central",)),
        ((None, WORN, None, WORN), "measure", ("tire.tread_depth_central",)),
        ((None, GOOD, None, GOOD), "measure", ("tire.tread_depth_central",)),
        ((WORN, WORN, None, GOOD), "measure", ("tire.tread_depth_central",)),
        ((None, WORN, WORN, GOOD), "refuse", ()),
        ((GOOD, WORN, None, None), "note", ()),
    ],
)
def test_over_the_central_three_quarters_the_outer_eighths_say_nothing(depths, level, asks):
    reason = depth_reason("united_kingdom", **dict(zip(("tread_depth", *PLACES), map(exact, depths), strict=True)))
    assert (reason.level, asked(reason)) == (level, asks)


@pytest.mark.parametrize("entered", [each for each in product((None, WORN, GOOD), repeat=4) if each[2] == WORN])
def test_a_worn_center_never_passes_under_either(entered):
    for rule_set in ("united_kingdom", "new_zealand"):
        depths = dict(zip(("tread_depth", *PLACES), map(exact, entered), strict=True))
        assert depth_reason(rule_set, **depths).level == "refuse"


@pytest.mark.parametrize("entered", list(product((None, WORN, GOOD), repeat=4)))
def test_the_whole_tread_asks_at_least_what_its_center_does(entered):
    depths = dict(zip(("tread_depth", *PLACES), map(exact, entered), strict=True))
    anywhere, center = (depth_reason(name, **depths).level for name in ("new_zealand", "united_kingdom"))
    assert center == "note" or anywhere != "note"
    assert anywhere == "refuse" or center != "refuse"


def test_a_depth_too_near_the_limit_for_its_gauge_is_measure_first_at_any_place():
    for name in PLACES:
        depths = {each: gauged(1.7 if each == name else 3.0) for each in PLACES}
        assert depth_reason("new_zealand", **depths).level == "measure"
    center = depth_reason("united_kingdom", tread_depth_central=gauged(1.7))
    assert (center.level, center.settles.field) == ("measure", "tire.tread_depth_central")


def test_two_thirty_seconds_at_one_place_are_worn_out_in_north_america_and_1_6_mm_are_not():
    # 2/32 in = 1.5875 mm, more than that is asked
    def at(depth: Length) -> str:
        return depth_reason(
            "north_america", tread_depth_outboard=exact(3.0), tread_depth_central=depth, tread_depth_inboard=exact(3.0)
        ).level

    assert at(Length(value=2 / 32, unit="in", how="exact")) == "refuse"
    assert at(Length(value=1.6, how="exact")) == "note"


def test_the_words_name_the_place_asked_of():
    assert "over the central three-quarters" in depth_reason("united_kingdom", tread_depth=exact(WORN)).says
    assert "anywhere on the tread" in depth_reason("new_zealand", tread_depth=exact(WORN)).says


NEW_MM, NEW_TRUCK_MM = 9.5, 17.0
"""How deep a new tread may be, passenger and light truck (assumed)."""


def thickness_of(**tire):
    measured = measured_tire(**{"tread_depth": None, "under_grooves": exact(6.0), **tire})
    return tire_facts(bench_job(tire=measured)).thickness


def test_a_hole_goes_through_tread_between_the_least_and_the_greatest_depth_of_all_places():
    places = dict(zip(PLACES, (gauged(2.0), gauged(5.0), gauged(4.0)), strict=True))
    thickness = thickness_of(**places)
    assert (thickness.low, thickness.stated, thickness.high) == pytest.approx((7.8, 8.0, 11.2))


@pytest.mark.parametrize(("code", "new"), [("205/55R16", NEW_MM), ("195/70R15C 104/102R", NEW_TRUCK_MM)])
@pytest.mark.parametrize(("name", "least"), [("tread_depth", 10.8), *((place, 6.0) for place in PLACES)])
def test_one_depth_alone_leaves_the_hole_as_deep_as_a_new_tread_and_one_place_as_worn_as_it_gets(
    code, new, name, least
):
    thickness = thickness_of(size_code=code, **{name: gauged(5.0)})
    assert (thickness.low, thickness.stated, thickness.high) == pytest.approx((least, 11.0, 6.0 + new))


def test_a_hole_is_not_refused_by_a_depth_that_was_entered_of_another_place_alone():
    # 8 mm and 6 mm under the grooves carry a hole of 35 degrees 9.8 mm out, 2 mm of tread only 5.6
    leaning = crown_injury(
        outside=from_center(50.0, how="exact"), lean_across=Lean(value=35.0, how="exact"),
        lean_around=Lean(value=0.0, how="exact"), size_outside=hole(3.0, how="exact"), size_inside=None,
    )
    tire = measured_tire(tread_depth=None, tread_depth_outboard=exact(8.0), under_grooves=exact(6.0))
    found = assess(bench_job(leaning, rule_set="north_america", tire=tire))
    assert {each.level for each in found.injuries[0].reasons if each.code == "place"} == {"measure"}
