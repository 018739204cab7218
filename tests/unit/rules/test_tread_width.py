"""A tread wider than the tire is a slip of the tape."""

import pytest

from tests.helpers.jobs import bench_job, crown_injury, measured_tire, taped
from tiremap.assess import assess
from tiremap.model.job import TypedDimensions
from tiremap.model.measures import Length
from tiremap.rules.reasons import Reason


def told(tread_width: Length | None, **tire) -> list[Reason]:
    """What is told of the tread's width on a section 205 mm wide."""
    job = bench_job(crown_injury(), tire=measured_tire(tread_width=tread_width, **tire))
    return [each for each in assess(job).reasons if each.code == "tread_width"]


def typed() -> dict:
    """205 mm as measured: a nominal width of 174.87 to 215.27 mm."""
    dimensions = TypedDimensions(
        overall_diameter_mm=632.0, section_width_mm=205.0, rim_diameter_mm=406.0, rim_width_in=6.5
    )
    return {"size_code": None, "tire_class": "passenger", "typed_dimensions": dimensions}


def exact(value: float) -> Length:
    return Length(value=value, how="exact")


@pytest.mark.parametrize("tread_width", [None, exact(170.0), exact(205.0), taped(206.0), taped(207.0)])
def test_a_tread_that_may_be_as_narrow_as_the_tire_is_taken_as_it_is(tread_width):
    assert told(tread_width) == []


@pytest.mark.parametrize(
    ("tread_width", "margins"),
    [(exact(205.1), (-0.1, -0.1, -0.1)), (taped(208.0), (-3.0, -5.0, -1.0)), (taped(300.0), (-95.0, -97.0, -93.0))],
)
def test_a_tread_wider_than_the_tire_is_taped_again(tread_width, margins):
    (reason,) = told(tread_width)
    assert (reason.margin, reason.margin_low, reason.margin_high) == pytest.approx(margins)
    assert (reason.level, reason.limit, reason.unit) == ("measure", 205.0, "mm")
    assert reason.value == pytest.approx(tread_width.value)
    says = f"A tread of {tread_width.value:g} mm does not fit a tire 205 mm wide: tape the tread again."
    assert reason.says.startswith(says)
    assert (reason.settles.field, reason.settles.at_most) == ("tire.tread_width", 205.0)


@pytest.mark.parametrize(("tread_width", "fits"), [(180.0, True), (215.0, True), (215.2, True), (215.3, False)])
def test_of_a_measured_section_the_widest_it_may_stand_for_counts(tread_width, fits):
    assert (told(exact(tread_width), **typed()) == []) is fits
