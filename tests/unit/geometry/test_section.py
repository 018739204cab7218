"""The drawn section: sound over the whole range of sizes, and its places agree with the closed forms of the crown."""

import math

import numpy as np
import pytest
from shapely import LineString, Point

from tests.helpers.section_soundness import faults_of, sharpest_turn
from tests.helpers.size_grid import CHECK_SIZES, Size, grid, inputs_of
from tiremap.errors import TiremapError
from tiremap.geometry import crown
from tiremap.geometry.section import SectionCannotBeDrawn, draw_section
from tiremap.geometry.section_inputs import SectionInputs

FAMILY = Size(205, 55, 16, 6.5)
SHARES = (0.70, 0.75, 0.80, 0.85, 0.90, 0.95, 1.00)


def family_car(**changes):
    return draw_section(inputs_of(FAMILY, **changes))


@pytest.mark.parametrize("share", SHARES)
def test_every_check_size_is_sound_at_any_tread_width_from_0_70_to_1_00_of_nominal(share):
    faults = {size.name: faults_of(draw_section(inputs_of(size, share))) for size in CHECK_SIZES}
    assert {name: found for name, found in faults.items() if found} == {}


def test_every_check_size_is_sound_and_exact_at_the_drawn_tread_width():
    for size in CHECK_SIZES:
        section = draw_section(inputs_of(size))
        assert faults_of(section) == [], size.name
        assert not section.approximate, size.name


def test_a_sample_of_all_sizes_58_mm_high_or_more_is_sound():
    faults = {size.name: faults_of(draw_section(inputs_of(size))) for size in grid(step=17)}
    assert len(faults) > 150
    assert {name: found for name, found in faults.items() if found} == {}


@pytest.mark.long
@pytest.mark.parametrize("size", CHECK_SIZES, ids=lambda size: size.name)
def test_a_check_size_is_sound_at_every_half_percent_of_tread_width(size):
    faults = {
        half_percent: faults_of(draw_section(inputs_of(size, half_percent / 200))) for half_percent in range(140, 201)
    }
    assert {half_percent: found for half_percent, found in faults.items() if found} == {}


@pytest.mark.long
def test_all_sizes_58_mm_high_or_more_are_sound():
    faults = {size.name: faults_of(draw_section(inputs_of(size))) for size in grid()}
    assert len(faults) > 3000
    assert {name: found for name, found in faults.items() if found} == {}


@pytest.mark.parametrize(
    "changes",
    [
        {"tread_depth": 0.0},
        {"tread_depth": 17.0},
        {"under_grooves": 5.0},
        {"under_grooves": 12.0},
        {"tread_depth": 17.0, "under_grooves": 12.0},
        {"tread_depth": 0.0, "under_grooves": 5.0},
        {"crown_radius": 359.0},
        {"crown_radius": 3000.0},
        {"belt_half_width": 110.0},
        {"belt_half_width": 60.0},
        {"rim_width": 139.7, "section_width": 204.0},  # 5.5 in, least approved
        {"rim_width": 190.5, "section_width": 224.0},  # 7.5 in, most approved
        {"tread_width": 214.0},
    ],
    ids=str,
)
def test_measured_dimensions_out_of_the_ordinary_are_drawn_soundly(changes):
    assert faults_of(family_car(**changes)) == []


@pytest.mark.parametrize("size", [Size(315, 80, 22.5, 9.0), Size(265, 70, 19.5, 7.5)], ids=str)
def test_a_truck_size_on_a_15_degree_rim_is_drawn_soundly(size):
    assert faults_of(draw_section(inputs_of(size))) == []


def test_a_flotation_size_is_drawn_soundly():
    # 31x10.50R15 on an 8.5 in rim, mud-terrain tread.
    changes = {
        "overall_diameter": 787.0,
        "section_width": 268.0,
        "nominal_width": 267.0,
        "rim_width": 215.9,
        "rim_diameter": 381.0,
        "tread_width": 218.0,
    }
    assert faults_of(draw_section(inputs_of(Size(267, 75, 15), **changes))) == []


def test_a_section_lower_than_58_mm_is_refused_in_words():
    # 215/25R18: height 54
    with pytest.raises(SectionCannotBeDrawn, match="54 mm high, too low to draw") as refused:
        draw_section(inputs_of(Size(215, 25, 18)))
    assert isinstance(refused.value, TiremapError)
    assert "58 mm or more" in refused.value.right


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"rim_width": 230.0}, "too wide for a section of 214 mm"),
        ({"section_width": 150.0, "tread_width": 140.0}, "rim"),
        ({"crown_radius": 90.0}, "crown radius of 90 mm is too small"),
        ({"section_width": 0.0}, "section width of the section is 0 mm"),
        ({"overall_diameter": math.nan}, "overall diameter of the section is nan mm"),
        ({"tread_depth": -1.0}, "tread depth of the section is -1 mm"),
    ],
)
def test_dimensions_no_tire_has_are_refused_in_words(changes, words):
    with pytest.raises(SectionCannotBeDrawn, match=words):
        family_car(**changes)


def test_mirrored_lines_run_from_inboard_to_outboard():
    section = family_car()
    for line in (section.outer, section.liner, section.rim, *section.belts):
        assert line[0, 0] < 0 < line[-1, 0]


def test_the_outline_has_the_size_it_was_drawn_for():
    section = family_car()
    assert section.outer[:, 1].max() == pytest.approx(632 / 2)
    assert section.widest_half_width == pytest.approx(214 / 2, abs=1e-6)
    assert section.liner[:, 1].max() == pytest.approx(632 / 2 - 14.5)
    assert section.thickness == pytest.approx(8 + 1.5 + 1.2 + 1.2 + 1.1 + 1.5)
    assert 0.45 <= section.widest_point_share_of_height <= 0.51


def test_the_tape_over_the_crown_reads_the_tread_width():
    section = family_car(tread_width=170.0)
    edge = section.outer_place(85.0)
    crown_part = section.outer[np.abs(section.outer[:, 0]) <= edge.x + 1e-9]
    crown_part = crown_part[crown_part[:, 1] >= edge.r - 1e-9]
    assert np.hypot(*np.diff(crown_part, axis=0).T).sum() == pytest.approx(170.0, abs=0.01)
    assert section.tread_edge_s == 85.0


@pytest.mark.parametrize("s", [-80.0, -30.0, 0.0, 12.5, 60.0])
def test_places_in_the_crown_agree_with_the_closed_forms(s):
    section = family_car()
    liner = section.liner_place(s)
    assert liner.r == pytest.approx(crown.liner_radius(s, 632, 14.5, 820), abs=0.05 if abs(s) < 70 else 1.0)
    assert section.outer_place(s, 14.5) == pytest.approx(liner, abs=0.05 if abs(s) < 70 else 1.0)


@pytest.mark.parametrize("depth", [0.0, 5.0, 14.5])
@pytest.mark.parametrize("s", [-82.0, -40.0, 0.0, 40.0, 82.0, 110.0, 150.0])
def test_a_place_has_the_tread_coordinate_of_the_foot_of_its_normal(s, depth):
    section = family_car()
    if abs(s) > section.tread_edge_s:
        depth = min(depth, 3.0)  # deeper, the normals of the shoulder cross
    assert section.tread_coordinate(*section.outer_place(s, depth)) == pytest.approx(s, abs=0.3)


def test_a_place_on_the_liner_of_the_crown_keeps_its_tread_coordinate():
    section = family_car()
    for s in np.linspace(-70, 70, 15):
        assert section.tread_coordinate(*section.liner_place(s)) == pytest.approx(s, abs=0.1)


def test_places_run_on_down_the_sidewall_without_a_jump():
    section = family_car()
    along = np.arange(-200.0, 200.5, 0.5)
    for place in (section.outer_place, section.liner_place):
        steps = np.hypot(*np.diff([place(s) for s in along], axis=0).T)
        assert steps.max() <= 0.75
        assert steps.min() >= 0.1


@pytest.mark.parametrize("size", CHECK_SIZES, ids=lambda size: size.name)
def test_liner_places_lie_on_the_liner_and_outer_places_on_the_outer_surface(size):
    section = draw_section(inputs_of(size))
    outer, liner = LineString(section.outer), LineString(section.liner)
    for s in np.linspace(-section.tread_edge_s - 20, section.tread_edge_s + 20, 21):
        assert outer.distance(Point(section.outer_place(s))) < 0.02
        assert liner.distance(Point(section.liner_place(s))) < 1e-6


def test_the_shoulder_is_smooth_outside_and_inside():
    section = family_car()
    shoulder = section.outer[(section.outer[:, 0] > 70) & (section.outer[:, 1] > 250)]
    assert sharpest_turn(shoulder) < 8.0
    assert sharpest_turn(section.liner) < 10.0


def test_the_bead_sits_on_the_rim():
    section = family_car()
    rim, bead = LineString(section.rim), section.layers["bead_outboard"]
    on_the_rim = [p for p in section.outer if p[0] > 0 and p[1] < 406 / 2 + 12]
    assert max(rim.distance(Point(p)) for p in on_the_rim) < 0.05  # both arcs are drawn in steps
    assert bead.boundary.intersection(rim.buffer(0.05)).length > 30


def test_a_wider_rim_keeps_the_tread_and_moves_the_beads():
    narrow, wide = family_car(), family_car(rim_width=190.5, section_width=224.0)
    assert wide.outer_place(50.0) == narrow.outer_place(50.0)
    assert wide.outer[-1, 0] - narrow.outer[-1, 0] == pytest.approx((190.5 - 165.1) / 2)


def test_a_deeper_tread_leaves_the_outer_surface_and_lowers_the_liner():
    worn, new = family_car(tread_depth=2.0), family_car(tread_depth=8.0)
    assert worn.outer_place(40.0) == new.outer_place(40.0)
    assert worn.liner_place(0.0).r - new.liner_place(0.0).r == pytest.approx(6.0)


def test_the_narrower_belt_lies_outside_the_wider():
    outer, inner = family_car().belts
    assert outer[:, 1].max() > inner[:, 1].max()
    assert outer[-1, 0] < inner[-1, 0] == pytest.approx(family_car().belt_half_width, abs=0.1)


def test_a_belt_too_wide_to_draw_makes_the_section_approximate():
    assert family_car(belt_half_width=110.0).approximate
    assert not family_car().approximate


def test_a_drawn_section_cannot_be_changed_by_who_looks_at_it():
    section = family_car()
    with pytest.raises(ValueError, match="read-only"):
        section.outer[0, 0] = 0.0


@pytest.mark.parametrize(
    ("dimensions", "words"),
    [
        (
            SectionInputs(704, 467, 411, 536, 229, 219, under_grooves=38.7),
            "No sidewall fits between a tread of 219 mm and a rim of 229 mm on a section 467 mm wide and 84 mm high",
        ),
        (SectionInputs(634, 162, 183, 417, 103, 214, crown_radius=206), "The layers of this section cross"),
    ],
)
def test_dimensions_that_leave_no_section_are_refused_with_them(dimensions, words):
    with pytest.raises(SectionCannotBeDrawn, match=words):
        draw_section(dimensions)
