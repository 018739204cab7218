"""The rim contour part by part: a circle between two lines by its tangent length, the well by its slope."""

import math

import numpy as np
import pytest

from tiremap.geometry.rim import rim_contour, rim_form, seat_and_flange
from tiremap.geometry.section_data import assumed, assumed_list, from_step_table

J = rim_form(165.1, 406.0)  # 6.5 J x 16
FIFTEEN = rim_form(228.6, 572.0)  # 9.00 x 22.5


def turn_of(form):
    """The heel turns from the upright face onto the seat."""
    return 0.5 * math.pi - form.seat_taper


@pytest.mark.parametrize(
    ("form", "radius"),
    [
        (J, 6.0),
        # All of the face under the flange radius, 12.7 - 9.5 mm, is tangent length: T = r tan(turn / 2).
        (FIFTEEN, 3.2 / math.tan(math.radians(37.5))),
    ],
    ids=["J", "15 degrees"],
)
def test_the_heel_is_a_circle_tangent_to_face_and_seat(form, radius):
    tangent = radius * math.tan(0.5 * turn_of(form))
    corner = np.array([form.half_width, form.radius])
    along_seat = np.array([-math.cos(form.seat_taper), -math.sin(form.seat_taper)])
    path = seat_and_flange(form, form.half_width - 16.0, 1.0)
    starts = int(np.argmax(path.points[:, 1] < corner[1] + tangent + 1e-6))
    heel = path.part(starts, len(path.points) - 1)
    assert heel.points[0] == pytest.approx(corner + np.array([0.0, tangent]))
    assert heel.points[-1] == pytest.approx(corner + tangent * along_seat)
    center = corner + np.array([-radius, tangent])
    assert np.hypot(*(heel.points - center).T) == pytest.approx(radius)
    assert heel.directions[1:] == pytest.approx((center - heel.points[1:])[:, ::-1] * (-1.0, 1.0) / radius)


@pytest.mark.parametrize("form", [J, FIFTEEN], ids=["J", "15 degrees"])
def test_the_contact_runs_from_the_angle_on_the_flange_to_the_toe_and_never_back(form):
    path = seat_and_flange(form, form.half_width - 16.0, 0.7)
    center, radius = form.flange_center, form.flange_radius
    assert center == pytest.approx([form.half_width + 9.5, form.radius + form.flange_height - 9.5])
    assert path.points[0] == pytest.approx(center + radius * np.array([-math.cos(0.7), math.sin(0.7)]))
    assert path.points[-1] == pytest.approx([form.half_width - 16.0, form.radius - 16.0 * math.tan(form.seat_taper)])
    assert (np.diff(path.points[:, 1]) < 0.0).all()
    assert (np.diff(path.points[:, 0]) < 1e-9).all()


@pytest.mark.parametrize("form", [J, FIFTEEN], ids=["J", "15 degrees"])
def test_the_contour_runs_from_the_well_over_seat_and_flange_to_its_edge(form):
    line = rim_contour(form)
    seat_end = form.half_width - 19.5
    at_seat = form.radius - 19.5 * math.tan(form.seat_taper)
    floor = form.radius - form.well_depth
    wall = (at_seat - floor) * math.tan(math.radians(25.0))
    assert line[:3] == pytest.approx(np.array([[0.0, floor], [seat_end - wall, floor], [seat_end, at_seat]]))
    top = form.radius + form.flange_height
    assert line[-2:] == pytest.approx(np.array([[form.half_width + 9.5, top], [form.half_width + 11.0, top]]))


@pytest.mark.parametrize(("rim_width", "seat_from"), [(40.0, 7.0), (26.0, 0.0), (20.0, 0.0)])
def test_on_a_rim_too_narrow_for_its_well_the_wall_starts_on_the_center_plane(rim_width, seat_from):
    form = rim_form(rim_width, 406.0)
    line = rim_contour(form)
    assert line[:2, 0].tolist() == [0.0, 0.0]
    assert line[2] == pytest.approx([seat_from, form.seat_radius(seat_from)])


def test_degrees_are_read_as_radians_and_everything_else_as_it_stands():
    assert assumed("rim", "seat_taper") == pytest.approx(math.radians(5.0))
    assert assumed("rim", "flange_height") == 17.5
    assert assumed("shoulder", "lands_within") == 0.6
    assert assumed_list("shoulder", "round_steps") == [1.0, 0.6, 0.35]


@pytest.mark.parametrize(
    ("at", "value"),
    [(0.0, 1.0), (99.0, 1.0), (99.49, 1.0), (99.5, 2.0), (100.0, 2.0), (199.4, 2.0), (199.5, 3.0), (900.0, 3.0)],
)
def test_a_step_table_gives_the_last_step_reached_half_a_millimeter_early(at, value):
    """A rim width or diameter stands rounded to a whole millimeter; below all steps the first one counts."""
    assert from_step_table([[50.0, 1.0], [100.0, 2.0], [200.0, 3.0]], at) == value
