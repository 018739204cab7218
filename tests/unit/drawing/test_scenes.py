from math import pi, radians

import pytest
import shapely

from tests.helpers.jobs import all_fine, crown_injury, earlier_repair, measured_tire, probed, taped
from tests.unit.drawing.scenes_of import SCENES, assessed, by_eye, crowded, looking_at, shapes, words
from tiremap.assess import assess
from tiremap.drawing.edges import tread_edge, zone_edge
from tiremap.drawing.labels import label_boxes
from tiremap.drawing.ring_scene import ring_scene
from tiremap.drawing.scene import Area, DimensionLine, Label, Line, Symbol, View, keys_of
from tiremap.drawing.section_scene import section_scene
from tiremap.drawing.strip_scene import strip_scene
from tiremap.drawing.wording import ANSWER_WORDS
from tiremap.model.cautions import short_caution
from tiremap.model.job import Finding, Job, Tire, TypedDimensions


@pytest.mark.parametrize("across", [-60.0, -20.0, 0.0, 35.0, 70.0])
@pytest.mark.parametrize("from_inside", [True, False])
def test_an_injury_in_the_section_stands_straight_above_its_place_on_the_strip(across, from_inside):
    assessment, view = assessed(crown_injury("1", across, 40.0)), looking_at(40, from_inside=from_inside)
    (follow,) = (mark for mark in section_scene(assessment, view).marks
                 if isinstance(mark, Line) and mark.style == "follow")
    (symbol,) = (mark for mark in strip_scene(assessment, view).marks if isinstance(mark, Symbol))
    assert follow.points[-1][0] == pytest.approx(symbol.x, abs=1.0)


def test_section_and_strip_share_one_axis_across():
    for assessment in (assessed(crown_injury()), by_eye(), crowded()):
        section, strip = section_scene(assessment, View()), strip_scene(assessment, View())
        assert (section.frame[0], section.frame[2]) == (strip.frame[0], strip.frame[2])


def test_zone_limits_drop_from_the_section_onto_those_of_the_strip():
    assessment = assessed(crown_injury())
    dropped = [mark.points[-1][0] for mark in section_scene(assessment, View()).marks
               if isinstance(mark, Line) and mark.style == "zone_limit"]
    on_strip = [mark.points[0][0] for mark in strip_scene(assessment, View()).marks
                if isinstance(mark, Line) and mark.style == "zone_limit"]
    assert sorted(dropped) == pytest.approx(sorted(on_strip), abs=1.0)


def test_a_head_across_the_datum_is_whole_where_the_window_shows_the_datum():
    here = shapes(strip_scene(assessed(crown_injury("1", 10.0, 0.0)), looking_at(0)), "head_repairable")
    there = shapes(strip_scene(assessed(crown_injury("1", 10.0, 90.0)), looking_at(90)), "head_repairable")
    assert len(here) == len(there) == 1
    assert here[0].symmetric_difference(there[0]).area == pytest.approx(0.0, abs=1e-3)


def test_a_head_at_the_datum_shows_on_both_sides_of_a_window_as_long_as_the_strip():
    view = looking_at(180, strip_length=1e6)
    whole = shapes(strip_scene(assessed(crown_injury("1", 10.0, 180.0)), view), "head_repairable")
    halves = shapes(strip_scene(assessed(crown_injury("1", 10.0, 0.0)), view), "head_repairable")
    assert len(whole) == 1 and len(halves) == 2
    assert sum(half.area for half in halves) == pytest.approx(whole[0].area, rel=1e-6)
    assert halves[0].bounds[1] * halves[1].bounds[1] < 0


@pytest.mark.parametrize("name", ["section", "strip"])
def test_the_view_from_outside_mirrors_section_and_strip(name):
    assessment = assessed(crown_injury("1", 40.0, 40.0), earlier_repair("R1", -30.0, 45.0))
    for style in ("head_repairable", "head_earlier", "buffed"):
        inside, outside = (
            shapes(SCENES[name](assessment, looking_at(40, from_inside=seen)), style) for seen in (True, False)
        )
        assert [shape.bounds[0] for shape in inside] == pytest.approx([-shape.bounds[2] for shape in outside])


def test_outboard_lies_right_from_inside_and_left_from_outside():
    def outboard_x(from_inside):
        scene = strip_scene(assessed(crown_injury()), View(from_inside=from_inside))
        return next(mark.x for mark in scene.marks if getattr(mark, "text", "") == "outboard")

    assert outboard_x(True) == pytest.approx(-outboard_x(False))
    assert outboard_x(True) > 0


def test_the_strip_says_from_which_side_it_is_seen():
    assessment = assessed(crown_injury())
    assert "seen from inside the tire" in words(strip_scene(assessment, View()))
    assert "seen from outside the tire" in words(strip_scene(assessment, View(from_inside=False)))


def test_a_growing_angle_runs_down_the_strip():
    assessment = assessed(crown_injury("1", 0.0, 35.0), crown_injury("2", 0.0, 45.0))
    height = {mark.key: mark.y for mark in strip_scene(assessment, looking_at(40)).marks if isinstance(mark, Symbol)}
    assert height["injury.1"] - height["injury.2"] == pytest.approx(radians(10) * assessment.strip.R0)


@pytest.mark.parametrize("name", ["section", "ring"])
def test_every_mark_of_the_job_is_in_section_and_ring(name):
    assessment = crowded()
    seen = {key for mark in SCENES[name](assessment, View()).marks for key in keys_of(mark)}
    assert {f"injury.{mark.id}" for mark in assessment.injuries} <= seen
    assert {f"repair.{mark.id}" for mark in assessment.repairs} <= seen


def test_every_mark_of_the_job_is_on_a_strip_shown_whole():
    assessment = crowded()
    seen = {key for mark in strip_scene(assessment, View(strip_length=1e6)).marks for key in keys_of(mark)}
    assert len(seen) == 18


def test_the_channel_leans_as_the_injury_does():
    assessment = assessed(crown_injury("1", 20.0, 0.0, lean_across=probed(30.0)))
    (channel,) = shapes(section_scene(assessment, View()), "channel")
    top, bottom = (max if upper else min for upper in (True, False))
    corners = list(channel.exterior.coords)
    assert bottom(corners, key=lambda c: c[1])[0] > top(corners, key=lambda c: c[1])[0]


def test_a_channel_whose_lean_is_unknown_is_drawn_dashed():
    scene = section_scene(assessed(crown_injury("1", lean_across=None)), View())
    assert shapes(scene, "channel_uncertain") and not shapes(scene, "channel")


def test_only_the_chosen_injury_has_its_head_in_the_section():
    assessment = assessed(crown_injury("1", -30.0), crown_injury("2", 30.0, 60.0))
    scene = section_scene(assessment, View(chosen="2"))
    assert shapes(scene, "head_repairable", "injury.2") and not shapes(scene, "head_repairable", "injury.1")


def test_a_measured_tread_edge_is_a_line_and_an_estimated_one_a_band_as_wide_as_its_range():
    measured, estimated = assessed(crown_injury()), by_eye()
    assert not shapes(strip_scene(measured, View()), "tread_edge_band")
    bands = shapes(strip_scene(estimated, View()), "tread_edge_band")
    edge = tread_edge(estimated.facts)
    wide = estimated.strip.liner_across(edge.high) - estimated.strip.liner_across(edge.low)
    assert [band.bounds[2] - band.bounds[0] for band in bands] == pytest.approx([wide, wide])


def test_a_zone_set_in_from_an_estimated_tread_edge_is_as_uncertain_as_the_edge():
    estimated = by_eye(rule_set="north_america")
    edge, tread = zone_edge(estimated), tread_edge(estimated.facts)
    assert (edge.low, edge.high) == pytest.approx((tread.low - 25.4, tread.high - 25.4))


def test_a_zone_by_section_width_is_a_line_although_the_tread_was_never_measured():
    """70 % of 205 mm, halved: BS AU 159 as summarized by the trade body."""
    estimated = by_eye(rule_set="united_kingdom")
    edge = zone_edge(estimated)
    assert not edge.estimated and edge.drawn == pytest.approx(0.70 * 205 / 2)
    assert not shapes(section_scene(estimated, View()), "zone_band")


def test_where_a_belt_ends_short_the_zone_is_drawn_as_far_as_a_hole_passes():
    """New Zealand refuses beyond the belt edge: here 45 mm from the center, well inside 1 in from the tread edge."""
    tire = measured_tire(belt_width=taped(90.0), built="standard")
    short = assessed(crown_injury("1", 20.0, 40.0), rule_set="new_zealand", tire=tire)
    assert zone_edge(short).drawn == pytest.approx(45.0)
    assert short.zone_half_width_mm == pytest.approx(45.0)
    limits = [mark.points[0][0] for mark in strip_scene(short, View()).marks
              if isinstance(mark, Line) and mark.style == "zone_limit"]
    assert max(limits) == pytest.approx(short.strip.liner_across(45.0))


def test_in_a_window_without_room_the_zone_s_name_gives_way_to_the_size_and_the_caution():
    assessment = assessed(crown_injury())
    left, low, right, top = section_scene(assessment, View()).frame
    for seen, named in ((top, True), (top - 15.0 * View().paper_scale, False)):
        scene = section_scene(assessment, View(visible=(left, low, right, seen)))
        said = [mark.text for mark in scene.marks if isinstance(mark, Label)]
        assert any("crown zone" in each for each in said) == named
        assert any("205/55R16" in each for each in said)


def test_the_strip_reaches_twenty_millimeters_past_a_measured_tread_edge():
    assessment = assessed(crown_injury())
    (ground,) = shapes(strip_scene(assessment, View()), "shoulder_ground")
    assert ground.bounds[2] == pytest.approx(assessment.strip.liner_across(170 / 2 + 20))


def test_an_injury_of_unknown_way_around_is_a_dashed_line_all_along_the_strip():
    scene = strip_scene(assessed(crown_injury("1", 20.0, None)), View(strip_length=200.0))
    (line,) = (mark for mark in scene.marks if isinstance(mark, Line) and mark.style == "around_unknown")
    assert line.points[:, 1].tolist() == [-100.0, 100.0]


def test_two_heads_that_overlap_carry_the_area_they_share():
    assessment = assessed(crown_injury("1", 0.0, 40.0), crown_injury("2", 30.0, 40.0))
    scene = strip_scene(assessment, looking_at(40))
    (shared,) = shapes(scene, "head_overlap")
    assert shared.area == pytest.approx(assessment.pairs[0].head_overlap_mm2, rel=0.02)
    assert f"heads share {assessment.pairs[0].head_overlap_mm2:.0f} mm²" in words(scene)


def test_heads_overlap_across_the_datum_as_anywhere_else():
    across = assessed(crown_injury("1", 0.0, 358.0), crown_injury("2", 10.0, 2.0))
    (shared,) = shapes(strip_scene(across, looking_at(0)), "head_overlap")
    elsewhere = assessed(crown_injury("1", 0.0, 98.0), crown_injury("2", 10.0, 102.0))
    (same,) = shapes(strip_scene(elsewhere, looking_at(100)), "head_overlap")
    assert shared.area == pytest.approx(same.area, rel=1e-6)


def test_the_chosen_pair_is_dimensioned_along_the_liner_and_in_degrees():
    assessment = assessed(crown_injury("1", 0.0, 35.0), crown_injury("2", 30.0, 47.0))
    (line,) = (mark for mark in strip_scene(assessment, looking_at(40, chosen="1", paper_scale=1.0)).marks
               if isinstance(mark, DimensionLine) and mark.text.endswith("liner"))
    assert line.text == f"{assessment.pairs[0].distance_mm:.1f} mm along the liner"
    both = words(strip_scene(assessment, looking_at(40, chosen="1")))
    assert f"{assessment.pairs[0].distance_mm:.1f} mm along the liner, 12.0°" in both


@pytest.mark.parametrize("while_dragging", [False, True])
def test_the_distance_of_two_near_holes_stands_off_their_heads_and_its_arrows_outside(while_dragging):
    assessment = assessed(crown_injury("1", 0.0, 40.0), crown_injury("2", 5.0, 41.0))
    view = looking_at(40, chosen="1", while_dragging=while_dragging)
    scene = strip_scene(assessment, view)
    (line,) = (mark for mark in scene.marks if isinstance(mark, DimensionLine))
    assert line.outside and not line.text
    (value,) = (box for label, box in label_boxes(scene, view.paper_scale)
                if label.key == line.key and " mm" in label.text and "share" not in label.text)
    heads = [mark.shape for mark in scene.marks if isinstance(mark, Area) and mark.style.startswith("head_")]
    assert len(heads) >= 2 and not any(value.intersects(head) for head in heads)


def test_a_hole_whose_head_overlaps_another_shows_the_worse_answer_of_the_two():
    near = assessed(crown_injury("1", 0.0, 40.0), crown_injury("2", 10.0, 42.0))
    assert near.answer == "not_repairable" and {mark.answer for mark in near.injuries} == {"repairable"}
    for scene in SCENES.values():
        kinds = [mark.kind for mark in scene(near, looking_at(40)).marks if isinstance(mark, Symbol)]
        assert kinds.count("not_repairable") == 2 and "repairable" not in kinds
    apart = assessed(crown_injury("1", 0.0, 40.0), crown_injury("2", 0.0, 200.0))
    kinds = [mark.kind for mark in ring_scene(apart, View()).marks if isinstance(mark, Symbol)]
    assert kinds.count("repairable") == 2


def test_on_one_canvas_size_code_and_caution_stand_once_and_one_bar_serves_section_and_strip():
    assessment, view = assessed(crown_injury()), View(composed=True)
    scenes = [scene(assessment, view) for scene in SCENES.values()]
    text = " ".join(each for scene in scenes for each in words(scene)).replace("\n", " ")
    assert [text.count(each) for each in ("205/55R16", short_caution(), "outboard", "inboard")] == [1, 1, 2, 1]
    assert "seen from outboard" in text and "seen from inside the tire" in text
    bars = [sum(isinstance(mark, Line) and mark.style == "scale_bar" for mark in scene.marks) for scene in scenes]
    assert bars == [1, 0, 1]


def test_zoomed_in_size_code_bar_caution_and_sides_stay_in_view():
    assessment = assessed(crown_injury("1", 60.0, 40.0))
    seen = (30.0, 280.0, 100.0, 330.0)
    view = looking_at(40, composed=True, visible=seen, paper_scale=0.5, strip_length=60.0)
    section, strip = section_scene(assessment, view), strip_scene(assessment, view)
    said = {label.text.replace("\n", " "): box for label, box in label_boxes(section, 0.5)}
    for each in ("205/55R16 91V" if "205/55R16 91V" in said else "205/55R16", short_caution()):
        assert shapely.box(*seen).covers(said[each])
    (bar,) = (mark for mark in section.marks if isinstance(mark, Line) and mark.style == "scale_bar")
    assert shapely.box(*seen).covers(shapely.LineString(bar.points))
    for label, box in label_boxes(strip, 0.5):
        assert seen[0] <= box.bounds[0] and box.bounds[2] <= seen[2], label.text
    assert {"outboard", "inboard"} <= set(words(strip))


def test_the_datum_line_is_named_where_it_is_in_view_only():
    assessment = assessed(crown_injury())
    assert "datum:\nvalve" in words(strip_scene(assessment, looking_at(0)))
    assert "datum:\nvalve" not in words(strip_scene(assessment, looking_at(180)))


@pytest.mark.parametrize(("hour", "place"), [(12.0, (0, 1)), (3.0, (1, 0)), (6.0, (0, -1)), (9.0, (-1, 0))])
def test_the_ring_turns_with_the_clock_hour_of_the_datum(hour, place):
    assessment = assessed(crown_injury("1", 0.0, 90.0))
    (datum,) = (mark for mark in ring_scene(assessment, View(datum_hour=hour)).marks
                if isinstance(mark, Symbol) and mark.kind == "datum")
    radius = assessment.facts.overall_diameter / 2
    assert (datum.x / radius, datum.y / radius) == pytest.approx(place, abs=1e-9)


def test_angles_on_the_ring_run_clockwise():
    (injury,) = (mark for mark in ring_scene(assessed(crown_injury("1", 0.0, 90.0)), View()).marks
                 if isinstance(mark, Symbol) and mark.kind != "datum")
    assert injury.x > 0 and injury.y == pytest.approx(0.0, abs=1e-9)


def test_the_ring_writes_the_angles_between_neighbors_and_they_close_the_circle():
    assessment = assessed(crown_injury("1", 0.0, 10.0), crown_injury("2", 0.0, 100.0), earlier_repair("R1", 0.0, 250.0))
    texts = [text for text in words(ring_scene(assessment, View())) if text.endswith("°")]
    assert sorted(texts) == ["120°", "150°", "90°"]


def test_the_ring_shows_which_part_the_strip_shows():
    assessment = assessed(crown_injury())
    (sector,) = shapes(ring_scene(assessment, View(strip_middle=pi / 2, strip_length=200.0)), "ring_window")
    tread, rim = assessment.facts.overall_diameter / 2, assessment.facts.dimensions.rim_diameter_mm / 2
    share = 200.0 / assessment.strip.circumference
    assert sector.area == pytest.approx(share * pi * (tread**2 - rim**2), rel=0.002)
    assert sector.centroid.x > 0 and sector.centroid.y == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("name", ["section", "strip", "ring"])
def test_every_drawing_carries_size_code_scale_bar_and_caution(name):
    scene = SCENES[name](assessed(crown_injury()), View())
    text = " ".join(words(scene)).replace("\n", " ")
    assert "205/55R16" in text and short_caution() in text
    assert any(isinstance(mark, Line) and mark.style == "scale_bar" for mark in scene.marks)


@pytest.mark.parametrize("name", ["section", "strip"])
def test_section_and_strip_name_their_sides(name):
    assert {"outboard", "inboard"} <= set(words(SCENES[name](assessed(crown_injury()), View())))


def test_a_scale_bar_is_as_long_as_it_says():
    for unit, mm in (("mm", 1.0), ("in", 25.4)):
        scene = section_scene(assessed(crown_injury()), View(unit=unit))
        (bar,) = (mark for mark in scene.marks if isinstance(mark, Line) and mark.style == "scale_bar")
        (says,) = (text for text in words(scene) if text.endswith(f" {unit}"))
        assert bar.points[:, 0].max() - bar.points[:, 0].min() == pytest.approx(float(says.split()[0]) * mm)


@pytest.mark.parametrize("name", ["section", "strip", "ring"])
def test_an_unknown_tire_is_a_sentence_and_not_a_crash(name):
    scene = SCENES[name](assess(Job()), View())
    assert "size" in words(scene)[0]


def test_a_tire_too_low_to_draw_still_has_its_strip_and_ring():
    typed = TypedDimensions(overall_diameter_mm=500, section_width_mm=200, rim_diameter_mm=420, rim_width_in=7)
    tire = Tire(typed_dimensions=typed, tire_class="passenger", tread_width=taped(160.0))
    assessment = assessed(crown_injury(), tire=tire)
    assert "too low to draw" in " ".join(words(section_scene(assessment, View()))).replace("\n", " ")
    assert shapes(strip_scene(assessment, View()), "liner_ground")
    assert shapes(ring_scene(assessment, View()), "ring_rubber")


def test_an_unsound_earlier_repair_is_struck_through():
    sound, unsound = earlier_repair("R1", 0.0, 40.0), earlier_repair("R2", 0.0, 60.0, kind="plug_only")
    scene = strip_scene(assessed(sound, unsound), looking_at(50))
    assert [mark.key for mark in scene.marks if isinstance(mark, Line) and mark.style == "strike"] == ["repair.R2"]


def test_each_answer_has_a_symbol_of_its_own():
    for injury, answer in (
        (crown_injury("1", 0.0, 30.0), "repairable"), (crown_injury("1", 75.0, 60.0), "not_repairable"),
        (crown_injury("1", 0.0, 90.0, size_outside=None, size_inside=None), "measure_first"),
    ):
        kinds = {mark.key: mark.kind for mark in ring_scene(assessed(injury), View()).marks if isinstance(mark, Symbol)}
        assert kinds["injury.1"] == answer


@pytest.mark.parametrize(("inspected", "answer"), [("found", "not_repairable"), (None, "measure_first")])
def test_a_hole_that_passes_is_nowhere_drawn_better_than_its_tire(inspected, answer):
    looked = all_fine().model_copy(update={"inspected": inspected and Finding(state=inspected)})
    assessment = assessed(crown_injury("1", 0.0, 40.0), checks=looked)
    assert assessment.answer == answer and assessment.injuries[0].answer == "repairable"
    for scene in SCENES.values():
        drawn = scene(assessment, looking_at(40, chosen="1")).marks
        assert {mark.kind for mark in drawn if isinstance(mark, Symbol) and mark.key == "injury.1"} == {answer}
        styles = {mark.style for mark in drawn if isinstance(mark, Area)}
        assert not styles & {"head_repairable", "stem_repairable"}
    said = words(strip_scene(assessment, looking_at(40, chosen="1")))
    assert f"1 {ANSWER_WORDS[answer]}\n(its own checks pass)" in said


def test_one_refused_hole_refuses_the_tire_and_what_the_others_have_by_themselves_is_said():
    assessment = assessed(crown_injury("1", 0.0, 30.0), crown_injury("2", 75.0, 90.0))
    assert [assessment.answer_shown(mark) for mark in assessment.injuries] == ["not_repairable"] * 2
    by_itself = [assessment.better_by_itself(mark) for mark in assessment.injuries]
    assert by_itself == ["repairable", None]


def test_wide_tread_narrow_tread_and_large_type_are_drawn_without_a_crash():
    for code, width in (("335/25R22", 300.0), ("125/80R12", 90.0)):
        assessment = assessed(crown_injury(), tire=measured_tire(code, width))
        for size in ("paper", "screen", "large"):
            for scene in SCENES.values():
                assert scene(assessment, View(type_size=size)).marks
