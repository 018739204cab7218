"""Where one more unit could go on the strip: the region in the window, and its words."""

import pytest
import shapely

from tests.helpers.jobs import crown_injury, earlier_repair, measured_tire
from tests.unit.drawing.scenes_of import assessed, looking_at, shapes, words
from tiremap.drawing.scene import Area, Line, Symbol, View
from tiremap.drawing.strip_free import free_in_words, unit_in_words
from tiremap.drawing.strip_scene import strip_scene
from tiremap.free_places import where_a_repair_could_go
from tiremap.model.stock import RepairUnit

UNIT = RepairUnit(stem_mm=6.0, head_length_mm=50.0)


def free_on(assessment, unit=UNIT):
    return where_a_repair_could_go(assessment, unit)


def test_it_is_drawn_only_where_it_is_asked_for():
    assessment = assessed(crown_injury())
    assert not shapes(strip_scene(assessment, View()), "free_places")
    assert shapes(strip_scene(assessment, View(), free_on(assessment)), "free_places")


def test_it_covers_the_band_and_leaves_the_ground_about_a_head_bare():
    assessment = assessed(earlier_repair("R1", 0.0, 40.0))
    view = looking_at(40)
    (region,) = shapes(strip_scene(assessment, view, free_on(assessment)), "free_places")
    strip = assessment.strip
    low = free_on(assessment).region.bounds[0]
    assert region.bounds == pytest.approx((low, -view.strip_length / 2, -low, view.strip_length / 2))
    kept_clear = region.distance(shapely.Point(0.0, 0.0))
    # 20 + 25 mm and the tape's 1 mm or more; on the strip along the center plane lengths are true
    assert 45.0 < kept_clear < 52.0
    assert strip.circumference > view.strip_length


def test_at_the_datum_it_is_whole():
    assessment = assessed(earlier_repair("R1", 0.0, 180.0))
    (region,) = shapes(strip_scene(assessment, looking_at(0), free_on(assessment)), "free_places")
    assert region.geom_type == "Polygon"
    assert region.contains(shapely.Point(0.0, 0.0))


def test_seen_from_outside_it_is_mirrored():
    assessment = assessed(earlier_repair("R1", 40.0, 40.0))
    free = free_on(assessment)
    (inside,), (outside,) = (
        shapes(strip_scene(assessment, looking_at(40, from_inside=from_inside), free), "free_places")
        for from_inside in (True, False)
    )
    mirrored = shapely.transform(outside, lambda c: c * (-1, 1))
    assert inside.symmetric_difference(mirrored).area == pytest.approx(0.0, abs=1e-6)


def test_it_lies_over_the_ground_and_under_every_edge_and_mark():
    assessment = assessed(crown_injury("1", 10.0, 40.0), earlier_repair("R1", -20.0, 60.0))
    marks = strip_scene(assessment, looking_at(40), free_on(assessment)).marks
    styles = [getattr(mark, "style", "") for mark in marks]
    at = styles.index("free_places")
    assert styles.index("liner_ground") < at < styles.index("zone_limit") < styles.index("buffed")
    assert all(marks.index(mark) > at for mark in marks if isinstance(mark, Symbol))
    assert not [mark for mark in marks[:at] if isinstance(mark, Line)]
    assert all(mark.key == "" for mark in marks if isinstance(mark, Area) and mark.style == "free_places")


def test_the_word_says_certainly_where_something_is_unknown():
    measured = assessed(crown_injury())
    estimated = assessed(crown_injury(), tire=measured_tire(tread_width=None))
    assert "free" in words(strip_scene(measured, looking_at(90), free_on(measured)))
    assert "certainly free" in words(strip_scene(estimated, looking_at(90), free_on(estimated)))


def test_alone_on_a_canvas_it_carries_its_figures_and_on_the_desk_they_stand_beside_it():
    assessment = assessed(earlier_repair("R1", 0.0, 180.0), rule_set="japan")
    free = free_on(assessment)
    says = free_in_words(free, "mm")
    alone = " ".join(words(strip_scene(assessment, looking_at(0), free))).replace("\n", " ")
    assert says in alone
    assert says not in " ".join(words(strip_scene(assessment, looking_at(0, composed=True), free)))


def test_area_and_gap_are_written_in_the_shown_unit_and_never_larger_than_they_are():
    free = free_on(assessed(earlier_repair("R1", 0.0, 180.0), rule_set="japan"))
    assert free_in_words(free, "mm") == (
        f"Free for the 6 mm stem, 50 mm head: {int(free.area_mm2 / 10) / 10:g} cm², "
        f"widest gap {int(free.widest_gap_mm)} mm around on the tread."
    )
    inches = free_in_words(free, "in")
    assert inches.startswith("Free for the 0.236 in stem, 1.969 in head: ")
    assert f"widest gap {int(free.widest_gap_mm / 25.4 * 10) / 10:g} in around" in inches


def test_all_the_way_around_is_said_in_words():
    says = free_in_words(free_on(assessed(crown_injury())), "mm")
    assert says.endswith("cm², with a place somewhere across at every angle.")


def test_where_nothing_is_free_the_words_say_so():
    full = free_on(assessed(earlier_repair("R1", 0.0, 0.0), earlier_repair("R2", 0.0, 180.0), rule_set="japan"))
    assert free_in_words(full, "mm") == "Nothing is free for the 6 mm stem, 50 mm head."


def test_an_oblong_head_is_named_by_both_sizes():
    unit = RepairUnit(stem_mm=9.525, head_length_mm=70.0, head_width_mm=40.0, head_along="across")
    assert unit_in_words(unit, "mm") == "9.525 mm stem, 70 × 40 mm head across"
    assert unit_in_words(unit, "in") == "0.375 in stem, 2.756 × 1.575 in head across"
