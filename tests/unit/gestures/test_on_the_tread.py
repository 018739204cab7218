"""Choosing, placing and dragging marks, by feeding points in mm."""

from math import pi

import pytest

from tests.helpers.played import played
from tiremap.gestures.on_the_tread import HeldMark, hold_mark, press_free_tread
from tiremap.gestures.pointer import Pointer
from tiremap.gestures.wishes import Choose, MoveMark, PlaceInjury, PutBack, TryPlace

TREAD_RADIUS = 316.0


def at(happening, x, y=0.0, straight=False):
    """A happening on a drawing shown at 2 px per mm."""
    return Pointer(happening, x, y, (2 * x, -2 * y), straight)


def on_section(point):
    return point[0], None


def on_strip(point):
    return point[0], -point[1] / TREAD_RADIUS


def mark(across=30.0, around=1.0):
    return HeldMark("2", across, around, TREAD_RADIUS)


def test_a_press_on_a_mark_chooses_it_and_a_click_does_no_more():
    assert played(hold_mark(at("press", 30), mark(), on_strip), at("release", 30)) == [Choose("2"), None]


def test_a_hand_that_slips_a_pixel_has_still_clicked():
    wishes = played(hold_mark(at("press", 30), mark(), on_strip), at("move", 30.5), at("release", 30.5))
    assert wishes == [Choose("2"), None, None]


def test_a_drag_tries_each_place_and_moves_the_mark_once():
    wishes = played(
        hold_mark(at("press", 31), mark(), on_section), at("move", 41), at("move", 51), at("release", 51)
    )
    assert wishes == [Choose("2"), TryPlace("2", 40.0, None), TryPlace("2", 50.0, None), MoveMark("2", 50.0, None)]


def test_a_mark_keeps_its_distance_from_the_hand_that_seized_it_off_center():
    wishes = played(hold_mark(at("press", 33), mark(across=30.0), on_section), at("move", 20), at("release", 20))
    assert wishes[-1] == MoveMark("2", 17.0, None)


def test_a_drag_falls_on_tenths_of_a_millimeter():
    wishes = played(hold_mark(at("press", 30), mark(), on_section), at("move", 40), at("release", 41.2345))
    assert wishes[-1] == MoveMark("2", 41.2, None)


def test_a_drag_around_falls_on_tenths_of_a_millimeter_along_the_tread():
    last = played(hold_mark(at("press", 30), mark(), on_strip), at("move", 30, -20), at("release", 30, -20.03))[-1]
    along = last.around * TREAD_RADIUS
    assert along == pytest.approx(TREAD_RADIUS + 20.0, abs=0.05 + 1e-9)
    assert along * 10 == pytest.approx(round(along * 10), abs=1e-6)


def test_a_drag_straight_up_leaves_the_taped_place_across_as_it_was_measured():
    held = mark(across=31.75)
    last = played(hold_mark(at("press", 31), held, on_strip), at("move", 32, -20), at("release", 32, -20))[-1]
    assert last == MoveMark("2", None, pytest.approx(1.0 + 20 / TREAD_RADIUS, abs=0.1 / TREAD_RADIUS))


def test_a_drag_straight_across_leaves_the_way_around_as_it_was_measured():
    last = played(hold_mark(at("press", 31), mark(), on_strip), at("move", 51, -1), at("release", 51, -1))[-1]
    assert last == MoveMark("2", 50.0, None)


def test_a_drag_kept_straight_changes_only_the_direction_gone_further():
    def kept_straight(x, y):
        gesture = hold_mark(at("press", 31), mark(across=31.75), on_strip)
        return played(gesture, at("move", x, y, True), at("release", x, y, True))[-1]

    down, sideways = kept_straight(36, -20), kept_straight(51, -5)
    assert (down.across, down.around) == (None, pytest.approx(1 + 20 / TREAD_RADIUS, abs=0.1 / TREAD_RADIUS))
    assert (sideways.across, sideways.around) == (51.8, None)


def test_a_drag_across_the_datum_comes_out_on_the_other_side_of_it():
    held = mark(around=0.01)
    last = played(hold_mark(at("press", 30), held, on_strip), at("move", 30, 10), at("release", 30, 10))[-1]
    assert last.around == pytest.approx(2 * pi + 0.01 - 10 / TREAD_RADIUS, abs=0.1 / TREAD_RADIUS)


def test_dragging_a_mark_whose_way_around_is_unknown_puts_it_where_the_hand_is():
    held = mark(around=None)
    last = played(hold_mark(at("press", 30, -50), held, on_strip), at("move", 40, -60), at("release", 40, -60))[-1]
    assert last == MoveMark("2", 40.0, pytest.approx(60 / TREAD_RADIUS, abs=0.1 / TREAD_RADIUS))


def test_a_drag_given_up_puts_the_mark_back():
    wishes = played(hold_mark(at("press", 30), mark(), on_strip), at("move", 60), at("cancel", 60))
    assert wishes == [Choose("2"), TryPlace("2", 60.0, None), PutBack("2")]


def test_a_drag_that_ends_where_it_began_moves_nothing():
    wishes = played(hold_mark(at("press", 30), mark(), on_strip), at("move", 60), at("release", 30))
    assert wishes[-1] == PutBack("2")


def test_a_hand_that_leaves_the_tread_holds_the_mark_at_the_last_place_on_it():
    def to_the_edge(point):
        return (point[0], None) if point[0] < 80 else None

    wishes = played(
        hold_mark(at("press", 30), mark(), to_the_edge), at("move", 70), at("move", 90), at("release", 90)
    )
    assert wishes[-1].across == 70.0


def test_a_click_on_free_tread_places_an_injury_where_the_hand_went_down():
    wishes = played(press_free_tread(at("press", 12.34, -50), on_strip, TREAD_RADIUS), at("release", 13, -50))
    assert wishes == [None, PlaceInjury(12.3, pytest.approx(50 / TREAD_RADIUS))]


def test_a_click_on_the_section_says_nothing_about_the_way_around():
    wishes = played(press_free_tread(at("press", -8.0), on_section, TREAD_RADIUS), at("release", -8.0))
    assert wishes[-1] == PlaceInjury(-8.0, None)


@pytest.mark.parametrize("ending", [[at("move", 60)], [at("cancel", 12)]])
def test_a_hand_that_slips_away_or_gives_up_places_nothing(ending):
    assert played(press_free_tread(at("press", 12), on_strip, TREAD_RADIUS), *ending)[-1] is None


def test_a_click_beside_the_tread_places_nothing():
    wishes = played(press_free_tread(at("press", 200), lambda _: None, TREAD_RADIUS), at("release", 200))
    assert wishes[-1] is None
