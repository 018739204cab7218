"""The repairable width T of the United Kingdom set beside its published table.

Source: BTMA technical guidance for minor repairs (summary of BS AU 159g): T in mm for nominal section widths 125 to
195 mm; 60 % up to 155 mm, 65 % over 155 to 200 mm, 70 % over 200 mm, the published figures rounded to a millimeter.
"""

import pytest

from tiremap.model.rule_set_file import rule_set_named
from tiremap.model.units import mm_from_inches

PUBLISHED_T = {125: 75, 135: 81, 145: 87, 155: 93, 165: 107, 175: 114, 185: 120, 195: 127}


@pytest.mark.parametrize(("width", "published"), PUBLISHED_T.items())
def test_the_united_kingdom_zone_is_as_wide_as_published(width, published):
    zone = rule_set_named("united_kingdom").crown_zone("passenger", float(width))
    assert zone.edge.kind == "share_of_section_width"
    assert zone.edge.value * width == pytest.approx(published, abs=0.51)


def test_on_a_205_the_united_kingdom_and_the_one_inch_zones_differ_as_worked():
    # 0.70 x 205 = 143.5; 170 - 2 x 25.4 = 119.2 (common practice: 1 in inside each tread edge)
    assert rule_set_named("united_kingdom").crown_zone("passenger", 205.0).edge.value * 205 == pytest.approx(143.5)
    edge = rule_set_named("north_america").crown_zone("passenger", 205.0).edge
    assert 170 - 2 * edge.value == pytest.approx(119.2)
    assert edge.value == mm_from_inches(1.0)
