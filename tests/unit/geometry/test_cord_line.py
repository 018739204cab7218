"""Where the cord line lies in the crown, where the rim takes it over, and what makes a section approximate."""

import math

import pytest

from tiremap.geometry.cord_line import cord_line_of, cord_radius, flange_contact
from tiremap.geometry.rim import rim_form
from tiremap.geometry.section_inputs import SectionCannotBeDrawn, SectionInputs

USUAL = SectionInputs(632.0, 214.0, 205.0, 406.0, 165.0, 164.0)
"""Belt edge at 77 mm, crown radius 820 mm, 14.5 mm thick; cords at most 103 mm across, flange contact at 86.5 mm."""


def changed(**values):
    return SectionInputs(**{**vars(USUAL), **values})


def cord_of(inputs):
    return cord_line_of(inputs, rim_form(inputs.rim_width, inputs.rim_diameter))


def sunk(x, radius):
    """How far a circle has come down from its top at ``x``."""
    return radius - math.sqrt(radius**2 - x**2)


def test_the_cord_lies_16_mm_below_the_overall_diameter_at_the_belt_edge():
    assert cord_radius(USUAL, 77.0) == pytest.approx(316.0 - 16.0)


@pytest.mark.parametrize(("depth", "radius"), [(8.0, 300.0), (11.0, 297.0), (3.0, 305.0)])
def test_a_thicker_crown_carries_the_cord_down_with_it(depth, radius):
    assert cord_radius(changed(tread_depth=depth), 77.0) == pytest.approx(radius)


@pytest.mark.parametrize("crown_radius", [300.0, 820.0, 2000.0])
@pytest.mark.parametrize("x", [0.0, 50.0, 77.0, 100.0])
def test_the_cord_is_carried_on_along_the_crown_and_a_rounder_crown_carries_it_down(x, crown_radius):
    rounder = sunk(77.0, crown_radius) - sunk(77.0, 820.0)
    expected = 300.0 - rounder + sunk(77.0, crown_radius) - sunk(x, crown_radius)
    assert cord_radius(changed(crown_radius=crown_radius), x) == pytest.approx(expected, abs=1e-9)


def test_a_place_past_the_crown_circle_is_as_low_as_its_side():
    """Past 100 mm a crown of 100 mm radius comes down no further: its whole radius is spent."""
    inputs = changed(crown_radius=100.0, belt_half_width=60.0)
    at_belt_edge = 300.0 - (20.0 - sunk(60.0, 820.0))  # 60, 80, 100: sunk by 20 mm
    assert cord_radius(inputs, 100.0) == pytest.approx(at_belt_edge - 80.0)
    assert cord_radius(inputs, 100.5) == cord_radius(inputs, 130.0) == cord_radius(inputs, 100.0)


def test_a_belt_wider_than_the_usual_crown_radius_is_compared_with_the_side_of_that_circle():
    inputs = changed(nominal_width=15.0, crown_radius=100.0, belt_half_width=80.0)
    assert cord_radius(inputs, 80.0) == pytest.approx(300.0 - (40.0 - 60.0))  # 60, 80, 100; usual: 4 x 15 = 60 mm


def test_the_flange_takes_the_cords_over_4_mm_outside_the_rim_width_at_its_height():
    assert flange_contact(rim_form(165.0, 406.0)) == pytest.approx((86.5, 203.0 + 17.5))
    assert flange_contact(rim_form(165.0, 444.5)) == pytest.approx((86.5, 222.25 + 12.7))  # 17.5 in: 15-degree seat


def test_a_usual_cord_line_runs_from_belt_edge_to_flange_and_is_exact():
    cord = cord_of(USUAL)
    points = cord.points()
    assert not cord.approximate
    assert cord.belt_edge == pytest.approx((77.0, 300.0))
    assert cord.curve.xm == pytest.approx(103.0)
    assert points[0] == pytest.approx(cord.belt_edge, abs=1e-6)
    assert points[-1] == pytest.approx((86.5, 220.5), abs=1e-6)
    assert len(cord.points(5)) == 5


@pytest.mark.parametrize(
    ("section_width", "reached", "approximate"),
    [
        (178.0, 84.0, False),  # the contact at 84 mm is 1 mm inside the widest cord at 85 mm
        (177.0, 83.5, True),
        (168.0, 79.0, True),
        (166.0, 78.0, True),  # moved in by 6 mm, the most
    ],
)
def test_a_rim_nearly_as_wide_as_the_tire_takes_the_cords_over_up_to_6_mm_further_in(
    section_width, reached, approximate
):
    cord = cord_of(changed(section_width=section_width, rim_width=160.0, tread_width=134.0))
    assert cord.approximate is approximate
    assert cord.curve.xm == pytest.approx(0.5 * section_width - 4.0)
    assert cord.points()[-1] == pytest.approx((reached, 220.5), abs=1e-6)


def test_a_rim_wider_than_that_is_refused_with_both_widths():
    with pytest.raises(SectionCannotBeDrawn) as refused:
        cord_of(changed(section_width=165.5, rim_width=160.0, tread_width=134.0))
    assert str(refused.value).startswith("The rim, 160 mm wide, is too wide for a section of 165.5 mm.")
    assert "rim width and the section width" in refused.value.right


@pytest.mark.parametrize(
    ("belt", "start", "approximate"), [(101.5, 101.5, False), (102.0, 102.0, False), (102.5, 102.0, True)]
)
def test_a_belt_reaching_past_1_mm_inside_the_widest_cord_starts_the_sidewall_there(belt, start, approximate):
    """The widest cord is at 103 mm."""
    inputs = changed(belt_half_width=belt)
    cord = cord_of(inputs)
    assert cord.approximate is approximate
    assert cord.belt_edge == pytest.approx((belt, cord_radius(inputs, belt)))
    points = cord.points(9)
    assert len(points) == (10 if approximate else 9)
    assert points[0] == pytest.approx(cord.belt_edge, abs=1e-6)
    assert points[int(approximate)] == pytest.approx((start, cord_radius(inputs, start)), abs=1e-6)


def test_where_no_curve_leaves_the_belt_edge_one_leaves_the_crown_at_80_degrees():
    """225/30R20 with a tread of 0.70 of its width."""
    inputs = SectionInputs(644.0, 230.0, 225.0, 508.0, 203.0, 157.0)
    cord = cord_of(inputs)
    assert cord.approximate
    assert math.degrees(cord.curve.phi_start) == pytest.approx(80.0)
    belt_edge, start = cord.points()[:2]
    assert belt_edge == pytest.approx((73.5, 306.0))
    assert 75.5 < start[0] < 111.0
    assert start[1] == pytest.approx(cord_radius(inputs, start[0]), abs=1e-6)


def test_where_none_leaves_the_crown_either_the_dimensions_are_told():
    with pytest.raises(SectionCannotBeDrawn) as refused:
        cord_of(changed(overall_diameter=522.0, tread_width=120.5))
    assert str(refused.value).startswith(
        "No sidewall fits between a tread of 120.5 mm and a rim of 165 mm on a section 214 mm wide and 58 mm high."
    )
