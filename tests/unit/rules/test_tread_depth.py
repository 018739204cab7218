"""Tread depth against each kind of limit: margins worked out by hand, exactly on the limit, and every word.

More than 1.6 mm anywhere in Germany, at least 1.6 mm anywhere in New Zealand, and at least 1.6 mm over the central
three-quarters in the United Kingdom.
"""

import pytest

from tests.helpers.jobs import bench_job, crown_injury, measured_tire
from tiremap.assess import assess
from tiremap.model.measures import Length
from tiremap.model.rule_set_file import rule_set_named
from tiremap.rules.reasons import Reason

PLACES = ("tread_depth", "tread_depth_outboard", "tread_depth_central", "tread_depth_inboard")
UNITED_KINGDOM = "at least 1.6 mm over the central three-quarters of the tread, all around"
NEW_ZEALAND, GERMANY = "at least 1.6 mm anywhere on the tread", "more than 1.6 mm anywhere on the tread"
ASKED = {"united_kingdom": UNITED_KINGDOM, "new_zealand": NEW_ZEALAND, "germany": GERMANY}


def depth(rule_set: str, *taken: float | None, off: float = 0.0) -> Reason:
    """Of the shallowest found, then outboard, central and inboard, each ``off`` by so much either way."""
    lengths = [None if mm is None else Length(value=mm, how="gauge", minus=off, plus=off) for mm in taken]
    tire = measured_tire(**dict(zip(PLACES, lengths, strict=True)))
    found = assess(bench_job(crown_injury(), rule_set=rule_set, tire=tire), advise=False)
    (reason,) = [each for each in found.reasons if each.code == "tread_depth"]
    return reason


def margins(reason: Reason) -> tuple[float | None, ...]:
    ends = (reason.margin_low, reason.margin, reason.margin_high)
    return tuple(None if end is None else round(end, 9) for end in ends)


@pytest.mark.parametrize("rule_set", list(ASKED))
@pytest.mark.parametrize(
    ("mm", "off", "level", "says"),
    [
        (3.0, 0.2, "note", "Tread is left to repair for: {}."),
        (1.5, 0.0, "refuse", "The tread is worn out: {} is asked."),
        (1.7, 0.2, "measure", "The tread may be worn out: {} is asked."),
    ],
)
def test_a_depth_all_over_is_told_with_what_is_asked_and_where(rule_set, mm, off, level, says):
    reason = depth(rule_set, mm, mm, mm, mm, off=off)
    assert (reason.level, reason.says) == (level, says.format(ASKED[rule_set]))
    assert margins(reason) == tuple(round(mm + way * off - 1.6, 9) for way in (-1, 0, 1))
    assert (reason.value, reason.limit, reason.unit) == (pytest.approx(mm), 1.6, "mm")


@pytest.mark.parametrize(
    ("rule_set", "mm", "level"),
    [
        ("united_kingdom", 1.6, "note"), ("united_kingdom", 1.59, "refuse"),
        ("new_zealand", 1.6, "note"), ("new_zealand", 1.59, "refuse"),
        ("germany", 1.6, "refuse"), ("germany", 1.61, "note"),
    ],
)
def test_exactly_on_the_limit_at_least_holds_and_more_than_does_not(rule_set, mm, level):
    assert depth(rule_set, mm, mm, mm, mm).level == level


@pytest.mark.parametrize("rule_set", ["new_zealand", "germany"])
@pytest.mark.parametrize(
    ("taken", "low_stated_high"),
    [
        # each 0.2 mm off; the least counts; what is missing is from nothing to 9.5 mm
        ((5.0, None, None, None), (3.2, 3.4, 3.6)),
        ((None, 5.0, 4.0, 3.0), (1.2, 1.4, 1.6)),
        ((2.0, 5.0, 4.0, 3.0), (0.2, 0.4, 0.6)),
        ((5.0, 5.0, 4.0, 3.0), (1.2, 1.4, 1.6)),
        ((3.0, 5.0, None, None), (1.2, 1.4, 1.6)),
        ((None, 5.0, 4.0, None), (-1.6, None, 2.6)),
        ((None, 5.0, None, None), (-1.6, None, 3.6)),
        ((None, None, None, 5.0), (-1.6, None, 3.6)),
        ((None, None, None, None), (-1.6, None, 7.9)),
    ],
)
def test_anywhere_on_the_tread_the_least_of_all_that_is_known_counts(rule_set, taken, low_stated_high):
    assert margins(depth(rule_set, *taken, off=0.2)) == low_stated_high


@pytest.mark.parametrize(
    ("taken", "low_stated_high"),
    [
        ((None, 1.0, 5.0, 1.0), (3.2, 3.4, 3.6)),  # the outer eighths say nothing of it
        ((2.0, 1.0, 5.0, 1.0), (3.2, 3.4, 3.6)),
        ((5.0, 1.0, 2.0, 1.0), (0.2, 0.4, 0.6)),
        ((5.0, None, None, None), (3.2, 3.4, 3.6)),  # the center is no shallower than the shallowest
        ((1.8, None, None, None), (0.0, 0.2, 0.4)),  # just enough
        ((1.7, None, None, None), (-0.1, None, 7.9)),  # the center may be as new, 9.5
        ((1.0, 1.0, None, 1.0), (-0.8, None, 7.9)),
        ((None, 5.0, None, 5.0), (-1.6, None, 7.9)),
        ((None, None, None, None), (-1.6, None, 7.9)),
    ],
)
def test_over_the_center_its_own_depth_counts_else_the_shallowest_may_pass_it(taken, low_stated_high):
    assert margins(depth("united_kingdom", *taken, off=0.2)) == low_stated_high


def test_where_more_than_the_limit_is_asked_a_shallowest_exactly_on_it_does_not_pass_the_center():
    kingdom = rule_set_named("united_kingdom")
    (limit,) = kingdom.tread_depths
    stricter = kingdom.model_copy(update={"tread_depths": (limit.model_copy(update={"operator": ">"}),)})
    for mm, level in ((1.6, "measure"), (1.61, "note")):
        tire = measured_tire(tread_depth=Length(value=mm, how="exact"))
        found = assess(bench_job(crown_injury(), tire=tire), stricter, advise=False)
        assert [each.level for each in found.reasons if each.code == "tread_depth"] == [level]
