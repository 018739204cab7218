"""What a tire's entries stand for as readings, and what nobody entered; a crown that cannot be is a slip of the pen."""

from math import cos

import pytest

from tests.helpers.jobs import bench_job, evenly_worn, measured_tire, taped
from tiremap.errors import TiremapError
from tiremap.model.job import TypedDimensions
from tiremap.model.measures import Length
from tiremap.rules.facts import TireFacts, tire_facts


def facts_of(size_code: str | None = "205/55R16", **fields) -> TireFacts:
    """A measured tire: 170 mm of tread, 6 mm deep and 6 mm under the grooves, on a section 205 mm wide."""
    return tire_facts(bench_job(tire=measured_tire(size_code, **fields)))


def typed(width: float = 205.0, overall: float = 650.0) -> TypedDimensions:
    """On a rim of 406 mm: a section 122 mm high on an overall diameter of 650 mm."""
    return TypedDimensions(
        overall_diameter_mm=overall, section_width_mm=width, rim_diameter_mm=406.0, rim_width_in=6.5
    )


def exact(value: float, **more) -> Length:
    return Length(value=value, how="exact", **more)


@pytest.mark.parametrize("width", [165.0, 205.0, 315.0])
def test_a_measured_width_stands_for_nominal_ones_from_0_87_to_1_03_of_it_and_the_tape_s_tolerance(width):
    nominal = facts_of(None, typed_dimensions=typed(width)).nominal_width
    assert nominal.stated == width
    assert nominal.low == pytest.approx(0.87 * (width - 4.0))
    assert nominal.high == pytest.approx(1.03 * (width + 4.0))
    assert (nominal.estimated, nominal.step) == (True, 0.0)


def test_of_typed_dimensions_the_tread_may_be_as_narrow_or_wide_as_on_any_nominal_width_they_stand_for():
    """122 mm high on 205 mm is an aspect ratio of 59.5, between k = 0.75 and 0.80: 0.88 x 0.75 to 1.22 x 0.80."""
    tread = facts_of(None, typed_dimensions=typed(), tread_width=None).tread_width
    assert tread.low == pytest.approx(0.66 * 0.87 * (205.0 - 4.0))
    assert tread.high == pytest.approx(0.976 * 1.03 * (205.0 + 4.0))


@pytest.mark.parametrize("chosen", [None, "passenger", "truck"])
@pytest.mark.parametrize(("code", "tire_class"), [("T125/80R16", "temporary_spare"), ("ST205/75R14", None)])
def test_a_spare_and_a_trailer_tire_keep_their_class_whatever_is_chosen(code, tire_class, chosen):
    assert facts_of(code, tire_class=chosen).tire_class == tire_class


def test_a_size_code_that_cannot_be_read_is_told():
    with pytest.raises(TiremapError):
        facts_of("no size at all")


def test_beside_typed_dimensions_a_size_code_that_cannot_be_read_is_let_stand():
    facts = facts_of("no size at all", typed_dimensions=typed())
    assert (facts.size, facts.overall_diameter) == (None, 650.0)


@pytest.mark.parametrize("s", [-300.0, -102.5, 102.5, 150.0, 300.0])
def test_beyond_the_nominal_width_a_place_lies_as_far_from_the_axle_as_at_its_edge(s):
    facts = facts_of()
    assert facts.liner_radius(s, 12.0) == pytest.approx(632.0 / 2 - 820.0 + 808.0 * cos(102.5 / 820.0))


@pytest.mark.parametrize("s", [-90.0, 90.0])
def test_inside_the_nominal_width_the_liner_falls_away_from_the_center(s):
    assert facts_of().liner_radius(s, 12.0) == pytest.approx(632.0 / 2 - 820.0 + 808.0 * cos(90.0 / 820.0))


def test_a_belt_not_measured_is_told_from_the_tread_edge_and_a_measured_one_from_the_center():
    assert facts_of().belt_half_width(170.0, 5.0) == 80.0
    assert facts_of(belt_width=taped(150.0)).belt_half_width(170.0, 75.0) == 75.0


def test_a_belt_not_measured_ends_from_3_mm_outside_the_tread_edge_to_15_mm_inside_it():
    belt = facts_of().belt
    assert (belt.low, belt.stated, belt.high) == (-3.0, None, 15.0)


@pytest.mark.parametrize(
    ("name", "field", "value", "step"),
    [
        ("tread_width", "tread_width", 170.0, 1.0),
        ("belt_width", "belt", 150.0, 0.0),
        ("between_outer_grooves", "between_outer_grooves", 120.0, 1.0),
        ("under_grooves", "thickness", 6.0, 0.0),
    ],
)
def test_only_what_was_never_or_by_eye_measured_is_estimated_and_all_are_told_in_the_same_steps(
    name, field, value, step
):
    for taken, estimated in ((taped(value), False), (None, True), (Length(value=value, how="eye"), True)):
        reading = getattr(facts_of(**{name: taken}), field)
        if name != "under_grooves" or taken is None:  # there the depth's way of measuring counts
            assert reading.estimated is estimated
        assert reading.step == step


@pytest.mark.parametrize(
    ("tire", "under_grooves", "fits"),
    [
        # 205/55R16: the section is 113 mm high, the tread lies 316 mm from the axle, on a crown of radius 820 mm
        ({}, exact(106.9), True),
        ({}, exact(107.0), False),  # and 6 mm of tread: as thick as the section is high
        ({}, exact(100.0, plus=209.9), True),
        ({}, exact(100.0, plus=210.0), False),  # up to the axle
        ({}, exact(100.0, plus=300.0), False),  # past it
        # 80 mm wide, 800 mm overall: a crown of radius 320 mm, 400 mm from the axle
        ({"typed_dimensions": typed(80.0, 800.0)}, exact(100.0, plus=213.9), True),
        ({"typed_dimensions": typed(80.0, 800.0)}, exact(100.0, plus=214.0), False),
    ],
)
def test_a_crown_as_thick_as_the_section_or_reaching_to_the_axle_or_the_crown_s_middle_is_refused(
    tire, under_grooves, fits
):
    fields = {**evenly_worn(exact(6.0)), **tire, "under_grooves": under_grooves}
    if fits:
        assert facts_of(**fields).thickness.stated == under_grooves.value + 6.0
        return
    with pytest.raises(TiremapError, match=r"A crown up to .* mm thick does not fit on a section .* mm high\."):
        facts_of(**fields)
