"""Depths and widths of the layers a section is drawn with: worked out from resources/dimensions/section.toml."""

import math
from dataclasses import replace

import numpy as np
import pytest

from tests.helpers.size_grid import CHECK_SIZES, Size, inputs_of
from tiremap.geometry.air_volume import air_volume_l
from tiremap.geometry.crown_form import CrownForm
from tiremap.geometry.section import _wide_enough_for_tread, belt_middles, draw_section

FAMILY = Size(205, 55, 16, 6.5)
PLAIN = inputs_of(FAMILY)


def drawn(**changes):
    return draw_section(inputs_of(FAMILY, **changes))


@pytest.mark.parametrize(
    ("given", "belts_top", "belts_middle", "ply_top", "ply_bottom", "thickness"),
    [
        ({}, 9.5, 10.7, 11.9, 13.0, 14.5),
        ({"tread_depth": 2.0}, 3.5, 4.7, 5.9, 7.0, 8.5),
        # Thicker: more base rubber, the layers under it as they are.
        ({"under_grooves": 9.0}, 12.0, 13.2, 14.4, 15.5, 17.0),
        # Half of 6.5 under the grooves: every layer half as thick.
        ({"under_grooves": 3.25}, 8.75, 9.35, 9.95, 10.5, 11.25),
    ],
    ids=str,
)
def test_layers_lie_at_their_depths(given, belts_top, belts_middle, ply_top, ply_bottom, thickness):
    crown = drawn(**given).crown
    assert (crown.belts_top, crown.belts_middle, crown.ply_top, crown.ply_bottom) == pytest.approx(
        (belts_top, belts_middle, ply_top, ply_bottom)
    )
    assert crown.thickness == drawn(**given).thickness == pytest.approx(thickness)


@pytest.mark.parametrize(
    ("given", "belt_half", "outer_belt_half"),
    [
        ({"tread_width": 170.0}, 80.0, 74.0),  # 5 mm inside the tread edge; the outer belt 6 mm narrower
        ({"belt_half_width": 60.0}, 60.0, 54.0),
        ({"belt_half_width": 10.0}, 10.0, 5.0),  # at least half as wide
        ({"belt_half_width": 12.0}, 12.0, 6.0),
        # No more than 3 mm past the tread edge, 820 sin(83 / 820) = 82.858 off the center plane.
        ({"tread_width": 166.0, "belt_half_width": 95.0}, 85.858, 79.858),
        # No nearer than 1 mm to the cord line's widest point, 107 - 4 mm off the center plane.
        ({"tread_width": 210.0, "belt_half_width": 106.0}, 102.0, 96.0),
    ],
    ids=str,
)
def test_belts_are_as_wide_as_given_where_they_can_be(given, belt_half, outer_belt_half):
    section = drawn(**given)
    assert section.crown.belt_half == pytest.approx(belt_half, abs=0.001)
    assert section.crown.outer_belt_half == pytest.approx(outer_belt_half, abs=0.001)
    assert section.belt_half_width == given.get("belt_half_width", belt_half)


def test_the_middle_of_each_belt_lies_half_a_belt_under_its_top():
    crown = CrownForm(316.0, 800.0, 83.0, 78.0, 72.0, 9.5, 10.9, 12.3, 13.4, 14.9)
    outer, inner = belt_middles(crown)
    for line, depth, half in ((outer, 10.2, 72.0), (inner, 11.6, 78.0)):
        assert np.hypot(*(line - crown.center).T) == pytest.approx(800.0 - depth)
        assert (line[0, 0], line[-1, 0]) == pytest.approx((-half, half))
        assert line[len(line) // 2] == pytest.approx([0.0, 316.0 - depth])


def test_a_tread_that_reaches_past_the_section_widens_it_to_its_edge():
    across = 2.0 * CrownForm.edge_across(115.0, 820.0)  # 229.2 mm, of a tape of 230
    wide = inputs_of(FAMILY, tread_width=230.0)
    assert 0.5 * across == pytest.approx(820.0 * math.sin(115.0 / 820.0))
    assert _wide_enough_for_tread(wide) == replace(wide, section_width=across)
    exact, wider = (replace(wide, section_width=width) for width in (across, across + 1.0))
    assert _wide_enough_for_tread(exact) is exact
    assert _wide_enough_for_tread(wider) is wider
    section = draw_section(wide)
    assert section.approximate and section.inputs is wide
    assert section.sidewall.xm == pytest.approx(0.5 * across - 4.0)


@pytest.mark.parametrize(
    ("tread", "belt_half", "approximate"),
    [
        (166.0, 78.0, False),
        (166.0, 85.8, False),
        (166.0, 85.9, True),  # drawn no more than 3 mm past the tread edge, at 85.858
        (166.0, 60.0, True),  # no sidewall curve leaves so narrow a belt
        (230.0, 90.0, True),  # the tread reaches past the section
    ],
)
def test_a_section_is_approximate_where_it_is_not_drawn_from_what_was_measured(tread, belt_half, approximate):
    assert drawn(tread_width=tread, belt_half_width=belt_half).approximate is approximate


@pytest.mark.parametrize("size", CHECK_SIZES[::6], ids=lambda size: size.name)
def test_a_section_tells_the_figures_of_its_own_lines(size):
    inputs = inputs_of(size)
    section = draw_section(inputs)
    above = section.sidewall.rw - 0.5 * inputs.rim_diameter
    assert section.widest_point_share_of_height == pytest.approx(above / section.inputs.section_height)
    assert section.widest_half_width == section.outer[:, 0].max()
    assert section.tread_edge_s == 0.5 * inputs.tread_width
    assert section.crown_radius == pytest.approx(4.0 * inputs.nominal_width)
    assert section.crown.top == 0.5 * inputs.overall_diameter
    assert section.air_volume_l == air_volume_l(section.liner)
    # The cord line leaves the belt edge 16 mm below the overall diameter.
    assert section.cord_radius_around == pytest.approx(0.5 * inputs.overall_diameter - 16.0)
    assert section.cord_line[0] == pytest.approx([0.5 * inputs.tread_width - 5.0, section.cord_radius_around])


def test_no_line_of_a_drawn_section_can_be_changed():
    section = drawn()
    for line in (section.outer, section.liner, section.rim, section.cord_line, *section.belts):
        assert not line.flags.writeable


def test_places_on_a_drawn_section_lie_on_the_tread_surface_unless_a_depth_is_given():
    section = drawn()
    assert section.outer_place(0.0) == pytest.approx((0.0, 316.0))
    assert section.outer_place(0.0, 3.0) == pytest.approx((0.0, 313.0))


def test_a_section_shows_itself_without_the_lines_it_was_laid_from():
    assert "crown_radius=" in repr(drawn())
    assert not any(name in repr(drawn()) for name in ("CrownForm", "HalfSection"))
