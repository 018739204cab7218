"""Dimensions beyond the published rows: rims of other widths, other families, typed dimensions, tread width."""

import math

import pytest

from tiremap.errors import TiremapError
from tiremap.model.size_code import read_size_code
from tiremap.model.tire_dimensions import dimensions_as_typed, dimensions_of, rim_warning
from tiremap.model.tread_width import tread_width_estimate


def of(code, rim=None):
    return dimensions_of(read_size_code(code), rim)


def tread(code, **how):
    return tread_width_estimate(read_size_code(code), **how)


def test_a_wider_rim_makes_the_section_wider_by_four_tenths_of_it():
    # UN Regulation 30: 0.4 of the change in rim width. 214 on 6.5 in; 7.5 in is 190.5 mm.
    assert of("205/55R16", 7.5).section_width_mm == math.floor(205 + 0.4 * (190.5 - 0.70 * 205) + 0.5) == 224
    assert of("205/55R16", 7.5).rim_width_in == 7.5
    assert of("205/55R16", 7.5).measuring_rim_width_in == 6.5


def test_another_rim_leaves_diameter_and_height_alone():
    narrow, wide = of("205/55R16", 5.5), of("205/55R16", 7.5)
    assert narrow.overall_diameter_mm == wide.overall_diameter_mm
    assert narrow.section_height_mm == wide.section_height_mm == 113


def test_the_height_is_rounded_before_it_is_doubled():
    # 155 * 0.70 = 108.5 -> 109, so 330 + 218; rounding once would give 330 + 217.
    assert of("155/70R13").overall_diameter_mm == 330 + 2 * 109


def test_a_half_millimeter_in_service_is_rounded_up_as_on_paper():
    # A diagonal 165/80 on a 6.5 in rim: 165 + 0.4*(165.1 - 115.5) = 184.84 -> 185; 1.06 * 185 = 196.1.
    assert of("165/80D15", 6.5).max_in_service_width_mm == 196
    # 175 wide exactly: 1.06 * 175 = 185.5 -> 186, though the product in binary may fall short of the half.
    dims = of("175/80D15", 4.8)
    assert dims.section_width_mm == 175
    assert dims.max_in_service_width_mm == 186


def test_a_diagonal_tire_grows_more_in_service_than_a_radial():
    radial, diagonal = of("205/70R14"), of("205/70D14")
    assert radial.section_width_mm == diagonal.section_width_mm
    assert diagonal.max_in_service_width_mm > radial.max_in_service_width_mm
    assert diagonal.max_in_service_diameter_mm > radial.max_in_service_diameter_mm


@pytest.mark.parametrize("code", ["205/55R16", "P205/55R16", "205/55ZR16 91W", "205/55R16 94V XL", "205/55VR16"])
def test_load_speed_and_prefix_p_change_no_dimension(code):
    plain, marked = of("205/55R16"), of(code)
    assert marked.model_copy(update={"size": plain.size}) == plain


def test_passenger_dimensions_are_derived_and_say_so():
    basis = of("205/55R16").basis
    assert basis.overall_diameter == basis.section_width == basis.measuring_rim_width == "derived"
    assert basis.max_in_service == basis.approved_rim_width == "derived"


def test_a_light_truck_has_the_diameter_by_rule_and_says_deep_treads_run_over():
    dims = of("LT245/75R16")
    assert dims.overall_diameter_mm == 406 + 2 * 184
    assert dims.basis.overall_diameter == "derived"
    assert dims.basis.section_width == "assumed"
    assert any("12 mm" in note for note in dims.notes)


def test_a_van_size_with_aspect_ratio_has_assumed_widths():
    dims = of("225/65R16C")
    assert dims.overall_diameter_mm == 406 + 2 * 146
    assert (dims.basis.overall_diameter, dims.basis.section_width) == ("derived", "assumed")


def test_a_van_size_on_another_rim_is_no_longer_published():
    assert of("165R13C", 5.0).basis.section_width == "assumed"
    assert of("165R13C", 5.0).section_width_mm == math.floor(167 + 0.4 * 0.5 * 25.4 + 0.5)


def test_a_van_size_in_no_table_is_refused_with_the_way_out():
    with pytest.raises(TiremapError, match="type overall diameter, section width and rim"):
        of("175R14C")


def test_a_flotation_size_is_read_in_inches():
    dims = of("31x10.50R15LT")
    assert dims.overall_diameter_mm == math.floor(31 * 25.4 + 0.5)
    assert dims.section_width_mm == math.floor(10.5 * 25.4 + 0.5)
    assert dims.measuring_rim_width_in == 8.5
    assert dims.basis.overall_diameter == dims.basis.section_width == "assumed"


def test_a_truck_size_goes_by_the_passenger_rules_and_says_so():
    dims = of("315/80R22.5 156/150L")
    assert dims.measuring_rim_width_in == 8.5  # published: 9.00
    assert dims.rim_diameter_mm == 572
    assert dims.overall_diameter_mm == 572 + 2 * 252
    assert dims.basis.overall_diameter == "assumed"
    assert any("outline" in note for note in dims.notes)


def test_an_aspect_ratio_between_the_tables_is_assumed():
    assert of("205/57R16").basis.section_width == "assumed"
    assert of("205/57R16").overall_diameter_mm == 406 + 2 * 117


def test_a_rim_outside_the_approved_range_is_warned_of_and_one_inside_is_not():
    size = read_size_code("205/55R16")
    assert rim_warning(size, 5.5) is None
    assert rim_warning(size, 7.5) is None
    assert "narrower" in rim_warning(size, 5.0)
    assert "wider" in rim_warning(size, 8.0)


@pytest.mark.parametrize("code", ["HL255/40R20", "225/30R20", "165R13C", "31x10.50R15LT"])
def test_where_no_formula_gives_the_rims_the_makers_table_is_named(code):
    assert "check the maker's table" in rim_warning(read_size_code(code), 9.0)


@pytest.mark.parametrize("rim", [0, -6, 1.5, 30, math.nan, math.inf])
def test_a_rim_width_that_cannot_be_is_refused(rim):
    with pytest.raises(TiremapError, match="rim width"):
        of("205/55R16", rim)


def test_typed_dimensions_come_back_as_typed_and_measured():
    dims = dimensions_as_typed(1050.5, 279, 571.5, 8.25)
    assert (dims.overall_diameter_mm, dims.section_width_mm, dims.rim_diameter_mm) == (1050.5, 279, 571.5)
    assert dims.section_height_mm == (1050.5 - 571.5) / 2
    assert dims.rim_width_in == 8.25
    assert dims.basis.overall_diameter == dims.basis.section_width == dims.basis.rim_diameter == "measured"
    assert dims.max_in_service_width_mm is None


@pytest.mark.parametrize(
    ("typed", "named"),
    [
        ((24.9, 214, 406, 6.5), "overall diameter"),
        ((632, 8.4, 406, 6.5), "section width"),
        ((632, 214, 16, 6.5), "rim diameter"),
        ((632, 214, 406, 165), "rim width"),
        ((math.nan, 214, 406, 6.5), "overall diameter"),
        ((440, 214, 406, 6.5), "17 mm high"),
        ((400, 214, 406, 6.5), "high"),
    ],
)
def test_a_typed_dimension_that_cannot_be_is_named(typed, named):
    with pytest.raises(TiremapError, match=named):
        dimensions_as_typed(*typed)


@pytest.mark.parametrize(
    ("code", "drawn", "least", "greatest"),
    [
        ("205/55R16", 1.01 * 0.80 * 205, 0.70 * 205, 1.22 * 0.80 * 205),
        ("225/45R17", 1.01 * 0.85 * 225, 0.70 * 225, 225),
        ("255/35R19", 1.01 * 0.90 * 255, 0.70 * 255, 255),
        ("295/25R22", 1.01 * 0.90 * 295, 0.70 * 295, 295),
        ("195/65R15", 1.01 * 0.75 * 195, 0.88 * 0.75 * 195, 1.22 * 0.75 * 195),
        ("155/80R13", 1.01 * 0.70 * 155, 0.88 * 0.70 * 155, 0.90 * 155),
        # Between two steps: the lower k for the low bound, the higher for the high one.
        ("205/57R16", 1.01 * 0.775 * 205, 0.88 * 0.75 * 205, 1.22 * 0.80 * 205),
        # Flotation: 1.09; 787 - 381 over two is 203 high, 0.76 of 266.7, so k is 0.70.
        ("31x10.50R15LT", 1.09 * 0.70 * 266.7, 0.88 * 0.70 * 266.7, 0.90 * 266.7),
        # Without aspect ratio: 133 high on 165 nominal is 0.81.
        ("165R13C", 1.01 * 0.70 * 165, 0.88 * 0.70 * 165, 0.90 * 165),
    ],
)
def test_the_tread_width_is_the_share_of_the_nominal_width(code, drawn, least, greatest):
    estimate = tread(code)
    assert estimate.drawn_mm == pytest.approx(drawn)
    assert estimate.least_mm == pytest.approx(least)
    assert estimate.greatest_mm == pytest.approx(greatest)


def test_the_drawn_tread_of_a_205_55_is_166_mm():
    assert round(tread("205/55R16").drawn_mm) == 166


def test_a_mud_terrain_tread_is_drawn_wider_with_the_same_range():
    plain, mud = tread("LT245/75R16"), tread("LT245/75R16", mud_terrain=True)
    assert mud.drawn_mm / plain.drawn_mm == pytest.approx(1.09 / 1.01)
    assert (mud.least_mm, mud.greatest_mm) == (plain.least_mm, plain.greatest_mm)


@pytest.mark.parametrize("aspect", range(20, 101))
def test_the_drawn_tread_lies_in_its_range_and_never_beyond_the_nominal_width(aspect):
    estimate = tread(f"205/{aspect}R16")
    assert estimate.least_mm < estimate.drawn_mm < estimate.greatest_mm <= 205


def test_code_and_dimensions_suggest_the_same_tread():
    assert tread("225/45R17") == tread_width_estimate(of("225/45R17"))


def test_typed_dimensions_suggest_a_tread_from_their_own_aspect():
    dims = dimensions_as_typed(632, 214, 406, 6.5)  # 113 high on 214 wide: 0.53, k 0.80
    assert tread_width_estimate(dims).drawn_mm == pytest.approx(1.01 * 0.80 * 214)
