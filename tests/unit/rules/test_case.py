"""What every check is asked about: which of a rule set's limits holds for this very tire."""

from dataclasses import replace

import pytest

from tests.helpers.jobs import bench_job, crown_injury, measured_tire
from tiremap.assess import assess
from tiremap.assessment import case_of
from tiremap.rules.reading import Reading

UP_TO_155 = "central 60 % of nominal section width up to 155 mm"
UP_TO_200 = "central 65 % of nominal section width over 155 to 200 mm"
WIDER = "central 70 % of nominal section width over 200 mm"


@pytest.mark.parametrize(
    ("size_code", "band"),
    [("155/65R14", UP_TO_155), ("165/65R14", UP_TO_200), ("195/65R15", UP_TO_200), ("205/55R16", WIDER)],
)
def test_a_place_names_the_zone_of_the_tire_s_own_width_as_its_source(size_code, band):
    tire = measured_tire(size_code, tread_width_mm=110.0)
    found = assess(bench_job(crown_injury(), tire=tire), advise=False)
    (place,) = [each for each in found.injuries[0].reasons if each.code == "place"]
    assert place.level == "note"
    assert place.source.endswith(f": {band}")


@pytest.mark.parametrize(
    ("low", "high", "millimeters"),
    [
        (150.0, 185.0, [6.0]), (185.0, 185.0, [6.0]), (185.0, 185.1, [6.0, 8.0]), (150.0, 185.1, [6.0, 8.0]),
        (185.1, 210.0, [8.0]),
    ],
)
def test_every_band_a_width_may_fall_in_is_named_and_no_other(low, high, millimeters):
    """Australia, light truck: 6 mm up to and with 185 mm wide, 8 mm over it."""
    case = case_of(assess(bench_job(crown_injury(), rule_set="australia", tire=measured_tire("205/70R15C 106/104R"))))
    width = Reading("tire.size_code", "the nominal section width", low, (low + high) / 2, high)
    case = replace(case, facts=replace(case.facts, nominal_width=width))
    assert [each.value for each in case.limits_by_width(case.rule_set.largest_injuries)] == millimeters
    assert (case.largest_injury.value, case.loosest_injury.value) == (millimeters[0], millimeters[-1])
