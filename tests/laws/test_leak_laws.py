"""Laws of the leak check: exact readings give one figure, equal ones no leak, and swapped ones the opposite."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.helpers.counts import examples
from tiremap.model.after_repair import LeakCheck, Pressure, Temperature
from tiremap.model.pressures import ZERO_C
from tiremap.workshop.leak import LeakFound, Uncertainty, leak_found
from tiremap.workshop.leak_words import answer_line

KPA = st.floats(0.0, 900.0)
CELSIUS = st.floats(-20.0, 50.0)
HOURS = st.floats(0.5, 5000.0)
ATMOSPHERE = 101.325


def check_of(before: float, after: float, hours: float, first: float, second: float, gauge: float | None) -> LeakCheck:
    return LeakCheck(
        before=Pressure(value=before, unit="kPa"), after=Pressure(value=after, unit="kPa"), hours=hours,
        before_temperature=Temperature(value=first, unit="C"), after_temperature=Temperature(value=second, unit="C"),
        gauge=None if gauge is None else Pressure(value=gauge, unit="kPa"),
    )


def exact(before: float, after: float, hours: float, first: float, second: float) -> LeakFound:
    """What is told where nothing at all may be off."""
    t, u = first + ZERO_C, second + ZERO_C
    off = Uncertainty(0.0, (t, t, t), (u, u, u), (ATMOSPHERE, ATMOSPHERE, ATMOSPHERE), 0.0)
    return leak_found(check_of(before, after, hours, first, second, 0.0), 30.0, off=off)


@settings(max_examples=examples(100), deadline=None)
@given(KPA, KPA, HOURS, CELSIUS, CELSIUS)
def test_where_nothing_may_be_off_there_is_one_figure(before, after, hours, first, second):
    found = exact(before, after, hours, first, second)
    for each in (found.loss_kpa, found.loss_kpa_per_month, found.temperature_share_kpa, found.leak_pa_m3_s):
        assert each[0] == each[1] == each[2]


@settings(max_examples=examples(100), deadline=None)
@given(KPA, HOURS, CELSIUS, st.none() | st.floats(0.0, 50.0))
def test_equal_pressures_at_equal_temperatures_are_never_a_leak(pressure, hours, celsius, gauge):
    found = leak_found(check_of(pressure, pressure, hours, celsius, celsius, gauge), 30.0)
    assert found.answer in ("permeation", "cannot_tell")
    assert found.loss_kpa[1] == pytest.approx(0.0, abs=1e-9)
    assert found.loss_kpa[0] <= 0.0 <= found.loss_kpa[2]


@settings(max_examples=examples(100), deadline=None)
@given(KPA, KPA, HOURS, CELSIUS)
def test_swapped_readings_at_one_temperature_lose_what_the_others_gain(before, after, hours, celsius):
    one, other = (exact(p, q, hours, celsius, celsius) for p, q in ((before, after), (after, before)))
    assert one.loss_kpa[1] == pytest.approx(-other.loss_kpa[1], abs=1e-9)
    assert "leak" not in (one.answer, other.answer) or one.answer != other.answer


@settings(max_examples=examples(100), deadline=None)
@given(st.floats(50.0, 900.0), HOURS, CELSIUS, CELSIUS)
def test_air_that_only_cools_or_warms_in_a_tight_tire_is_never_a_leak(before, hours, first, second):
    after = (before + ATMOSPHERE) * (second + ZERO_C) / (first + ZERO_C) - ATMOSPHERE
    if after < 0:
        return
    found = exact(before, after, hours, first, second)
    assert found.loss_kpa[1] == pytest.approx(0.0, abs=1e-9)
    assert found.temperature_share_kpa[1] == pytest.approx(before - after, abs=1e-9)


def test_air_that_was_added_is_told_and_tells_nothing_of_a_leak():
    found = leak_found(check_of(230.0, 260.0, 2400.0, 20.0, 20.0, None), 30.0)
    assert found.answer == "cannot_tell" and "air was added" in answer_line(found)


def test_a_rise_the_gauge_alone_can_explain_is_not_called_added_air():
    found = leak_found(check_of(230.0, 233.0, 24.0, 20.0, 20.0, None), 30.0)
    assert found.answer == "cannot_tell" and "air was added" not in answer_line(found)
