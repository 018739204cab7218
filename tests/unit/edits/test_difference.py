"""What differs between two jobs, in the words of the bench."""

import pytest

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, hole
from tiremap.edits.change import changed
from tiremap.edits.difference import NOT_THERE, WORDS_OF, Difference, differences
from tiremap.model.job import Finding
from tiremap.model.measures import Across, Around, BeadToes, Length
from tiremap.resources import read_toml

JOB = bench_job(crown_injury("1"), crown_injury("2"), earlier_repair())


def _with_injury(**fields):
    first, *others = JOB.injuries
    return changed(JOB, injuries=(changed(first, **fields), *others))


@pytest.mark.parametrize("record", WORDS_OF)
def test_every_field_of_a_job_file_has_a_name_and_no_name_is_left_of_a_field_that_went(record):
    assert set(read_toml("field_words.toml")[WORDS_OF[record]]) == set(record.model_fields)


@pytest.mark.parametrize(
    ("field", "one", "other", "says"),
    [
        ("outside", Across(value=35, origin="outboard_edge", how="tape"), None,
         ("injury 1, outside, across", "35 mm from outboard edge, tape", "not entered")),
        ("inside", Across(value=1.375, unit="in", origin="center", how="rule"),
         BeadToes(from_outboard=90, from_inboard=110.5, how="tape"),
         ("injury 1, inside, across", "1.375 in from center, rule", "90 and 110.5 mm from bead toes, tape")),
        ("around", Around(value=90, how="protractor"), Around(value=3.5, unit="h", how="clock", minus=0.5, plus=0.5),
         ("injury 1, around", "90°, protractor", "3.5 h, clock ±0.5")),
        ("size_outside", hole(4.0), changed(hole(4.0), how="gauge", stops=5.0),
         ("injury 1, size outside", None, "4 to 5 mm, gauge")),
        ("cords_splayed", None, True, ("injury 1, cords splayed", "not entered", "yes")),
    ],
)
def test_a_measure_is_told_as_it_was_taken(field, one, other, says):
    found, = differences(_with_injury(**{field: one}), _with_injury(**{field: other}))
    where, first, second = says
    assert (found.where, found.second) == (where, second) and first in (None, found.first)


def test_a_mark_that_is_there_once_is_told_whole_and_by_its_number():
    found, = differences(changed(JOB, injuries=JOB.injuries[1:]), JOB)
    assert found.where == "injury 1" and found.first == NOT_THERE
    assert "outside, across" in found.second and "from" in found.second


def test_tire_checks_and_card_are_told_in_the_order_of_the_job():
    after = changed(
        JOB, job_number="R-12", tire=changed(JOB.tire, tread_depth=Length(value=3, how="gauge"), outboard_by="unknown"),
        checks=changed(JOB.checks, bulge=Finding(state="found")),
    )
    found = differences(JOB, after)
    assert [each.where for each in found][:2] == ["job number", "tire, tread depth"]
    assert (found[1].second, found[-1].second) == ("3 mm, gauge", "found")
    assert found[-1].where == "check, bulges"


def test_words_of_the_file_that_are_a_choice_lose_their_lines_and_free_text_stays():
    tire = changed(JOB.tire, tire_class="light_truck", number="A_1")
    found = {each.where: each.second for each in differences(JOB, changed(JOB, tire=tire))}
    assert found["tire, class"] == "light truck" and found["tire, tire number"] == "A_1"


def test_marks_in_another_order_are_a_difference():
    turned = changed(JOB, injuries=JOB.injuries[::-1])
    assert differences(JOB, turned) == (Difference("injury: order", "1, 2", "2, 1"),)
