"""What a tire's dimensions stand for: a measured section width may be that of a range of nominal ones."""

import pytest

from tests.helpers.jobs import bench_job, measured_tire
from tiremap.model.job import TypedDimensions
from tiremap.rules.facts import tire_facts


@pytest.mark.parametrize("width", [165.0, 205.0, 315.0])
def test_a_measured_width_stands_for_nominal_ones_from_0_87_to_1_03_of_it_and_the_tape_s_tolerance(width):
    typed = TypedDimensions(
        overall_diameter_mm=650.0, section_width_mm=width, rim_diameter_mm=406.0, rim_width_in=6.5
    )
    nominal = tire_facts(bench_job(tire=measured_tire(None, typed_dimensions=typed))).nominal_width
    assert nominal.stated == width
    assert 0.87 * (width - 5.0) <= nominal.low <= 0.87 * width
    assert 1.03 * width <= nominal.high <= 1.03 * (width + 5.0)
