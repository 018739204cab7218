"""A shop's own crown zone between the outer grooves: what it asks for, and where its edge lies."""

from pathlib import Path

import pytest

from tests.helpers.jobs import bench_job, crown_injury, hole, measured_tire, probed, taped
from tiremap.assess import assess
from tiremap.model.measures import Across, Lean
from tiremap.model.rule_set import RuleSet
from tiremap.model.rule_set_file import rule_set_named, rule_set_path
from tiremap.model.rule_set_words import limit_lines
from tiremap.rules.reasons import Reason
from tiremap.storage.shop_rule_sets import copy_rule_set


@pytest.fixture(autouse=True)
def own_settings(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TIREMAP_SETTINGS_FOLDER", str(tmp_path / "settings"))


def grooves_set(inset: float) -> RuleSet:
    """North America with its passenger zone inside the outer grooves."""
    rule_set_path("our_shop").unlink(missing_ok=True)
    path = copy_rule_set("north_america", "our_shop")
    text = path.read_text()
    old = 'edge = { kind = "inset_from_tread_edge", value = 25.4 }'
    assert old in text
    path.write_text(text.replace(old, f'edge = {{ kind = "inside_outer_grooves", value = {inset} }}'))
    return rule_set_named("our_shop")


def place(inset: float, across: float, between: float | None) -> Reason:
    grooves_set(inset)
    upright = Lean(value=0.0, how="exact")
    exact = crown_injury(
        outside=Across(value=across, origin="center", how="exact"), lean_across=upright, lean_around=upright,
        size_outside=hole(4.0, how="exact"), size_inside=None,
    )
    grooves = None if between is None else taped(between, minus=0.0, plus=0.0)
    tire = measured_tire(tread_width=taped(170.0, minus=0.0, plus=0.0), between_outer_grooves=grooves)
    found = assess(bench_job(exact, rule_set="our_shop", tire=tire))
    (reason,) = [each for each in found.injuries[0].reasons if each.code == "place"]
    return reason


def test_the_zone_ends_at_the_grooves_inner_wall_for_the_whole_hole():
    # 100 / 2 - 48 - 4 / 2 = 0
    assert place(0.0, 48.0, 100.0).level == "note"
    assert place(0.0, 48.0, 100.0).margin == pytest.approx(0.0, abs=1e-9)


def test_an_inset_from_the_groove_moves_the_edge_inward():
    assert place(5.0, 43.0, 100.0).margin == pytest.approx(0.0, abs=1e-9)


def test_a_hair_past_the_groove_is_refused_on_both_sides():
    for side in (48.1, -48.1):
        assert place(0.0, side, 100.0).level == "refuse"


def test_grooves_nobody_measured_are_asked_for_and_never_passed():
    reason = place(0.0, 40.0, None)
    assert reason.level == "measure"
    assert reason.settles.field == "tire.between_outer_grooves"
    assert reason.settles.at_least == 84.0  # 2 x (40 + 4 / 2)
    assert place(0.0, 40.0, reason.settles.at_least).level == "note"


def test_grooves_of_any_width_pass_a_hole_on_the_center_and_none_ask_past_the_tread_edge():
    assert place(0.0, 0.0, None).level == "note"
    assert place(0.0, 86.0, None).level == "refuse"  # the tread is 170 wide
    assert place(0.0, 84.0, 300.0).level == "refuse"  # nor does a groove distance reach past its edge


def test_the_words_name_the_groove():
    asks = {line.asks for line in limit_lines(grooves_set(3.0)) if line.about == "Crown zone"}
    assert any("at least 3 mm inside the outer groove's inner wall" in each for each in asks)
    assert place(3.0, 10.0, 100.0).measured == "inside the outer groove's inner wall"


def test_a_zone_by_the_tread_edge_does_not_ask_for_grooves():
    leaning = crown_injury(across_mm=55.0, lean_across=probed(10.0))
    found = assess(bench_job(leaning, rule_set="north_america"))
    assert "tire.between_outer_grooves" not in {each.field for each in found.needed}
