"""The loaded section against worked numbers: the sidewall is bent several times as hard as the crown.

205/55R16 with its belt edge 20 mm lower: the cord line at the widest point goes from a radius of 50 to about 30 mm
and the crown around from 300 mm to straight, so a head 3 mm inside the cord line follows 3 x (1/30 - 1/50) = 4 % in
the sidewall and 3 / 300 = 1 % in the crown (formula: change of curvature times distance, elementary bending; the
curve's family: Purdy, in Clark (ed.), Mechanics of Pneumatic Tires, US DOT 1981). Ranges accepted: 47-53 to 29-32 mm,
3.5-5 times.
"""

import math

import pytest

from tests.helpers.size_grid import CHECK_SIZES, Size, inputs_of
from tiremap.geometry.loaded_data import turns_per_km
from tiremap.geometry.loaded_section import load_section
from tiremap.geometry.membrane import arc_radius, radius_of_arc
from tiremap.geometry.section import draw_section

FIRST = Size(205, 55, 16, 6.5)


@pytest.fixture
def section():
    return draw_section(inputs_of(FIRST))


def test_the_radius_at_the_widest_point_goes_from_about_50_to_about_30_mm(section):
    assert 47 <= load_section(section, 0.0).widest_radius_of_curvature <= 53
    assert 29 <= load_section(section, 20.0).widest_radius_of_curvature <= 32


def test_the_sidewall_is_bent_three_and_a_half_to_five_times_as_hard_as_the_crown(section):
    bending = load_section(section, 20.0).bending
    assert bending.crown == pytest.approx(3 / 300, rel=0.02)
    assert 3.5 <= bending.widest / bending.crown <= 5
    assert bending.widest == pytest.approx(0.038, abs=0.002)


def test_low_sections_reach_far_more(section):
    """Up to fifteen times on low sections: the lesson does not grow milder with a sporty tire."""
    low = draw_section(inputs_of(Size(295, 25, 22, 10.5)))
    bending = load_section(low, 0.25 * low.inputs.section_height).bending
    assert 10 <= bending.widest / bending.crown <= 16


def test_turns_per_kilometer_of_a_tire_rolling_on_its_free_radius():
    """632 mm across turns 1e6 / (pi 632) = 503.7 times; 20 mm of deflection take a third off the radius."""
    assert turns_per_km(632, 0.0) == pytest.approx(1e6 / (math.pi * 632))
    assert turns_per_km(632, 20.0) == pytest.approx(1e6 / (2 * math.pi * (316 - 20 / 3)), rel=1e-6)


@pytest.mark.parametrize("size", CHECK_SIZES, ids=lambda size: size.name)
def test_the_arc_of_the_same_length_and_chord_tells_the_same_story(size):
    """The membrane sidewall (a circular arc; Rotta 1949) is bent tighter by the load too, within a quarter of ours."""
    section = draw_section(inputs_of(size))
    loaded = load_section(section, 0.2 * section.inputs.section_height)
    before, after = arc_radius(section.sidewall), arc_radius(loaded.sidewall)
    assert after < before
    assert after == pytest.approx(loaded.widest_radius_of_curvature, rel=0.25)


def test_a_half_circle_is_the_arc_of_pi_times_its_radius():
    assert radius_of_arc(math.pi * 40, 80) == pytest.approx(40)
    assert radius_of_arc(40 * math.pi / 3, 40) == pytest.approx(40)  # 60 degrees: the chord is the radius
    assert math.isinf(radius_of_arc(50, 50))
