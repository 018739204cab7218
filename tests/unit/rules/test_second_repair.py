"""A second repair in a tire marked for high speed: a caution of the United Kingdom from 240 km/h (V) up."""

import pytest

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, measured_tire
from tiremap.assess import assess


@pytest.mark.parametrize(
    ("code", "speed", "marks", "told"),
    [
        ("205/55R16 91V", 240, (crown_injury(), earlier_repair()), True),
        ("205/55R16 91W", 270, (crown_injury(), crown_injury("2", around_deg=90.0)), True),
        ("205/55R16 91V", 240, (crown_injury(),), False),
        ("205/55R16 91V", 240, (earlier_repair(),), False),
        ("205/55R16 91H", 210, (crown_injury(), earlier_repair()), False),
        ("205/55R16", None, (crown_injury(), earlier_repair()), False),
    ],
)
def test_from_the_set_s_speed_up_a_second_repair_is_a_caution_by_how_much(code, speed, marks, told):
    of_tire = assess(bench_job(*marks, tire=measured_tire(code))).reasons
    found = [each for each in of_tire if each.code == "second_repair"]
    assert len(found) == told
    for reason in found:
        assert (reason.level, reason.value, reason.limit, reason.unit) == ("caution", speed, 240.0, "km/h")
        assert (reason.margin, reason.margin_low, reason.margin_high) == (240.0 - speed,) * 3
        assert f"marked for {speed} km/h and would have {len(marks)} repairs" in reason.says
