"""Heads on the strip against discs followed along geodesics of the liner (classic differential geometry).

Sizes: diameter by the size code, crown radius four times the nominal width, and one rounder design with a crown
radius of 359 mm on a 195, the roundest published. Across: center, halfway and the widest tread edge on each side.
"""

import math

import numpy as np
import pytest
import shapely

from tests.helpers.geodesic import geodesic_disc
from tiremap.geometry.footprints import footprint_at_true_scale, head_outline, round_head
from tiremap.geometry.frames import TreadPoint
from tiremap.geometry.liner_strip import Strip, true_area

TIRES = {  # overall diameter, thickness, crown radius, tread half-width; mm
    "205/55R16": (632, 14.5, 820, 89),
    "125/80R13": (530, 13, 500, 55),
    "315/35R20": (728, 15.5, 1260, 143),
    "195/65R15 with a round crown": (635, 14.5, 359, 80),
}
PLACES = [(tire, share) for tire in TIRES for share in (-1, -0.5, 0, 0.5, 1)]
DIAMETERS = (35, 60, 80)


def strip_and_place(tire: str, share: float) -> tuple[Strip, float]:
    diameter, thickness, crown_radius, half_width = TIRES[tire]
    return Strip(diameter, thickness, crown_radius), share * half_width


@pytest.mark.parametrize("head", DIAMETERS)
@pytest.mark.parametrize(("tire", "share"), PLACES)
def test_a_head_covers_the_area_of_a_disc_on_the_liner(tire, share, head):
    strip, s = strip_and_place(tire, share)
    disc = geodesic_disc(*TIRES[tire][:3], strip.liner_across(s), head / 2)
    shape = head_outline(strip, TreadPoint(s, 1), round_head(head))
    assert true_area(strip, shape) == pytest.approx(disc.area, rel=0.01)
    assert footprint_at_true_scale(strip, TreadPoint(s, 1), round_head(head)).area == pytest.approx(disc.area, rel=0.01)


@pytest.mark.parametrize("head", DIAMETERS)
@pytest.mark.parametrize(("tire", "share"), PLACES)
def test_a_heads_outline_lies_within_a_third_of_a_millimeter_of_a_disc_on_the_liner(tire, share, head):
    strip, s = strip_and_place(tire, share)
    disc = geodesic_disc(*TIRES[tire][:3], strip.liner_across(s), head / 2)
    on_strip = shapely.points(disc.across, (1 + disc.around) * strip.R0)
    outline = head_outline(strip, TreadPoint(s, 1), round_head(head)).exterior
    assert shapely.distance(on_strip, outline).max() < 0.3
    on_template = shapely.points(disc.across, disc.around * strip.radius_at(s))
    template = footprint_at_true_scale(strip, TreadPoint(s, 1), round_head(head)).exterior
    assert shapely.distance(on_template, template).max() < 0.3


def test_a_circle_on_the_strip_itself_would_miss_the_disc_by_more_than_is_allowed():
    # What the stretch around is for: without it the outline is 0.4 mm and more off by the shoulder.
    diameter, thickness, crown_radius, half_width = TIRES["205/55R16"]
    strip = Strip(diameter, thickness, crown_radius)
    disc = geodesic_disc(diameter, thickness, crown_radius, strip.liner_across(half_width), 40)
    flat = np.hypot(disc.across - strip.liner_across(half_width), disc.around * strip.R0)
    assert np.abs(flat - 40).max() > 0.4


def test_the_geodesic_disc_on_a_sphere_is_the_spherical_cap():
    # Crown radius equal to half the diameter makes the liner a sphere: area 2 pi R^2 (1 - cos(a / R)).
    sphere = 300
    disc = geodesic_disc(2 * (sphere + 10), 10, sphere + 10, 70, 40)
    assert disc.area == pytest.approx(2 * math.pi * sphere**2 * (1 - math.cos(40 / sphere)), rel=1e-9)
    latitude, start = disc.across / sphere, 70 / sphere
    away = np.arccos(np.sin(latitude) * np.sin(start) + np.cos(latitude) * np.cos(start) * np.cos(disc.around))
    assert away * sphere == pytest.approx(40, abs=1e-6)
