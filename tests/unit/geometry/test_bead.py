"""The bead on its rim: base, core and toe by their shares, lines that touch circles, where the flange takes over.

Figures of ``resources/dimensions/section.toml``: base 16 mm, core 0.2 of it round, 0.4 in and up; 62 to 88 degrees.
"""

import math
from dataclasses import replace

import numpy as np
import pytest

from tiremap.geometry.bead import (
    base_width,
    bead_inside,
    bead_outside,
    core_center,
    core_outline,
    core_radius,
    ply_around_core,
    toe,
)
from tiremap.geometry.paths import cross
from tiremap.geometry.rim import RimForm

RIM = RimForm(82.5, 203.0, 17.5, 9.5, 11.0, 19.5, math.radians(5.0), 6.0, 17.3)
FLANGE = np.array([92.0, 211.0])
"""Center of its flange radius: 82.5 + 9.5 across, 203 + 17.5 - 9.5 up."""
CORE = np.array([82.5 - 6.4, 203.0 + 6.4])
HALF_PLY = 0.5
WRAPPED = 3.2 + HALF_PLY
CLEAR = 9.5 + 0.8 + HALF_PLY


def turned(degrees):
    return np.array([math.cos(math.radians(degrees)), math.sin(math.radians(degrees))])


def downward(phi):
    """The way of a curve at this angle off straight down, degrees, outboard positive."""
    return np.array([math.sin(math.radians(phi)), -math.cos(math.radians(phi))])


@pytest.mark.parametrize(("seat", "base"), [(19.5, 16.0), (17.0, 16.0), (16.5, 15.5), (15.0, 14.0), (13.0, 12.0)])
def test_base_core_and_toe_go_with_the_bead_seat(seat, base):
    rim = replace(RIM, seat_width=seat)
    assert base_width(rim) == base
    assert core_radius(rim) == pytest.approx(0.2 * base)
    assert core_center(rim) == pytest.approx((82.5 - 0.4 * base, 203.0 + 0.4 * base))
    assert toe(rim) == pytest.approx((82.5 - base, 203.0 - base * math.tan(math.radians(5.0))))


@pytest.mark.parametrize(("start", "phi"), [((74.0, 215.0), -20.0), ((70.0, 220.0), 10.0)])
def test_the_inside_runs_smoothly_from_the_core_to_the_toe_and_leans_5_degrees_there(start, phi):
    inside = bead_inside(RIM, np.array(start), downward(phi))
    assert inside.points[0] == pytest.approx(start)
    assert inside.points[-1] == pytest.approx(toe(RIM))
    assert inside.directions[0] == pytest.approx(downward(phi))
    assert inside.directions[-1] == pytest.approx(downward(-5.0))


@pytest.mark.parametrize("start", [(76.0, 235.0), (85.0, 230.0), (90.0, 240.0)])
def test_a_ply_clear_of_the_flange_goes_around_the_core_along_the_line_that_touches_it(start):
    start = np.array(start)
    to_core, wrap = ply_around_core(RIM, start, downward(-10.0), HALF_PLY)
    touched, way = wrap.points[0], wrap.directions[0]
    assert np.hypot(*(wrap.points - CORE).T) == pytest.approx(WRAPPED)
    assert cross(way, touched - start) == pytest.approx(0.0, abs=1e-9)
    assert way @ (touched - start) > 0.0 and way @ (touched - CORE) == pytest.approx(0.0, abs=1e-9)
    assert touched[0] < CORE[0]  # down its inner side, under it and up to 30 degrees
    assert wrap.points[-1] == pytest.approx(CORE + WRAPPED * turned(30.0))
    assert wrap.points[:, 1].min() == pytest.approx(CORE[1] - WRAPPED, abs=0.05)
    assert to_core.points[0] == pytest.approx(start) and to_core.points[-1] == pytest.approx(touched)
    assert to_core.directions[0] == pytest.approx(downward(-10.0)) and to_core.directions[-1] == pytest.approx(way)


@pytest.mark.parametrize("start", [(105.0, 228.0), (100.0, 224.0), (112.0, 231.0)])
def test_a_ply_that_would_run_into_the_flange_goes_over_it_and_touches_flange_and_core(start):
    """Least rubber between ply and flange: 0.8 mm."""
    start = np.array(start)
    to_core, wrap = ply_around_core(RIM, start, downward(-30.0), HALF_PLY)
    touched, way, over = wrap.points[0], wrap.directions[0], to_core.points[-2]
    assert np.hypot(*(wrap.points - CORE).T) == pytest.approx(WRAPPED)
    assert math.dist(over, FLANGE) == pytest.approx(CLEAR)
    assert way @ (over - FLANGE) == pytest.approx(0.0, abs=1e-9)
    assert (touched - over) / math.dist(touched, over) == pytest.approx(way)
    assert way[1] < 0.0 and over[0] < FLANGE[0] and touched[0] < CORE[0]
    assert to_core.points[0] == pytest.approx(start) and to_core.points[-1] == pytest.approx(touched)
    assert to_core.directions[0] == pytest.approx(downward(-30.0))
    assert to_core.directions[-1] == pytest.approx(way) and to_core.directions[-2] == pytest.approx(way)
    assert wrap.points[-1] == pytest.approx(CORE + WRAPPED * turned(30.0))


@pytest.mark.parametrize(("aside", "over_the_flange"), [(0.01, False), (-0.01, True)])
def test_the_line_that_touches_both_circles_parts_the_plies_that_go_over_the_flange(aside, over_the_flange):
    to_core, _ = ply_around_core(RIM, np.array([105.0, 228.0]), downward(-30.0), HALF_PLY)
    over, way = to_core.points[-2], to_core.directions[-1]
    start = over - 15.0 * way + aside * (over - FLANGE) / CLEAR
    again, wrap = ply_around_core(RIM, start, way, HALF_PLY)
    assert (math.dist(again.points[-2], over) < 1e-9) is over_the_flange
    missed = abs(cross(wrap.directions[0], wrap.points[0] - start))
    assert missed == pytest.approx(0.01 if over_the_flange else 0.0, abs=1e-4)


def test_a_ply_that_starts_on_the_core_itself_goes_around_it_from_there():
    _, wrap = ply_around_core(RIM, CORE + 3.0 * turned(150.0), downward(0.0), HALF_PLY)
    assert wrap.points[0] == pytest.approx(CORE + WRAPPED * turned(150.0))


def test_the_core_is_free_from_the_end_of_the_turn_up_over_the_top_to_the_inner_side():
    _, wrap = ply_around_core(RIM, np.array([85.0, 230.0]), downward(-10.0), HALF_PLY)
    free = core_outline(RIM, wrap)
    assert np.hypot(*(free.points - CORE).T) == pytest.approx(3.2)
    assert free.points[0] == pytest.approx(CORE + 3.2 * turned(30.0))
    assert free.points[-1] == pytest.approx(CORE + (wrap.points[0] - CORE) * 3.2 / WRAPPED)
    assert free.points[:, 1].max() == pytest.approx(CORE[1] + 3.2, abs=0.05)


@pytest.mark.parametrize(
    ("start", "phi", "unloaded", "touching"),
    [
        ((105.0, 232.0), -40.0, -40.0, 62.0),
        ((105.0, 232.0), -20.0, -40.0, 62.0),  # it comes in steeper than unloaded
        ((105.0, 232.0), -41.0, -40.0, 63.0),
        ((105.0, 232.0), -50.0, -40.0, 72.0),
        ((105.0, 232.0), -66.0, -40.0, 88.0),
        ((105.0, 232.0), -80.0, -40.0, 88.0),  # no higher than the flange goes
        ((92.0 + 0.8 - 9.5 * math.cos(math.radians(50.0)), 232.0), -10.0, -10.0, 50.0),
        ((92.0 + 0.8 - 9.5 * math.cos(math.radians(61.0)), 232.0), -50.0, -10.0, 61.0),
        ((92.0 + 0.8 - 9.5 * math.cos(math.radians(80.0)), 232.0), -50.0, -10.0, 80.0),
        ((92.0 + 0.8 - 9.5 * math.cos(math.radians(20.0)), 232.0), -10.0, -10.0, 20.0),
    ],
)
def test_the_sidewall_meets_the_flange_higher_where_it_comes_in_flatter_and_lower_where_it_is_near(
    start, phi, unloaded, touching
):
    """In degrees on the flange radius, up from its upright face; lower, so as to stay 0.8 mm inside of its start."""
    outside = bead_outside(RIM, np.array(start), downward(phi), math.radians(unloaded))
    away = np.hypot(*(outside.points - FLANGE).T)
    met = int(np.argmax(away < 9.5 + 1e-9))
    assert outside.points[met] == pytest.approx(FLANGE + 9.5 * turned(180.0 - touching), abs=1e-6)
    assert outside.directions[met] == pytest.approx(turned(270.0 - touching), abs=1e-6)
    assert outside.points[0] == pytest.approx(start) and outside.directions[0] == pytest.approx(downward(phi))
    assert outside.points[-1] == pytest.approx(toe(RIM))


@pytest.mark.parametrize("across", [82.0, 83.3])
def test_a_sidewall_that_starts_no_further_out_than_the_flange_face_meets_it_at_its_upper_end(across):
    outside = bead_outside(RIM, np.array([across, 232.0]), downward(-10.0), math.radians(-10.0))
    assert np.isfinite(outside.points).all()
    assert np.hypot(*(outside.points - (82.5, 211.0)).T).min() == pytest.approx(0.0, abs=1e-9)
