"""What a repair adds to the wheel's balance: moments that agree, the right side, and a tolerance by class."""

from datetime import UTC, datetime
from math import pi

import pytest

from tests.helpers.jobs import bench_job, crown_injury, evenly_worn, gauged, hole, measured_tire
from tiremap.assess import assess
from tiremap.balance import AddedWeight, added_weights
from tiremap.edits.record import record_repair
from tiremap.workshop.balance import Grams, outboard_share, taken_by, tolerance_g, unit_mass
from tiremap.workshop.stock import house_stock

RIM_WIDTH_MM, FLANGE_RADIUS = 6.5 * 25.4, 406 / 2 + 17.5
"""205/55R16 on its measuring rim, code 16 (406 mm); a J flange 17.5 mm high."""


def stock(mass_g: float | None = None):
    """The placeholder stock, every unit weighed alike."""
    units = tuple(each.model_copy(update={"mass_g": mass_g}) for each in house_stock().units)
    return house_stock().model_copy(update={"units": units})


def added(across: float = 0.0, mass_g: float | None = None, **fields) -> AddedWeight:
    [found] = added_weights(assess(bench_job(crown_injury(across_mm=across), **fields), stock=stock(mass_g)))
    return found


def test_a_unit_at_the_center_keeps_its_moment_and_splits_in_halves():
    found = added(mass_g=10.0)
    liner_radius = assess(bench_job(crown_injury())).strip.R0
    assert found.at_flange.low == found.at_flange.high == pytest.approx(10.0 * liner_radius / FLANGE_RADIUS)
    assert found.outboard == found.inboard and found.flange == "both"


@pytest.mark.parametrize("across", [-60.0, -20.0, 35.0, 60.0])
def test_the_two_flanges_together_hold_the_weight_where_it_lies(across):
    """Forces and moments about the center plane of two weights equal those of the unit."""
    found = added(across, mass_g=10.0)
    assert found.outboard.low + found.inboard.low == pytest.approx(found.at_flange.low)
    arm = (found.outboard.low - found.inboard.low) * RIM_WIDTH_MM / 2
    assert arm == pytest.approx(found.at_flange.low * across, rel=1e-6)
    assert found.flange == {-60.0: "inboard", -20.0: "both", 35.0: "both", 60.0: "outboard"}[across]


def test_beyond_a_flange_the_far_one_takes_less_than_nothing():
    share = outboard_share(100.0, 160.0)
    assert share == 1.125 and taken_by(share) == "outboard"
    assert Grams(2.0, 4.0).times(1 - share) == Grams(-0.5, -0.25)


def test_a_unit_nobody_weighed_lies_between_a_thin_light_head_and_a_thick_one_with_its_stem():
    head = pi * 22.5**2
    mass = unit_mass(head, 5.0, 12.0)
    assert mass.low == pytest.approx(head * 1.5 * 1.05e-3)
    assert mass.high == pytest.approx((head * 3.5 + pi * 2.5**2 * 12) * 1.20e-3)
    assert not added().weighed and added().unit.low < added().unit.high


@pytest.mark.parametrize(("tire_class", "grams"), [("passenger", 10), ("light_truck", 30), ("temporary_spare", None)])
def test_the_tolerance_goes_by_the_class_of_tire(tire_class, grams):
    """Vehicle noise and vibration refinement (2010), Table 16.1: 10 g cars, 30 g light trucks, each side."""
    assert tolerance_g(tire_class) == grams and tolerance_g(None) is None


@pytest.mark.parametrize(("mass_g", "weight"), [(10.0, "within"), (40.0, "exceeds")])
def test_the_heavier_side_is_held_to_the_tolerance(mass_g, weight):
    assert added(mass_g=mass_g).weight == weight
    assert "10 g that may stay on each side" in added(mass_g=mass_g).says


def test_a_place_nobody_measured_leaves_the_side_open():
    [found] = added_weights(assess(bench_job(crown_injury(outside=None)), stock=stock(10.0)))
    assert found.flange is found.outboard is None and "side is not known" in found.says
    assert found.weight == "may_exceed"


def test_a_mended_injury_weighs_on_as_the_repair_it_became():
    tire = measured_tire(**evenly_worn(gauged(6.0)))
    before = assess(bench_job(crown_injury(across_mm=40.0), tire=tire), stock=stock(10.0))
    job = record_repair(before, "1", datetime(2026, 11, 25, tzinfo=UTC))
    [injury], [repair] = added_weights(before), added_weights(assess(job, stock=stock(10.0)))
    assert injury.is_injury and not repair.is_injury
    assert repair.at_flange.low == pytest.approx(injury.at_flange.low)
    assert repair.outboard.low == pytest.approx(injury.outboard.low)


def test_a_refused_injury_and_one_of_unknown_size_add_nothing():
    for injury in (crown_injury(across_mm=80.0), crown_injury(size_outside=None, size_inside=None)):
        assert added_weights(assess(bench_job(injury))) == ()
    assert added_weights(assess(bench_job(crown_injury(size_outside=hole(4.0), size_inside=hole(4.0))))) != ()
