"""A size code and typed dimensions that cannot be of one tire are looked at again."""

import pytest

from tests.helpers.jobs import bench_job, crown_injury, measured_tire
from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.model.job import TypedDimensions


def found(section_width: float, size_code: str | None = "205/55R16 91V") -> Assessment:
    dimensions = TypedDimensions(
        overall_diameter_mm=632.0, section_width_mm=section_width, rim_diameter_mm=406.0, rim_width_in=6.5
    )
    tire = measured_tire(size_code=size_code, tire_class="passenger", typed_dimensions=dimensions, tread_width_mm=160.0)
    return assess(bench_job(crown_injury(), tire=tire))


# A nominal 205 measures 205 / 1.03 to 205 / 0.87 mm, 199.03 to 235.63, read to 4 mm by tape
@pytest.mark.parametrize(
    ("section_width", "agrees"), [(195.1, True), (195.0, False), (205.0, True), (239.6, True), (239.7, False)]
)
def test_the_code_s_width_is_one_the_measured_section_may_stand_for(section_width, agrees):
    here = found(section_width)
    told = [reason for reason in here.reasons if reason.code == "size_contradicted"]
    assert (told == []) is agrees
    assert here.answer == ("repairable" if agrees else "measure_first")
    assert agrees or (told[0].level, told[0].settles.field) == ("measure", "tire.size_code")


@pytest.mark.parametrize("size_code", [None, "what nobody can read"])
def test_dimensions_without_a_code_that_can_be_read_stand_alone(size_code):
    assert [reason for reason in found(260.0, size_code).reasons if reason.code == "size_contradicted"] == []
