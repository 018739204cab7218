"""What is left out or worked out once for speed changes nothing: the quick way against the slow one."""

import re
from dataclasses import replace
from functools import partial
from itertools import combinations, product

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from tests.helpers.answers import answer
from tests.helpers.bench import bench_jobs
from tests.helpers.counts import examples
from tests.helpers.jobs import at_angle, bench_job, crown_injury, earlier_repair
from tests.helpers.slow_margins import slow_margin
from tests.helpers.strategies import jobs
from tiremap.assess import assess, verdict
from tiremap.assessment import Assessment, case_of
from tiremap.edits.change import changed
from tiremap.errors import TiremapError
from tiremap.geometry.footprints import union_outline
from tiremap.geometry.liner_strip import true_area
from tiremap.model.job import Job
from tiremap.model.rule_set_file import rule_set_named, rule_set_names
from tiremap.resources import sample_jobs_folder
from tiremap.rules.book import OF_A_PAIR, OF_AN_INJURY, OF_THE_TIRE, ONLY_CAUTION
from tiremap.rules.facts import TireFacts
from tiremap.rules.head_at_edges import belt_edge_question, tread_edge_question
from tiremap.rules.margins import margin_of
from tiremap.rules.marks import MarkFacts
from tiremap.rules.pairs import apart, reach_of, turning
from tiremap.rules.place import passing_question
from tiremap.rules.reasons import answer_of, by_weight
from tiremap.rules.settling import settling
from tiremap.rules.turning import turning as turning_entry
from tiremap.storage.job_file import read_job

EASY = settings(max_examples=examples(40), deadline=None, suppress_health_check=list(HealthCheck))

ANY_JOB = st.one_of(jobs(most_marks=4), bench_jobs(injuries=(1, 3), repairs=(0, 2)))

SAMPLES = sorted(sample_jobs_folder().glob("*.json"))


def near_answers_as_all_do(found: Assessment) -> None:
    """Every pair that was not asked at first only passes; and what all of them say adds up to the same answer."""
    near = {(pair.first, pair.second) for pair in getattr(found.pairs, "near", ())}
    ids = [mark.id for mark in found.marks]
    if found.facts is not None:
        assert [(pair.first, pair.second) for pair in found.pairs] == list(combinations(ids, 2))
    if not found.asked:
        assert found.answer == "measure_first" and found.deciding == found.all_reasons[0]
        return
    for pair in found.pairs:
        if (pair.first, pair.second) not in near:
            assert {reason.level for reason in pair.reasons} <= {"note"}, pair
            assert not any(reason.asks for reason in pair.reasons)
    assert found.answer == answer_of(found.all_reasons)
    heaviest = by_weight(list(found.all_reasons))[0]
    assert found.deciding == (None if found.answer == "repairable" else heaviest)
    asked = dict(ask for reason in found.all_reasons for ask in reason.asks)
    if found.answer != "not_repairable":
        assert {each.field for each in found.needed} == set(asked)


@EASY
@given(ANY_JOB)
def test_pairs_that_are_not_asked_at_first_would_pass_every_check(job):
    try:
        found = answer(job)
    except TiremapError:
        return
    near_answers_as_all_do(found)


@EASY
@given(
    st.lists(st.tuples(st.floats(-70, 70), st.floats(0, 360), st.booleans()), min_size=2, max_size=12),
    st.sampled_from(rule_set_names()),
)
@example([(0.0, 0.0, False), (0.0, 62.0, False), (0.0, 180.0, True)], "japan")
@example([(0.0, 0.1, False), (0.0, 359.9, True)], "united_kingdom")
def test_nor_on_a_tire_full_of_marks(places, rule_set):
    marks = [
        earlier_repair(f"R{n}", across, around) if earlier else crown_injury(str(n), across, around)
        for n, (across, around, earlier) in enumerate(places)
    ]
    near_answers_as_all_do(answer(bench_job(*marks, rule_set=rule_set)))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_nor_on_any_sample_under_any_rule_set(path):
    for name in rule_set_names():
        near_answers_as_all_do(assess(read_job(path), rule_set_named(name)))


@pytest.mark.parametrize("apart_deg", [9.0, 10.0, 11.0, 12.0, 13.0, 14.0])
def test_two_heads_that_touch_are_asked_and_two_on_opposite_sides_are_not(apart_deg):
    marks = [crown_injury("1", 0.0, 0.0), crown_injury("2", 0.0, apart_deg), crown_injury("3", 0.0, 180.0)]
    found = answer(bench_job(*marks))
    told = {(pair.first, pair.second) for pair in found.pairs if any(each.level != "note" for each in pair.reasons)}
    near = {(pair.first, pair.second) for pair in found.pairs.near}
    assert told <= near <= {("1", "2")}


def upright_of(
    mark: MarkFacts, facts: TireFacts, outside: float, inside: float, width: float, thick: float, *_: float
) -> float:
    """Zero where the channel stands upright."""
    s_out, s_in, _lean = mark.channel_ends(facts, width, outside, inside, thick)
    return s_in - s_out


@EASY
@given(ANY_JOB)
def test_every_margin_is_that_of_the_slow_way(job):
    try:
        case = case_of(answer(job))
    except TiremapError:
        return
    if case is None:
        return
    for injury in case.injuries:
        for ask in (passing_question, tread_edge_question, belt_edge_question):
            question = ask(case, injury)
            upright = partial(upright_of, injury, case.facts)
            slow = slow_margin(replace(question, balances=(*question.balances, upright)))
            quick = margin_of(question)
            assert (quick.low, quick.high) == (slow.low, slow.high)
            assert quick.stated == slow.stated


@settings(EASY, max_examples=examples(20))
@given(bench_jobs(injuries=(1, 1)))
def test_what_to_measure_and_what_may_be_wrong_is_that_of_the_slow_way(job):
    case = case_of(answer(job))
    for ask in (passing_question, tread_edge_question) if case is not None else ():
        question = ask(case, case.injuries[0])
        any_way = replace(question, falls_with=frozenset(), rises_with=frozenset())
        assert settling(question) == settling(any_way)
        if margin_of(question).refuses(True):
            assert turning_entry(question) == turning_entry(replace(question, rises_with=frozenset()))


@EASY
@given(ANY_JOB)
def test_ends_and_turned_places_that_are_kept_are_those_worked_out_anew(job):
    try:
        case = case_of(answer(job))
    except TiremapError:
        return
    for mark in () if case is None else (*case.injuries, *case.repairs):
        readings = (case.facts.tread_width, mark.outside_reading, mark.inside_reading, mark.thickness)
        for corner in product(*((reading.low, reading.high) for reading in readings)):
            assert mark.ends_on(case.facts)(*corner) == mark.channel_ends(case.facts, *corner)
        turned = turning(case.facts, mark)(1.25)
        anew = reach_of(case.facts, replace(mark, around=mark.around.fixed(1.25)))
        assert (turned.across, turned.around, turned.radii) == (anew.across, anew.around, anew.radii)
        assert apart(case.facts, turned, turned).around == apart(case.facts, anew, anew).around


@EASY
@given(bench_jobs(injuries=(1, 3), repairs=(0, 2)), st.floats(0, 360))
def test_a_job_tried_after_another_is_answered_as_if_alone(job, around):
    before = answer(job)
    first = changed(job.injuries[0], around=at_angle(around))
    tried = changed(job, injuries=(first, *job.injuries[1:]))
    quick, alone = assess(tried, advise=False, before=before), answer(tried)
    assert quick.as_record() == alone.as_record()
    assert (quick.needed, quick.all_reasons) == (alone.needed, alone.all_reasons)


@EASY
@given(bench_jobs(injuries=(1, 3), repairs=(0, 2)))
def test_shapes_drawn_or_not_the_answer_is_the_same_and_areas_are_those_of_the_heads_united(job):
    drawn, bare = answer(job), answer(job)
    record = drawn.as_record()
    assert (drawn.reasons, drawn.injuries, drawn.needed) == (bare.reasons, bare.injuries, bare.needed)
    kept = [mark for mark in drawn.injuries if mark.answer != "not_repairable"]
    if drawn.asked and kept and all(mark.ground is not None for mark in kept):
        border = drawn.stock.beyond_the_head.border
        heads = [(mark.inside_place, mark.head.grown(border)) for mark in kept]
        assert record["buffed_area_mm2"] == true_area(drawn.strip, union_outline(drawn.strip, heads))


def same_verdict(job: Job) -> None:
    """The register's answer and deciding reason are those of a whole assessment, or both raise the same."""
    try:
        whole = assess(job, advise=False)
    except TiremapError as error:
        with pytest.raises(TiremapError, match=re.escape(str(error))):
            verdict(job)
        return
    found = verdict(job)
    assert (found.answer, found.deciding) == (whole.answer, whole.deciding)
    assert [mark.outside for mark in found.drawn.injuries] == [mark.outside for mark in whole.injuries]


def levels_of_what_only_cautions(job: Job) -> set[str]:
    try:
        case = case_of(answer(job))
    except TiremapError:
        return set()
    if case is None:
        return set()
    reaches = [reach_of(case.facts, mark) for mark in (*case.injuries, *case.repairs)]
    pairs = [apart(case.facts, one, other) for one, other in combinations(reaches, 2)]
    asked = [(question, ()) for question in OF_THE_TIRE]
    asked += [(question, (mark,)) for question in OF_AN_INJURY for mark in case.injuries]
    asked += [(question, (pair,)) for question in OF_A_PAIR for pair in pairs]
    return {reason.level for ask, about in asked if ask in ONLY_CAUTION for reason in ask(case, *about)}


@settings(EASY, max_examples=examples(150))
@given(ANY_JOB, st.sampled_from(rule_set_names()))
def test_what_only_cautions_never_refuses_nor_asks_for_a_measurement(job, rule_set):
    assert levels_of_what_only_cautions(changed(job, rule_set=rule_set)) <= {"caution", "note"}


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_nor_does_it_on_any_sample_under_any_rule_set(path):
    for name in rule_set_names():
        assert levels_of_what_only_cautions(changed(read_job(path), rule_set=name)) <= {"caution", "note"}


@EASY
@given(ANY_JOB, st.none() | st.sampled_from(rule_set_names()))
def test_what_the_register_stops_at_is_what_decides_the_whole_answer(job, rule_set):
    same_verdict(job)
    same_verdict(changed(job, rule_set=rule_set))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_nor_does_it_stop_elsewhere_on_any_sample_under_any_rule_set(path):
    for name in rule_set_names():
        same_verdict(changed(read_job(path), rule_set=name))


def test_many_marks_are_asked_of_few_pairs():
    marks = [crown_injury(str(n), -60 + n * 37 % 120, n * 1.8) for n in range(200)]
    found = answer(bench_job(*marks))
    assert len(found.pairs) == 200 * 199 / 2
    assert len(found.pairs.near) < 0.2 * len(found.pairs)
