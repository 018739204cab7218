"""Lessons spoiled in bulk are refused in plain words or read back the same."""

import pytest

from tests.helpers.hostile import try_files, usual
from tests.helpers.hostile_seeds import check_lesson, lesson_seeds

FURTHER = 1_000_000
"""The first number of the files tried by command, so that they are others than the usual ones."""


@pytest.mark.parametrize(
    ("first", "number"),
    [(0, 12_000), *(pytest.param(FURTHER * part, 60_000, marks=pytest.mark.long) for part in (1, 2))],
)
def test_a_spoiled_lesson_is_refused_in_plain_words_or_reads_back_the_same(first, number):
    tried = try_files("lesson", lesson_seeds(), range(first, first + usual(number)), check_lesson)
    assert tried.number == usual(number)
    assert tried.read > tried.number / 20 and len(tried.refused) > 50
