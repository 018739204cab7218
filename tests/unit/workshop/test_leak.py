"""The leak check: what can be told, what cannot, and that uncertainty is never lost on the way."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.helpers.counts import examples
from tiremap.cli import run
from tiremap.errors import TiremapError
from tiremap.model.after_repair import LeakCheck, Pressure, Temperature
from tiremap.model.pressures import read_pressure, read_temperature
from tiremap.workshop.leak import LeakFound, leak_found, places_to_look
from tiremap.workshop.leak_words import leak_lines


def kpa(value: float) -> Pressure:
    return Pressure(value=value, unit="kPa")


def celsius(value: float) -> Temperature:
    return Temperature(value=value, unit="C")


def found(before, after, hours=24.0, warm=20.0, cold=20.0, gauge=0.0, volume=30.0, exact=True) -> LeakFound:
    check = LeakCheck(
        before=kpa(before), after=kpa(after), hours=hours, gauge=None if gauge is None else kpa(gauge),
        before_temperature=None if warm is None else celsius(warm),
        after_temperature=None if cold is None else celsius(cold),
    )
    return leak_found(check, volume, volume_exact=exact)


def test_a_fast_loss_at_one_temperature_is_a_leak_by_the_day_and_by_the_month():
    """48 kPa in 24 h from 30 L: 30 times 48 a month, and 48e3 Pa x 0.030 m3 / 86,400 s."""
    leak = found(230.0, 182.0)
    assert leak.answer == "leak"
    assert leak.loss_kpa_per_month[1] == pytest.approx(1440.0)
    assert leak.leak_pa_m3_s[1] == pytest.approx(48e3 * 0.030 / 86_400)
    assert leak.bubbles == "at once"
    assert 0.01 < leak.equivalent_hole_mm[0] < leak.equivalent_hole_mm[1] < leak.equivalent_hole_mm[2] < 0.1


def test_a_colder_morning_is_not_a_leak():
    colder = found(230.0, 207.3, hours=24 * 200, warm=30.0, cold=10.0)
    assert colder.answer == "temperature"
    assert colder.temperature_share_kpa[1] == pytest.approx(331.3 * 20 / 303.15, abs=0.1)


def test_a_slow_loss_over_months_is_what_rubber_lets_through():
    assert found(230.0, 218.0, hours=720.0 * 3, warm=21.0, cold=21.0, gauge=1.0).answer == "permeation"


def test_a_coarse_gauge_over_a_day_cannot_tell_and_says_how_long_to_wait():
    coarse = found(230.0, 227.0, gauge=None)
    assert coarse.answer == "cannot_tell"
    assert coarse.loss_kpa_per_month[0] < 0 < coarse.loss_kpa_per_month[2]
    assert coarse.hours_to_tell > 24
    assert any("shows after" in line for line in leak_lines(coarse))


def test_temperatures_nobody_read_are_never_taken_as_equal():
    unread, read = found(230.0, 205.0, warm=None, cold=None), found(230.0, 205.0)
    assert read.answer == "leak" and unread.answer == "cannot_tell"
    assert unread.loss_kpa[0] < read.loss_kpa[0] and unread.loss_kpa[2] > read.loss_kpa[2]
    assert unread.loss_kpa[1] == pytest.approx(read.loss_kpa[1])  # a number is given all the same


def test_where_the_valve_is_looked_at_first():
    assert "valve" in places_to_look()[0][0] and len(places_to_look()) == 5


READINGS = st.floats(50.0, 400.0)


@settings(max_examples=examples(150), deadline=None)
@given(READINGS, READINGS, st.floats(1.0, 5000.0), st.floats(-10.0, 40.0), st.floats(-10.0, 40.0), st.floats(0.0, 10.0))
def test_a_coarser_gauge_widens_every_range_and_never_tells_what_a_finer_one_could_not(
    before, after, hours, warm, cold, gauge
):
    fine, coarse = (found(before, after, hours, warm, cold, each) for each in (gauge, gauge + 5.0))
    for key in ("loss_kpa", "leak_pa_m3_s", "temperature_share_kpa", "equivalent_hole_mm"):
        inner, outer = getattr(fine, key), getattr(coarse, key)
        assert outer[0] <= inner[0] + 1e-9 and inner[2] <= outer[2] + 1e-9
        assert inner[0] - 1e-9 <= inner[1] <= inner[2] + 1e-9
    if fine.answer == "cannot_tell":
        assert coarse.answer == "cannot_tell"


@settings(max_examples=examples(150), deadline=None)
@given(
    READINGS, st.floats(0.0, 100.0), st.floats(24.0, 5000.0), st.floats(0.5, 8.0), st.floats(-1, 1), st.floats(-1, 1)
)
def test_what_is_told_is_true_of_every_reading_the_gauge_allows(before, loss, hours, gauge, off, off_again):
    told = found(before + loss + gauge * off, before + gauge * off_again, hours, gauge=gauge)
    true = found(before + loss, before, hours)
    assert told.loss_kpa[0] - 1e-6 <= true.loss_kpa[1] <= told.loss_kpa[2] + 1e-6
    if told.answer == "leak":
        assert true.loss_kpa_per_month[1] > true.permeation_kpa_per_month[1]


def test_exact_readings_of_an_exact_volume_give_one_loss():
    check = LeakCheck(before=kpa(230), after=kpa(220), hours=24.0, gauge=kpa(0))
    one = leak_found(check.model_copy(update={
        "before_temperature": celsius(20), "after_temperature": celsius(20)}), 30.0, volume_exact=True)
    assert one.loss_kpa[1] == pytest.approx(10.0)


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [("33 psi", 33, "psi"), ("230kPa", 230, "kPa"), ("2,3 bar", 2.3, "bar"), ("33 PSI", 33, "psi")],
)
def test_pressures_are_read_as_people_write_them(text, value, unit):
    assert (read_pressure(text).value, read_pressure(text).unit) == (value, unit)


@pytest.mark.parametrize("text", ["", "33", "psi", "-3 psi", "33 apples", "1e9 psi", "nan psi", "33 psi 4"])
def test_what_is_no_pressure_is_refused_with_a_right_one(text):
    with pytest.raises(TiremapError) as error:
        read_pressure(text)
    assert "kPa" in str(error.value)


def test_temperatures_are_read_in_both_units():
    assert (read_temperature("20 C").value, read_temperature("−5 °C").value) == (20, -5)
    assert read_temperature("68 F").unit == "F"
    with pytest.raises(TiremapError):
        read_temperature("500 F C")


def test_the_command_prints_every_key_with_its_ends(capsys):
    given_ = ["leak", "--size", "205/55R16", "--before", "33 psi", "--after", "31 psi", "--hours", "24"]
    assert run([*given_, "--json"]) == 0
    record = json.loads(capsys.readouterr().out)
    keys = ("loss_kpa_per_month", "temperature_share_kpa", "leak_pa_m3_s", "equivalent_hole_mm")
    assert set(record) == {"answer", *(f"{key}{end}" for key in keys for end in ("", "_low", "_high"))}
    assert record["answer"] == "cannot_tell"  # no temperature was read
    assert run(given_) == 0 and "Where to look first" in capsys.readouterr().out


@pytest.mark.parametrize(
    "wrong", [["--before", "33"], ["--hours", "0"], ["--hours", "-3"], ["--size", "nonsense"], ["--after", "x psi"]]
)
def test_a_bad_quantity_is_bad_usage_and_says_what_a_right_one_looks_like(wrong, capsys):
    given_ = {"--size": "205/55R16", "--before": "33 psi", "--after": "31 psi", "--hours": "24"}
    given_[wrong[0]] = wrong[1]
    assert run(["leak", *(each for pair in given_.items() for each in pair)]) == 2
    assert capsys.readouterr().err.startswith("tiremap: ")
