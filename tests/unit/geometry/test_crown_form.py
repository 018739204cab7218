"""The crown's circles: depth, angle and distance across by the formulas of a circle."""

import math

import numpy as np
import pytest

from tiremap.geometry.crown_form import CrownForm

CROWN = CrownForm(
    top=316.0, radius=500.0, tread_half=80.0, belt_half=75.0, outer_belt_half=69.0,
    belts_top=9.5, belts_middle=10.7, ply_top=11.9, ply_bottom=13.0, thickness=14.5,
)  # fmt: skip


def test_the_center_lies_on_the_center_plane_a_crown_radius_below_the_top():
    assert CROWN.center == pytest.approx([0.0, 316.0 - 500.0])


@pytest.mark.parametrize("depth", [0.0, 14.5])
@pytest.mark.parametrize(("since", "to"), [(0.0, 0.16), (0.1, 0.16), (-0.05, 0.12)])
def test_a_line_is_a_circle_about_the_center_from_angle_to_angle(depth, since, to):
    line = CROWN.line(depth, to, 5, since)
    for at, angle in enumerate(np.linspace(since, to, 5)):
        assert line.points[at] - CROWN.center == pytest.approx(
            (500.0 - depth) * np.array([math.sin(angle), math.cos(angle)])
        )
        assert line.directions[at] == pytest.approx([math.cos(angle), -math.sin(angle)])


def test_a_line_starts_on_the_center_plane_unless_told_otherwise():
    assert CROWN.line(2.0, 0.1).points[0] == pytest.approx([0.0, 314.0])


def test_the_tread_edge_lies_as_far_across_as_its_arc_reaches():
    # A twelfth of a circle of 300 mm is 50 pi mm long and reaches half the radius across.
    assert CrownForm.edge_across(50.0 * math.pi, 300.0) == pytest.approx(150.0)


@pytest.mark.parametrize(("x", "depth"), [(0.0, 0.0), (40.0, 0.0), (75.0, 11.9)])
def test_the_angle_at_a_distance_across_leads_there(x, depth):
    angle = CROWN.angle_at(x, depth)
    assert CROWN.line(depth, angle).points[-1, 0] == pytest.approx(x)
    assert math.sin(angle) == pytest.approx(x / (500.0 - depth))
