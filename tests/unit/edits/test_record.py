"""What was fitted becomes a repair on the tire's map: where, what, when, and nothing of the injury is lost."""

from datetime import UTC, datetime
from math import radians, tan

import pytest

from tests.helpers.jobs import bench_job, crown_injury, evenly_worn, from_outboard_edge, gauged, hole, measured_tire
from tiremap.assess import assess
from tiremap.edits.record import record_repair
from tiremap.errors import TiremapError
from tiremap.model.job import Decision
from tiremap.model.measures import Across, Lean, Length
from tiremap.storage.canonical import job_text
from tiremap.storage.job_file import job_from_bytes

NOW = datetime(2026, 11, 25, 10, 0, tzinfo=UTC)
TIRE = measured_tire(**evenly_worn(gauged(6.0)), under_grooves=Length(value=6.0, how="exact"))


def recorded(injury, **fields):
    return record_repair(assess(bench_job(injury, tire=TIRE, **fields)), injury.id, NOW)


def test_an_upright_hole_s_repair_lies_where_the_hole_was_taped_with_date_and_unit():
    injury = crown_injury(outside=from_outboard_edge(58.0), around_deg=95.0)
    job = recorded(injury)
    [repair] = job.repairs
    assert job.injuries == () and repair.mended == injury
    assert (repair.inside.origin, repair.inside.value) == ("outboard_edge", pytest.approx(58.0))
    assert repair.around.value == pytest.approx(95.0)
    assert (repair.head_length.mm, repair.fitted.stem_mm, repair.fitted.made) == (40.0, 4.0, "one_piece")
    assert (repair.kind, repair.date) == ("stem_and_head", "2026-11-25")
    assert job.checks.earlier_repairs.state == "all_marked"
    assert [each.step for each in job.steps_done] == ["record"]


def test_a_leaning_hole_s_repair_lies_where_it_comes_out_and_its_tolerance_covers_every_true_place():
    injury = crown_injury(
        outside=from_outboard_edge(58.0), around_deg=95.0, lean_across=Lean(value=10.0, how="probe"),
        lean_around=Lean(value=-12.0, how="probe"),
    )
    [repair] = recorded(injury).repairs
    inside = repair.inside
    assert inside.value == pytest.approx(58.0 - 12.0 * tan(radians(10)), abs=0.01)
    for lean in (5.0, 15.0):  # by probe: 5 degrees either way
        for taped in (56.0, 60.0):  # by tape: 2 mm
            for thick in (11.8, 12.2):
                true = taped - thick * tan(radians(lean))
                assert inside.value - inside.minus - 1e-6 <= true <= inside.value + inside.plus + 1e-6
    assert repair.around.value < 95.0


def test_where_it_was_measured_inside_that_place_stays_as_it_was_taken():
    inside = Across(value=10.0, origin="center", how="probe")
    injury = crown_injury(across_mm=9.0, inside=inside, lean_across=None)
    assert recorded(injury).repairs[0].inside == inside


def test_the_next_hole_beside_it_is_refused_for_overlapping_heads_and_one_far_away_is_not():
    job = recorded(crown_injury(across_mm=0.0, around_deg=90.0))
    near = crown_injury("2", 10.0, 90.0)
    found = assess(job.model_copy(update={"injuries": (near,)}))
    assert found.answer == "not_repairable"
    assert any(each.code == "heads_overlap" and each.level == "refuse" for each in found.all_reasons)
    far = crown_injury("2", 10.0, 270.0)
    assert assess(job.model_copy(update={"injuries": (far,)})).answer == "repairable"


def test_a_recorded_job_is_read_back_as_it_was_written():
    job = recorded(crown_injury())
    assert job_from_bytes(job_text(job).encode()) == job


def test_what_is_not_repairable_is_recorded_only_after_a_signed_decision_against_the_answer():
    refused = crown_injury(size_outside=hole(8.0, how="exact"), size_inside=None)
    with pytest.raises(TiremapError, match="sign that decision"):
        recorded(refused)
    signed = Decision(date=NOW, rule_set="united_kingdom", answer="not_repairable", decision="repair", by="12")
    job = recorded(refused, decisions=(signed,))
    assert job.decisions == (signed,) and job.decisions[0].against_answer
    assert job.repairs[0].fitted.stem_mm == 8.0


def test_what_is_not_known_cannot_be_recorded():
    for injury in (crown_injury(around_deg=None), crown_injury(size_outside=None, size_inside=None)):
        with pytest.raises(TiremapError, match="not known"):
            recorded(injury)
    with pytest.raises(TiremapError, match="not known"):
        record_repair(assess(bench_job(crown_injury(), tire=TIRE)), "7", NOW)


def test_a_lean_around_that_nobody_probed_is_not_taken_as_upright():
    """A single hole passes without it (placed across alone), but its repair must be found again around the tire."""
    unprobed = crown_injury(lean_around=None)
    assert assess(bench_job(unprobed, tire=TIRE)).answer == "repairable"
    with pytest.raises(TiremapError, match="leans around"):
        recorded(unprobed)


def test_two_injuries_are_recorded_one_after_the_other_under_ids_of_their_own():
    job = bench_job(crown_injury("1", 0.0, 0.0), crown_injury("2", 0.0, 180.0), tire=TIRE)
    for id in ("1", "2"):
        job = record_repair(assess(job), id, NOW)
    assert [each.id for each in job.repairs] == ["R1", "R2"] and job.injuries == ()


def test_a_repair_signed_for_before_its_depth_is_known_is_not_placed_by_guess():
    """Inside not measured, and the lean across never probed: the place it comes out is unknown, decision or not."""
    injury = crown_injury(lean_across=None)
    signed = Decision(
        date=NOW, sign="7", decision="repair", answer="measure_first", rule_set="united_kingdom", note="as told"
    )
    with pytest.raises(TiremapError, match="comes out inside is not known"):
        recorded(injury, decisions=(signed,))
