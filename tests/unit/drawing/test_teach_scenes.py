"""What a class sees: the loaded tire, the curve, all guidance; and nothing that tells a hidden answer."""

import re
from dataclasses import replace

import pytest
import shapely

from tiremap.assess import assess
from tiremap.drawing.bending_scene import assumed_words, comparison, widest_words
from tiremap.drawing.labels import label_boxes
from tiremap.drawing.lettering import cap_height, style
from tiremap.drawing.loaded_scene import percent
from tiremap.drawing.scene import Area, DimensionLine, Label, Line, Symbol, View
from tiremap.drawing.shown_reason import margin_words, told_to_a_class
from tiremap.drawing.teach_scenes import Shown, at_fit, lanes_of, loaded_of, middle_of_holes, placed_scenes, rooms
from tiremap.drawing.wording import ANSWER_WORDS
from tiremap.model.lesson import Hole, LessonStep
from tiremap.model.lesson_job import lesson_job
from tiremap.model.rule_set_file import published_rule_set_names
from tiremap.resources import read_toml

PER_MM = 96 / 25.4


def assessed(*across, guidance="united_kingdom", **more):
    holes = tuple(
        Hole(from_center_mm=float(each), around_mm=40.0 * at, size_mm=3.0, lean_across_deg=0.0, lean_around_deg=0.0)
        for at, each in enumerate(across)
    )
    step = LessonStep(
        says="x", tread_width_mm=166.0, tread_depth_mm=6.0, under_grooves_mm=6.0, looked_over=True, holes=holes,
        guidance=guidance, **more,
    )
    return assess(lesson_job(step), advise=False)


def shown(assessment, beside, load=20.0, **more):
    return Shown(
        assessment, "1", beside, loaded_of(assessment, beside, load),
        lanes_of(assessment.job) if beside == "guidance" else (), strip_middle=middle_of_holes(assessment, "1"), **more,
    )


def placed(what, width=1272, height=470):
    return placed_scenes(what, rooms(width, height, what.beside), PER_MM)


def words(scene):
    return " ".join(mark.text for mark in scene.marks if isinstance(mark, Label | DimensionLine))


def test_the_loaded_tire_says_that_it_is_a_teaching_model_and_how_often_it_turns():
    says = words(placed(shown(assessed(80), "bending"))["loaded"].scene).replace("\n", " ")
    assert "Teaching model" in says and "belt edge 20 mm lower" in says
    assert "515 turns per km" in says  # 1e6 / (2 pi (316 - 20/3))
    assert assumed_words("mm").startswith("Assumed: load, thicknesses, a head's face 3 mm inside the cords")


def test_crown_and_shoulder_stand_side_by_side_with_their_strains():
    scene = placed(shown(assessed(80), "bending"))["loaded"].scene
    strains = [mark.text for mark in scene.marks if isinstance(mark, Label) and mark.style == "label_bend"]
    assert sorted(strains) == ["1.0 %", "4.1 %"] or sorted(strains) == ["1.0 %", "4.0 %"]
    styles = [mark.style for mark in scene.marks if isinstance(mark, Area)]
    assert "head_compared" in styles and "head_not_repairable" in styles
    assert percent(0.0384) == "3.8 %"


def test_the_tones_grow_with_the_load_and_only_the_sidewall_takes_the_darkest():
    def darkest(load):
        scene = placed(shown(assessed(0), "bending", load))["loaded"].scene
        return max(mark.style for mark in scene.marks if isinstance(mark, Area) and mark.style.startswith("bend_"))

    tones = [darkest(load) for load in (0.0, 8.0, 20.0, 28.0)]
    assert tones == sorted(tones) and tones[0] < tones[-1]
    scene = placed(shown(assessed(0), "bending", 28.0))["loaded"].scene
    last = next(mark for mark in scene.marks if isinstance(mark, Area) and mark.style == "bend_4")
    assert all(abs(part.centroid.x) > 60 for part in last.shape.geoms)


def test_the_head_follows_the_hole_along_the_curve():
    """From the center to the sidewall the head's stretch moves on along the liner and is bent harder."""
    stretches = []
    for across in (0, 40, 80, 120):
        scene = placed(shown(assessed(across), "bending"))["bending"].scene
        stretches.append(next(mark.shape for mark in scene.marks if mark.style == "bend_head").bounds)
    assert [each[0] for each in stretches] == sorted(each[0] for each in stretches)
    heights = [each[3] for each in stretches]
    assert heights[0] == pytest.approx(heights[1]) and heights[2] > 3 * heights[0]


def test_the_sentence_tells_how_many_times_as_hard():
    what = shown(assessed(80), "bending")
    said = comparison(what.assessment, what.loaded, View(chosen="1"))
    assert "4.1 times as hard as in the middle of the crown (1.0 %)" in said
    middle = shown(assessed(0), "bending")
    assert comparison(middle.assessment, middle.loaded, View(chosen="1")).endswith("as in the middle of the crown.")
    unloaded = shown(assessed(0), "bending", 0.0)
    assert comparison(unloaded.assessment, unloaded.loaded, View(chosen="1")) == ""


def test_every_guidance_has_its_lane_with_its_own_half_width_and_answer():
    scene = placed(shown(assessed(80), "guidance"))["guidance"].scene
    titles = [lane.title for lane in lanes_of(assessed(80).job)]
    assert len(titles) == len(published_rule_set_names()) and all(title in words(scene) for title in titles)
    bands = [mark for mark in scene.marks if isinstance(mark, Line) and mark.style in ("lane", "lane_own")]
    assert sum(mark.style == "lane_own" for mark in bands) == 1
    # United Kingdom: three quarters of the section's nominal 205 less what rounds up: 71.75 mm each side.
    own = next(mark for mark in bands if mark.style == "lane_own")
    assert own.points[:, 0].max() == pytest.approx(71.75)
    answers = [mark.kind for mark in scene.marks if isinstance(mark, Symbol)]
    assert answers == [lane.assessment.mark("1").answer for lane in lanes_of(assessed(80).job)]


@pytest.mark.parametrize("beside", ["nothing", "bending", "guidance", "strip"])
@pytest.mark.parametrize("across", [(0,), (80,), (0, 5)])
def test_a_hidden_answer_is_told_by_nothing(beside, across):
    """Symbols, colors, margins, words and zones are gone; what is left is the same for every answer."""
    for each in placed(shown(assessed(*across), beside, hidden=True)).values():
        for mark in each.scene.marks:
            if isinstance(mark, Symbol):
                assert mark.kind not in ANSWER_WORDS
            else:
                assert not any(part in mark.style for part in ("repairable", "measure_first", "overlap", "zone"))
                assert mark.style not in ("shown", "dimension_shown")
        assert not any(answer in words(each.scene) for answer in ANSWER_WORDS.values())


@pytest.mark.parametrize("beside", ["nothing", "bending", "guidance", "strip"])
def test_a_shown_answer_is_told(beside):
    section = placed(shown(assessed(80), beside, reason=("place", ("1",))))["section"].scene
    assert any(isinstance(mark, Symbol) and mark.kind == "not_repairable" for mark in section.marks)
    assert "beyond" in words(section) and "crown zone" in words(section)


def test_while_a_hole_is_dragged_no_lane_shows_an_answer_of_a_moment_ago():
    scene = placed(shown(assessed(80), "guidance", dragging=True))["guidance"].scene
    assert not [mark for mark in scene.marks if isinstance(mark, Symbol)]


def test_type_before_a_class_is_eighteen_points_and_up():
    """18 points are 6.35 mm; a capital takes 0.729 of it in the face that ships with matplotlib (DejaVu Sans)."""
    metrics = read_toml("drawing", "styles.toml")["metrics"]
    least = 18 / 72 * 25.4 * metrics["cap_height_of_size"]
    for name, entry in read_toml("drawing", "styles.toml")["styles"].items():
        if "text" in entry:
            assert cap_height(name, "room") >= least - 0.01, name
    assert style("label")["text"] == "label"


@pytest.mark.parametrize("beside", ["nothing", "bending", "guidance", "strip"])
@pytest.mark.parametrize("size", [(1272, 470), (1900, 800), (1000, 380)])
def test_every_drawing_fits_its_room_and_no_word_leaves_it(beside, size):
    what = shown(assessed(0, 10) if beside == "strip" else assessed(80), beside, reason=("place", ("1",)))
    there = rooms(*size, beside)
    for name, each in placed_scenes(what, there, PER_MM).items():
        x_low, y_low, x_high, y_high = each.limits
        seen = shapely.box(x_low, y_low, x_high, y_high).buffer(0.5 * each.scale * PER_MM)
        for label, box in label_boxes(each.scene, each.scale * PER_MM):
            if label.text:
                assert seen.contains(box), (name, label.text, size)


def test_dragging_moves_nothing_but_what_belongs_to_the_hole():
    """At the scale found before, the drawing of another place shows the same part of the tire."""
    there = rooms(1272, 470, "bending")
    first = placed_scenes(shown(assessed(0), "bending"), there, PER_MM)
    for name, each in first.items():
        moved = at_fit(name, replace(shown(assessed(120), "bending"), dragging=True), there[name], PER_MM, each.fit)
        assert moved.limits == pytest.approx(each.limits)


def test_a_class_is_told_the_margin_of_what_is_not_sure_from_least_to_greatest():
    """A place by eye may be off by a centimeter either way: one figure would look sure."""
    sure = next(each for each in assessed(80).all_reasons if each.code == "place")
    assert told_to_a_class(sure, View()) == "Injury 1 lies in the shoulder, outside the crown zone. 9.8 mm beyond."
    unsure = next(each for each in assessed(68).all_reasons if each.code == "place")
    assert unsure.level == "measure" and unsure.margin is not None
    assert told_to_a_class(unsure, View()).endswith("Margin −1.7 to 4.2 mm.")


def test_a_margin_without_a_bound_to_one_side_is_told_by_the_other():
    place = next(each for each in assessed(68).all_reasons if each.code == "place")
    for low, high, says in (
        (None, 85.5, "85.5 mm inside at best"), (None, -20.4, "20.4 mm beyond at best"),
        (3.0, None, "3 mm inside at worst"), (None, None, "margin not measured"),
        (-30.0, -20.4, "20.4 to 30 mm beyond"),
    ):
        assert margin_words(replace(place, margin=None, margin_low=low, margin_high=high), View()) == says


def test_the_radius_of_the_widest_place_is_told_beside_a_plain_arc():
    """205/55R16 at 20 mm: about 50 to 30 mm (the worked number); the membrane of Rotta (1949) is an arc."""
    said = widest_words(shown(assessed(80), "bending").loaded, "mm")
    before, after = map(float, re.search(r"radius of ([\d.]+) to ([\d.]+) mm; as a plain arc", said).groups())
    assert 47 <= before <= 53 and 29 <= after <= 32
