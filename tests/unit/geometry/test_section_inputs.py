"""What a section is drawn from: defaults where nothing was measured, and what no tire has is refused."""

import math
from dataclasses import fields, replace

import pytest

from tiremap.geometry.section import draw_section
from tiremap.geometry.section_inputs import (
    SectionCannotBeDrawn,
    SectionInputs,
    default_thickness,
    default_under_grooves,
    refuse_impossible,
)

# 205/55R16 on 6.5 in, tread 166 mm.
PLAIN = SectionInputs(632.0, 214.0, 205.0, 406.0, 165.1, 166.0)
MEASURED = replace(PLAIN, belt_half_width=70.0, crown_radius=600.0, tread_depth=3.0, under_grooves=7.25)


def test_the_height_is_half_of_what_the_tire_stands_out_of_the_rim():
    assert PLAIN.section_height == 113.0


def test_what_was_not_measured_is_taken_from_the_table():
    # resources/dimensions/section.toml: radius 4 x nominal; belt 5 mm inside; 8 mm of tread;
    # base rubber 1.5, two belts of 1.2, ply 1.1, liner 1.5.
    assert PLAIN.crown_radius_drawn == 820.0
    assert PLAIN.belt_half_width_drawn == 78.0
    assert PLAIN.tread_depth_drawn == 8.0
    assert PLAIN.under_grooves_drawn == pytest.approx(6.5)
    assert PLAIN.thickness == pytest.approx(14.5)
    assert default_under_grooves() == pytest.approx(6.5)
    assert default_thickness() == pytest.approx(14.5)


def test_what_was_measured_is_drawn_as_it_was():
    assert MEASURED.crown_radius_drawn == 600.0
    assert MEASURED.belt_half_width_drawn == 70.0
    assert MEASURED.tread_depth_drawn == 3.0
    assert MEASURED.under_grooves_drawn == 7.25
    assert MEASURED.thickness == 10.25


def test_a_worn_tread_of_no_depth_is_drawn_and_has_the_layers_under_it():
    worn = replace(PLAIN, tread_depth=0.0)
    refuse_impossible(worn)
    assert worn.thickness == pytest.approx(6.5)


@pytest.mark.parametrize("name", [each.name for each in fields(SectionInputs)])
@pytest.mark.parametrize("value", [0.0, -0.5, math.inf, -math.inf, math.nan])
def test_every_dimension_must_be_more_than_0_mm_and_finite(name, value):
    if (name, value) == ("tread_depth", 0.0):
        return
    with pytest.raises(SectionCannotBeDrawn) as refused:
        refuse_impossible(replace(MEASURED, **{name: value}))
    assert str(refused.value).startswith(f"The {name.replace('_', ' ')} of the section is {value:g} mm.")
    assert refused.value.right == "It must be more than 0 mm."


@pytest.mark.parametrize("name", ["belt_half_width", "crown_radius", "tread_depth", "under_grooves"])
def test_a_dimension_under_1_mm_or_not_measured_is_not_refused_for_itself(name):
    refuse_impossible(replace(PLAIN, **{name: None}))
    if name != "crown_radius":
        refuse_impossible(replace(PLAIN, **{name: 0.5}))


def test_a_section_58_mm_high_is_drawn_and_one_a_hair_lower_is_not():
    refuse_impossible(replace(PLAIN, overall_diameter=406.0 + 116.0))
    with pytest.raises(SectionCannotBeDrawn, match=r"is 57\.95 mm high, too low to draw") as refused:
        refuse_impossible(replace(PLAIN, overall_diameter=406.0 + 115.9))
    assert refused.value.right == "Sections of 58 mm or more are drawn; the answer does not need the drawing."


@pytest.mark.parametrize(
    ("tread", "belt_half", "least"),
    [(160.0, 60.0, 120.0), (160.0, 100.0, 150.0), (160.0, 80.0, 120.0)],
    ids=["tread", "belts", "alike"],
)
def test_a_crown_radius_must_be_more_than_three_quarters_of_tread_and_belts(tread, belt_half, least):
    dimensions = replace(PLAIN, tread_width=tread, belt_half_width=belt_half)
    refuse_impossible(replace(dimensions, crown_radius=least + 0.01))
    for radius in (least, least - 1.0):
        with pytest.raises(SectionCannotBeDrawn) as refused:
            refuse_impossible(replace(dimensions, crown_radius=radius))
        assert str(refused.value).startswith(
            f"A crown radius of {radius:g} mm is too small for a tread of {tread:g} mm."
        )
        assert refused.value.right == "It is usually two to five times the nominal width."


@pytest.mark.parametrize(("under_grooves", "drawn"), [(76.0, False), (40.0, True)])
def test_a_crown_too_thick_for_its_own_curve_is_refused_in_words_and_not_drawn_with_an_error(under_grooves, drawn):
    """Belts 226.5 mm from the center plane, of 348 mm crown radius less 142 mm of crown: no circle reaches so far."""
    inputs = SectionInputs(
        1040, 87, 87, 281, 53.848, 463, crown_radius=348, tread_depth=66, under_grooves=under_grooves
    )
    if not drawn:
        with pytest.raises(SectionCannotBeDrawn, match="142 mm thick leaves no room for belts 453 mm wide on"):
            refuse_impossible(inputs)
        with pytest.raises(SectionCannotBeDrawn):
            draw_section(inputs)
    else:
        refuse_impossible(inputs)


def test_belts_that_reach_exactly_as_far_as_the_liner_s_circle_are_not_drawn():
    """240 mm of crown radius less 100 mm of crown: a circle of 140 mm, and belts 140 mm to either side."""
    inputs = SectionInputs(1040, 300, 300, 500, 200, 300, 140, crown_radius=240, tread_depth=50, under_grooves=50)
    with pytest.raises(SectionCannotBeDrawn, match="belts 280 mm wide"):
        refuse_impossible(inputs)
    refuse_impossible(replace(inputs, belt_half_width=139.9))
