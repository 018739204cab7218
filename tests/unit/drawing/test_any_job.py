"""Jobs nobody would think of: whatever was entered or left out, the drawings stand and their labels keep apart."""

from dataclasses import replace
from itertools import combinations
from random import Random

import pytest

from tests.helpers.jobs import gauged, hole, taped
from tests.unit.drawing.scenes_of import SCENES
from tiremap.assess import assess
from tiremap.drawing.labels import label_boxes
from tiremap.drawing.places import mark_at
from tiremap.drawing.scene import View
from tiremap.errors import TiremapError
from tiremap.model.job import Injury, Job, Repair, Tire
from tiremap.model.measures import Across, Around, BeadToes, Lean

SIZES = ("205/55R16 91V", "195/70R15C", "335/25R22", "315/80R22.5", "175/65R14", "T125/70D15", None)


def _tire(dice: Random) -> Tire:
    return Tire(
        size_code=dice.choice(SIZES),
        tread_width=dice.choice([None, taped(dice.uniform(80, 260))]),
        tread_depth=dice.choice([None, gauged(dice.uniform(0, 12))]),
        belt_width=dice.choice([None, None, taped(dice.uniform(60, 260))]),
    )


def _injury(dice: Random, id: str) -> Injury:
    def maybe(value):
        return dice.choice([value, value, None])

    across = dice.choice([dice.uniform(-90, 90), dice.uniform(-400, 400)])
    return Injury(
        id=id,
        outside=maybe(Across(value=across, origin="center", how=dice.choice(["eye", "tape"]))),
        inside=maybe(Across(value=dice.uniform(-90, 90), origin="center", how="tape")),
        around=maybe(Around(value=dice.uniform(-400, 800), how="protractor")),
        lean_across=maybe(Lean(value=dice.uniform(-60, 60), how="probe")),
        lean_around=maybe(Lean(value=dice.uniform(-60, 60), how="probe")),
        size_outside=maybe(hole(dice.uniform(0, 12))),
    )


def _repair(dice: Random, id: str) -> Repair:
    toes = BeadToes(from_outboard=250, from_inboard=dice.uniform(150, 350), how="tape")
    return Repair(
        id=id,
        inside=dice.choice([None, toes, Across(value=dice.uniform(-90, 90), origin="center", how="tape")]),
        around=dice.choice([None, Around(value=dice.uniform(0, 360), how="protractor")]),
        head_length=dice.choice([None, taped(dice.uniform(1, 90))]),
        kind=dice.choice(["plug_only", "stem_and_head", "unknown"]),
    )


def _job(dice: Random) -> Job:
    return Job(
        rule_set=dice.choice([None, "north_america", "united_kingdom"]),
        tire=_tire(dice),
        injuries=tuple(_injury(dice, str(n)) for n in range(dice.randint(0, 6))),
        repairs=tuple(_repair(dice, f"R{n}") for n in range(dice.randint(0, 4))),
    )


def _view(dice: Random, assessment) -> View:
    ids = [None, *(mark.id for mark in assessment.marks)]
    reason = dice.choice(assessment.all_reasons)
    return View(
        chosen=dice.choice(ids), hovered=dice.choice(ids),
        shown_reason=dice.choice([None, (reason.code, reason.subject)]),
        from_inside=dice.choice([True, False]), strip_middle=dice.uniform(-7, 14),
        strip_length=dice.choice([50.0, 200.0, 260.0, 1e5]), paper_scale=dice.uniform(0.5, 3),
        ring_scale=dice.uniform(4, 12), unit=dice.choice(["mm", "in"]),
        type_size=dice.choice(["paper", "screen", "large"]), datum_hour=dice.uniform(0, 12),
    )


@pytest.mark.parametrize("seed", range(40))
def test_any_job_can_be_drawn_and_its_labels_keep_apart(seed):
    dice = Random(seed)
    try:
        assessment = assess(_job(dice))
    except TiremapError:
        return  # a measurement no tire has, told to the user instead
    view = _view(dice, assessment)
    for name, scene_of in SCENES.items():
        scene = scene_of(assessment, view)
        boxes = label_boxes(scene, view.ring_scale if name == "ring" else view.paper_scale)
        for (one, one_box), (other, other_box) in combinations(boxes, 2):
            assert one_box.intersection(other_box).area < 1e-6, (one.text, other.text)
        assert scene_of(assessment, replace(view, while_dragging=True)).frame == scene.frame
        mark_at(assessment, view, name, dice.uniform(-100, 100), dice.uniform(-300, 300), 20.0)
