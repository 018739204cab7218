"""What the loaded section takes that nobody measured, and the turns of a wheel over a kilometer."""

import math

import pytest

from tiremap.geometry.loaded_data import greatest_load, loaded_data, turns_per_km, usual_load


def test_the_belt_edge_comes_down_a_fifth_of_the_section_height_and_at_most_a_quarter():
    assert usual_load(110.0) == pytest.approx(22.0, rel=1e-12)
    assert greatest_load(110.0) == pytest.approx(27.5, rel=1e-12)


@pytest.mark.parametrize(("diameter", "load"), [(632.0, 0.0), (632.0, 20.0), (500.0, 30.0)])
def test_a_wheel_turns_once_for_each_way_around_its_rolling_radius(diameter, load):
    rolling_radius = diameter / 2.0 - loaded_data("turns", "of_the_deflection") * load
    assert turns_per_km(diameter, load) * 2.0 * math.pi * rolling_radius == pytest.approx(1e6, rel=1e-12)
    assert rolling_radius == pytest.approx(diameter / 2.0 - load / 3.0, abs=1e-6)
