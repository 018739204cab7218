"""Pappus against closed forms."""

import math

import numpy as np
import pytest

from tests.helpers.size_grid import Size, inputs_of
from tiremap.geometry.air_volume import air_volume_l, turned_volume
from tiremap.geometry.section import draw_section


def test_a_rectangle_turned_around_the_axle_is_a_ring():
    ring = np.array([[-50.0, 200.0], [50.0, 200.0], [50.0, 300.0], [-50.0, 300.0]])
    assert turned_volume(ring) == pytest.approx(math.pi * (300**2 - 200**2) * 100)


def test_a_liter_is_a_million_cubic_millimeters():
    ring = np.array([[-50.0, 200.0], [50.0, 200.0], [50.0, 300.0], [-50.0, 300.0]])
    assert air_volume_l(ring) == pytest.approx(math.pi * 5.0, rel=1e-12)  # 50 000 mm^2 of ring, 100 mm wide, times pi


def test_a_circle_turned_around_the_axle_is_a_torus():
    angle = np.linspace(0, 2 * math.pi, 4000, endpoint=False)
    circle = np.column_stack([40 * np.cos(angle), 250 + 40 * np.sin(angle)])
    assert turned_volume(circle) == pytest.approx(2 * math.pi**2 * 250 * 40**2, rel=1e-5)


def test_the_way_around_and_a_shift_across_change_nothing():
    outline = np.array([[-50.0, 200.0], [60.0, 220.0], [30.0, 300.0]])
    assert turned_volume(outline[::-1]) == pytest.approx(turned_volume(outline))
    assert turned_volume(outline + np.array([500.0, 0.0])) == pytest.approx(turned_volume(outline))


def test_a_205_55R16_holds_about_26_liters():
    # 26 L within a tenth: the figure moves with the thicknesses, which are assumed.
    assert draw_section(inputs_of(Size(205, 55, 16, 6.5))).air_volume_l == pytest.approx(26, rel=0.10)


def test_a_thicker_crown_takes_air_from_the_same_outer_size():
    new = draw_section(inputs_of(Size(205, 55, 16, 6.5), tread_depth=8.0))
    thick = draw_section(inputs_of(Size(205, 55, 16, 6.5), under_grooves=11.2))
    assert thick.air_volume_l < new.air_volume_l
    whole_ring = turned_volume(new.outer) - turned_volume(thick.outer)
    assert whole_ring == pytest.approx(0, abs=1e5)
