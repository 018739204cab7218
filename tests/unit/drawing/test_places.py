from math import pi, radians, tau

import pytest

from tests.helpers.jobs import crown_injury, earlier_repair
from tests.unit.drawing.scenes_of import assessed, looking_at
from tiremap.assess import assess
from tiremap.drawing.places import (
    mark_at,
    ring_angle,
    ring_point,
    section_place,
    section_point,
    strip_place,
    strip_point,
)
from tiremap.drawing.scene import Symbol, View
from tiremap.drawing.strip_scene import strip_scene
from tiremap.model.job import Job


@pytest.mark.parametrize("from_inside", [True, False])
@pytest.mark.parametrize("s", [-84.0, -30.0, 0.0, 12.5, 84.0])
def test_a_point_of_the_section_is_the_place_it_was_drawn_for(s, from_inside):
    assessment, view = assessed(crown_injury()), View(from_inside=from_inside)
    assert section_place(assessment, view, *section_point(assessment, view, s)) == pytest.approx(s, abs=1e-6)


def test_a_click_above_the_tread_means_the_tread_below_it():
    assessment, view = assessed(crown_injury()), View()
    x, y = section_point(assessment, view, 0.0)
    assert section_place(assessment, view, x, y + 30) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("from_inside", [True, False])
@pytest.mark.parametrize("middle", [0.0, 1.0, pi, 6.2])
@pytest.mark.parametrize("place", [(0.0, 0.0), (40.0, 1.2), (-70.0, 6.27), (5.0, pi)])
def test_a_point_of_the_strip_is_the_place_it_was_drawn_for(place, middle, from_inside):
    assessment, view = assessed(crown_injury()), View(strip_middle=middle, from_inside=from_inside)
    s, a = strip_place(assessment, view, *strip_point(assessment, view, *place))
    assert s == pytest.approx(place[0], abs=1e-9)
    assert (a - place[1] + pi) % tau - pi == pytest.approx(0.0, abs=1e-9)


def test_just_above_the_datum_is_nearly_a_whole_turn():
    assessment, view = assessed(crown_injury()), View()
    _, a = strip_place(assessment, view, 0.0, 1.0)
    assert a == pytest.approx(tau - 1.0 / assessment.strip.R0)


@pytest.mark.parametrize("hour", [12.0, 4.5, 9.0])
@pytest.mark.parametrize("angle", [0.0, 0.4, 3.0, 6.2])
def test_a_point_of_the_ring_is_the_angle_it_was_drawn_for(angle, hour):
    view = View(datum_hour=hour)
    assert ring_angle(view, *ring_point(view, angle, 200.0)) == pytest.approx(angle, abs=1e-9)


def test_a_mark_is_found_where_its_symbol_stands():
    assessment = assessed(crown_injury("1", 20.0, 40.0), earlier_repair("R1", -40.0, 44.0))
    view = looking_at(40)
    for symbol in (mark for mark in strip_scene(assessment, view).marks if isinstance(mark, Symbol)):
        assert mark_at(assessment, view, "strip", symbol.x, symbol.y, 1.0) == symbol.key.split(".")[1]


def test_nothing_is_found_away_from_every_mark():
    assessment, view = assessed(crown_injury("1", 20.0, 40.0)), looking_at(220)
    assert mark_at(assessment, view, "strip", 0.0, 0.0, 5.0) is None
    assert mark_at(assessment, view, "section", -60.0, 316.0, 5.0) is None
    assert mark_at(assessment, view, "ring", 0.0, -300.0, 5.0) is None


def test_between_two_heads_that_overlap_the_nearer_center_is_found():
    assessment, view = assessed(crown_injury("1", 0.0, 40.0), crown_injury("2", 20.0, 40.0)), looking_at(40)
    assert mark_at(assessment, view, "strip", 4.0, 0.0, 1.0) == "1"
    assert mark_at(assessment, view, "strip", 16.0, 0.0, 1.0) == "2"


def test_a_mark_of_unknown_way_around_is_found_anywhere_along_its_line():
    assessment, view = assessed(crown_injury("1", 20.0, None)), looking_at(123)
    x, _ = strip_point(assessment, view, 20.0, 0.0)
    assert mark_at(assessment, view, "strip", x, 77.0, 2.0) == "1"


def test_a_mark_across_the_datum_is_found_on_both_sides_of_it():
    assessment, view = assessed(crown_injury("1", 0.0, 0.5)), looking_at(359)
    for y in (-radians(1.5) * assessment.strip.R0 + 8, -radians(1.5) * assessment.strip.R0 - 8):
        assert mark_at(assessment, view, "strip", 0.0, y, 1.0) == "1"


def test_a_tire_of_unknown_size_has_no_places():
    nothing = assess(Job())
    assert section_place(nothing, View(), 0, 0) is None and strip_place(nothing, View(), 0, 0) is None
    assert mark_at(nothing, View(), "strip", 0, 0, 9.0) is None
