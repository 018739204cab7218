"""What is entered of the tire and of the job as a whole."""

from datetime import UTC, datetime
from typing import get_args

import pytest

from tests.helpers.jobs import bench_job, crown_injury, taped
from tiremap.assess import assess
from tiremap.edits.decisions import overtaken_decision, record_decision, sign
from tiremap.edits.injuries import move_injury
from tiremap.edits.job_card import choose_rule_set, set_job_card, set_note
from tiremap.edits.tire import set_size_code, set_tire, set_typed_size
from tiremap.errors import TiremapError
from tiremap.model.job import Answer, Choice, Decision, Job, MakerWord, is_against

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


def test_a_decision_is_signed_under_the_rule_set_and_answer_as_they_stand():
    job = bench_job(crown_injury("1", 80.0))
    at = datetime(2026, 3, 1, 9, 30, tzinfo=UTC)
    [signed] = sign(job, assess(job), "repair", at, " 12 ", "customer insists").decisions
    assert (signed.rule_set, signed.answer, signed.by, signed.date) == ("united_kingdom", "not_repairable", "12", at)
    assert signed.against_answer
    assert sign(Job(), assess(Job()), "do_not_repair", at, "KM").decisions[0].rule_set == ""


@pytest.mark.parametrize(("by", "told"), [(" ", "not signed"), ("a name written out", "too long")])
def test_a_decision_is_signed_with_a_number_or_initials(by, told):
    with pytest.raises(TiremapError, match=rf"{told}.*number or initials"):
        sign(Job(), assess(Job()), "measure", datetime(2026, 3, 1, tzinfo=UTC), by)


def test_only_to_repair_what_is_not_repairable_is_against_the_answer():
    against = [(d, a) for d in get_args(Choice) for a in get_args(Answer) if is_against(d, a)]
    assert against == [("repair", "measure_first"), ("repair", "not_repairable")]


def test_an_answer_that_changed_since_it_was_signed_is_noticed():
    job = bench_job(crown_injury())
    signed = sign(job, assess(job), "repair", datetime(2026, 3, 1, tzinfo=UTC), "12")
    assert overtaken_decision(assess(signed)) is None
    moved = move_injury(signed, "1", across_mm=80.0)
    assert overtaken_decision(assess(moved)) == signed.decisions[0]
    assert overtaken_decision(assess(job)) is None
