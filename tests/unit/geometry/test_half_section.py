"""The lines of one half of a section: circles in the crown, parallel to the cord line in the sidewall."""

import math

import numpy as np
import pytest
from shapely import LineString, Point

from tests.helpers.size_grid import Size, inputs_of
from tiremap.geometry.half_section import (
    _angles,
    _belts,
    _inside_distance,
    _ply_joint,
    _tread_rubber_ends,
    _under_belts,
    laid_again,
)
from tiremap.geometry.paths import Path, lengths_along, straight
from tiremap.geometry.rim import rim_form
from tiremap.geometry.section import draw_section
from tiremap.geometry.shoulder import Surface
from tiremap.geometry.sidewall_curve import SidewallCurve

INPUTS = {
    name: inputs_of(size, share, **changes)
    for name, size, share, changes in [
        ("plain", Size(205, 55, 16, 6.5), None, {}),
        ("low", Size(225, 30, 20, 8.0), None, {}),
        ("broad", Size(125, 80, 13, 3.5), 1.0, {}),
        ("past_belts", Size(295, 25, 22, 10.5), 0.70, {}),
        ("thick", Size(235, 55, 18, 7.5), 0.85, {"under_grooves": 10.0}),
    ]
}


@pytest.fixture(params=INPUTS)
def section(request):
    return draw_section(INPUTS[request.param])


@pytest.fixture
def plain():
    return draw_section(INPUTS["plain"])


def cords_of(section):
    """The cord line at the lengths the sidewall's points were laid at."""
    return section.sidewall.path(section.sidewall.angles_at(section.half.joints.sidewall_lengths))


def middle_of(crown):
    return 0.5 * (crown.ply_top + crown.ply_bottom)


def test_the_sidewall_ends_10_mm_of_cord_above_the_flange_or_a_fifth_of_its_cords(section):
    """To the bow of the stretch between: one step along the curve at the flange's own curvature."""
    joints, curve = section.half.joints, section.sidewall
    above = min(10.0, 0.2 * curve.cord_length)
    bead = curve.phi_flange + above * curve.c * float(curve.radius(curve.phi_flange))
    assert joints.sidewall_lengths[0] == pytest.approx(0.0, abs=1e-9)
    assert joints.bead_angle == pytest.approx(min(bead, -0.01))
    assert joints.sidewall_lengths[-1] == pytest.approx(float(curve.length(curve.phi_start) - curve.length(bead)))
    assert curve.cord_length - joints.sidewall_lengths[-1] == pytest.approx(above, rel=0.05)


def test_the_sidewalls_angles_are_even_from_its_start_to_its_widest_point_and_from_there_to_the_bead(plain):
    curve = plain.sidewall
    phi, widest = _angles(curve)
    assert phi[widest] == 0.0 and phi[0] == curve.phi_start
    for steps in (np.diff(phi[: widest + 1]), np.diff(phi[widest:])):
        assert steps == pytest.approx(np.full(len(steps), steps[0]))
        assert steps[0] < 0.0


def test_a_sidewall_that_comes_down_upright_still_has_a_stretch_below_its_widest_point():
    """The flange a hundredth of a radian below the widest point: 10 mm above it would be over that point."""
    curve = SidewallCurve(c=4e-5, xm=100.0, rw=250.0, phi_start=1.0, phi_flange=-0.05)
    phi, widest = _angles(curve)
    assert phi[-1] == -0.01 and phi[widest] == 0.0


def test_the_outer_surface_is_the_crowns_circle_and_then_4_mm_outside_the_cords(section):
    half, crown = section.half, section.crown
    edge = crown.tread_half / crown.radius
    to = int(np.argmax(half.outer.points[:, 0] >= crown.edge_across(crown.tread_half, crown.radius) - 1e-9))
    over = half.outer.points[: to + 1] - crown.center
    assert np.hypot(*over.T) == pytest.approx(crown.radius)
    assert math.atan2(*over[-1]) == pytest.approx(edge)
    cords = cords_of(section).aside(4.0)[half.joints.outside_landing :]
    assert half.outer.points[half.bead_start - len(cords) + 1 : half.bead_start + 1] == pytest.approx(cords, abs=1e-6)


def test_the_ply_is_a_circle_under_the_belts_and_then_the_cord_line(section):
    half, crown = section.half, section.crown
    over = half.ply.points[: half.ply_leaves_belt + 1] - crown.center
    assert np.hypot(*over.T) == pytest.approx(crown.radius - middle_of(crown))
    cords = cords_of(section).points[half.joints.ply_landing :]
    assert half.ply.points[half.ply_landed : half.ply_bead_start + 1] == pytest.approx(cords, abs=1e-6)
    assert half.half_ply == pytest.approx(0.55)
    assert half.ply_top == pytest.approx(half.ply.points + 0.55 * half.ply.outward)
    assert half.ply_bottom == pytest.approx(half.ply.points - 0.55 * half.ply.outward)


def test_the_ply_turns_down_6_mm_inside_the_belts_edge_or_14_inside_the_widest_point(section):
    crown, joints = section.crown, section.half.joints
    radius = crown.radius - middle_of(crown)
    across = min(crown.belt_half - 6.0, section.sidewall.xm - 14.0)
    assert joints.ply_turn == pytest.approx(radius * math.asin(across / radius))
    leaves = section.half.ply.points[section.half.ply_leaves_belt]
    if joints.ply_past_belts:
        # Follows the crown to the belts' edge; the angle is that of the inner belt's under side.
        angle = math.asin(crown.belt_half / (crown.radius - crown.ply_top))
        assert leaves == pytest.approx(crown.center + radius * np.array([math.sin(angle), math.cos(angle)]))
    else:
        assert leaves[0] == pytest.approx(across)


def test_past_the_belts_the_ply_follows_the_crown_1_mm_of_the_tread_further(plain):
    crown = plain.crown
    line, at = _under_belts(crown, 60.0, True)
    edge = crown.angle_at(crown.belt_half, crown.ply_top)
    angles = np.arctan2(*(line.points - crown.center).T)
    assert angles[at] == pytest.approx(edge) and angles[0] == pytest.approx(0.0)
    assert (angles[-1] - angles[at]) * crown.radius == pytest.approx(1.0)
    assert len(line.points) == at + 2
    turned, last = _under_belts(crown, 60.0, False)
    assert last == len(turned.points) - 1
    assert math.atan2(*(turned.points[-1] - crown.center)) * (crown.radius - middle_of(crown)) == pytest.approx(60.0)


def test_only_a_sidewall_nearly_in_line_with_the_crown_takes_the_ply_past_the_belts():
    assert {name: draw_section(inputs).half.joints.ply_past_belts for name, inputs in INPUTS.items()} == {
        "plain": False, "low": False, "broad": False, "past_belts": True, "thick": False,
    }  # fmt: skip


def test_the_liner_is_as_deep_as_the_crown_is_thick_and_2_mm_inside_the_cords(section):
    half, crown = section.half, section.crown
    away = np.hypot(*(half.liner[: len(half.ply.points)] - half.ply.points).T)
    in_crown = slice(0, half.ply_leaves_belt + 1)
    deep = crown.thickness - middle_of(crown)
    assert away[in_crown] == pytest.approx(np.full(half.ply_leaves_belt + 1, deep))
    assert away[half.ply_landed :] == pytest.approx(np.full(len(away) - half.ply_landed, 2.0))
    turn = away[half.ply_leaves_belt : half.ply_landed + 1]
    assert ((turn >= min(deep, 2.0) - 1e-9) & (turn <= max(deep, 2.0) + 1e-9)).all()
    assert half.liner_lengths == pytest.approx(lengths_along(half.liner))


def test_in_the_turn_the_liner_comes_nearer_in_proportion_to_the_length():
    line = straight(np.zeros(2), np.array([10.0, 0.0]), 11)
    ply = Surface(line, 2, 6, 0)
    assert _inside_distance(line, ply, 4.0) == pytest.approx([4, 4, 4, 3.5, 3, 2.5, 2, 2, 2, 2, 2])


def test_the_liners_layer_ends_on_the_seat_beside_the_toe(section):
    half, rim = section.half, rim_form(section.inputs.rim_width, section.inputs.rim_diameter)
    end = half.liner_top_bead[-1]
    assert end[1] == pytest.approx(rim.seat_radius(end[0]))
    assert half.outer.points[half.liner_edge] == pytest.approx(end)
    assert half.liner_edge == len(half.outer.points) - 2
    assert half.outer.points[-1] == pytest.approx(half.liner[-1])  # the toe
    assert half.outer.directions[half.liner_edge] == pytest.approx(half.outer.directions[-1])
    assert len(half.outer.points) == len(half.outer.directions)
    assert half.liner_top_bead[0] == pytest.approx(half.ply_bottom[-1])
    # As far from the liner all along as it is from the middle of the ply, less half the ply.
    inner = LineString(half.liner)
    assert [inner.distance(Point(point)) for point in half.liner_top_bead[:-1]] == pytest.approx(
        [1.45] * (len(half.liner_top_bead) - 1), abs=0.1
    )


def test_lines_laid_again_with_their_joints_are_the_same(section):
    half, rim = section.half, rim_form(section.inputs.rim_width, section.inputs.rim_diameter)
    again = laid_again(section.crown, cords_of(section), rim, half.joints)
    assert again.outer.points == pytest.approx(half.outer.points, abs=1e-6)
    assert again.liner == pytest.approx(half.liner, abs=1e-6)
    assert again.joints is half.joints


def test_the_belts_end_at_their_widths_and_lie_at_their_depths(section):
    crown, (top, step, under) = section.crown, section.half.belts
    for line, depth in ((top, crown.belts_top), (step, crown.belts_middle)):
        assert np.hypot(*(line - crown.center).T) == pytest.approx(crown.radius - depth)
    assert top[0] == pytest.approx([0.0, crown.top - crown.belts_top])
    assert top[-1, 0] == pytest.approx(crown.outer_belt_half)
    # The step begins under the outer belt's edge, on the same line from the crown's center.
    assert math.atan2(*(step[0] - crown.center)) == pytest.approx(math.atan2(*(top[-1] - crown.center)))
    assert (step[-1, 0], under[-1, 0]) == pytest.approx((crown.belt_half, crown.belt_half))
    # A ply that has only begun to turn down is kept off by 0.02 mm.
    lifted = np.hypot(*(under - crown.center).T) - (crown.radius - crown.ply_top)
    assert lifted.min() > -1e-9 and lifted.max() < 0.02
    leaves = section.half.ply_leaves_belt
    assert (under[: leaves + 1] == section.half.ply_top[: leaves + 1]).all()
    angles = np.arctan2(*(under - crown.center).T)
    assert (np.diff(angles) > 0.0).all()
    past = np.arctan2(*(section.half.ply_top - crown.center).T)
    assert angles[leaves + 1 : -1] == pytest.approx(past[leaves + 1 : len(angles) - 1])


def test_a_ply_that_rises_past_the_belts_edge_lifts_it_by_its_own_height_and_a_hair(plain):
    crown = plain.crown
    edge = crown.angle_at(crown.belt_half, crown.ply_top)
    angles = np.concatenate([np.linspace(0.0, 0.6, 7), np.linspace(0.7, 1.1, 5)]) * edge
    rise = np.array([0.0] * 7 + [0.1, 0.3, -0.5, 0.2, 0.2])
    ply_top = crown.center + (crown.radius - crown.ply_top + rise)[:, None] * np.column_stack(
        [np.sin(angles), np.cos(angles)]
    )
    under = _belts(crown, ply_top, 6)[2]
    assert under[:7] == pytest.approx(ply_top[:7])
    assert np.arctan2(*(under[7:] - crown.center).T) == pytest.approx(edge * np.array([0.7, 0.8, 0.9, 1.0]))
    lifted = np.hypot(*(under[7:] - crown.center).T) - (crown.radius - crown.ply_top)
    assert lifted == pytest.approx([0.12, 0.32, 0.0, 0.22])


@pytest.mark.parametrize(
    ("belt_edge", "turned", "end", "beside"),
    [
        (20.4, {}, 7, 7),  # 0.35 of the way from 5 to 10 is reached at 7
        (69.4, {}, 7, 7),
        (69.6, {}, 7, 8),  # no nearer than half a millimeter past the belts
        (80.4, {}, 8, 9),  # from 7 the way there would be too flat
        (20.4, {7: 45.0}, 7, 7),  # a way in is one within 45.6 degrees of the normal
        (20.4, {7: 46.0}, 8, 8),
        (20.4, {7: 90.0, 8: 90.0, 9: 90.0}, 10, 10),
        (20.4, {6: 90.0, 7: 90.0, 8: 90.0, 9: 90.0, 10: 90.0}, 10, 10),
    ],
)
def test_tread_rubber_ends_a_third_of_the_shoulder_down_where_a_way_leads_into_the_rubber(
    belt_edge, turned, end, beside
):
    points = np.array([[10.0 * at, 300.0] for at in range(13)])
    angles = np.radians([turned.get(at, 0.0) for at in range(13)])
    outer = Path(points, np.column_stack([np.cos(angles), -np.sin(angles)]))
    ply = Path(points - (0.0, 12.0), np.repeat([[1.0, 0.0]], 13, axis=0))
    assert _tread_rubber_ends(Surface(outer, 5, 10, 0), ply, belt_edge) == (end, beside)


def test_where_no_landing_is_round_enough_the_ply_takes_the_roundest_past_the_belts(monkeypatch, plain):
    asked = []
    monkeypatch.setattr("tiremap.geometry.half_section.landing_of", lambda *given: asked.append(given))
    monkeypatch.setattr("tiremap.geometry.half_section.roundest_landing", lambda *given: 17)
    turn, past_belts, landing = _ply_joint(plain.crown, cords_of(plain), 24)
    assert (past_belts, landing) == (True, 17)
    assert turn == plain.half.joints.ply_turn
    radius = plain.crown.radius
    assert [given[2:] for given in asked] == [(24, 16.0, (0.3 * radius, 0.1 * radius)), (24, 16.0)]
    assert [len(given[0].points) for given in asked] == [20, 21]
