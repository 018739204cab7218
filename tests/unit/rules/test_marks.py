"""A lean that may lie flat has no bound: nothing it hangs on can pass."""

from math import radians, tan

import pytest

from tests.helpers.jobs import bench_job, crown_injury, probed
from tiremap.assess import assess
from tiremap.model.measures import Lean
from tiremap.rules.reading import UNBOUNDED


def lean_across(value: float, how: str = "eye"):
    job = bench_job(crown_injury(lean_across=Lean(value=value, how=how), lean_around=probed(0.0)))
    return assess(job).mark("1").facts.lean_across


def test_by_eye_a_lean_of_80_degrees_may_be_65_or_flat():
    reading = lean_across(80.0)
    assert (reading.low, reading.high) == (pytest.approx(tan(radians(65.0))), UNBOUNDED)
    mirrored = lean_across(-80.0)
    assert (mirrored.low, mirrored.high) == (-UNBOUNDED, -reading.low)


def test_exactly_at_a_right_angle_the_tangent_is_no_huge_number_but_no_bound():
    assert lean_across(75.0).high == UNBOUNDED
    assert lean_across(74.0).high == pytest.approx(tan(radians(89.0)))
