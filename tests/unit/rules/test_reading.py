"""One quantity as the checks see it, and what stays the same of it when its values change."""

from math import atan, degrees, inf, radians, tan

import pytest

from tiremap.rules.margins import Question, margin_of
from tiremap.rules.reading import ENDLESS, UNBOUNDED, Reading, exactly, unknown

WIDTH = Reading(
    "tire.tread_width", "the tread width", 168.0, 170.0, 172.0, estimated=True, tangent=False, step=1.0,
    steps=(150.0, 170.0), entered=False, unit="in", per_shown=25.4,
)
LEAN = Reading("injury.1.lean_across", "the lean", -0.1, 0.0, 0.1, tangent=True, step=1.0, unit="deg")
NOT_TAKEN = unknown("tire.belt_width", "the belt width", -3.0, 15.0)


@pytest.mark.parametrize("reading", [WIDTH, LEAN, NOT_TAKEN])
def test_with_other_values_everything_else_of_a_reading_stays(reading):
    assert reading.fixed(5.0) == reading._replace(low=5.0, stated=5.0, high=5.0)
    assert reading.ranging(1.0, None, 3.0) == reading._replace(low=1.0, stated=None, high=3.0)
    assert reading.called("f", "w") == reading._replace(field="f", words="w")


def test_without_its_tolerance_a_reading_is_as_stated_and_one_nobody_took_keeps_its_range():
    assert WIDTH.as_stated() == WIDTH.fixed(170.0)
    assert NOT_TAKEN.as_stated() is NOT_TAKEN


def test_a_reading_is_settled_where_it_has_one_value_alone():
    assert exactly(7.0).settled and WIDTH.fixed(170.0).settled
    assert not WIDTH.settled and not NOT_TAKEN.settled


def test_what_nobody_said_of_a_reading():
    plain = Reading("f", "w", 1.0, 2.0, 3.0)
    assert (plain.estimated, plain.tangent, plain.entered) == (False, False, True)
    assert (plain.step, plain.steps, plain.unit, plain.per_shown) == (0.1, (), "mm", 1.0)


def test_a_reading_nobody_took_is_an_estimate_without_a_stated_value():
    given = unknown("f", "w", 1.0, 3.0, step=0.5, unit="deg")
    assert given == Reading("f", "w", 1.0, None, 3.0, estimated=True, step=0.5, unit="deg")
    assert exactly(7.0) == Reading("", "", 7.0, 7.0, 7.0)


@pytest.mark.parametrize(("reading", "raw", "shown"), [
    (exactly(0.0), 12.5, 12.5),
    (WIDTH, 50.8, 2.0),
    (LEAN, 1.0, 45.0), (LEAN, -1.0, -45.0), (LEAN, 0.0, 0.0), (LEAN, tan(radians(20.0)), 20.0),
    (LEAN, 0.5, degrees(atan(0.5))),
])
def test_a_value_is_shown_as_a_person_reads_it_and_read_back(reading, raw, shown):
    assert reading.shown(raw) == pytest.approx(shown)
    assert reading.raw(shown) == pytest.approx(raw)


def test_a_margin_that_comes_from_no_bound_at_all_is_unbounded_and_one_of_the_largest_tire_is_not():
    """The longest length that can be entered is 10 m."""
    free = unknown("f", "w", -UNBOUNDED, UNBOUNDED)
    assert margin_of(Question((free,), lambda place: place)).low == -inf
    assert margin_of(Question((free,), lambda place: 0.02 * place)).low == -inf
    assert 10_000.0 < ENDLESS < UNBOUNDED
