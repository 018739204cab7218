"""Jobs and readings of scenes that the drawing tests share."""

from math import radians

from shapely import Geometry

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, probed
from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.drawing.ring_scene import ring_scene
from tiremap.drawing.scene import Area, Label, Scene, View
from tiremap.drawing.section_scene import section_scene
from tiremap.drawing.strip_scene import strip_scene
from tiremap.model.job import Injury, Job, Tire
from tiremap.model.measures import Across, Around

SCENES = {"section": section_scene, "strip": strip_scene, "ring": ring_scene}


def assessed(*marks, rule_set: str = "north_america", **fields) -> Assessment:
    """A measured 205/55R16 with those marks, assessed."""
    return assess(bench_job(*marks, rule_set=rule_set, **fields))


def by_eye(size_code: str = "205/55R16 91V", rule_set: str = "north_america") -> Assessment:
    """A fresh click in the crown of a tire of which only the size code is known."""
    injury = Injury(
        id="1", outside=Across(value=35.0, how="eye", origin="center"), around=Around(value=40.0, how="eye")
    )
    return assess(Job(rule_set=rule_set, tire=Tire(size_code=size_code), injuries=(injury,)))


def crowded() -> Assessment:
    """Twelve injuries, every third leaning, and six earlier repairs, every second unsound."""
    injuries = [
        crown_injury(str(n), -50 + n * 37 % 110, n * 29 % 360, lean_across=probed(20.0 if n % 3 == 0 else 0.0))
        for n in range(1, 13)
    ]
    kinds = ("stem_and_head", "plug_only")
    repairs = [earlier_repair(f"R{n}", -40 + n * 15, n * 55.0, kind=kinds[n % 2]) for n in range(6)]
    return assessed(*injuries, *repairs)


def shapes(scene: Scene, style: str, key: str | None = None) -> list[Geometry]:
    """The areas of a style, of one mark if a key is given."""
    return [
        mark.shape for mark in scene.marks
        if isinstance(mark, Area) and mark.style == style and key in (None, mark.key)
    ]


def words(scene: Scene) -> list[str]:
    """What the labels say."""
    return [mark.text for mark in scene.marks if isinstance(mark, Label)]


def looking_at(angle_deg: float, **more) -> View:
    """A view with that angle in the middle of the strip."""
    return View(strip_middle=radians(angle_deg), **more)
