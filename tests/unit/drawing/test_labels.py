from itertools import combinations

import pytest
import shapely

from tests.helpers.jobs import crown_injury, earlier_repair, measured_tire
from tests.unit.drawing.scenes_of import SCENES, assessed, by_eye, crowded, looking_at
from tiremap.drawing.labels import Lettering, Wanted, label_boxes, laid, texts_of
from tiremap.drawing.scene import Label, View

JOBS = {
    "one hole": lambda: assessed(crown_injury("1", 30.0, 40.0)),
    "by eye": by_eye,
    "two near": lambda: assessed(crown_injury("1", 0.0, 38.0), crown_injury("2", 25.0, 42.0)),
    "three near": lambda: assessed(*(crown_injury(str(n), 8.0 * n, 36.0 + 3 * n) for n in range(3)),
                                   earlier_repair("R1", -40.0, 45.0)),
    "around unknown": lambda: assessed(crown_injury("1", 20.0, None), crown_injury("2", -20.0, None)),
    "crowded": crowded,
}


@pytest.mark.parametrize("job", JOBS)
@pytest.mark.parametrize("name", ["section", "strip", "ring"])
@pytest.mark.parametrize("size", ["paper", "screen", "large"])
def test_no_two_labels_overlap(job, name, size):
    view = looking_at(40, chosen="1", type_size=size)
    boxes = label_boxes(SCENES[name](JOBS[job](), view), view.ring_scale if name == "ring" else view.paper_scale)
    for (one, one_box), (other, other_box) in combinations(boxes, 2):
        assert one_box.intersection(other_box).area < 1e-6, (one.text, other.text)


@pytest.mark.parametrize("reason", [
    ("place", ("1",)), ("hole_size", ("1",)), ("head_at_tread_edge", ("1",)), ("heads_overlap", ("1", "2")),
])
@pytest.mark.parametrize("name", ["section", "strip"])
def test_no_two_labels_overlap_while_a_reason_is_shown(name, reason):
    assessment = JOBS["two near"]()
    assert any((each.code, each.subject) == reason for each in assessment.all_reasons)
    boxes = label_boxes(SCENES[name](assessment, looking_at(40, chosen="1", shown_reason=reason)), 2.0)
    for (one, one_box), (other, other_box) in combinations(boxes, 2):
        assert one_box.intersection(other_box).area < 1e-6, (one.text, other.text)


@pytest.mark.parametrize("job", JOBS)
@pytest.mark.parametrize("name", ["section", "strip", "ring"])
def test_every_label_lies_in_the_frame(job, name):
    scene = SCENES[name](JOBS[job](), looking_at(40, chosen="1"))
    frame = shapely.box(*scene.frame).buffer(0.5)
    for label, box in label_boxes(scene, 8.0 if name == "ring" else 2.0):
        assert frame.covers(box), label.text


def _lay(wanted, taken=(), fixed=(), searching=True):
    lettering = Lettering(1.0, "screen")
    return laid(wanted, taken, texts_of(fixed, lettering), (-100, -100, 100, 100), lettering, searching)


def test_a_label_with_room_stands_beside_its_point_without_a_leader():
    (label,) = _lay([Wanted(0, 0, "1", "label")])
    assert label.anchor == "right" and label.leader_to is None and 0 < label.x < 5


def test_a_label_keeps_clear_of_what_is_drawn_where_there_is_room():
    (label,) = _lay([Wanted(0, 0, "1", "label")], taken=[shapely.box(1, -5, 30, 5)])
    assert label.anchor == "left"


def test_a_label_that_had_to_go_far_leads_back_to_its_point():
    (label,) = _lay([Wanted(0, 0, "1", "label")], taken=[shapely.box(-11, -11, 11, 11)])
    assert label.leader_to == (0, 0)


def test_twenty_labels_on_one_spot_are_laid_without_overlap():
    lettering = Lettering(1.0, "screen")
    boxes = [shapely.box(*lettering.box(label)) for label in _lay([Wanted(0, 0, str(n), "label") for n in range(20)])]
    assert len(boxes) == 20
    assert all(one.intersection(other).area < 1e-9 for one, other in combinations(boxes, 2))


def test_a_label_never_covers_a_fixed_one():
    there = Label(8.0, 0.0, "a fixed word", "label")
    (label,) = _lay([Wanted(0, 0, "1", "label")], fixed=[there])
    lettering = Lettering(1.0, "screen")
    assert not shapely.box(*lettering.box(label)).intersects(shapely.box(*lettering.box(there)))


def test_labels_stay_at_their_first_place_during_a_drag():
    (label,) = _lay([Wanted(0, 0, "1", "label")], taken=[shapely.box(1, -5, 30, 5)], searching=False)
    assert label.anchor == "right"


def test_labels_move_with_the_scale_they_are_laid_for():
    assessment = crowded()
    for scale in (0.8, 3.0):
        view = View(paper_scale=scale, chosen="1")
        boxes = label_boxes(SCENES["section"](assessment, view), scale)
        assert all(one.intersection(other).area < 1e-6 for (_, one), (_, other) in combinations(boxes, 2))


@pytest.mark.parametrize("datum", ["valve", "date_code"])
@pytest.mark.parametrize("size", ["paper", "screen", "large"])
def test_the_name_of_the_datum_has_room_beside_the_strip(datum, size):
    assessment = assessed(crown_injury("1", 20.0, 5.0), tire=measured_tire(datum=datum))
    view = looking_at(0, chosen="1", type_size=size, composed=True)
    scene = SCENES["strip"](assessment, view)
    (named,) = (box for label, box in label_boxes(scene, view.paper_scale) if label.text.startswith("datum"))
    assert shapely.box(*scene.frame).covers(named)
