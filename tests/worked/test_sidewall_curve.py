"""The sidewall curve against numbers from outside it.

Equilibrium: Purdy; Clark (ed.), Mechanics of Pneumatic Tires, US DOT 1981. Width against rim: UN tire regulations
(section width grows 0.4 mm for each mm of rim). Widest point: patents give 0.48-0.52 of the section height.
"""

import dataclasses
import math

import numpy as np
import pytest

from tests.helpers.size_grid import CHECK_SIZES, inputs_of
from tiremap.geometry.bracketing import root_between
from tiremap.geometry.cord_line import cord_line_of, cord_radius, flange_contact
from tiremap.geometry.frames import SectionPoint
from tiremap.geometry.rim import rim_form
from tiremap.geometry.sidewall_curve import sidewall_through

names = [size.name for size in CHECK_SIZES]


def cord_of(size, **changes):
    inputs = inputs_of(size, **changes)
    return cord_line_of(inputs, rim_form(inputs.rim_width, inputs.rim_diameter))


def circle_curvature(first, middle, last):
    """Curvature of the circle through three points: 4 * area / product of the sides."""
    (ax, ay), (bx, by), (cx, cy) = first, middle, last
    twice_area = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay)
    sides = math.dist(first, middle) * math.dist(middle, last) * math.dist(first, last)
    return 2.0 * twice_area / sides


@pytest.mark.parametrize("size", CHECK_SIZES, ids=names)
def test_curvature_is_proportional_to_radius_all_along_the_drawn_sidewall(size):
    curve = cord_of(size).curve
    points = curve.points(np.linspace(curve.phi_start, curve.phi_flange, 201))
    ratios = [abs(circle_curvature(*points[i - 1 : i + 2])) / points[i, 1] for i in range(1, len(points) - 1)]
    assert np.allclose(ratios, curve.c, rtol=1e-3)


@pytest.mark.parametrize("size", CHECK_SIZES, ids=names)
def test_the_curve_meets_belt_edge_width_and_flange(size):
    inputs = inputs_of(size)
    cord = cord_of(size)
    points = cord.points()
    assert not cord.approximate
    assert points[0] == pytest.approx([inputs.tread_width / 2 - 5, inputs.overall_diameter / 2 - 16], abs=1e-4)
    assert points[-1] == pytest.approx([inputs.rim_width / 2 + 4, inputs.rim_diameter / 2 + 17.5], abs=1e-4)
    assert points[:, 0].max() == pytest.approx(inputs.section_width / 2 - 4, abs=0.05)


def test_cord_length_is_the_length_of_the_drawn_line():
    curve = cord_of(CHECK_SIZES[10]).curve
    points = curve.points(np.linspace(curve.phi_start, curve.phi_flange, 2001))
    assert curve.cord_length == pytest.approx(np.hypot(*np.diff(points, axis=0).T).sum(), abs=1e-3)


def width_gained_per_rim(size, wider=12.7):
    """Hold cord length and belt edge, widen the rim by half an inch, solve for the section width."""
    inputs = inputs_of(size)
    cord = cord_of(size)
    belt = SectionPoint(inputs.belt_half_width_drawn, cord_radius(inputs, inputs.belt_half_width_drawn))
    contact = flange_contact(rim_form(inputs.rim_width + wider, inputs.rim_diameter))

    def too_long(xm):
        return sidewall_through(belt, xm, contact).cord_length - cord.curve.cord_length

    xm = cord.curve.xm
    found = root_between(too_long, xm + 0.1 * wider, xm + 0.35 * wider, 1e-9)
    return 2.0 * (found - xm) / wider


@pytest.mark.parametrize("size", CHECK_SIZES, ids=names)
def test_a_wider_rim_makes_the_section_wider_by_about_the_published_share(size):
    # UN tire regulations: 0.4. The curve gives 0.43-0.46; narrow low sections (165-205 at 35-40) fall outside.
    gained = width_gained_per_rim(size)
    assert 0.35 <= gained <= 0.50
    assert 0.42 <= gained <= 0.47


@pytest.mark.parametrize("size", CHECK_SIZES, ids=names)
def test_the_widest_point_lies_where_patents_put_it(size):
    # Patents: 0.48-0.52 of the section height.
    inputs = inputs_of(size)
    share = (cord_of(size).curve.rw - inputs.rim_diameter / 2) / inputs.section_height
    assert 0.42 <= share <= 0.56


def test_a_curve_that_cannot_leave_the_belt_edge_leaves_the_crown_at_80_degrees():
    # A tread at 0.70 of nominal on a low section.
    size = CHECK_SIZES[names.index("225/30R20")]
    cord = cord_of(size, tread_of_nominal=0.70)
    assert cord.approximate
    assert cord.curve.phi_start == pytest.approx(math.radians(80))
    moved = cord.points()[1, 0] - cord.belt_edge.x
    assert 2 <= moved <= 36


def test_a_belt_wider_than_the_widest_point_starts_the_sidewall_1_mm_inside_it():
    size = CHECK_SIZES[names.index("205/55R16")]
    inputs = dataclasses.replace(inputs_of(size), belt_half_width=110.0)
    cord = cord_line_of(inputs, rim_form(inputs.rim_width, inputs.rim_diameter))
    assert cord.approximate
    assert cord.points()[1, 0] == pytest.approx(inputs.section_width / 2 - 4 - 1, abs=1e-6)
