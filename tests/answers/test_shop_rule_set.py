"""What the shop's own rule set answers, and that it says where it is looser than the set it was copied from."""

import re

import pytest

from tests.helpers.jobs import bench_job, crown_injury, gauged, hole, measured_tire
from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.edits.job_card import choose_rule_set
from tiremap.model.job import Job
from tiremap.rules.reasons import Reason
from tiremap.storage.shop_rule_sets import copy_rule_set, write_limit


def six_mm_hole() -> Job:
    """A hole of 6.2 mm exactly: over the 6 mm of most sets, inside the 6.35 mm of North America."""
    return bench_job(crown_injury(size_outside=hole(6.2, how="exact"), size_inside=None), rule_set="our_shop")


def said_to_be_looser(found: Assessment) -> list[Reason]:
    return [reason for reason in found.reasons if reason.code == "looser_than_parent"]


def by_parent(parent: str, job: Job) -> Assessment:
    return assess(choose_rule_set(job, parent))


@pytest.mark.parametrize("parent", ["north_america", "united_kingdom", "european_makers", "new_zealand"])
def test_a_copy_answers_as_its_parent_does_and_says_nothing_of_it(parent):
    copy_rule_set(parent, "our_shop")
    tire = measured_tire(built="standard")
    for job in (bench_job(crown_injury(), rule_set="our_shop", tire=tire), six_mm_hole()):
        found, of_parent = assess(job), by_parent(parent, job)
        assert found.answer == of_parent.answer
        assert found.all_reasons == of_parent.all_reasons


def test_a_tighter_set_answers_tighter_and_silently():
    copy_rule_set("north_america", "our_shop")
    write_limit("our_shop", "largest_injuries", 0, 5.0, "our own word")
    found = assess(six_mm_hole())
    assert found.answer == "not_repairable"
    assert by_parent("north_america", six_mm_hole()).answer != "not_repairable"
    assert said_to_be_looser(found) == []


def test_a_looser_set_says_so_of_the_whole_tire_and_the_answer_stays_what_it_is():
    copy_rule_set("european_makers", "our_shop")
    write_limit("our_shop", "largest_injuries", 0, 6.35, "our own word")
    found = assess(six_mm_hole())
    (caution,) = said_to_be_looser(found)
    assert (caution.level, caution.subject) == ("caution", ())
    assert "less than 6.35 mm" in caution.says and "less than 6 mm" in caution.says
    assert "our_shop" in caution.source and "european_makers" in caution.source
    (size,) = [reason for reason in found.all_reasons if reason.code == "hole_size"]
    assert size.level != "refuse"  # by its parent it is
    assert by_parent("european_makers", six_mm_hole()).answer == "not_repairable"


def test_looser_is_said_wherever_the_set_answers_whatever_the_answer():
    copy_rule_set("japan", "our_shop")
    write_limit("our_shop", "repair_counts", 0, 4, "our own word")
    worn = measured_tire(tread_depth=gauged(0.5))
    jobs = {
        "repairable": bench_job(crown_injury(), rule_set="our_shop"),
        "measure_first": bench_job(rule_set="our_shop"),
        "not_repairable": bench_job(crown_injury(), rule_set="our_shop", tire=worn),
    }
    for answer, job in jobs.items():
        found = assess(job)
        assert (found.answer, len(said_to_be_looser(found))) == (answer, 1)
        assert len(said_to_be_looser(assess(job, advise=False))) == 1


def test_each_looser_limit_is_a_caution_of_its_own():
    copy_rule_set("japan", "our_shop")
    write_limit("our_shop", "repair_counts", 0, 4, "our own word")
    write_limit("our_shop", "around_apart", 0, 100.0, "our own word")
    says = [reason.says for reason in said_to_be_looser(assess(six_mm_hole()))]
    assert len(says) == 2
    assert any("4 repairs" in each for each in says) and any("100 mm" in each for each in says)


def test_a_limit_changed_in_the_file_is_asked_at_the_next_answer():
    copy_rule_set("north_america", "our_shop")
    job = six_mm_hole()
    before = assess(job)
    write_limit("our_shop", "largest_injuries", 0, 6.1, "our own word")
    assert (before.answer == "not_repairable", assess(job).answer == "not_repairable") == (False, True)


def test_a_set_made_looser_than_all_seven_answers_nothing():
    path = copy_rule_set("north_america", "our_shop")
    path.write_text(path.read_text().replace("value = 6.35", "value = 12.0"))
    found = assess(six_mm_hole())
    assert (found.answer, found.rule_set, found.injuries[0].answer) == ("measure_first", None, "measure_first")
    (reason,) = found.reasons
    assert (reason.code, reason.level, reason.settles.field) == ("rule_set_unreadable", "measure", "rule_set")
    assert re.search(r"our_shop\.toml.*largest_injuries.*12 mm.*6\.35 mm", reason.says)
    assert by_parent("north_america", six_mm_hole()).answer != "not_repairable"


def test_a_job_by_a_set_this_machine_does_not_have_is_measured_first_and_says_which_there_are():
    found = assess(six_mm_hole())
    assert found.answer == "measure_first"
    assert "'our_shop'" in found.reasons[0].says and "united_kingdom" in found.reasons[0].says
    copy_rule_set("north_america", "our_shop")
    assert assess(six_mm_hole()).reasons[0].code != "rule_set_unreadable"
