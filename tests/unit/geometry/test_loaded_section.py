"""The loaded section: the cords keep their length, without load nothing moves, more load bends more."""

from itertools import pairwise

import numpy as np
import pytest
from shapely import LineString

from tests.helpers.size_grid import CHECK_SIZES, Size, grid, inputs_of
from tiremap.geometry.frames import SectionPoint
from tiremap.geometry.loaded_data import greatest_load, usual_load
from tiremap.geometry.loaded_section import load_section
from tiremap.geometry.loaded_sidewall import sidewall_under_load
from tiremap.geometry.section import SectionCannotBeDrawn, draw_section
from tiremap.geometry.section_inputs import SectionInputs

SHARES = (0.02, 0.05, 0.1, 0.15, 0.2, 0.25)
SIZES = [*CHECK_SIZES, *grid(300)]


def loads_of(section):
    return [share * section.inputs.section_height for share in SHARES]


@pytest.mark.parametrize("size", SIZES, ids=lambda size: size.name)
def test_the_cords_keep_their_length_and_both_ends(size):
    section = draw_section(inputs_of(size))
    kept = section.sidewall
    for load in loads_of(section):
        loaded = load_section(section, load).sidewall
        assert loaded.cord_length == pytest.approx(kept.cord_length, abs=0.01)
        assert loaded.points([loaded.phi_flange]) == pytest.approx(kept.points([kept.phi_flange]), abs=0.001)
        assert loaded.radius(loaded.phi_start) == pytest.approx(kept.radius(kept.phi_start) - load, abs=0.001)
    drawn = loaded.points(np.linspace(loaded.phi_start, loaded.phi_flange, 1001))
    assert LineString(drawn).length == pytest.approx(kept.cord_length, abs=0.01)


@pytest.mark.parametrize("size", CHECK_SIZES, ids=lambda size: size.name)
def test_without_load_every_line_is_the_unloaded_one(size):
    section = draw_section(inputs_of(size))
    loaded = load_section(section, 0.0)
    assert (loaded.outer == section.outer).all()
    assert (loaded.liner == section.liner).all()
    assert loaded.sidewall is section.sidewall
    assert loaded.body.equals(section.body)
    assert not loaded.bending.strains.any()


@pytest.mark.parametrize("size", CHECK_SIZES, ids=lambda size: size.name)
def test_a_hair_of_load_moves_a_hair(size):
    """The loaded shape starts from the unloaded one: nothing jumps when the slider leaves its end."""
    section = draw_section(inputs_of(size))
    loaded = load_section(section, 0.001)
    assert np.abs(loaded.outer - section.outer).max() < 0.02
    assert loaded.body.symmetric_difference(section.body).area < 2.0


@pytest.mark.parametrize("size", SIZES, ids=lambda size: size.name)
def test_more_load_bends_every_place_more_and_brings_the_ground_nearer(size):
    section = draw_section(inputs_of(size))
    loaded = [load_section(section, load) for load in (0.0, *loads_of(section)[1::2])]
    for less, more in pairwise(loaded):
        assert (more.bending.strains >= less.bending.strains - 1e-12).all()
        assert more.bending.widest > less.bending.widest
        assert more.ground < less.ground
        assert more.sidewall.xm > less.sidewall.xm


@pytest.mark.parametrize("size", CHECK_SIZES, ids=lambda size: size.name)
def test_loaded_lines_do_not_cross_and_stay_alike_on_both_sides(size):
    section = draw_section(inputs_of(size))
    for load in loads_of(section)[1::2]:
        loaded = load_section(section, load)
        assert loaded.body.is_valid
        assert np.allclose(loaded.outer, (loaded.outer * (-1.0, 1.0))[::-1], atol=1e-9)
        total = sum(shape.area for shape in loaded.layers.values())
        assert total == pytest.approx(loaded.body.area, rel=0.01)


def test_places_of_the_unloaded_tire_are_followed():
    section = draw_section(inputs_of(Size(205, 55, 16, 6.5)))
    unmoved, loaded = load_section(section, 0.0), load_section(section, 20.0)
    for s in (-120.0, -60.0, 0.0, 40.0, 80.0, 110.0, 140.0):
        assert unmoved.outer_place(s) == pytest.approx(section.outer_place(s), abs=0.05)
        assert unmoved.liner_place(s) == pytest.approx(section.liner_place(s), abs=0.05)
    assert loaded.outer_place(0.0).r == pytest.approx(loaded.ground)
    assert loaded.outer_place(40.0).x == pytest.approx(40.0, abs=0.05)  # flat: the tape's length is the distance
    assert loaded.liner_place(-120.0).x == pytest.approx(-loaded.liner_place(120.0).x)
    assert loaded.liner_place(0.0).r < section.liner_place(0.0).r - 20.0


def test_a_head_takes_the_greatest_strain_under_it():
    section = draw_section(inputs_of(Size(205, 55, 16, 6.5)))
    bending = load_section(section, 20.0).bending
    assert bending.over(0.0, 20.0) == bending.crown
    edge = bending.blended[1]
    assert bending.over(edge - 30.0, 60.0) == bending.strains.max()
    assert bending.at(-edge) == bending.at(edge)


def test_a_load_past_the_greatest_is_refused_in_words():
    section = draw_section(inputs_of(Size(205, 55, 16, 6.5)))
    assert greatest_load(113) == pytest.approx(28.25)
    assert usual_load(113) == pytest.approx(22.6)
    with pytest.raises(SectionCannotBeDrawn, match=r"29 mm is not shown .* From 0 to 28\.2 mm"):
        load_section(section, 29.0)


def test_a_sidewall_that_cannot_reach_is_none():
    """The belt edge let down below the flange: no cord of that length lies between."""
    curve = draw_section(inputs_of(Size(205, 55, 16, 6.5))).sidewall
    x, r = (float(each) for each in (curve.across(curve.phi_start), curve.radius(curve.phi_start)))
    assert sidewall_under_load(curve, SectionPoint(x + 2 * curve.cord_length, r)) is None


@pytest.mark.parametrize(("inward", "down"), [(92.76, 23.17), (0.0, 300.0), (0.0, None)])
def test_a_belt_edge_where_no_sidewall_has_a_widest_point_is_none(inward, down):
    """Far inward, below the rim, or level with the flange: no load takes it there, and nothing is divided by zero."""
    curve = draw_section(inputs_of(Size(245, 60, 18, 7.0))).sidewall
    x, r = (float(each) for each in (curve.across(curve.phi_start), curve.radius(curve.phi_start)))
    lowest = float(curve.radius(curve.phi_flange))
    assert sidewall_under_load(curve, SectionPoint(x - inward, lowest if down is None else r - down)) is None


@pytest.mark.parametrize(
    "dimensions",
    [
        SectionInputs(608, 288, 354, 435, 248, 239, belt_half_width=74, tread_depth=16.7, under_grooves=23.2),
        SectionInputs(430, 173, 164, 258, 156, 114, tread_depth=20.5, under_grooves=32.6),
    ],
    ids=["its_lines_cross", "no_cord_of_its_length"],
)
def test_a_load_a_stout_tire_has_no_shape_under_is_refused_and_a_lesser_one_is_drawn(dimensions):
    section = draw_section(dimensions)
    height = dimensions.section_height
    with pytest.raises(SectionCannotBeDrawn, match="no shape to show") as refused:
        load_section(section, 0.15 * height)
    assert refused.value.right == "Show it with less load."
    assert load_section(section, 0.01 * height).body.is_valid
