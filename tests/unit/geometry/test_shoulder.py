"""The shoulder's two arcs against circles laid through their points, and the choice of where they land."""

import math

import numpy as np
import pytest

from tiremap.geometry.paths import Path, arc, straight, two_arcs
from tiremap.geometry.shoulder import Surface, _arcs_to_each, landing_of, roundest_landing, surface_over

CROWN = straight(np.array([0.0, 300.0]), np.array([60.0, 300.0]), 4)
ROUND_CROWN = arc(np.array([0.0, -100.0]), 400.0, 0.5 * math.pi, 0.5 * math.pi - 0.2, 4)


def upright(across, depths):
    """A sidewall straight down, ``across`` mm past the crown's end."""
    points = np.array([[60.0 + across, 300.0 - depth] for depth in depths])
    return Path(points, np.repeat([[0.0, -1.0]], len(points), axis=0))


def leaning(across, depth, angle):
    """One point of a sidewall, its direction ``angle`` radians below level."""
    return Path(np.array([[60.0 + across, 300.0 - depth]]), np.array([[math.cos(angle), -math.sin(angle)]]))


def radius_of(points, ways):
    """Of an arc drawn in even steps, + clockwise: chord over twice the sine of half its turn."""
    turn = ways[0, 1] * ways[1, 0] - ways[0, 0] * ways[1, 1]
    return np.hypot(*(points[1] - points[0])) / (2.0 * math.sin(0.5 * math.asin(turn)))


def test_a_surface_is_crown_shoulder_and_the_rest_of_the_sidewall_with_its_joints_told():
    sidewall = upright(20.0, [0.0, 10.0, 20.0, 30.0, 45.0])
    surface = surface_over(CROWN, sidewall, 2)
    assert isinstance(surface, Surface)
    assert (surface.crown_end, surface.landing) == (3, 2)
    path = surface.path
    assert (path.points[:4] == CROWN.points).all()
    assert (path.points[surface.landed :] == sidewall.points[2:]).all()
    assert (path.directions[surface.landed :] == sidewall.directions[2:]).all()
    # A quarter turn to a point as far down as across is one circle.
    shoulder = path.points[surface.crown_end : surface.landed + 1]
    assert np.hypot(*(shoulder - (60.0, 280.0)).T) == pytest.approx(20.0)
    assert len(path.points) == len(path.directions) == 4 + 18 + 2


@pytest.mark.parametrize(
    "sidewall",
    [
        upright(20.0, [20.0]),
        upright(20.0, [35.0]),
        upright(30.0, [22.0]),
        leaning(20.0, 20.0, 1.2),
        leaning(20.0, 20.0, 1.9),  # already on its way in
        leaning(9.0, 60.0, 1.5),
        leaning(14.0, 50.0, 1.75),
        leaning(40.0, 25.0, 0.9),
        leaning(12.0, 60.0, 1.1),  # hollow
        leaning(5.0, 60.0, 1.45),  # hollow, turns in before
        leaning(40.0, 12.0, 0.3),  # hollow
    ],
)
@pytest.mark.parametrize("crown", [CROWN, ROUND_CROWN], ids=["level", "round"])
def test_the_radii_and_the_furthest_point_are_those_of_the_arcs_as_drawn(crown, sidewall):
    sidewall = Path(sidewall.points - CROWN.points[-1] + crown.points[-1], sidewall.directions)
    first, second, furthest = (float(each[0]) for each in _arcs_to_each(crown, sidewall))
    count = 2001
    arcs = two_arcs(crown.points[-1], crown.directions[-1], sidewall.points[0], sidewall.directions[0], count)
    assert first == pytest.approx(radius_of(arcs.points[:2], arcs.directions[:2]), rel=1e-3)
    assert second == pytest.approx(radius_of(arcs.points[count:], arcs.directions[count:]), rel=1e-3)
    assert furthest == pytest.approx(arcs.points[:, 0].max(), abs=1e-3)
    surface = surface_over(crown, sidewall, 0)
    assert surface.path.points[surface.crown_end : surface.landed + 1][9] == pytest.approx(arcs.points[count - 1])


def test_a_first_arc_that_turns_up_has_no_radius():
    first, _, _ = _arcs_to_each(CROWN, leaning(40.0, -30.0, 0.2))
    assert first[0] == 0.0


@pytest.mark.parametrize(
    ("angle", "across", "turns", "lands"),
    [(3.1, -10.0, (117.1, 60.5), True), (2.8, -10.0, (122.3, 38.1), False),
     (2.2, 20.0, (36.9, 89.1), True), (2.5, 20.0, (36.9, 106.4), False)],
)  # fmt: skip
def test_no_first_arc_turns_more_than_120_degrees_and_no_second_more_than_90(angle, across, turns, lands):
    sidewall = leaning(across, 20.0, angle)
    ways = two_arcs(CROWN.points[-1], CROWN.directions[-1], sidewall.points[0], sidewall.directions[0], 4).directions
    turned = [math.degrees(math.acos(ways[at] @ ways[at + 3])) for at in (0, 3)]
    assert turned == pytest.approx(turns, abs=0.1)
    assert (_arcs_to_each(CROWN, sidewall)[0][0] > 0.0) is np.bool_(lands)


def test_an_arc_that_turns_nothing_is_nearly_straight_and_divides_by_nothing():
    first, second, furthest = _arcs_to_each(CROWN, leaning(40.0, 0.0, 0.0))
    assert first[0] == 0.0
    assert abs(second[0]) > 1e6
    assert np.isfinite(furthest[0])
    hair, _, _ = _arcs_to_each(CROWN, leaning(40.0, 1e-8, 0.0))
    assert hair[0] > 1e6


ROUND, HALF_ROUND, TIGHT, NONE = (10.0, 10.0), (6.0, 6.0), (3.5, 3.5), (0.0, 0.0)
HOLLOWS = [(6.0, -30.0), (3.5, -20.0), (1.5, -10.0), (0.5, -2.0)]
"""A radius of 10 mm wanted: exactly the steps of resources/dimensions/section.toml, [shoulder] round and hollow."""


def landing(monkeypatch, radii, reaches=None, crown=CROWN, radius=10.0, **asked):
    """Where to land on 14 sidewall points 100 mm off the center plane, number 10 the widest, these the arcs to them."""
    first, second = np.array([radii.get(at, NONE) for at in range(14)]).T
    furthest = np.array([(reaches or {}).get(at, 90.0) for at in range(14)])
    monkeypatch.setattr("tiremap.geometry.shoulder._arcs_to_each", lambda *_: (first, second, furthest))
    return landing_of(crown, upright(40.0, range(14)), 10, radius, **asked)


@pytest.mark.parametrize(
    ("radii", "lands"),
    [
        ({}, None),
        ({3: ROUND, 5: ROUND}, 3),  # high up before low down
        ({0: ROUND}, 0),
        ({2: (9.99, 10.0), 3: (10.0, 9.99), 5: ROUND}, 5),  # round before tight, and both arcs must be
        ({2: (5.99, 10.0), 3: (10.0, 5.99), 5: HALF_ROUND}, 5),
        ({2: (3.49, 10.0), 3: (10.0, 3.49), 5: TIGHT}, 5),
        ({2: (3.49, 10.0)}, None),
        ({2: HALF_ROUND, 7: ROUND}, 2),  # within 0.6 of the way to the widest point before further down
        ({6: HALF_ROUND, 7: ROUND}, 6),
        ({6: TIGHT, 10: HALF_ROUND}, 10),
        ({7: HALF_ROUND, 10: ROUND}, 10),
        ({7: TIGHT, 10: HALF_ROUND}, 10),
        ({10: TIGHT}, 10),
        ({11: ROUND}, None),  # without a hollow, none past the widest point
        ({10: TIGHT, 1: HOLLOWS[0]}, 10),  # without a hollow before with one
        ({9: HOLLOWS[0], 1: HOLLOWS[1]}, 9),
        ({9: HOLLOWS[1], 1: HOLLOWS[2]}, 9),
        ({9: HOLLOWS[2], 1: HOLLOWS[3]}, 9),
        ({11: HOLLOWS[3]}, 11),  # with one, past it too
        ({12: HOLLOWS[0]}, None),  # but not on the last two points
        ({13: HOLLOWS[0]}, None),
        ({1: (5.99, -50.0), 9: HOLLOWS[0]}, 9),
        ({1: (9.0, -29.9), 9: HOLLOWS[0]}, 9),
        ({4: (0.49, -50.0)}, None),
        ({4: (50.0, -1.99)}, None),
    ],
)
def test_the_shoulder_lands_without_a_hollow_then_round_then_high_up(monkeypatch, radii, lands):
    assert landing(monkeypatch, radii) == lands


@pytest.mark.parametrize(
    ("radii", "lands"),
    [
        ({1: (80.0, 20.0)}, None),
        ({1: (79.9, 20.0)}, 1),
        ({1: (30.0, -80.0)}, None),
        ({1: (29.9, -80.0)}, 1),
        ({1: (80.0, 20.0), 8: TIGHT}, 8),
    ],
)
def test_an_arc_flatter_than_allowed_is_not_taken_less_so_before_a_hollow(monkeypatch, radii, lands):
    assert landing(monkeypatch, radii, flattest=(80.0, 30.0)) == lands


@pytest.mark.parametrize(("arcs", "flattest"), [((1.0, 0.5), (80.0, 0.9)), ((0.7, -0.5), (0.6, 80.0))])
def test_which_flattest_arc_is_allowed_goes_by_the_hollow_however_small_the_radii(monkeypatch, arcs, flattest):
    assert landing(monkeypatch, {1: arcs}, radius=1.0, flattest=flattest) == 1
    assert landing(monkeypatch, {1: arcs}, radius=1.0, flattest=flattest[::-1]) is None


@pytest.mark.parametrize("side", ["sidewall", "crown"])
@pytest.mark.parametrize(
    ("out", "lands"),
    [
        ({1: 0.0}, 1),
        ({1: -1.0}, 1),
        ({1: 1e-5, 3: 0.0}, 3),  # a worse one that stands out no further goes before
        ({1: 1e-5, 3: 3.0}, 1),
        ({1: 3.99}, 1),
        ({1: 4.0}, 1),
        ({1: 4.01}, None),
        ({1: 4.01, 3: 3.99}, 3),
    ],
)
def test_a_shoulder_stands_out_at_most_4_mm_past_tread_edge_and_widest_point_and_only_if_it_must(
    monkeypatch, out, lands, side
):
    crown = CROWN if side == "sidewall" else straight(np.array([0.0, 300.0]), np.array([110.0, 300.0]), 4)
    reaches = {at: (100.0 if side == "sidewall" else 110.0) + by for at, by in out.items()}
    radii = {1: ROUND, 3: HOLLOWS[3]}
    assert landing(monkeypatch, {at: radii[at] for at in out}, reaches, crown) == lands


def test_the_roundest_landing_has_the_largest_lesser_radius_hollow_or_not(monkeypatch):
    radii = {1: (8.0, 3.0), 2: (2.0, 50.0), 4: (5.0, -6.0), 6: (4.0, 30.0), 12: (90.0, 90.0), 13: (90.0, 90.0)}
    first, second = np.array([radii.get(at, NONE) for at in range(14)]).T
    monkeypatch.setattr("tiremap.geometry.shoulder._arcs_to_each", lambda *_: (first, second, first))
    assert roundest_landing(CROWN, upright(40.0, range(14))) == 4
    first[11], second[11] = 7.0, 7.0  # the last two points are left out, and no more
    assert roundest_landing(CROWN, upright(40.0, range(14))) == 11
