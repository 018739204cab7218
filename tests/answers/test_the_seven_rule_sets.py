"""What each rule set says of the same tire, where they disagree."""

import pytest

from tests.helpers.jobs import bench_job, crown_injury, earlier_repair, from_outboard_edge, hole, measured_tire, probed
from tiremap.assess import assess
from tiremap.assessment import Assessment
from tiremap.model.measures import Around, HoleSize
from tiremap.model.rule_set_file import rule_set_named, rule_set_names
from tiremap.rules.reasons import Reason

ALL = rule_set_names()
TWO_EDGED = ("australia", "germany", "japan", "new_zealand")


def by(rule_set: str, *marks, **tire) -> Assessment:
    known = {"sealant_used": False, "built": "standard", "date_code": "1024"}
    job = bench_job(*marks, rule_set=rule_set, tire=measured_tire(**{**known, **tire}), date="2026-03-02")
    return assess(job)


def reasons(found: Assessment, code: str) -> list[Reason]:
    return [reason for reason in found.all_reasons if reason.code == code]


def exact(mm: float) -> dict:
    return {"size_outside": hole(mm, how="exact"), "size_inside": None}


@pytest.mark.parametrize("rule_set", ALL)
def test_a_small_hole_in_the_middle_passes_in_every_set(rule_set):
    assert by(rule_set, crown_injury()).answer == "repairable"


@pytest.mark.parametrize("rule_set", ALL)
def test_a_hole_in_the_sidewall_is_refused_in_every_set(rule_set):
    assert by(rule_set, crown_injury(across_mm=120.0)).answer == "not_repairable"


@pytest.mark.parametrize("rule_set", ALL)
def test_every_limit_of_every_set_names_its_source_and_grade(rule_set):
    limits = rule_set_named(rule_set).limits
    assert len(limits) >= 6
    assert [limit for limit in limits if not limit.source or not limit.grade or not limit.unit] == []


@pytest.mark.parametrize("rule_set", TWO_EDGED)
def test_where_the_issuer_gives_no_distance_the_makers_limit_is_asked_for(rule_set):
    near = crown_injury(outside=from_outboard_edge(20.0, how="exact"), **exact(3.0))
    (place,) = reasons(by(rule_set, near), "place")
    assert place.level == "measure"
    assert place.settles.field == "tire.maker_word"
    assert "maker" in place.says


# 6.0 mm exactly: allowed by "6 mm or less", refused by "6 mm or more is refused" (makers' pages); 1/4 in is 6.35 mm
@pytest.mark.parametrize(
    ("rule_set", "size", "level"),
    [
        ("north_america", 6.0, "note"), ("north_america", 6.35, "note"), ("north_america", 6.36, "refuse"),
        ("united_kingdom", 6.0, "note"), ("united_kingdom", 6.01, "refuse"),
        ("european_makers", 5.99, "note"), ("european_makers", 6.0, "refuse"),
        ("japan", 6.0, "note"), ("japan", 6.01, "refuse"),
    ],
)
def test_the_largest_hole_differs_by_a_hair(rule_set, size, level):
    (found,) = reasons(by(rule_set, crown_injury(**exact(size))), "hole_size")
    assert found.level == level


# 2/32 in is 1.5875 mm; elsewhere 1.6 mm. The same depth everywhere: the United Kingdom asks over the center only.
@pytest.mark.parametrize(
    ("rule_set", "depth", "level"),
    [
        ("north_america", 1.59, "note"), ("north_america", 1.5875, "refuse"), ("united_kingdom", 1.6, "note"),
        ("united_kingdom", 1.59, "refuse"), ("japan", 1.6, "refuse"), ("new_zealand", 1.6, "note"),
    ],
)
def test_worn_out_is_not_the_same_everywhere(rule_set, depth, level):
    from tests.helpers.jobs import gauged

    exactly = gauged(depth, minus=0.0, plus=0.0)
    answered = by(rule_set, crown_injury(), tread_depth=exactly, tread_depth_central=exactly)
    (found,) = reasons(answered, "tread_depth")
    assert found.level == level


def test_three_kinds_of_zone_on_one_205_with_a_170_mm_tread():
    # 0.70 x 205 = 143.5; 0.75 x 170 = 127.5; 170 - 2 x 25.4 = 119.2
    full = {
        name: 2 * by(name, crown_injury()).zone_half_width_mm
        for name in ("united_kingdom", "european_makers", "north_america")
    }
    assert full == pytest.approx({"united_kingdom": 143.5, "european_makers": 127.5, "north_america": 119.2})


def exactly_apart(tread_mm: float):
    # tread circumference of 205/55R16: 632 pi = 1985.5 mm
    def at(mm: float) -> Around:
        return Around(value=mm, unit="mm", how="exact")

    upright = {"lean_around": probed(0.0).model_copy(update={"how": "exact"})}
    return crown_injury("1", around=at(0.0), **upright), crown_injury("2", around=at(tread_mm), **upright)


def test_japan_asks_400_mm_around_and_allows_two():
    near, far = (by("japan", *exactly_apart(mm)) for mm in (399.0, 401.0))
    assert [each.level for each in reasons(near, "around_apart")] == ["refuse"]
    assert [each.level for each in reasons(far, "around_apart")] == ["note"]
    (apart,) = far.pairs
    assert apart.around_deg == pytest.approx(401.0 / 1985.5 * 360.0, abs=0.01)
    three = by("japan", *exactly_apart(900.0), earlier_repair(around_deg=90.0))
    assert [each.level for each in reasons(three, "repair_count")] == ["refuse"]
    assert [each.level for each in reasons(three, "axle")] == ["caution"]


def test_new_zealand_asks_how_the_tire_is_built_where_that_decides():
    # 150 mm is 27.2 degrees on this tire; a self-supporting one needs 400 mm
    there = exactly_apart(200.0)
    assert [each.level for each in reasons(by("new_zealand", *there), "around_apart")] == ["note"]
    rigid = by("new_zealand", *there, built="self_supporting")
    assert [each.level for each in reasons(rigid, "around_apart")] == ["refuse"]
    (unknown,) = reasons(by("new_zealand", *there, built=None), "around_apart")
    assert (unknown.level, unknown.settles.field) == ("measure", "tire.built")
    too_near = by("new_zealand", *exactly_apart(140.0), built=None)
    assert [each.level for each in reasons(too_near, "around_apart")] == ["refuse"]


def test_new_zealand_refuses_more_than_45_degrees():
    def leaning(across: float, around: float) -> list[str]:
        lean = {"lean_across": probed(across), "lean_around": probed(around)}
        return [each.level for each in reasons(by("new_zealand", crown_injury(**lean)), "steepest_lean")]

    assert leaning(0.0, 30.0) == ["note"]
    assert leaning(0.0, 44.0) == ["measure"]
    assert leaning(0.0, 51.0) == ["refuse"]
    assert leaning(35.0, 40.0) == ["measure"]  # the two parts together are steeper than either


def test_germany_refuses_a_tire_with_sealant_and_asks_whether_it_was_used():
    assert [each.level for each in reasons(by("germany", crown_injury(), sealant_used=True), "sealant")] == ["refuse"]
    assert [each.level for each in reasons(by("germany", crown_injury(), sealant_used=None), "sealant")] == ["measure"]


# Repair instructions for commercial tires: 6 mm with load index under 122, 10 mm from 122 (second-hand)
@pytest.mark.parametrize(
    ("size_code", "size", "level"),
    [
        ("315/80R22.5 156/150L", 10.0, "note"), ("315/80R22.5 156/150L", 10.1, "refuse"),
        ("LT295/70R18 E 122/119Q", 10.0, "note"), ("LT295/70R18 E 121/118Q", 6.1, "refuse"),
        ("215/75R17.5 118/116M", 6.0, "note"), ("215/75R17.5 118/116M", 6.1, "refuse"),
        ("LT235/85R16 F 118/115Q", 9.0, "refuse"),
        # no load index told: passed where both limits pass it, refused where both refuse it
        ("215/75R17.5", 6.0, "note"), ("215/75R17.5", 6.1, "measure"), ("215/75R17.5", 10.0, "measure"),
        ("215/75R17.5", 10.1, "refuse"),
    ],
)
def test_germany_allows_a_larger_hole_from_load_index_122(size_code, size, level):
    tire = {"size_code": size_code, "tread_width_mm": 180.0}
    (found,) = reasons(by("germany", crown_injury(**exact(size)), **tire), "hole_size")
    assert found.level == level
    assert level != "measure" or (found.settles.field, found.settles.words[:14]) == ("tire.size_code", "the load index")


def test_a_car_s_size_called_a_truck_s_keeps_the_limit_of_its_load_index_in_germany():
    tire = {"size_code": "205/55R16 91V", "tire_class": "truck"}
    (found,) = reasons(by("germany", crown_injury(**exact(9.0)), **tire), "hole_size")
    assert found.level == "refuse"


@pytest.mark.parametrize("rule_set", ALL)
def test_a_code_that_may_be_a_light_truck_s_is_asked_for_its_class(rule_set):
    found = by(rule_set, crown_injury(), size_code="205/65R16 107/105T", tread_width_mm=160.0)
    assert found.answer == "measure_first"
    assert "class_not_covered" in {reason.code for reason in found.all_reasons}


def test_australia_allows_a_larger_hole_in_a_light_truck_tire_over_185_mm():
    def at(size_code: str) -> str:
        size = HoleSize(value=7.0, how="exact")
        tire = {"size_code": size_code, "tread_width_mm": 140.0}
        (found,) = reasons(by("australia", crown_injury(size_outside=size, size_inside=None), **tire), "hole_size")
        return found.level

    assert at("195/75R16C") == "note"
    assert at("185/75R16C") == "refuse"


def test_two_makers_refuse_a_tire_over_ten_years_and_an_unknown_age_is_measured_first():
    def at(date_code: str | None) -> list[str]:
        return [each.level for each in reasons(by("european_makers", crown_injury(), date_code=date_code), "age")]

    assert at("1024") == ["note"]
    assert at("1014") == ["refuse"]  # built March 2014, on the bench on 2 March 2026
    assert at("0916") == ["measure"]  # the days of that week lie on both sides of ten years
    assert at(None) == at("no code") == ["measure"]
    assert by("european_makers", crown_injury(), date_code=None).answer == "measure_first"
