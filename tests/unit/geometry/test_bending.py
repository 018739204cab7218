"""Strains of a loaded tire worked out by hand on curves and lines of plain figures."""

import math
from types import SimpleNamespace

import numpy as np
import pytest

from tiremap.geometry.bending import Bending, bending_of
from tiremap.geometry.sidewall_curve import SidewallCurve

FACE = 3.0
"""mm from the cord line to the inner face of a head, ``resources/dimensions/loaded.toml``."""
BENDING = Bending(
    lengths=np.array([0.0, 10.0, 20.0, 30.0, 40.0]), strains=np.array([0.01, 0.02, 0.05, 0.03, 0.04]),
    blended=(10.0, 20.0), crown=0.01, widest=0.05, widest_at=20.0,
)  # fmt: skip


@pytest.mark.parametrize(
    ("length", "strain"), [(0.0, 0.01), (5.0, 0.015), (-15.0, 0.035), (20.0, 0.05), (-30.0, 0.03), (99.0, 0.04)]
)
def test_between_two_lengths_the_strain_is_in_proportion_on_either_side(length, strain):
    assert BENDING.at(length) == pytest.approx(strain)


@pytest.mark.parametrize(
    ("length", "reach", "strain"),
    [
        (0.0, 5.0, 0.015),  # between the lengths: at an end
        (20.0, 5.0, 0.05),  # the middle is worse than both ends
        (15.0, 5.0, 0.05),  # just reached
        (25.0, 5.0, 0.05),
        (-15.0, 5.0, 0.05),  # inboard as outboard
        (-34.0, 3.0, 0.037),
        (-34.0, 1.0, 0.035),
        (26.0, 5.0, 0.048),
        (3.0, 9.0, 0.026),
    ],
)
def test_a_head_takes_the_greatest_strain_from_end_to_end(length, reach, strain):
    assert BENDING.over(length, reach) == pytest.approx(strain)


UNLOADED = SidewallCurve(1.0 / 5100.0, 107.0, 250.0, math.radians(30.0), math.radians(-60.0))
LOADED = SidewallCurve(1.0 / 4000.0, 110.0, 240.0, math.radians(40.0), math.radians(-80.0))
UPPER = float(UNLOADED.length(UNLOADED.phi_start))
FROM_START = np.array([0.0, 0.5 * UPPER, UPPER, UPPER + 8.0, UPPER + 11.0])
LINER = np.array([0.0, 30.0, 50.0, 62.0, 70.0, 73.0, 90.0])
"""Lengths along the liner: ply off the belts at 50 (index 2), landed at 62 (index 3); the bead from 90 on."""
HALF = SimpleNamespace(
    joints=SimpleNamespace(sidewall_lengths=FROM_START, ply_landing=1),
    liner=np.column_stack([0.6 * LINER, 300.0 - 0.8 * LINER]),
    ply_leaves_belt=2,
    ply_landed=3,
)


def bent_at(lengths):
    """Change of curvature there, 1/mm, times the distance of the face."""
    before = UNLOADED.radius(UNLOADED.angles_at(lengths)) / 5100.0
    return FACE * (LOADED.radius(LOADED.angles_at(lengths)) / 4000.0 - before)


def test_the_crown_is_bent_from_its_radius_around_to_as_flat_as_it_is():
    assert bending_of(HALF, UNLOADED, LOADED, 300.0, 1.0).crown == pytest.approx(FACE / 300.0)
    assert bending_of(HALF, UNLOADED, LOADED, 250.0, 0.25).crown == pytest.approx(FACE / 1000.0)


def test_strains_lie_on_the_liner_where_their_rubber_does():
    bending = bending_of(HALF, UNLOADED, LOADED, 300.0, 1.0)
    assert bending.blended == pytest.approx((50.0, 62.0))
    assert bending.lengths[0] == 0.0
    assert (bending.lengths[1], *bending.lengths[-4:]) == pytest.approx((50.0, 62.0, 70.0, 73.0, 90.0))
    assert (np.diff(bending.lengths) > 0.0).all()
    assert [bending.at(each) for each in (0.0, 30.0, 50.0)] == pytest.approx([0.01, 0.01, 0.01])
    assert [bending.at(each) for each in LINER[3:]] == pytest.approx(bent_at(FROM_START[1:]), rel=1e-9)


@pytest.mark.parametrize(("share", "turned"), [(0.0, 0.0), (0.25, 10 / 64), (0.5, 0.5), (0.75, 54 / 64), (1.0, 1.0)])
def test_crown_and_sidewall_are_blended_without_a_corner(share, turned):
    """``3 share^2 - 2 share^3``: level at both ends."""
    bending = bending_of(HALF, UNLOADED, LOADED, 300.0, 1.0)
    sidewall = float(bent_at(FROM_START[1:2])[0])
    assert bending.at(50.0 + 12.0 * share) == pytest.approx(0.01 + turned * (sidewall - 0.01), rel=1e-9)


def test_the_strain_at_the_widest_point_is_told_with_its_place():
    bending = bending_of(HALF, UNLOADED, LOADED, 300.0, 1.0)
    assert bending.widest == pytest.approx(float(bent_at(np.array([UPPER]))[0]), rel=1e-9)
    assert bending.widest_at == pytest.approx(70.0)


def test_a_curve_compared_with_itself_is_not_bent():
    bending = bending_of(HALF, UNLOADED, UNLOADED, 300.0, 0.0)
    assert not bending.strains.any()
    assert (bending.crown, bending.widest) == (0.0, 0.0)
