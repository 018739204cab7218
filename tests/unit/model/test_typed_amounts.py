"""Times between two readings and liters of air, as people write them."""

import pytest

from tiremap.errors import TiremapError
from tiremap.model.typed_amounts import read_hours, read_liters


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("24", 24), ("36 h", 36), ("1,5 hours", 1.5), ("45 min", 0.75), ("3 days", 72), ("2 weeks", 336),
        ("17:30 to 8:00", 14.5), ("8:00-17:30", 9.5), ("23:59–0:01", 2 / 60), ("8:00 to 8:00", 24),
    ],
)
def test_a_time_between_readings_is_hours_days_or_two_clock_times(text, hours):
    assert read_hours(text) == pytest.approx(hours)


@pytest.mark.parametrize(
    "text", ["", "0", "-3 h", "24 moons", "25:00 to 8:00", "8:00 to 9:60", "nan", "999999", "8:00"]
)
def test_what_is_no_time_between_readings_is_refused_with_a_right_one(text):
    with pytest.raises(TiremapError, match="Right ones: 24 h"):
        read_hours(text)


def test_liters_are_read_with_and_without_their_unit():
    assert read_liters("28") == read_liters("28 L") == read_liters("28,0 liters") == 28
    for wrong in ("", "0", "28 psi", "9999"):
        with pytest.raises(TiremapError, match="L"):
            read_liters(wrong)
