"""A refusal says which entry would have to be wrong, in the unit it was taken in."""

import pytest

from tests.helpers.jobs import bench_job, crown_injury
from tiremap.assess import assess
from tiremap.rules.turning import figure, past_words


@pytest.mark.parametrize(
    ("value", "unit", "words"),
    [
        (3.25, "h", "3:15"), (12.0, "h", "12:00"), (0.1, "h", "0:06"),
        (2.9999, "h", "3:00"),  # never 2:60
        (27.25, "mm", "27.25 mm"), (12.0, "deg", "12 degrees"),
    ],
)
def test_a_figure_is_told_as_it_is_read(value, unit, words):
    assert figure(value, unit) == words


def test_how_far_a_refusal_is_past_its_limit_is_told_alike_before_and_after_its_advice():
    job = bench_job(crown_injury(across_mm=80.0))
    plain, advised = (assess(job, advise=advise).deciding for advise in (False, True))
    assert advised.past.endswith(" mm outside") or " mm outside, at best " in advised.past
    assert past_words(plain) == past_words(advised) == advised.past
