"""The steps of a repair: which there are, what stands in them, in which order they may be ticked, and the two stops."""

from datetime import UTC, datetime

import pytest

from tests.helpers.jobs import (
    all_fine,
    bench_job,
    crown_injury,
    earlier_repair,
    evenly_worn,
    gauged,
    measured_tire,
    probed,
)
from tiremap.assess import assess
from tiremap.cli import run
from tiremap.edits.injuries import set_injury
from tiremap.edits.steps import HOLE, LINER, HoleSeen, answer_hole, answer_liner, tick, untick
from tiremap.errors import TiremapError
from tiremap.model.job import Checks, Job
from tiremap.model.measures import Lean, Length
from tiremap.model.stock import RepairUnit
from tiremap.repair_steps import MEASURE, REFUSED, done, held_back_by, steps_of
from tiremap.resources import read_toml
from tiremap.storage.job_file import read_job, write_job
from tiremap.workshop.stock import house_stock

NOW = datetime(2026, 11, 25, 10, 0, tzinfo=UTC)
TO_REAMING = ("deflate", "demount", "inspect", "measure", "probe", "ream")


def steps(job: Job):
    return steps_of(assess(job))


def ids(job: Job) -> list[str]:
    return [each.id for each in steps(job)]


def ticked(job: Job, *ids: str) -> Job:
    for each in ids:
        job = tick(job, each, NOW)
    return job


def reamed(cutter: float = 4.0, cords: bool = False, **more) -> HoleSeen:
    return HoleSeen("1", Length(value=cutter, how="exact"), cords, **more)


@pytest.fixture
def job():
    """A hole in the crown, everything fine: repairable."""
    return bench_job(crown_injury(), tire=measured_tire(**evenly_worn(gauged(6.0))))


def test_the_list_runs_from_finding_the_leak_to_the_final_check_in_one_count(job):
    found = steps(job)
    assert [each.number for each in found] == list(range(1, len(found) + 1))
    assert (found[0].id, found[-1].id) == ("find", "check_again")
    assert all(each.source and each.title and each.text for each in found)
    assert [each.id for each in found if each.stop] == [HOLE, LINER]


def test_what_is_done_before_what_for_safety_s_sake(job):
    order = ids(job)
    for first, later in (
        ("deflate", "demount"), ("demount", "inspect"), ("inspect", "ream"), ("clean", "buff"), ("ream", HOLE),
        (HOLE, "buff"), ("buff", LINER), (LINER, "cement"), ("cement", "dry"), ("dry", "fit_one_piece"),
        ("seal", "mount"), ("mount", "leak"), ("balance", "refit"),
    ):
        assert order.index(first) < order.index(later)


def test_the_waits_are_those_of_the_trade(job):
    """Cement 3 to 5 minutes until tacky; a tiny leak may need 15 to 20 (both common practice)."""
    waits = {each.id: (each.wait.least_s / 60, each.wait.greatest_s / 60) for each in steps(job) if each.wait}
    assert waits == {"find": (15, 20), "leak": (15, 20), "dry": (3, 5)}


def test_this_job_s_dimensions_stand_in_the_steps(job):
    said = {each.id: each.says for each in steps(job)}
    assert "Injury 1: cutter 4 to 5 mm" in said["ream"]
    assert "Injury 1: buff 52 mm across" in said["buff"] or "Injury 1: buff 52 mm across" in said["outline"]
    assert "head 40 mm" in said["fit_one_piece"]
    assert "1,200 rpm" in said["ream"] and "5,000 rpm" in said["buff"]  # common practice


def test_a_leaning_hole_takes_stem_and_patch_apart_and_an_upright_one_does_not(job):
    leaning = bench_job(crown_injury(lean_across=probed(30.0)), tire=job.tire)
    assert {"stem", "fit_patch"} <= set(ids(leaning)) and "fit_one_piece" not in ids(leaning)
    assert "fit_one_piece" in ids(job) and not {"stem", "fit_patch"} & set(ids(job))
    both = bench_job(
        crown_injury(lean_across=probed(30.0)), crown_injury("2", around_deg=180.0), tire=job.tire
    )
    assert {"stem", "fit_patch", "fit_one_piece"} <= set(ids(both))
    fitted = {each.id: each.details for each in steps(both)}
    assert [each[:8] for each in fitted["fit_patch"]] == ["Injury 1"]
    assert [each[:8] for each in fitted["fit_one_piece"]] == ["Injury 2"]


def test_until_a_lean_is_probed_the_steps_of_both_kinds_stand_in_the_list_for_that_hole(job):
    half = bench_job(crown_injury(lean_around=None), tire=job.tire)
    fitted = {each.id: [detail[:8] for detail in each.details] for each in steps(half)}
    assert fitted["fit_patch"] == fitted["fit_one_piece"] == ["Injury 1"]


def test_a_refused_tire_s_list_ends_after_the_inspection_with_why():
    found = steps(bench_job(crown_injury(across_mm=80.0)))
    assert [each.id for each in found][-2:] == ["inspect", REFUSED]
    assert any("shoulder" in each for each in found[-1].details)


def test_a_tire_to_be_measured_first_ends_with_what_to_measure():
    found = steps(bench_job(crown_injury(), checks=Checks()))
    assert found[-1].id == MEASURE and found[-1].details
    assert "ream" not in [each.id for each in found]


def test_a_step_waits_for_the_earlier_one_that_safety_asks_for_and_for_no_other(job):
    with pytest.raises(TiremapError, match="Let all the air out"):
        tick(job, "demount", NOW)
    with pytest.raises(TiremapError, match="ask the answer again"):
        tick(ticked(job, *TO_REAMING), "buff", NOW)
    assert [each.step for each in ticked(job, "deflate", "demount").steps_done] == ["deflate", "demount"]
    assert ticked(job, "find").steps_done[0].at == NOW


def test_a_tick_is_taken_back_and_given_once(job):
    twice = ticked(job, "find", "find")
    assert len(twice.steps_done) == 1
    assert untick(twice, "find").steps_done == ()


def test_a_stop_is_answered_and_not_ticked(job):
    with pytest.raises(TiremapError, match="answered, not ticked"):
        tick(ticked(job, *TO_REAMING), HOLE, NOW)
    with pytest.raises(TiremapError, match="injury 1"):
        answer_hole(ticked(job, *TO_REAMING), (), NOW)


def test_the_stop_after_reaming_puts_what_was_found_into_the_job_and_keeps_the_answer(job):
    seen = answer_hole(ticked(job, *TO_REAMING), (reamed(5.0),), NOW)
    [injury] = seen.injuries
    assert (injury.size_prepared.mm, injury.cords_splayed) == (5.0, False)
    assert seen.steps_done[-1].answer == "repairable" == assess(seen).answer
    ticked(seen, "buff")


@pytest.mark.parametrize("found", [reamed(8.0), reamed(4.0, cords=True)])
def test_the_answer_may_turn_after_reaming_and_then_nothing_goes_on(job, found):
    """8 mm is beyond 6 mm, prepared (BS AU 159 as the trade body has it); splayed cords refuse everywhere."""
    turned = answer_hole(ticked(job, *TO_REAMING), (found,), NOW)
    assert turned.steps_done[-1].answer == "not_repairable"
    assert "buff" not in ids(turned) and ids(turned)[-1] == REFUSED
    with pytest.raises(TiremapError, match="no step 'buff'"):
        tick(turned, "buff", NOW)
    assert len(turned.steps_done) == len(TO_REAMING) + 1  # nothing done is lost


def test_an_answer_that_turns_to_measure_first_at_the_stop_goes_no_further_either(job):
    """A lean of 60 degrees probed anew carries the hole to where only a measurement inside can tell."""
    open_lean = reamed(lean_across=Lean(value=60.0, how="probe"))
    far = bench_job(crown_injury(across_mm=40.0), tire=job.tire)
    turned = answer_hole(ticked(far, *TO_REAMING), (open_lean,), NOW)
    assert turned.steps_done[-1].answer == "measure_first"
    assert ids(turned)[-2:] == [HOLE, MEASURE] and "buff" not in ids(turned)


def test_a_torn_liner_found_after_buffing_refuses(job):
    buffed = ticked(answer_hole(ticked(job, *TO_REAMING), (reamed(),), NOW), "buff")
    assert answer_liner(buffed, liner_whole=True, cord_bare=False, at=NOW).steps_done[-1].answer == "repairable"
    for liner, cord in ((False, False), (True, True)):
        assert answer_liner(buffed, liner, cord, NOW).steps_done[-1].answer == "not_repairable"


def test_a_hole_changed_after_the_stop_is_asked_about_again(job):
    seen = answer_hole(ticked(job, *TO_REAMING), (reamed(),), NOW)
    [stop] = [each for each in steps(seen) if each.id == HOLE]
    assert done(seen, stop) is not None
    moved = set_injury(seen, "1", size_prepared=Length(value=5.0, how="exact"))
    assert done(moved, stop) is None
    with pytest.raises(TiremapError, match="ask the answer again"):
        tick(moved, "buff", NOW)


def test_the_command_prints_one_object_with_every_step(job, tmp_path, capsys):
    import json

    path = tmp_path / "job.json"
    write_job(path, ticked(job, "find"))
    assert run(["steps", str(path), "--json"]) == 0
    record = json.loads(capsys.readouterr().out)
    assert set(record) == {"job", "answer", "steps"} and record["answer"] == "repairable"
    assert all(set(each) == {"number", "says", "wait_s", "safety"} for each in record["steps"])
    assert [each["wait_s"] for each in record["steps"] if each["wait_s"]] == [900, 240, 900]
    assert run(["steps", str(path)]) == 0
    said = capsys.readouterr().out
    assert "[x]  1. Find and mark every leak" in said and "Cautions: " in said
    assert run(["steps", str(tmp_path / "nowhere.json")]) == 2
    assert read_job(path).steps_done[0].step == "find"


def test_every_step_in_the_file_is_asked_for_by_some_job(job):
    leaning = bench_job(
        crown_injury(lean_across=probed(30.0)), crown_injury("2", around_deg=180.0), earlier_repair(around_deg=270.0),
        tire=job.tire, checks=all_fine(repairs=True),
    )
    assert set(ids(leaning)) == {each["id"] for each in read_toml("steps", "steps.toml")["steps"]}


def test_what_is_probed_after_reaming_goes_into_the_job(job):
    seen = reamed(lean_across=Lean(value=4.0, how="probe"), lean_around=Lean(value=3.0, how="probe"))
    [injury] = answer_hole(ticked(job, *TO_REAMING), (seen,), NOW).injuries
    assert (injury.lean_across.value, injury.lean_around.value) == (4.0, 3.0)


def test_an_oblong_head_is_told_in_both_directions(job):
    unit = RepairUnit(stem_mm=6.0, head_length_mm=60.0, head_width_mm=40.0, head_along="around")
    oblong = house_stock().model_copy(update={"units": (unit,)})
    reamed_job = bench_job(crown_injury(size_prepared=Length(value=6.0, how="exact")), tire=job.tire)
    told = [detail for each in steps_of(assess(reamed_job, stock=oblong)) for detail in each.details]
    border = oblong.beyond_the_head.border
    says = f"buff {40 + 2 * border:g} mm across the tire by {60 + 2 * border:g} mm around it"
    assert any(says in each for each in told)


def test_a_step_that_is_not_in_the_list_is_held_back_by_none(job):
    some = ticked(job, *TO_REAMING)
    done_ones = tuple(step for step in steps(some) if step.id in TO_REAMING)
    other = next(step for step in steps(some) if step.id == "buff")
    assert held_back_by(some, tuple(step for step in done_ones if done(some, step)), other) is None


def test_what_is_not_measured_any_more_behind_a_stop_is_said_step_by_step(job):
    """The hole was reamed and looked at, then its entries taken out: no step goes on with a figure."""
    buffed = ticked(answer_hole(ticked(job, *TO_REAMING), (reamed(),), NOW), "outline", "buff")
    sealed = answer_liner(buffed, liner_whole=True, cord_bare=False, at=NOW)
    empty = dict.fromkeys(
        ("size_outside", "size_inside", "size_prepared", "outside", "inside", "around", "lean_across", "lean_around")
    )
    told = {each.id: each.details for each in steps(sealed.model_copy(update={"injuries": (crown_injury(**empty),)}))}
    assert told["measure"] == ("Injury 1: place not measured yet",)
    assert told["clean"] == told["outline"] == ("Injury 1: size not measured yet",)
    assert told["ream"] == ("Injury 1: cutter not measured yet, foreseen: gauge again after each size",)
    assert told["stem"] == ("Injury 1: length of the channel not measured yet",)
    assert "cement" not in told


def test_a_hole_no_stem_in_stock_fits_is_said_to_have_no_unit_not_to_be_unmeasured(job):
    """The stock changed after the hole was reamed to 4 mm and looked at: only a 3 mm stem is left."""
    buffed = ticked(answer_hole(ticked(job, *TO_REAMING), (reamed(),), NOW), "outline", "buff")
    sealed = answer_liner(buffed, liner_whole=True, cord_bare=False, at=NOW)
    thin = house_stock().model_copy(update={"units": (RepairUnit(stem_mm=3.0, head_length_mm=40.0),)})
    told = {each.id: each.details for each in steps_of(assess(sealed, stock=thin))}
    assert told["clean"] == told["outline"] == ("Injury 1: no unit in stock fits the hole",)
