"""The answers are told apart whoever looks, and every word and mark stands off its ground. Figures: color_vision.py."""

from itertools import combinations, pairwise

import pytest

from tests.helpers.color_vision import DEFICIENCIES, contrast, distance, lightness, linear, seen_with
from tiremap.drawing.lettering import style
from tiremap.render.palettes import look, palette
from tiremap.ui.palettes import THEMES

ANSWERS = ("repairable", "measure_first", "not_repairable")
NAMES = ("light", "dark", "projector")
WORDS = {"light": 4.5, "dark": 4.5, "projector": 7.0}
"""Least contrast of text: WCAG 2.1, 1.4.3 (AA), and 1.4.6 (AAA) where a beamer washes the picture out."""
MARKS = 3.0
"""Least contrast of what is not text: WCAG 2.1, 1.4.11."""
GROUNDS = ("window", "base", "raised")


def of_theme(name):
    """The colors of a window theme by name."""
    return vars(THEMES[name])


def colors_of(place, name):
    """The colors of the drawing or of the window."""
    return palette(name) if place == "drawing" else of_theme(name)


def laid_over(ground, color, alpha):
    """A color that lets the ground through, mixed as screens do: channel by channel."""
    mixed = (round((1 - alpha) * int(ground[at:at + 2], 16) + alpha * int(color[at:at + 2], 16)) for at in (1, 3, 5))
    return "#" + "".join(f"{each:02x}" for each in mixed)


@pytest.mark.parametrize("deficiency", DEFICIENCIES)
@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("place", ["drawing", "window"])
def test_the_answers_are_told_apart_with_one_kind_of_cone_missing(place, name, deficiency):
    seen = [seen_with(deficiency, colors_of(place, name)[answer]) for answer in ANSWERS]
    assert min(distance(first, second) for first, second in combinations(seen, 2)) >= 30


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("place", ["drawing", "window"])
def test_the_answers_differ_in_grey(place, name):
    """Ten steps of lightness: about four times what is just seen side by side (2.3; Mahy and others 1994)."""
    greys = [lightness(colors_of(place, name)[answer]) for answer in ANSWERS]
    assert min(abs(first - second) for first, second in combinations(greys, 2)) >= 10


def test_the_simulation_leaves_grey_as_it_is_and_takes_red_from_green():
    """Each row of a published matrix adds up to 1; mixed-up figures would tint grey."""
    for deficiency in DEFICIENCIES:
        assert distance(seen_with(deficiency, "#808080"), linear("#808080")) < 0.1
    usual = distance(linear("#c00000"), linear("#606000"))
    assert distance(seen_with("deuteranopia", "#c00000"), seen_with("deuteranopia", "#606000")) < usual / 3


def test_contrast_is_21_between_black_and_white_and_grey_has_its_published_lightness():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert lightness("#777777") == pytest.approx(50.03, abs=0.05)  # sRGB 119 is the middle grey, L* 50


def test_the_answers_also_differ_by_hatch_and_dash_in_the_drawing():
    looks = {(look(f"head_{answer}", "light").hatch, look(f"head_{answer}", "light").dashes) for answer in ANSWERS}
    assert len(looks) == 3


@pytest.mark.parametrize("name", NAMES)
def test_the_words_of_the_window_stand_off_every_ground(name):
    theme = of_theme(name)
    pairs = [(word, ground) for word in ("text", "faint", "fault") for ground in GROUNDS] + [("on_accent", "accent")]
    low = {pair: contrast(theme[pair[0]], theme[pair[1]]) for pair in pairs}
    assert min(low.values()) >= WORDS[name], low


@pytest.mark.parametrize("name", NAMES)
def test_the_marks_and_the_edges_of_controls_stand_off_every_ground(name):
    """Measure first is told by its dark outline: on a light ground yellow stands off nothing."""
    theme = of_theme(name)
    marks = ("repairable", "ink", "not_repairable", "edge", "accent")
    low = {(mark, ground): contrast(theme[mark], theme[ground]) for mark in marks for ground in GROUNDS}
    assert min(low.values()) >= MARKS, low


@pytest.mark.parametrize("name", NAMES)
def test_the_words_of_the_drawing_stand_off_the_paper_they_are_backed_with(name):
    colors = palette(name)
    labels = ("label", "label_quiet", "label_zone", "label_free", "label_mark", "label_bend", "dimension",
              "dimension_zone")
    low = {label: contrast(colors[style(label)["color"]], colors["paper"]) for label in labels}
    assert min(low.values()) >= WORDS[name], low


@pytest.mark.parametrize("name", NAMES)
def test_the_lines_before_a_class_stand_off_the_paper(name):
    colors = palette(name)
    lines = ("unloaded", "road", "bend_curve", "axis", "lane", "lane_own", "lane_maker", "head_compared", "stripe")
    low = {line: contrast(colors[style(line)["stroke"]], colors["paper"]) for line in lines}
    assert min(low.values()) >= MARKS, low


@pytest.mark.parametrize("name", NAMES)
def test_the_tones_of_bending_darken_evenly_in_grey(name):
    """Laid over the paper each tone differs from the next by more than is just seen side by side (2.3)."""
    greys = [lightness(laid_over(palette(name)["paper"], palette(name)["bend"], style(f"bend_{tone}")["fill_alpha"]))
             for tone in range(5)]
    steps = [abs(first - second) for first, second in pairwise(greys)]
    assert min(steps) > 2.3 and greys in (sorted(greys), sorted(greys, reverse=True))


@pytest.mark.parametrize("name", NAMES)
def test_the_marks_of_the_drawing_stand_off_crown_and_shoulder(name):
    colors = palette(name)
    marks = ("repairable", "ink", "not_repairable", "earlier", "chosen", "zone")
    low = {(mark, under): contrast(colors[mark], colors[under]) for mark in marks for under in ("ground", "shoulder")}
    assert min(low.values()) >= MARKS, low
