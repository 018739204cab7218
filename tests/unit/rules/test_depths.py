"""Tread depths as readings: how far each may be off, and how deep the tread may be where a hole lies."""

import pytest

from tests.helpers.jobs import gauged
from tiremap.model.job import Tire
from tiremap.model.measures import Length
from tiremap.rules.depths import WORDS, TreadDepths, tread_depths
from tiremap.rules.reading import Reading

NAMES = tuple(WORDS)
DEEP_NEW = {"passenger": 9.5, "light_truck": 17.0, "truck": 17.0, None: 17.0}


def by_eye(mm: float) -> Length:
    return Length(value=mm, how="eye")


def depths(*taken: Length | None, tire_class: str | None = "passenger") -> TreadDepths:
    """The shallowest found, then outboard, central and inboard."""
    return tread_depths(Tire(**dict(zip(NAMES, taken, strict=False))), tire_class)


def ends(reading: Reading) -> tuple[float | None, ...]:
    return tuple(None if end is None else round(end, 9) for end in (reading.low, reading.stated, reading.high))


@pytest.mark.parametrize("tire_class", list(DEEP_NEW))
@pytest.mark.parametrize("place", range(4))
def test_one_never_entered_is_from_nothing_to_a_new_tread(place, tire_class):
    found = depths(tire_class=tire_class)
    reading = (found.shallowest, *found.places)[place]
    assert ends(reading) == (0.0, None, DEEP_NEW[tire_class])
    assert (reading.field, reading.words, reading.estimated) == (f"tire.{NAMES[place]}", WORDS[NAMES[place]], True)


@pytest.mark.parametrize("place", range(4))
@pytest.mark.parametrize(
    ("taken", "range_mm", "estimated"),
    [
        (gauged(5.0), (4.8, 5.0, 5.2), False),
        (Length(value=5.0, how="rule"), (4.0, 5.0, 6.0), False),
        (by_eye(5.0), (3.0, 5.0, 7.0), True),
        (by_eye(1.5), (0.0, 1.5, 3.5), True),  # no tread is less than nothing
    ],
)
def test_one_that_was_taken_is_off_by_its_tool_and_an_estimate_only_by_eye(place, taken, range_mm, estimated):
    found = depths(*[taken if each == place else None for each in range(4)])
    reading = (found.shallowest, *found.places)[place]
    assert (ends(reading), reading.estimated) == (range_mm, estimated)
    assert found.entered == (reading,)


@pytest.mark.parametrize(
    ("taken", "range_mm", "estimated"),
    [
        # all three places: between the least and the greatest of them
        ((None, gauged(4.0), gauged(5.0), gauged(3.0)), (2.8, 3.0, 5.2), False),
        ((None, gauged(4.0), by_eye(5.0), gauged(3.0)), (2.8, 3.0, 7.0), True),  # one by eye is enough
        ((None, by_eye(4.0), by_eye(5.0), by_eye(3.0)), (1.0, 3.0, 7.0), True),
        ((gauged(2.0), gauged(4.0), gauged(5.0), gauged(3.0)), (1.8, 2.0, 5.2), False),
        # one place missing: there as deep as new, and as worn as it gets unless the shallowest is known
        ((None, gauged(4.0), gauged(5.0), None), (0.0, 4.0, 9.5), False),
        ((gauged(2.0), gauged(4.0), gauged(5.0), None), (1.8, 2.0, 9.5), False),
        ((gauged(2.0), None, None, None), (1.8, 2.0, 9.5), False),
        ((by_eye(2.0), None, None, None), (0.0, 2.0, 9.5), True),
        ((by_eye(2.0), gauged(4.0), None, None), (0.0, 2.0, 9.5), True),
        ((gauged(9.9), None, None, None), (9.7, 9.9, 10.1), False),  # deeper than new as assumed
        ((None, None, None, None), (0.0, None, 9.5), True),
    ],
)
def test_where_a_hole_lies_the_tread_is_between_the_least_and_the_deepest_it_may_be(taken, range_mm, estimated):
    reading = depths(*taken).at_a_hole
    assert (ends(reading), reading.estimated) == (range_mm, estimated)
    assert (reading.field, reading.words) == ("tire.tread_depth", "the tread depth")


@pytest.mark.parametrize(
    ("taken", "drawn"),
    [
        ((None, None, None, None), None), ((gauged(4.0), gauged(3.0), None, None), 4.0),
        ((None, gauged(4.0), gauged(3.0), gauged(5.0)), 3.0), ((None, None, None, gauged(5.0)), 5.0),
    ],
)
def test_it_is_drawn_with_the_shallowest_found_else_with_the_least_of_the_places(taken, drawn):
    assert depths(*taken).drawn == drawn
