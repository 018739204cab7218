from itertools import combinations

import numpy as np
import pytest
from matplotlib.colors import to_rgb

from tiremap.render.palettes import look, palette, palette_names
from tiremap.resources import read_toml

ANSWERS = ("repairable", "measure_first", "not_repairable")

# Machado, Oliveira, Fernandes: A Physiologically-based Model for Simulation of Color Vision Deficiency (2009),
# severity 1.0, for linear RGB.
SIGHTS = {
    "protan": [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]],
    "deutan": [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]],
    "tritan": [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]],
    "full": np.eye(3),
}
LUMINANCE = np.array([0.2126, 0.7152, 0.0722])  # ITU-R BT.709


def _linear(color: str) -> np.ndarray:
    """Linear RGB of an sRGB color (IEC 61966-2-1)."""
    rgb = np.array(to_rgb(color))
    return np.where(rgb <= 0.04045, rgb / 12.92, ((rgb + 0.055) / 1.055) ** 2.4)


def _lab(linear: np.ndarray) -> np.ndarray:
    to_xyz = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])
    xyz = to_xyz @ np.clip(linear, 0, 1) / np.array([0.9505, 1.0, 1.089])
    f = np.where(xyz > 216 / 24389, np.cbrt(xyz), (24389 / 27 * xyz + 16) / 116)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


def _contrast(one: str, other: str) -> float:
    """Contrast ratio of WCAG 2."""
    dark, light = sorted(float(LUMINANCE @ _linear(each)) for each in (one, other))
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("name", palette_names())
@pytest.mark.parametrize("sight", SIGHTS)
def test_answers_are_told_apart_whatever_colors_one_sees(name, sight):
    colors = palette(name)
    seen = {answer: _lab(np.array(SIGHTS[sight]) @ _linear(colors[answer])) for answer in ANSWERS}
    for one, other in combinations(ANSWERS, 2):
        assert np.linalg.norm(seen[one] - seen[other]) > 20, (one, other)


@pytest.mark.parametrize("name", palette_names())
def test_words_stand_out_from_the_paper(name):
    colors = palette(name)
    for ink, least in (("ink", 7.0), ("quiet", 4.5), ("zone", 4.5), ("free", 4.5)):
        assert _contrast(colors[ink], colors["paper"]) >= least, ink


@pytest.mark.parametrize("name", palette_names())
def test_every_style_has_its_colors_in_every_palette(name):
    assert set(palette(name)) == set(palette("light"))
    for style in read_toml("drawing", "styles.toml")["styles"]:
        assert look(style, name).weight > 0


def test_only_not_repairable_earlier_repairs_and_free_places_are_hatched_and_not_alike():
    styles = read_toml("drawing", "styles.toml")["styles"]
    hatches = {name: style["hatch"] for name, style in styles.items() if "hatch" in style}
    assert set(hatches) == {"head_not_repairable", "head_earlier", "free_places"}
    assert len(set(hatches.values())) == len(hatches)


def test_rubber_grows_lighter_from_tread_to_liner_on_paper():
    colors = palette("light")
    layers = [float(LUMINANCE @ _linear(colors[layer])) for layer in ("tread", "sidewall", "belts", "ply", "liner")]
    assert layers == sorted(layers)


def test_nothing_on_screen_is_written_under_two_and_a_half_millimeters():
    heights = read_toml("drawing", "styles.toml")["text"]
    assert min(heights["screen"].values()) >= 2.5 and min(heights["large"].values()) > 2.5
    assert set(heights["paper"].values()) <= {1.8, 2.5, 3.5, 5.0}  # ISO 3098 steps
