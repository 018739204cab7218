"""The tire under the marks is made once for a tire and a view, and never taken for another's."""

from dataclasses import fields, replace

import numpy as np
import pytest
from shapely import Geometry

from tests.helpers.jobs import bench_job, crown_injury, gauged, measured_tire, taped
from tests.unit.drawing.scenes_of import SCENES, assessed, looking_at
from tiremap.assess import assess
from tiremap.drawing import ring_scene, section_scene, strip_scene
from tiremap.drawing.ground import TireOf
from tiremap.drawing.scene import Scene
from tiremap.session import Session

VIEWS = {
    "as it opens": {}, "from outside": {"from_inside": False}, "in inches": {"unit": "in"},
    "large type": {"type_size": "large"}, "turned": {"strip_middle": 1.2}, "with the others": {"composed": True},
    "zoomed": {"visible": (-40.0, 280.0, 60.0, 330.0), "paper_scale": 0.7, "ring_scale": 5.0},
    "datum below": {"datum_hour": 6.0}, "a short window": {"strip_length": 90.0},
}


def told(scene: Scene) -> list[object]:
    """All that a scene says, to be compared."""
    def plain(value: object) -> object:
        return value.wkb if isinstance(value, Geometry) else value.tolist() if isinstance(value, np.ndarray) else value
    marks = [(type(mark).__name__, *(plain(getattr(mark, each.name)) for each in fields(mark))) for mark in scene.marks]
    return [scene.frame, scene.type_size, *marks]


def forget() -> None:
    for module in (section_scene, strip_scene, ring_scene):
        module._ground.cache_clear()


@pytest.mark.parametrize("name", SCENES)
def test_another_tire_guidance_or_view_is_drawn_anew(name):
    injury = crown_injury("1", 20.0, 40.0)
    tires = [measured_tire(**each) for each in (
        {}, {"tread_width": taped(150.0)}, {"tread_width": None}, {"under_grooves": gauged(3.0)},
        {"size_code": "235/40R18 95Y"}, {"datum": "date_code"}, {"zone_inset": taped(60.0)},
    )]
    cases = [
        (assess(bench_job(injury, rule_set=rules, tire=each)), replace(looking_at(40), **view))
        for each in tires for rules in ("north_america", "united_kingdom", None) for view in VIEWS.values()
    ]
    as_they_come = [told(SCENES[name](*case)) for case in cases]
    assert len({str(each) for each in as_they_come}) > 20
    for case, scene in zip(reversed(cases), reversed(as_they_come), strict=True):
        forget()
        assert told(SCENES[name](*case)) == scene


@pytest.mark.parametrize("name", SCENES)
def test_marks_that_were_drawn_before_leave_nothing_behind(name):
    view = looking_at(40, chosen="1", shown_reason=("place", ("1",)), composed=True)
    full, empty = assessed(crown_injury("1", 20.0, 40.0), crown_injury("2", -20.0, 44.0)), assessed()
    forget()
    fresh = told(SCENES[name](empty, view))
    forget()
    SCENES[name](full, view)
    assert told(SCENES[name](replace(full, injuries=(), pairs=()), view)) == fresh


def test_a_drag_and_an_edit_of_a_mark_keep_the_tire_and_an_edit_of_the_tire_does_not():
    session = Session(bench_job(crown_injury("1", 20.0, 40.0)))
    before, job = session.assessment, session.job
    moved = job.model_copy(update={"injuries": (crown_injury("1", 31.0, 40.0),)})
    assert TireOf(session.preview(moved)) == TireOf(before)
    assert hash(TireOf(session.preview(moved))) == hash(TireOf(before))
    worn = job.model_copy(update={"tire": measured_tire(tread_width=taped(150.0))})
    assert TireOf(assess(worn)) != TireOf(before)
    assert TireOf(before).bare.marks == ()
