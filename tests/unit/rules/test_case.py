"""What every check is asked about: which of a rule set's limits holds for this very tire."""

import pytest

from tests.helpers.jobs import bench_job, crown_injury, measured_tire
from tiremap.assess import assess

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
