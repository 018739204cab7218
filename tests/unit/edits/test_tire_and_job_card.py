"""What is entered of the tire and of the job as a whole."""

from datetime import UTC, datetime

import pytest

from tests.helpers.jobs import bench_job, taped
from tiremap.edits.decisions import record_decision
from tiremap.edits.job_card import choose_rule_set, set_job_card, set_note
from tiremap.edits.tire import set_size_code, set_tire, set_typed_size
from tiremap.errors import TiremapError
from tiremap.model.job import Decision, Job, MakerWord

TYPED = {"overall_diameter_mm": 1054.0, "section_width_mm": 279.0, "rim_diameter_mm": 571.5, "rim_width_in": 8.25}


def test_a_size_code_is_kept_as_it_was_typed():
    assert set_size_code(Job(), " 205/55 r16 91V ").tire.size_code == "205/55 r16 91V"


def test_a_size_code_that_cannot_be_read_is_refused_and_typed_with_its_dimensions():
    with pytest.raises(TiremapError):
        set_size_code(Job(), "11R22.5")
    tire = set_typed_size(Job(), "11R22.5", **TYPED).tire
    assert tire.size_code == "11R22.5"
    assert tire.typed_dimensions.overall_diameter_mm == 1054.0


def test_typed_dimensions_go_with_the_size_they_belonged_to():
    job = set_typed_size(Job(), None, **TYPED)
    assert set_size_code(job, "205/55R16").tire.typed_dimensions is None
    assert set_size_code(job, None).tire == Job().tire


def test_typed_dimensions_no_tire_has_are_refused_in_words():
    with pytest.raises(TiremapError, match=r"overall_diameter_mm: 20.0 cannot be used. It should be 200 or more"):
        set_typed_size(Job(), None, **{**TYPED, "overall_diameter_mm": 20.0})


def test_a_new_size_code_leaves_what_was_measured():
    job = bench_job()
    assert set_size_code(job, "225/45R17").tire.tread_width == job.tire.tread_width


def test_fields_of_the_tire_are_set_trimmed_and_cleared():
    word = MakerWord(source="maker's bulletin 12", zone_inset=taped(30.0))
    job = set_tire(Job(), number=" 4711 ", date_code=" ", tread_width=taped(6.75, "in"), maker_word=word)
    assert (job.tire.number, job.tire.date_code, job.tire.maker_word) == ("4711", None, word)
    assert job.tire.tread_width.value == 6.75
    assert set_tire(job, tread_width=None, maker_word=None, number="").tire == Job().tire


@pytest.mark.parametrize("field", ["size_code", "typed_dimensions", "tred_width"])
def test_the_size_is_not_set_past_its_check_and_no_field_is_invented(field):
    with pytest.raises(TypeError, match=field):
        set_tire(Job(), **{field: None})


def test_a_rule_set_is_chosen_by_a_name_there_is():
    assert choose_rule_set(Job(), "united_kingdom").rule_set == "united_kingdom"
    assert choose_rule_set(bench_job(), None).rule_set is None
    with pytest.raises(TiremapError, match=r"north_america.*united_kingdom"):
        choose_rule_set(Job(), "moon")


def test_the_job_card_holds_numbers_and_date_and_nothing_else():
    job = set_note(set_job_card(Job(), job_number=" 17 ", fleet_number="", date="2026-03-01"), "  two nails\n")
    assert (job.job_number, job.fleet_number, job.date, job.note) == ("17", None, "2026-03-01", "  two nails\n")
    with pytest.raises(TypeError, match="decisions"):
        set_job_card(job, decisions=())


def test_a_decision_is_added_after_those_before_it():
    first = Decision(
        date=datetime(2026, 3, 1, 9, 30, tzinfo=UTC),
        rule_set="united_kingdom",
        answer="measure_first",
        decision="measure",
    )
    second = first.model_copy(update={"answer": "repairable", "decision": "repair"})
    assert record_decision(record_decision(Job(), first), second).decisions == (first, second)
