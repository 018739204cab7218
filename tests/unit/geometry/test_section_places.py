"""Places by tread coordinate: on circles about one center everything is in proportion; below the crown by the line."""

import math

import numpy as np
import pytest

from tiremap.geometry.crown_form import CrownForm
from tiremap.geometry.paths import Path, arc, lengths_along
from tiremap.geometry.section_places import (
    liner_feet,
    nearest_tread_coordinate,
    place_between,
    place_on_liner,
    place_on_outer,
)
from tiremap.geometry.shoulder import Surface

RADIUS, TOP, THICK, TREAD_HALF = 300.0, 400.0, 14.0, 90.0
CROWN = CrownForm(TOP, RADIUS, TREAD_HALF, 80.0, 74.0, 9.0, 10.0, 11.0, 12.0, THICK)
CENTER = CROWN.center
EDGE = TREAD_HALF / RADIUS  # 0.3 radians


def around(angle, depth=0.0):
    return CENTER + (RADIUS - depth) * np.array([math.sin(angle), math.cos(angle)])


def cornered():
    """A crown of four chords, then straight out 20 mm, then straight down 30 mm: every length is known."""
    crown = CROWN.line(0.0, EDGE, 5)
    across, up = crown.points[-1]
    points = np.array([[across + 20.0, up], [across + 20.0, up - 30.0]])
    down = np.array([[0.0, -1.0], [0.0, -1.0]])
    return Path(np.concatenate([crown.points, points]), np.concatenate([crown.directions, down]))


CORNERED = cornered()
CHORDS = 8.0 * RADIUS * math.sin(EDGE / 8.0)  # four chords of a quarter of the angle each
CORNER = CORNERED.points[-2]


@pytest.mark.parametrize("depth", [0.0, 14.0])
@pytest.mark.parametrize("s", [-90.0, -33.0, 0.0, 10.0, 89.9, 90.0])
def test_up_to_the_tread_edge_and_on_it_a_place_is_on_the_crowns_circle(s, depth):
    assert place_on_outer(CROWN, CORNERED, s, depth) == pytest.approx(around(s / RADIUS, depth), abs=1e-9)


@pytest.mark.parametrize("side", [1.0, -1.0])
@pytest.mark.parametrize("depth", [0.0, 5.0, -2.0])
def test_past_the_tread_edge_a_place_is_read_off_the_line_and_its_normal(side, depth):
    place = place_on_outer(CROWN, CORNERED, side * (CHORDS + 20.0 + 12.0), depth)
    assert place == pytest.approx((side * (CORNER[0] - depth), CORNER[1] - 12.0))


def test_past_the_toe_a_place_stays_at_the_toe():
    assert place_on_outer(CROWN, CORNERED, -500.0, 0.0) == pytest.approx((-CORNER[0], CORNER[1] - 30.0))


def test_a_depth_is_that_deep_where_the_normal_turns_between_two_points():
    """Halfway between the normals straight up and straight out: one along each by its cosine, 45 degrees."""
    ways = np.array([[1.0, 0.0], [1.0, 0.0], [0.0, -1.0]])
    line = Path(np.array([[0.0, 400.0], [80.0, 400.0], [120.0, 370.0]]), ways)
    crown = CrownForm(400.0, 300.0, 60.0, 50.0, 44.0, 9.0, 10.0, 11.0, 12.0, 14.0)
    for side in (1.0, -1.0):
        place = place_on_outer(crown, line, side * 105.0, 10.0)
        assert place == pytest.approx((side * (100.0 - 10.0 / math.sqrt(2.0)), 385.0 - 10.0 / math.sqrt(2.0)))


@pytest.mark.parametrize("depth", [0.0, 14.0, -6.0])
@pytest.mark.parametrize("s", [-85.0, -33.0, 0.0, 10.0, 85.0])
def test_a_place_over_or_under_the_crown_has_the_coordinate_of_its_angle(s, depth):
    assert nearest_tread_coordinate(CROWN, CORNERED, *around(s / RADIUS, depth)) == pytest.approx(s, abs=1e-9)


@pytest.mark.parametrize("side", [1.0, -1.0])
@pytest.mark.parametrize(
    ("out", "down", "further"),
    [
        (0.0, 12.0, 32.0),
        (-3.0, 12.0, 32.0),
        (5.0, 12.0, 32.0),
        (2.0, -2.0, 20.0),  # off the corner: the corner itself
        (-8.0, -1.0, 12.0),
        (0.0, 30.0, 50.0),
        (1.0, 41.0, 50.0),  # past the toe
    ],
)
def test_a_place_beside_the_sidewall_has_the_length_down_to_the_nearest_point(side, out, down, further):
    s = nearest_tread_coordinate(CROWN, CORNERED, side * (CORNER[0] + out), CORNER[1] - down)
    assert s == pytest.approx(side * (CHORDS + further))


def test_a_place_nearest_to_the_crown_is_never_past_the_tread_edge():
    """Under the end of the last chord, where the angle from the crown's center is already past the edge."""
    chord = CORNERED.points[4] - CORNERED.points[3]
    way = chord / np.hypot(*chord)
    under = CORNERED.points[4] - 0.01 * way + 20.0 * np.array([way[1], -way[0]])
    assert math.atan2(under[0], under[1] - CENTER[1]) > EDGE
    assert nearest_tread_coordinate(CROWN, CORNERED, *under) == TREAD_HALF


POINTS = np.array([[0.0, 300.0], [30.0, 300.0], [60.0, 260.0]])


@pytest.mark.parametrize(
    ("along", "place"),
    [(0.0, (0.0, 300.0)), (12.0, (12.0, 300.0)), (-12.0, (-12.0, 300.0)), (55.0, (45.0, 280.0)),
     (-55.0, (-45.0, 280.0)), (99.0, (60.0, 260.0))],
)  # fmt: skip
def test_a_place_at_a_length_along_a_half_line_is_mirrored_inboard(along, place):
    assert place_between(lengths_along(POINTS), POINTS, along) == pytest.approx(place)


@pytest.mark.parametrize(("s", "place"), [(20.0, (10.0, 300.0)), (-60.0, (-30.0, 300.0)), (-110.0, (-60.0, 260.0))])
def test_a_place_on_the_liner_lies_at_the_length_that_belongs_to_its_tread_coordinate(s, place):
    feet = np.array([0.0, 60.0, 110.0]), np.array([0.0, 30.0, 80.0])
    assert place_on_liner(feet, lengths_along(POINTS), POINTS, s) == pytest.approx(place)


def surface(depth, crown_to, angles, landing):
    """On one circle: the crown to an angle, a shoulder to a point of the sidewall, and the rest of the sidewall."""
    turns = np.linspace(crown_to, angles[landing], 9)
    every = np.concatenate([np.linspace(0.0, crown_to, 21), turns[1:], angles[landing + 1 :]])
    right = 0.5 * math.pi
    line = arc(CENTER, RADIUS - depth, right, right - 1.0, 2)
    points = np.array([around(angle, depth) for angle in every])
    return Surface(Path(points, np.zeros_like(line.points)), 20, 28, landing), every


@pytest.mark.parametrize(
    ("begins", "ply_crown", "ply_landing", "outside_landing"),
    [(0.4, 0.25, 2, 6), (0.4, 0.25, 6, 2), (0.2, 0.15, 3, 30)],
    ids=["ply_first", "outside_first", "ply_within_the_tread"],
)
def test_feet_of_circles_about_one_center_are_in_proportion_and_none_lies_between(
    begins, ply_crown, ply_landing, outside_landing
):
    angles = np.linspace(begins, begins + 1.2, 121)
    outside, _ = surface(0.0, EDGE, angles, outside_landing)
    ply, of_ply = surface(12.0, ply_crown, angles, ply_landing)
    ends = np.array([angles[-1] + 0.01, angles[-1] + 0.03])
    liner = np.array([around(angle, THICK) for angle in np.concatenate([of_ply, ends])])
    s, along = liner_feet(CROWN, outside, ply, liner)
    to_landing = of_ply[: ply.landed + 1]
    wanted = np.concatenate([to_landing[to_landing <= EDGE], angles[max(ply_landing, outside_landing) :]])
    assert s[:-1] == pytest.approx(RADIUS * wanted, abs=0.05)  # lengths are those of chords
    assert along[:-1] == pytest.approx((RADIUS - THICK) * wanted, abs=0.05)
    # Below the sidewall the liner's end lies as far on as the outer surface's place beside it.
    end = (RADIUS - THICK) * 0.03
    assert (s[-1] - s[-2], along[-1] - along[-2]) == pytest.approx((end, end), abs=0.001)


def test_where_the_liner_turns_down_inside_the_tread_edge_its_crown_ends():
    """Steeper than 45 degrees is no crown, however far in; a step that rises is."""
    angles = np.linspace(0.4, 1.6, 121)
    outside, _ = surface(0.0, EDGE, angles, 6)
    ply, of_ply = surface(12.0, 0.25, angles, 6)
    liner = np.array([around(angle, THICK) for angle in of_ply])
    # Points 12 and 13 moved: first down, then up.
    fell = liner[11] + np.array([[0.5, -2.0], [1.0, -4.0]])
    turned = np.concatenate([liner[:12], fell, liner[14:]])
    s, along = liner_feet(CROWN, outside, ply, turned)
    assert s[:12] == pytest.approx(RADIUS * of_ply[:12])
    assert along[:12] == pytest.approx(lengths_along(liner)[:12])
    assert s[12] == pytest.approx(outside.path.lengths()[28])
    rose = np.concatenate([liner[:12], liner[12:14] + np.array([0.0, 5.0]), liner[14:]])
    assert liner_feet(CROWN, outside, ply, rose)[0][12] == pytest.approx(
        RADIUS * math.atan2(rose[12, 0], rose[12, 1] - CENTER[1])
    )
