"""A tire's story over several jobs: what is told once, what may be the same, and in which order."""

from datetime import UTC, datetime
from pathlib import Path

from tests.helpers.jobs import at_angle, bench_job, crown_injury, earlier_repair, from_center, measured_tire
from tiremap.model.job import Decision, Job
from tiremap.resources import sample_jobs_folder
from tiremap.storage.job_file import read_job
from tiremap.storage.tire_story import story_of, with_every_repair

ONE, TWO, THREE = Path("17.json"), Path("23.json"), Path("31.json")


def repaired(date: str | None = "2025-03-01", **fields):
    return earlier_repair("R1", 20.0, 90.0, date=date, **fields)


def job(number: str, *marks, **fields) -> Job:
    return bench_job(*marks, job_number=number, **fields)


def decided(day: int, decision: str = "repair", answer: str = "repairable") -> Decision:
    at = datetime(2026, 3, day, 9, 30, tzinfo=UTC)
    return Decision(date=at, rule_set="united_kingdom", answer=answer, decision=decision, by="12")


def told(story) -> list[tuple[str, str, tuple[str | None, ...], tuple[int, ...]]]:
    """Each entry by kind, date, job numbers and what it may be the same as."""
    return [
        (each.kind, each.date[:10], tuple(source.job_number for source in each.sources), each.may_be_same_as)
        for each in story.entries
    ]


def test_a_repair_entered_again_in_a_later_job_is_told_once_with_both_files():
    nearly = earlier_repair("R4", 21.5, 91.0, date="2025-03-01")
    story = story_of([(ONE, job("17", repaired())), (TWO, job("23", nearly))])
    assert told(story) == [("repair", "2025-03-01", ("17", "23"), ())]
    assert [source.path for source in story.entries[0].sources] == [ONE, TWO]


def test_the_datum_itself_is_no_gap_between_two_readings_of_one_repair():
    before, behind = (earlier_repair("R1", 0.0, angle, date="2025-03-01") for angle in (359.0, 1.0))
    assert len(story_of([(ONE, job("17", before)), (TWO, job("23", behind))]).entries) == 1


def test_repairs_further_apart_than_their_tolerances_are_two():
    for across, around in ((25.0, 90.0), (20.0, 95.0)):
        other = earlier_repair("R1", across, around, date="2025-03-01")
        story = story_of([(ONE, job("17", repaired())), (TWO, job("23", other))])
        assert [each[3] for each in told(story)] == [(), ()]


def test_a_repair_of_another_or_no_date_at_the_same_place_may_be_the_same():
    for date in ("2025-04-01", None, "2025-03", "last spring"):
        story = story_of([(ONE, job("17", repaired())), (TWO, job("23", repaired(date)))])
        assert [each[3] for each in told(story)] == [(2,), (1,)]


def test_places_set_by_eye_are_never_merged_however_near():
    by_eye = repaired(inside=from_center(20.5, how="eye"))
    story = story_of([(ONE, job("17", repaired())), (TWO, job("23", by_eye))])
    assert [each[3] for each in told(story)] == [(2,), (1,)]


def test_without_a_common_datum_or_side_nothing_measured_anew_is_merged():
    anew = repaired(inside=from_center(20.5))
    for tire in (measured_tire(datum="date_code"), measured_tire(datum=None), measured_tire(outboard_by="unknown")):
        story = story_of([(ONE, job("17", repaired())), (TWO, job("23", anew, tire=tire))])
        assert [each[3] for each in told(story)] == [(2,), (1,)]


def test_a_repair_carried_over_as_it_stood_is_told_once_even_where_the_side_is_unknown():
    tire = measured_tire(outboard_by="unknown", datum=None)
    story = story_of([(ONE, job("17", repaired(), tire=tire)), (TWO, job("23", repaired(), tire=tire))])
    assert len(story.entries) == 1


def test_repairs_of_two_kinds_at_one_place_are_not_merged():
    story = story_of([(ONE, job("17", repaired())), (TWO, job("23", repaired(kind="patch_only")))])
    assert [each[3] for each in told(story)] == [(2,), (1,)]


def test_two_repairs_of_one_job_stay_two_and_each_finds_its_own_again():
    two = (repaired(), earlier_repair("R2", 21.0, 91.0, date="2025-03-01"))
    story = story_of([(ONE, job("17", *two)), (TWO, job("23", *two))])
    assert [each.sources for each in story.entries] == [story.entries[0].sources] * 2
    assert len(story.entries[0].sources) == 2


def test_repairs_whose_place_nobody_measured_may_be_the_same_unless_their_days_differ():
    nowhere = {"inside": None, "around": None}
    same = story_of([(ONE, job("17", repaired())), (TWO, job("23", repaired(**nowhere)))])
    assert [each[3] for each in told(same)] == [(2,), (1,)]
    other = story_of([(ONE, job("17", repaired())), (TWO, job("23", repaired("2025-04-01", **nowhere)))])
    assert [each[3] for each in told(other)] == [(), ()]


def test_entries_stand_in_order_of_date_and_the_undated_last():
    first = job("17", crown_injury(), repaired(), date="2026-03-02", decisions=(decided(2),))
    second = job("23", earlier_repair("R1", -60.0, 200.0), earlier_repair("R2", 60.0, 300.0, date="2024"),
                 date="2026-05-01", decisions=(decided(9), decided(3)))
    story = story_of([(TWO, second), (ONE, first)])
    assert [(kind, date) for kind, date, *_ in told(story)] == [
        ("repair", "2024"), ("repair", "2025-03-01"), ("injury", "2026-03-02"), ("decision", "2026-03-02"),
        ("decision", "2026-03-03"), ("decision", "2026-03-09"), ("repair", ""),
    ]
    assert story.undated == 1
    assert [each.number for each in story.entries] == list(range(1, 8))


def test_a_decision_keeps_the_rule_set_and_answer_it_was_made_under_and_says_when_it_was_against_it():
    against = decided(2, answer="not_repairable")
    story = story_of([(ONE, job("17", decisions=(against,), rule_set="japan"))])
    entry = story.entries[-1]
    assert (entry.rule_set, entry.answer, entry.against_answer) == ("united_kingdom", "not_repairable", True)


def test_a_decision_in_a_copied_file_is_told_once_and_two_in_one_file_twice():
    one = decided(2)
    story = story_of([(ONE, job("17", decisions=(one,))), (TWO, job("17", decisions=(one,)))])
    assert [len(each.sources) for each in story.entries] == [2]
    assert len(story_of([(ONE, job("17", decisions=(one, one)))]).entries) == 2


def test_an_injury_has_the_answer_its_job_gives_and_the_date_of_the_job():
    far = job("17", crown_injury("1", 80.0), date="2026-03-02")
    [entry] = story_of([(ONE, far)]).entries
    assert (entry.date, entry.answer, entry.rule_set) == ("2026-03-02", "not_repairable", "united_kingdom")


def test_a_job_whose_answer_changed_after_its_last_decision_is_named():
    good = job("17", crown_injury(), decisions=(decided(2),))
    moved = job("23", crown_injury("1", 80.0), decisions=(decided(2),))
    assert [source.job_number for source in story_of([(ONE, good), (TWO, moved)]).overtaken] == ["23"]


def test_a_job_with_a_size_nobody_can_read_is_told_without_places_or_answers():
    tire = measured_tire().model_copy(update={"size_code": "??"})
    unread = job("31", crown_injury(), repaired(), tire=tire)
    story = story_of([(THREE, unread)])
    assert [(each.kind, each.answer) for each in story.entries] == [("repair", None), ("injury", None)]


def test_a_repair_by_clock_hour_is_not_merged():
    story = story_of([(ONE, job("17", repaired())), (TWO, job("23", repaired(around=at_angle(90.5, how="clock"))))])
    assert [each[3] for each in told(story)] == [(2,), (1,)]


def test_repairs_only_other_files_hold_are_drawn_too_each_once_under_an_id_of_its_own():
    first = job("17", repaired(), earlier_repair("R2", -40.0, 250.0, date="2025-06-01"))
    last = job("23", repaired(), crown_injury())
    drawn, left_out = with_every_repair(last, TWO, story_of([(ONE, first), (TWO, last)]))
    assert [(each.id, each.inside.value, each.around.value) for each in drawn.repairs] == [
        ("R1", 20.0, 90.0), ("R2", -40.0, 250.0)
    ]
    assert drawn.injuries == last.injuries and not left_out


def test_a_repair_that_may_be_one_already_drawn_or_has_no_common_datum_is_left_out_and_named():
    first = job("17", repaired("2024-01-01"), earlier_repair("R2", -40.0, 250.0))
    last = job("23", repaired("2025-01-01"))
    drawn, left_out = with_every_repair(last, TWO, story_of([(ONE, first), (TWO, last)]))
    assert [each.id for each in drawn.repairs] == ["R1", "R2"] and left_out == (1,)
    turned = first.model_copy(update={"tire": measured_tire(datum="date_code")})
    drawn, left_out = with_every_repair(last, TWO, story_of([(ONE, turned), (TWO, last)]))
    assert drawn == last and len(left_out) == 2


def test_a_repair_with_no_place_across_has_no_place_on_another_tire_and_may_be_any():
    story = story_of([(ONE, job("17", repaired())), (TWO, job("23", repaired(inside=None)))])
    assert [each[3] for each in told(story)] == [(2,), (1,)]
    assert [each.placed_as(job("31")) for each in story.entries] == [True, False]


def test_a_decision_has_no_place_on_the_tire():
    [entry] = story_of([(ONE, job("17", decisions=(decided(3),)))]).entries
    assert not entry.placed_as(job("31"))


def test_no_injury_is_told_better_than_its_tire_is_answered():
    tires = {"third_repair_across_the_datum": "japan", "two_heads": "north_america", "earlier_plug": "united_kingdom"}
    for name, rules in tires.items():
        sample = read_job(sample_jobs_folder() / f"{name}.json").model_copy(update={"rule_set": rules})
        entries = [each for each in story_of([(ONE, sample)]).entries if each.kind == "injury"]
        assert {each.answer for each in entries} == {"not_repairable"}, name
        harmless = name == "earlier_plug"  # of the others a pair with the injury itself is refused
        assert {each.own_answer for each in entries} == {"repairable" if harmless else None}, name


def test_what_an_injury_has_by_itself_is_told_only_beside_a_worse_tire():
    unlooked = job("17", crown_injury(), checks=job("17").checks.model_copy(update={"inspected": None}))
    [worse] = story_of([(ONE, unlooked)]).entries
    assert (worse.answer, worse.own_answer) == ("measure_first", "repairable")
    [same] = story_of([(ONE, job("17", crown_injury()))]).entries
    assert (same.answer, same.own_answer) == ("repairable", None)
