"""What part of the tire the window shows: panels, zoom, pan and turn."""

from math import isclose

import pytest

from tiremap.gestures.panels import (
    GREATEST_RING_SHARE,
    GREATEST_SECTION_SHARE,
    LEAST_RING_SHARE,
    LEAST_SECTION_SHARE,
    panels_in,
    shares_around,
)
from tiremap.gestures.sight import fitted

SECTION, RING, LINER_RADIUS = (-115.0, 190.0, 115.0, 330.0), (-340.0, -340.0, 340.0, 340.0), 302.0
PANELS = panels_in(1000, 700)


def whole():
    return fitted(SECTION, RING, LINER_RADIUS, 0.5, PANELS)


def test_section_and_strip_share_one_across_axis():
    section, strip = PANELS.section, PANELS.strip
    assert (section.left, section.width) == (strip.left, strip.width)
    assert section.top + section.height < strip.top
    for sight in (whole(), whole().zoomed(3, (200, 100), PANELS), whole().panned("strip", 40, 9)):
        above, below = (sight.screen_at(name, (31.0, 0.0), PANELS)[0] for name in ("section", "strip"))
        assert above == pytest.approx(below)


def test_the_ring_takes_the_width_that_the_section_leaves_over():
    section = PANELS.section
    whole_width = section.width + PANELS.ring.width
    share, tall = shares_around(0.65 * whole_width, section.height, PANELS)
    assert share == pytest.approx(0.35) and tall == pytest.approx(GREATEST_SECTION_SHARE)
    wider = panels_in(1000, 700, share)
    assert wider.ring.width == pytest.approx(0.35 * whole_width)
    assert wider.section.height == section.height
    assert shares_around(100, 1, PANELS) == (LEAST_RING_SHARE, LEAST_SECTION_SHARE)
    assert shares_around(1, 100, PANELS) == (GREATEST_RING_SHARE, GREATEST_SECTION_SHARE)


def test_the_strip_takes_the_height_that_a_section_filling_the_width_leaves_over():
    whole_height = PANELS.section.height + PANELS.strip.height
    wide = PANELS.section.width
    ring, tall = shares_around(wide, 0.5 * whole_height, PANELS)
    assert (ring, tall) == pytest.approx((LEAST_RING_SHARE, 0.5))
    panels = panels_in(1000, 700, ring, tall)
    assert panels.section.width / panels.section.height == pytest.approx(wide / (0.5 * whole_height))


@pytest.mark.parametrize("drawing", ["section", "strip", "ring"])
def test_a_millimeter_is_as_long_up_as_across(drawing):
    low, bottom, high, top = whole().zoomed(1.7, None, PANELS).limits(drawing, PANELS)
    panel = PANELS.of(drawing)
    assert panel.width / (high - low) == pytest.approx(panel.height / (top - bottom))


def test_fitted_shows_the_whole_section_and_the_whole_ring():
    for drawing, frame in (("section", SECTION), ("ring", RING)):
        low, bottom, high, top = whole().limits(drawing, PANELS)
        assert low <= frame[0] + 1e-9 and bottom <= frame[1] + 1e-9
        assert high >= frame[2] - 1e-9 and top >= frame[3] - 1e-9
        assert isclose(high - low, frame[2] - frame[0]) or isclose(top - bottom, frame[3] - frame[1])


@pytest.mark.parametrize("about", [(200.0, 100.0), (430.0, 300.0)])
def test_zoom_keeps_the_place_in_the_section_under_the_pointer(about):
    before, after = whole(), whole().zoomed(2.5, about, PANELS)
    assert after.point_at("section", about, PANELS) == pytest.approx(before.point_at("section", about, PANELS))
    assert after.turn == before.turn


def test_zoom_keeps_the_place_on_the_strip_under_the_pointer():
    about = (250.0, PANELS.strip.top + 20)

    def place(sight):
        x, y = sight.point_at("strip", about, PANELS)
        return x, sight.turn * LINER_RADIUS - y

    assert place(whole().zoomed(2.5, about, PANELS)) == pytest.approx(place(whole()))


def test_zoom_in_and_out_by_the_same_factor_is_where_it_was():
    about = (250.0, 120.0)
    there_and_back = whole().zoomed(2, about, PANELS).zoomed(0.5, about, PANELS)
    assert there_and_back.scale == pytest.approx(whole().scale)
    assert there_and_back.across == pytest.approx(whole().across)


@pytest.mark.parametrize("about", [None, (250.0, 600.0)])
def test_zoom_from_the_strip_or_the_keyboard_keeps_the_crown_where_it_stands_in_the_section(about):
    before, after = whole(), whole().zoomed(4, about, PANELS)
    heights = [sight.screen_at("section", (0.0, LINER_RADIUS), PANELS)[1] for sight in (before, after)]
    assert heights[0] == pytest.approx(heights[1])


def test_zoom_stops_at_both_ends():
    assert whole().zoomed(1e9, None, PANELS) == whole().zoomed(1e12, None, PANELS)
    assert whole().zoomed(1e-9, None, PANELS) == whole().zoomed(1e-12, None, PANELS)


def test_a_point_goes_to_the_screen_and_back():
    sight = whole().zoomed(2, (200, 100), PANELS)
    for drawing in ("section", "strip", "ring"):
        screen = sight.screen_at(drawing, (12.0, 210.0), PANELS)
        assert sight.point_at(drawing, screen, PANELS) == pytest.approx((12.0, 210.0))


def test_growing_angle_runs_down_the_strip():
    """With the strip drawn up, what stood below the middle comes to it."""
    assert whole().panned("strip", 0, -30).turn > whole().turn


def test_panning_the_strip_turns_it_and_leaves_the_section_at_its_height():
    after = whole().panned("strip", 0, 60)
    assert after.radius == whole().radius
    assert after.turn == pytest.approx(whole().turn - 60 / whole().scale / LINER_RADIUS)


def test_the_section_cannot_be_panned_out_of_the_window():
    lost = whole().panned("section", 1e6, 1e6)
    assert SECTION[0] <= lost.across <= SECTION[2]
    assert SECTION[1] <= lost.radius <= SECTION[3]


def test_turning_by_a_window_shows_the_next_stretch_of_the_strip():
    before, after = whole(), whole().turned_by(1, PANELS)
    assert (after.turn - before.turn) * LINER_RADIUS == pytest.approx(before.strip_length(PANELS))


def test_mirroring_twice_is_where_it_was():
    sight = whole().zoomed(2, (200, 100), PANELS)
    assert sight.mirrored().across == -sight.across
    assert sight.mirrored().mirrored() == sight
