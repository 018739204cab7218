"""Sentences told in inches: no figure that passes in inches fails in millimeters."""

import pytest

from tiremap.drawing.said import said_in


@pytest.mark.parametrize(
    ("sentence", "inches"),
    [
        ("at most 6.35 mm.", "at most 0.25 in."),  # 1/4 in
        ("more than 1.5875 mm anywhere", "more than 0.0625 in anywhere"),  # 2/32 in
        ("limit 25.4 mm inside", "limit 1 in inside"),
        ("at most 6 mm.", "at most 0.236 in."),  # 0.23622: down
        ("at least 1.6 mm over", "at least 0.063 in over"),  # 0.06299: up
        ("26.9 mm or more passes", "1.06 in or more passes"),  # 1.05906: up
        ("27.1 mm or less passes", "1.066 in or less passes"),  # 1.06693: down
        ("27 to 31 mm passes", "1.063 to 1.22 in passes"),  # 1.06299 up, 1.22047 down
        ("the 6 or the 6.35 mm cutter", "the 0.236 or the 0.25 in cutter"),
        ("known to within 1.1 mm", "known to within 0.043 in"),  # 0.04331: down
        ("18.4 mm outside, at best 16.4 mm: no", "0.73 in outside, at best 0.65 in: no"),  # 0.7244, 0.6457: up
        ("2.54 mm past the limit", "0.1 in past the limit"),
        ("heads share 757 mm² and 12 degrees", "heads share 757 mm² and 12 degrees"),
    ],
)
def test_a_sentence_follows_the_unit_shown(sentence, inches):
    assert said_in(sentence, "in") == inches
    assert said_in(sentence, "mm") == sentence.replace("1.5875", "1.59")


def test_millimeters_are_told_in_hundredths_at_most():
    for sentence, told in (
        ("more than 1.5875 mm anywhere", "more than 1.59 mm anywhere"),
        ("It takes the 8 or the 9.525 mm cutter, or 4.7625 to 5.1 mm.",
         "It takes the 8 or the 9.53 mm cutter, or 4.76 to 5.1 mm."),
        ("at most 9.525 mm, 9.525 mm or less, less than 9.525 mm",
         "at most 9.52 mm, 9.52 mm or less, less than 9.52 mm"),
        ("at least 1.5813 mm, 1.5813 mm or more", "at least 1.59 mm, 1.59 mm or more"),
        ("1.5813 mm past the limit, at best 1.5813 mm", "1.59 mm past the limit, at best 1.59 mm"),
        ("6.35 mm and 2.0001 degrees", "6.35 mm and 2.0001 degrees"),
    ):
        assert said_in(sentence, "mm") == told
