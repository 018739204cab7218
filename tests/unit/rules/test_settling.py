"""What would settle a Measure first, asked of margins simple enough to be known beforehand."""

from tiremap.rules.margins import Question
from tiremap.rules.reading import Reading, exactly
from tiremap.rules.settling import settling, settling_words

CUTTERS = (4.0, 6.0, 8.0)


def largest(limit: float, low: float, steps: tuple[float, ...]) -> Question:
    """A size that may be ``low`` to 8 mm and passes up to ``limit``, told in ``steps``."""
    size = Reading("injury.1.size_outside", "the size", low, None, 8.0, step=0.1, steps=steps)
    return Question((size,), lambda size: limit - size, falls_with=frozenset({0}))


def test_where_everything_is_known_no_measurement_is_named():
    assert settling(Question((exactly(9.0),), lambda size: 6.0 - size)) is None
    assert settling_words(None) == ""


def test_of_a_reading_in_steps_the_largest_that_passes_is_named():
    settles = settling(largest(7.0, 2.0, CUTTERS))
    assert (settles.alone, settles.at_most) == (True, 6.0)


def test_where_no_step_lies_inside_the_limit_no_value_is_promised_to_pass():
    """The least it may be passes, but no cutter is that small: measuring may end outside."""
    settles = settling(largest(3.0, 2.0, CUTTERS))
    assert (settles.alone, settles.at_least, settles.at_most) == (False, None, None)
    assert settling_words(settles) == "Measure the size."


def test_a_reading_whose_value_says_nothing_is_named_without_one():
    channel = Reading("injury.1.lean_across", "the lean", 2.0, None, 8.0, step=0.0)
    settles = settling(Question((channel,), lambda channel: 6.0 - channel))
    assert settling_words(settles) == "Measure the lean."


def test_a_best_value_inside_the_range_is_found_and_both_ends_of_its_window():
    """The margin is 5 mm less how far the reading is from 10 mm: it passes from 5 to 15 mm."""
    place = Reading("injury.1.outside", "the place", -30.0, None, 90.0, step=1.0)
    settles = settling(Question((place,), lambda place: 5.0 - abs(place - 10.0)))
    assert (settles.alone, settles.at_least, settles.at_most) == (True, 5.0, 15.0)
