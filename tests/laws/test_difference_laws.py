"""What holds for the difference of any two jobs: nothing that differs is left out, nothing else is told."""

from random import Random

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.helpers.counts import examples
from tests.helpers.random_edits import EDITS
from tests.helpers.strategies import jobs
from tiremap.edits.difference import differences
from tiremap.errors import TiremapError
from tiremap.session import Session

few = settings(max_examples=examples(10), deadline=None, suppress_health_check=list(HealthCheck))


@few
@given(jobs(later=True), jobs(later=True))
def test_two_jobs_have_a_difference_exactly_if_they_are_not_equal_and_each_reads_two_ways(first, second):
    found = differences(first, second)
    assert (found == ()) == (first == second)
    assert all(each.where and each.first and each.second and each.first != each.second for each in found)
    assert differences(first, first) == ()


@few
@given(jobs(later=True), jobs(later=True))
def test_the_other_way_around_the_same_places_differ_with_their_words_exchanged(first, second):
    forth = {(each.where, each.first, each.second) for each in differences(first, second)}
    assert forth == {(each.where, each.second, each.first) for each in differences(second, first)} or any(
        each.where.endswith("order") for each in differences(first, second)
    )


@few
@given(jobs(most_marks=2), st.sampled_from(sorted(EDITS)), st.integers(0, 2**32))
def test_whatever_edit_changes_a_job_is_told_as_a_difference(job, kind, seed):
    draw, session = Random(seed), Session(job)
    try:
        after = draw.choice(EDITS[kind])(draw, session)
    except TiremapError:
        return
    assert bool(differences(job, after)) == (job != after)
