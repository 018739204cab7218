"""The loaded section against its own description: the belt flattens along its arc, each piece of rubber is followed."""

import math

import numpy as np
import pytest

from tests.helpers.size_grid import CHECK_SIZES, Size, inputs_of
from tiremap.geometry.loaded_section import load_section
from tiremap.geometry.section import SectionCannotBeDrawn, draw_section

HEIGHT = 113.0
"""mm, of 205/55R16; its belt lies flat from 0.04 of it on."""


@pytest.fixture(scope="module")
def section():
    return draw_section(inputs_of(Size(205, 55, 16, 6.5)))


@pytest.mark.parametrize("load", [0.0, 0.25 * HEIGHT])
def test_no_load_and_the_greatest_are_shown(section, load):
    assert load_section(section, load).load == load


@pytest.mark.parametrize("load", [-0.001, 0.25 * HEIGHT + 0.001])
def test_a_load_outside_of_them_is_refused_in_words(section, load):
    with pytest.raises(SectionCannotBeDrawn) as refused:
        load_section(section, load)
    assert str(refused.value).startswith(f"A load that lets the belt edge down by {load:g} mm is not shown")


@pytest.mark.parametrize("share", [1 / 4.52, 0.25, 0.5, 0.75, 1.0, 2.0])
def test_the_belt_flattens_along_its_arc_while_its_edge_comes_down_by_the_load(section, share):
    """Curvature goes with the load down to none at 0.04 of the height; a circle of 1000 m is drawn for straight.

    The first is a load of 1 mm.
    """
    load = round(share * 0.04 * HEIGHT, 9)
    loaded, crown = load_section(section, load), section.crown
    assert loaded.flatness == pytest.approx(min(share, 1.0))
    radius = 820.0 / (1.0 - share) if share < 1.0 else 1e6
    center = loaded.ground - radius
    ply_top = radius - crown.ply_top

    def straightened(half, depth):
        length = (820.0 - depth) * math.asin(half / (820.0 - depth))
        return (radius - depth) * math.sin(length / (radius - depth))

    half = straightened(crown.belt_half, crown.ply_top)
    edge = crown.center[1] + math.sqrt((820.0 - crown.ply_top) ** 2 - crown.belt_half**2)
    assert center + math.sqrt(ply_top**2 - half**2) == pytest.approx(edge - load, abs=1e-7)
    outer, inner = loaded.belts
    assert inner[-1, 0] == pytest.approx(half, abs=1e-7)
    assert outer[-1, 0] == pytest.approx(straightened(crown.outer_belt_half, crown.belts_top), abs=1e-7)
    belt = crown.belts_middle - crown.belts_top
    for line, depth in ((outer, crown.belts_middle - 0.5 * belt), (inner, crown.belts_middle + 0.5 * belt)):
        assert np.hypot(line[:, 0], line[:, 1] - center) == pytest.approx(radius - depth, abs=1e-6)


@pytest.mark.parametrize("load", [2.0, 20.0])
def test_the_sidewall_leaves_from_where_the_belt_edge_took_its_start(section, load):
    loaded = load_section(section, load)
    before, after = (
        curve.points(np.array([curve.phi_start, curve.phi_flange])) for curve in (section.sidewall, loaded.sidewall)
    )
    wider = loaded.belts[1][-1, 0] - section.belts[1][-1, 0]
    assert after[0] == pytest.approx(before[0] + (wider, -load), abs=1e-8)
    assert after[1] == pytest.approx(before[1], abs=1e-8)
    assert loaded.widest_radius_of_curvature == pytest.approx(1.0 / float(loaded.sidewall.curvature(0.0)), rel=1e-12)


@pytest.mark.parametrize("load", [0.0, 2.0, 20.0])
def test_crown_and_sidewall_bend_as_they_are_told_to(section, load):
    """3 mm from the cord line to the face; around, the crown goes from its radius to as straight as it is flat."""
    loaded = load_section(section, load)
    around = float(section.sidewall.radius(section.sidewall.phi_start))
    assert loaded.bending.crown == pytest.approx(3.0 * loaded.flatness / around)
    assert loaded.bending.blended[0] == pytest.approx(section.half.liner_lengths[section.half.ply_leaves_belt])


@pytest.mark.parametrize("load", [2.0, 20.0])
def test_from_the_outer_shoulder_down_each_piece_of_sidewall_stays_at_its_place_on_the_cord(section, load):
    """4 mm of rubber outside the cord line, 2 mm inside."""
    loaded, half, joints = load_section(section, load), section.half, section.half.joints
    kept = max(joints.outside_landing, joints.ply_landing + 1)
    curve = loaded.sidewall
    path = curve.path(curve.angles_at(joints.sidewall_lengths[kept:]))
    count = len(path.points)
    outer = loaded.outer[len(loaded.outer) // 2 :][: half.bead_start + 1]
    liner = loaded.liner_half[: half.ply_bead_start + 1]
    assert outer[-count:] == pytest.approx(path.aside(4.0), abs=1e-6)
    assert liner[-count:] == pytest.approx(path.aside(-2.0), abs=1e-6)


@pytest.mark.parametrize("load", [2.0, 20.0])
def test_the_ply_lands_where_the_sidewall_runs_as_it_ran_there_unloaded(section, load):
    loaded, half, joints = load_section(section, load), section.half, section.half.joints
    angle = section.sidewall.angles_at(joints.sidewall_lengths[[joints.ply_landing]])
    landed = loaded.sidewall.path(angle).aside(-2.0)[0]
    assert loaded.liner_half[half.ply_landed] == pytest.approx(landed, abs=1e-6)


def test_a_ply_that_would_land_past_its_next_point_lands_short_of_it_and_what_is_above_goes_along_in_proportion():
    """A tread as broad as the tire: the outer shoulder lands above the ply, at the 5th point of the cord, not the 10th.

    From the 11th on rubber stays at its place; nine tenths of the way there is where the ply lands at the furthest.
    """
    broad = draw_section(inputs_of(Size(205, 55, 16, 6.5), 1.0))
    loaded, half, joints = load_section(broad, 20.0), broad.half, broad.half.joints
    assert (joints.outside_landing, joints.ply_landing) == (4, 9)
    lengths, curve = joints.sidewall_lengths, loaded.sidewall
    places = np.concatenate([lengths[4:10] * 0.9 * lengths[10] / lengths[9], lengths[10:]])
    path = curve.path(curve.angles_at(places))
    outer = loaded.outer[len(loaded.outer) // 2 :][: half.bead_start + 1]
    liner = loaded.liner_half[: half.ply_bead_start + 1]
    assert outer[-len(places) :] == pytest.approx(path.aside(4.0), abs=1e-6)
    assert liner[half.ply_landed :] == pytest.approx(path.aside(-2.0)[5:], abs=1e-6)


@pytest.mark.parametrize("size", CHECK_SIZES[::3], ids=lambda size: size.name)
def test_without_load_the_belts_are_the_unloaded_ones_to_the_last_digit(size):
    section = draw_section(inputs_of(size))
    for line, unloaded in zip(load_section(section, 0.0).belts, section.belts, strict=True):
        assert (line == unloaded).all()


def test_a_loaded_section_shows_itself_without_the_lines_it_was_laid_from(section):
    assert "flatness=0.0" in repr(load_section(section, 0.0))
    assert "_half=" not in repr(load_section(section, 0.0))


def test_places_are_followed_down_to_the_bead_and_stay_there(section):
    loaded, half = load_section(section, 20.0), section.half
    outer = loaded.outer[len(loaded.outer) // 2 :]
    lengths = half.outer.lengths()
    for at in (10, half.bead_start - 3, half.bead_start - 1, half.bead_start):
        assert loaded.outer_place(lengths[at]) == pytest.approx(outer[at], abs=1e-9)
        assert loaded.outer_place(-lengths[at]) == pytest.approx(outer[at] * (-1.0, 1.0), abs=1e-9)
    assert loaded.outer_place(1000.0) == pytest.approx(outer[half.bead_start], abs=1e-9)
    assert loaded.liner_place(1000.0) == pytest.approx(loaded.liner_half[half.ply_bead_start], abs=1e-9)
    for s, length in zip(*half.liner_feet, strict=True):
        assert loaded.liner_length(s) == pytest.approx(length) == pytest.approx(-loaded.liner_length(-s))
    assert loaded.liner_length(1000.0) == pytest.approx(half.liner_lengths[-1])
    along = half.liner_lengths[half.ply_bead_start - 2]
    s = float(np.interp(along, half.liner_feet[1], half.liner_feet[0]))
    assert loaded.liner_place(s) == pytest.approx(loaded.liner_half[half.ply_bead_start - 2], abs=1e-6)
    assert loaded.liner_half[0] == pytest.approx((0.0, loaded.ground - section.thickness), abs=1e-6)


def test_the_layers_of_a_loaded_tire_are_those_of_the_unloaded_one(section):
    loaded = load_section(section, 20.0)
    assert loaded.layers.keys() == section.layers.keys()
    for name, shape in loaded.layers.items():
        assert shape.is_valid, name
        if "bead_core" in name:  # it sits on the rim, whatever the load
            assert shape.area == pytest.approx(section.layers[name].area, rel=1e-3), name
