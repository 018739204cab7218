"""Outlines of a few drawings against those kept as WKT: what differs is measured as an area.

To keep new ones after a change that was meant: ``python -m tests.golden.test_outlines``, then look at the difference.
"""

from pathlib import Path

import pytest
import shapely
from shapely import Geometry

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, probed
from tiremap.assess import assess
from tiremap.drawing.scene import Area, View
from tiremap.drawing.section_scene import section_scene
from tiremap.drawing.strip_scene import strip_scene

KEPT = Path(__file__).parent / "outlines"
STYLES = {
    "section": ("channel", "stem_measure_first", "head_measure_first", "buffed_band", "head_earlier"),
    "strip": ("head_measure_first", "head_earlier", "buffed", "buffed_overlap"),
}


def _outlines(name: str) -> dict[str, Geometry]:
    job = bench_job(
        crown_injury("1", 20.0, 355.0, lean_across=probed(20.0)), crown_injury("2", -12.0, 1.0),
        earlier_repair("R1", -40.0, 15.0), rule_set="north_america",
    )
    scene = {"section": section_scene, "strip": strip_scene}[name](assess(job), View(chosen="1"))
    return {
        style: shapely.union_all([mark.shape for mark in scene.marks if isinstance(mark, Area) and mark.style == style])
        for style in STYLES[name]
    }


@pytest.mark.parametrize(("name", "style"), [(name, style) for name, styles in STYLES.items() for style in styles])
def test_an_outline_is_the_one_that_was_looked_at_and_kept(name, style):
    kept = shapely.from_wkt((KEPT / f"{name}_{style}.wkt").read_text())
    drawn = _outlines(name)[style]
    assert not kept.is_empty
    assert kept.symmetric_difference(drawn).area <= 0.002 * kept.area


if __name__ == "__main__":
    for name in STYLES:
        for style, shape in _outlines(name).items():
            text = shapely.to_wkt(shape.simplify(0.005), rounding_precision=3)
            (KEPT / f"{name}_{style}.wkt").write_text(f"{text}\n")
