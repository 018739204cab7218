"""Pressures, temperatures and torques as people write them, against the exact units they are defined by."""

import pytest

from tiremap.errors import TiremapError
from tiremap.model.pressures import kelvin, kpa, newton_meters, read_pressure, read_temperature, read_torque

PSI_PA = 0.45359237 * 9.80665 / 0.0254**2
"""Pascal in a pound-force per square inch: the international pound and inch, and standard gravity, all exact."""


@pytest.mark.parametrize(
    ("text", "expected"),
    [("230 kPa", 230.0), ("2.3 bar", 230.0), ("33 psi", 33 * PSI_PA / 1000), ("33psig", 33 * PSI_PA / 1000),
     ("2,3 BAR", 230.0), ("0 psi", 0.0)],
)
def test_a_pressure_is_read_in_any_unit(text, expected):
    assert kpa(read_pressure(text)) == pytest.approx(expected, rel=1e-9)


def test_a_bare_number_is_read_in_the_usual_unit_and_refused_where_there_is_none():
    assert read_pressure("33", "psi") == read_pressure("33 psi")
    with pytest.raises(TiremapError, match="has no unit"):
        read_pressure("33")
    with pytest.raises(TiremapError, match="a unit that is not known, 'stone'"):
        read_pressure("33 stone")


@pytest.mark.parametrize("text", ["-1 psi", "10001 psi", "much"])
def test_what_no_tire_holds_is_refused_with_a_right_one(text):
    with pytest.raises(TiremapError) as refused:
        read_pressure(text)
    assert "kPa" in refused.value.right


@pytest.mark.parametrize(
    ("text", "degrees"), [("68 F", 293.15), ("20 °C", 293.15), ("-40 C", 233.15), ("−40 F", 233.15)]
)
def test_a_temperature_is_read_in_both_scales(text, degrees):
    assert kelvin(read_temperature(text)) == pytest.approx(degrees)


@pytest.mark.parametrize("text", ["-101 C", "301 F"])
def test_a_temperature_no_tire_has_is_refused(text):
    with pytest.raises(TiremapError, match="no temperature of a tire"):
        read_temperature(text)


def test_a_torque_is_read_in_both_units():
    pound_force_foot = 0.45359237 * 9.80665 * 0.3048  # N.m, exact
    assert newton_meters(read_torque("80 ft-lb")) == pytest.approx(80 * pound_force_foot, rel=1e-9)
    assert newton_meters(read_torque("110 N.m")) == newton_meters(read_torque("110", "N.m")) == 110


@pytest.mark.parametrize("text", ["0 N.m", "2001 N.m"])
def test_a_torque_no_wheel_takes_is_refused(text):
    with pytest.raises(TiremapError, match="no tightening torque of a wheel"):
        read_torque(text)
