"""Published limits worked through on whole jobs, on both sides of each.

Sources are named beside the numbers; "common practice" has none, "from memory" could not be read again.
"""

import pytest

from tests.helpers.full_jobs import exact
from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, measured_tire
from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.model.job import Job
from tiremap.model.measures import Across, Around, HoleSize, Lean, Length
from tiremap.model.rule_set_file import rule_set_named
from tiremap.model.units import mm_from_inches

UPRIGHT = exact(0.0, Lean)


def exact_hole(id: str = "1", across: float = 0.0, around: Around | None = None, size: float = 3.0, **more):
    """An upright hole with nothing of it uncertain."""
    return crown_injury(
        id, outside=exact(across, Across, origin="center"), around=around or exact(0.0, Around), lean_across=UPRIGHT,
        lean_around=UPRIGHT, size_outside=exact(size, HoleSize), size_inside=exact(size, HoleSize), **more,
    )


def exact_job(*marks, rule_set: str, **tire) -> Job:
    """A job on a 205/55R16 V with a tread of 170 mm, 6 mm deep and 6 mm over the belts, all of it exact."""
    known = {
        "tread_width": exact(170.0), "tread_depth": exact(6.0), "under_grooves": exact(6.0), "built": "standard",
        "sealant_used": False, "date_code": "1024",
    }
    known.update(tire)
    return bench_job(*marks, rule_set=rule_set, tire=measured_tire("205/55R16 91V", **known), date="2026-06-01")


def levels(found: Assessment, code: str) -> list[str]:
    return [reason.level for reason in found.all_reasons if reason.code == code]


def two_apart(one: Around, other: Around, rule_set: str, **tire) -> Assessment:
    return assess(exact_job(exact_hole("1", around=one), exact_hole("2", around=other), rule_set=rule_set, **tire))


def turned(degrees: float) -> Around:
    return exact(degrees, Around)


def on_the_tread(mm: float) -> Around:
    return Around(value=mm, unit="mm", how="exact")


# JATMA tire safety standard, as reproduced by a member company: two repairs at least 400 mm apart around the tread.
# 205/55R16: 406 + 2 x 113 = 632 mm, around the tread pi x 632 = 1985.5 mm (1985 cut short);
# 400 / 1985.5 x 360 = 72.53 degrees.
@pytest.mark.parametrize(
    ("one", "other", "level"),
    [
        (0.0, 72.4, "refuse"), (0.0, 72.6, "note"), (0.0, 287.6, "refuse"), (0.0, 287.4, "note"),
        (330.0, 42.4, "refuse"), (330.0, 42.6, "note"), (42.4, 330.0, "refuse"), (690.0, 42.6, "note"),
    ],
)
def test_japans_400_mm_are_72_5_degrees_on_a_205_55r16_the_short_way_over_the_datum(one, other, level):
    found = two_apart(turned(one), turned(other), "japan")
    assert levels(found, "around_apart") == [level]
    assert found.answer == ("repairable" if level == "note" else "not_repairable")


def test_japans_400_mm_taped_over_the_datum_are_400_mm():
    for first, second, level in ((1885.0, 299.0, "refuse"), (1885.0, 300.0, "note"), (0.0, 400.0, "note")):
        found = two_apart(on_the_tread(first), on_the_tread(second), "japan")
        assert levels(found, "around_apart") == [level]
    (pair,) = two_apart(on_the_tread(0.0), on_the_tread(400.0), "japan").pairs
    assert pair.around_deg == pytest.approx(72.5, abs=0.05)
    assert pair.around_tread_mm == pytest.approx(400.0)


def test_japan_allows_two_repairs_and_no_third():
    two = exact_job(exact_hole("1"), earlier_repair(around_deg=180.0), rule_set="japan")
    assert levels(assess(two), "repair_count") == ["note"]
    third = exact_job(
        exact_hole("1"), earlier_repair(around_deg=120.0), earlier_repair("R2", around_deg=240.0), rule_set="japan"
    )
    assert levels(assess(third), "repair_count") == ["refuse"]


# NZS 5423, as stated by a dealer: 150 mm apart; 150 / 1985.5 x 360 = 27.20 degrees. Self-supporting: 400 mm.
@pytest.mark.parametrize(
    ("built", "apart", "level"),
    [
        ("standard", 27.1, "refuse"), ("standard", 27.3, "note"), ("self_supporting", 27.3, "refuse"),
        ("self_supporting", 72.4, "refuse"), ("self_supporting", 72.6, "note"), (None, 27.1, "refuse"),
        (None, 27.3, "measure"), (None, 72.6, "note"),
    ],
)
def test_new_zealands_150_mm_are_27_2_degrees_on_a_205_55r16(built, apart, level):
    found = two_apart(turned(350.0), turned(350.0 + apart), "new_zealand", built=built)
    assert levels(found, "around_apart") == [level]


# Full widths on a 205 with a 170 mm tread. United Kingdom (BS AU 159 as summarized by the tire makers' trade body):
# 0.70 x 205 = 143.5. European makers' public pages: three-quarters of the tread, 0.75 x 170 = 127.5.
# North America (common practice): 1 in inside each tread edge, 170 - 2 x 25.4 = 119.2.
@pytest.mark.parametrize(
    ("rule_set", "full_width"), [("united_kingdom", 143.5), ("european_makers", 127.5), ("north_america", 119.2)]
)
@pytest.mark.parametrize("side", [1, -1])
def test_the_disc_of_a_hole_ends_at_the_edge_of_each_of_three_kinds_of_zone(rule_set, full_width, side):
    furthest = full_width / 2 - 3.0 / 2  # the disc of a 3 mm hole, not its center
    for across, level in ((furthest - 0.01, "note"), (furthest + 0.01, "refuse")):
        found = assess(exact_job(exact_hole(across=side * across), rule_set=rule_set))
        assert levels(found, "place") == [level]
        assert found.injuries[0].margin_mm == pytest.approx(furthest - across, abs=1e-9)


# United Kingdom: 60 % of the section width to 155 mm, 65 % to 200 mm, 70 % above (the trade body's summary).
@pytest.mark.parametrize(
    ("size_code", "full_width"),
    [("145/80R13", 87.0), ("155/80R13", 93.0), ("165/70R14", 107.25), ("195/65R15", 126.75), ("205/55R16", 143.5),
     ("225/45R17", 157.5)],
)
def test_the_united_kingdoms_zone_on_each_width_answers_on_both_sides_of_its_edge(size_code, full_width):
    nominal = float(size_code[:3])
    for across, level in ((full_width / 2 - 1.51, "note"), (full_width / 2 - 1.49, "refuse")):
        tire = measured_tire(size_code, tread_width=exact(0.9 * nominal), tread_depth=exact(6.0))
        job = bench_job(exact_hole(across=across), rule_set="united_kingdom", tire=tire)
        assert levels(assess(job), "place") == [level]


# 2/32 in = 1.5875 mm (United States association's procedures: worn out at 2/32 in); elsewhere 1.6 mm, the legal least
# of most countries (from memory). United Kingdom and New Zealand: 1.6 is enough; Japan, Germany and Australia: more.
@pytest.mark.parametrize(
    ("depth", "passes_in"),
    [
        (1.5875, set()), (1.59, {"north_america"}), (1.6, {"north_america", "united_kingdom", "new_zealand"}),
        (1.61, {
            "north_america", "united_kingdom", "new_zealand", "japan", "germany", "australia", "european_makers",
        }),
    ],
)
def test_a_tread_between_two_thirty_seconds_and_1_6_mm_is_left_in_one_set_and_worn_out_in_another(depth, passes_in):
    assert mm_from_inches(2 / 32) == 1.5875
    every = {
        name: levels(assess(exact_job(exact_hole(), rule_set=name, tread_depth=exact(depth),
                                      tread_depth_central=exact(depth))), "tread_depth")
        for name in ("north_america", "united_kingdom", "new_zealand", "japan", "germany", "australia",
                     "european_makers")
    }
    assert every == {name: ["note" if name in passes_in else "refuse"] for name in every}


# 1/4 in = 6.35 mm in North America (association's procedures), 6 mm elsewhere: a hole of 6.2 mm lies between.
@pytest.mark.parametrize(
    ("rule_set", "level"),
    [("north_america", "note"), ("united_kingdom", "refuse"), ("japan", "refuse"), ("germany", "refuse"),
     ("new_zealand", "refuse"), ("australia", "refuse"), ("european_makers", "refuse")],
)
def test_a_hole_of_6_2_mm_passes_only_under_a_quarter_inch(rule_set, level):
    assert set(levels(assess(exact_job(exact_hole(size=6.2), rule_set=rule_set)), "hole_size")) == {level}
    (limit,) = [
        each for each in rule_set_named(rule_set).largest_injuries
        if "passenger" in each.classes and each.section_width_up_to >= 205
    ]
    assert limit.value == (mm_from_inches(0.25) if rule_set == "north_america" else 6.0)


def test_a_quarter_inch_hole_takes_the_quarter_inch_cutter_and_no_larger():
    found = assess(exact_job(exact_hole(size=6.2, size_prepared=Length(value=0.25, unit="in", how="exact")),
                             rule_set="north_america"))
    assert found.answer == "repairable"
    reamed = assess(exact_job(exact_hole(size=6.2, size_prepared=exact(8.0)), rule_set="north_america"))
    assert levels(reamed, "prepared_size") == ["measure"]
