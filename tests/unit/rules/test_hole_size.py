"""Is the hole small enough: the size each rule set means, on its limit and a hair beyond, and every word said of it.

The shop's cutters are 3, 4, 5, 6, 6.35, 8, 9.525 and 10 mm where nothing else is said. The United Kingdom holds the
prepared size to 6 mm; Germany (6), North America (6.35) and the makers (less than 6) do not say which size they mean.
"""

import pytest

from tests.helpers.jobs import bench_job, crown_injury, hole, measured_tire
from tiremap.assess import assess
from tiremap.model.job import Injury, MakerWord, Tire, TypedDimensions
from tiremap.model.measures import HoleSize, Length
from tiremap.model.stock import RepairUnit, Stock
from tiremap.rules.margins import ON_THE_LIMIT
from tiremap.rules.reasons import Reason, Settles, Turns
from tiremap.workshop.stock import house_stock

OUTSIDE, INSIDE = "injury.1.size_outside", "injury.1.size_inside"
EXACT_6_2, EXACT_6, EXACT_5 = hole(6.2, how="exact"), hole(6.0, how="exact"), hole(5.0, how="exact")


def ranging(low: float, stated: float, high: float) -> HoleSize:
    """A hole somewhere from ``low`` to ``high`` mm."""
    return HoleSize(value=stated, how="gauge", minus=stated - low, plus=high - stated)


def sized(outside: HoleSize | None, inside: HoleSize | None = None, reamed: float | None = None) -> Injury:
    prepared = None if reamed is None else Length(value=reamed, how="exact")
    return crown_injury(size_outside=outside, size_inside=inside, size_prepared=prepared)


def stock_of(*stems: float) -> Stock:
    """A stock with those stems alone, every head 50 mm."""
    units = tuple(RepairUnit(stem_mm=stem, head_length_mm=50.0) for stem in stems)
    return house_stock().model_copy(update={"units": units})


def reasons(
    injury: Injury, rule_set: str = "united_kingdom", stock: Stock | None = None, tire: Tire | None = None,
    advise: bool = True,
) -> dict[str, list[Reason]]:
    """What is said of an injury's size, by code, in the order it is said."""
    job = bench_job(injury, rule_set=rule_set, **({} if tire is None else {"tire": tire}))
    said: dict[str, list[Reason]] = {}
    for each in assess(job, stock=stock or house_stock(), advise=advise).injuries[0].reasons:
        if each.code in ("hole_size", "prepared_size", "size_again", "no_unit_in_stock"):
            said.setdefault(each.code, []).append(each)
    return said


def only(said: dict[str, list[Reason]], code: str) -> Reason:
    (reason,) = said[code]
    return reason


def margins(reason: Reason) -> tuple[float | None, ...]:
    ends = (reason.margin_low, reason.margin, reason.margin_high)
    return tuple(None if end is None else round(end, 9) for end in ends)


@pytest.mark.parametrize(
    ("rule_set", "outside", "inside", "says"),
    [
        ("united_kingdom", EXACT_5, None, ["Injury 1 is small enough (prepared): at most 6 mm."]),
        ("united_kingdom", EXACT_5, EXACT_6, ["Injury 1 is small enough (prepared inside): at most 6 mm."]),
        ("united_kingdom", EXACT_6, EXACT_5, ["Injury 1 is small enough (prepared): at most 6 mm."]),
        ("united_kingdom", EXACT_6_2, None, ["Injury 1 is too large (prepared): at most 6 mm."]),
        ("germany", EXACT_5, None, ["Injury 1 is small enough: at most 6 mm."]),
        ("germany", EXACT_6_2, EXACT_5, [
            "Injury 1 is too large: at most 6 mm.", "Injury 1 is small enough (inside): at most 6 mm.",
        ]),
        ("european_makers", EXACT_6, None, ["Injury 1 is too large: less than 6 mm."]),
        ("european_makers", ranging(5.5, 5.5, 6.0), None, ["Injury 1 may be too large: less than 6 mm."]),
    ],
)
def test_a_size_is_told_with_its_side_and_with_how_it_stands_to_the_limit(rule_set, outside, inside, says):
    said = reasons(sized(outside, inside), rule_set, advise=False)
    assert [each.says for each in said["hole_size"]] == says


@pytest.mark.parametrize(
    ("outside", "inside", "field", "words", "tolerance"),
    [
        # from 5.8 to 6.2 mm: the 6 or the 6.35 mm cutter; 6.0 less the stated 5.8 is 0.2
        (ranging(5.8, 5.8, 6.2), None, OUTSIDE, "the 6 or the 6.35 mm cutter", 0.2),
        (ranging(5.8, 5.8, 6.2), EXACT_5, OUTSIDE, "the 6 or the 6.35 mm cutter", 0.2),
        (EXACT_5, ranging(5.8, 5.8, 6.2), INSIDE, "the 6 or the 6.35 mm cutter", 0.2),
        (ranging(5.7, 6.0, 6.3), None, OUTSIDE, "the 6 or the 6.35 mm cutter", None),  # on the limit no room is left
        (ranging(5.8, 6.1, 6.2), None, OUTSIDE, "the 6 or the 6.35 mm cutter", None),
        (ranging(5.8, 5.8, 7.0), None, OUTSIDE, "the 6 to the 8 mm cutter", 0.2),  # 6, 6.35 and 8
        (ranging(4.5, 5.1234567, 6.5), None, OUTSIDE, "the 5 to the 8 mm cutter", 0.876543),  # 5, 6, 6.35 and 8
    ],
)
def test_a_hole_that_may_take_a_cutter_past_the_limit_is_gauged_to_the_largest_that_fits(
    outside, inside, field, words, tolerance
):
    reason = only(reasons(sized(outside, inside)), "hole_size")
    side = "inside" if field == INSIDE else "outside"
    named = " inside" if field == INSIDE else ""
    assert reason.level == "measure"
    assert reason.settles == Settles(
        field, f"the size of injury 1 {side}", "mm", at_most=6.0, tolerance=tolerance
    )
    assert reason.says.startswith(f"Injury 1 may be too large (prepared{named}): at most 6 mm. It takes {words}. ")


@pytest.mark.parametrize("mm", [5.0, 6.0])
def test_a_stock_without_a_cutter_within_the_limit_needs_another_unit(mm):
    said = reasons(sized(hole(mm, how="exact")), stock=stock_of(8.0))
    assert list(said) == ["no_unit_in_stock"]
    reason = only(said, "no_unit_in_stock")
    assert (reason.level, reason.subject) == ("measure", ("1",))
    assert reason.says == "No cutter in stock is 6 mm or less: injury 1 needs another unit in stock."


def test_a_hole_too_large_itself_is_refused_whatever_is_in_stock():
    reason = only(reasons(sized(hole(6.1, how="exact")), stock=stock_of(8.0)), "hole_size")
    assert (reason.level, reason.turns) == ("refuse", None)


NO_TURN = None


@pytest.mark.parametrize(
    ("outside", "inside", "turns"),
    [
        (EXACT_6_2, None, Turns(OUTSIDE, "the size of injury 1 outside", "mm", at_most=6.0, stated=6.2)),
        (EXACT_6_2, EXACT_5, Turns(OUTSIDE, "the size of injury 1 outside", "mm", at_most=6.0, stated=6.2)),
        (EXACT_5, EXACT_6_2, Turns(INSIDE, "the size of injury 1 inside", "mm", at_most=6.0, stated=6.2)),
        (EXACT_6, EXACT_6_2, Turns(INSIDE, "the size of injury 1 inside", "mm", at_most=6.0, stated=6.2)),
        (EXACT_6_2, EXACT_6, Turns(OUTSIDE, "the size of injury 1 outside", "mm", at_most=6.0, stated=6.2)),
        (EXACT_6_2, EXACT_6_2, NO_TURN),  # one entry put right leaves the other
    ],
)
def test_a_refused_prepared_size_falls_only_with_the_one_end_that_is_too_large(outside, inside, turns):
    reason = only(reasons(sized(outside, inside)), "hole_size")
    assert (reason.level, reason.turns) == ("refuse", turns)


REAMED_6_35 = Turns("injury.1.size_prepared", "the cutter injury 1 was reamed with", "mm", at_most=6.0, stated=6.35)


@pytest.mark.parametrize(
    ("outside", "inside", "turns"),
    [
        (EXACT_5, None, REAMED_6_35),
        (EXACT_6, EXACT_5, REAMED_6_35),  # on the limit a hole is not too large
        (EXACT_5, EXACT_6, REAMED_6_35),
        (EXACT_6_2, None, NO_TURN),
        (EXACT_6_2, EXACT_5, NO_TURN),
        (EXACT_5, EXACT_6_2, NO_TURN),
    ],
)
def test_a_reamed_hole_too_large_falls_with_the_cutter_unless_a_hole_is_too_large_itself(outside, inside, turns):
    reason = only(reasons(sized(outside, inside, reamed=6.35)), "hole_size")
    assert (reason.level, reason.turns) == ("refuse", turns)


def test_a_size_nobody_measured_is_anything_from_nothing_up():
    reason = only(reasons(sized(None), "north_america"), "hole_size")
    assert margins(reason) == (None, None, 6.35)  # 6.35 less 0
    assert reason.settles.at_most == 6.3  # rounded to the safe side


@pytest.mark.parametrize(
    ("rule_set", "injury", "stock", "begins", "low_stated_high"),
    [
        # germany 6 mm, cutters 5 and 6.35: the hole passes, the cutter it takes does not
        ("germany", sized(hole(5.5, how="exact")), stock_of(5.0, 6.35),
         "Injury 1 would be reamed to 6.35 mm, beyond 6 mm: ", (-0.35, -0.35, -0.35)),
        ("germany", sized(ranging(4.9, 4.9, 5.5)), stock_of(5.0, 6.35),
         "Injury 1 may be reamed to 6.35 mm, beyond 6 mm: ", (-0.35, 1.0, 1.0)),
        ("germany", sized(EXACT_5, reamed=8.0), house_stock(),
         "Injury 1 was reamed to 8 mm, beyond 6 mm: ", (-2.0, -2.0, -2.0)),
        # the makers: less than 6 mm, and 5.5 mm takes the 6 mm cutter
        ("european_makers", sized(hole(5.5, how="exact")), house_stock(),
         "Injury 1 would be reamed to 6 mm, not less than 6 mm: ", (0.0, 0.0, 0.0)),
        ("european_makers", sized(ranging(4.8, 4.8, 5.5)), house_stock(),
         "Injury 1 may be reamed to 6 mm, not less than 6 mm: ", (0.0, 1.0, 1.0)),
        ("european_makers", sized(EXACT_5, reamed=6.0), house_stock(),
         "Injury 1 was reamed to 6 mm, not less than 6 mm: ", (0.0, 0.0, 0.0)),
    ],
)
def test_a_cutter_past_a_limit_that_may_have_meant_it_is_measured_first(
    rule_set, injury, stock, begins, low_stated_high
):
    reason = only(reasons(injury, rule_set, stock), "prepared_size")
    assert reason.level == "measure"
    assert reason.says == begins + (
        "the source does not say whether it means the hole or the reamed hole. Another unit in stock, or a figure "
        "entered with its source, settles it."
    )
    assert margins(reason) == low_stated_high
    assert (reason.settles.field, reason.subject) == ("tire.maker_word", ("1",))


def test_on_an_inclusive_limit_the_cutter_it_takes_is_within_it():
    assert "prepared_size" not in reasons(sized(hole(5.5, how="exact")), "germany")


@pytest.mark.parametrize(
    ("stated", "level", "says", "low_stated_high"),
    [
        (EXACT_6, "note", "stays within", (0.0, 0.0, 0.0)),
        (hole(6.1, how="exact"), "refuse", "goes beyond", (-0.35, -0.35, -0.35)),
        (ranging(4.8, 4.8, 6.1), "measure", "may go beyond", (-0.35, 1.0, 1.0)),
    ],
)
def test_the_prepared_size_is_held_to_the_makers_figure(stated, level, says, low_stated_high):
    word = MakerWord(source="bulletin seen by the shop", largest_prepared_size=Length(value=6.0, how="exact"))
    said = reasons(sized(stated), "north_america", tire=measured_tire(maker_word=word), advise=False)
    reason = only(said, "prepared_size")
    assert (reason.level, margins(reason)) == (level, low_stated_high)
    assert reason.says == f"Injury 1 {says} the maker's largest prepared size: at most 6 mm."
    assert reason.source == "a figure as entered: bulletin seen by the shop"


@pytest.mark.parametrize(
    ("outside", "inside", "missing"),
    [
        (EXACT_6, None, True),  # 6.35 mm or less, and no stem above 5 mm fills it
        (EXACT_5, None, False),
        (None, None, False),
        (EXACT_6, hole(7.0, how="exact"), False),  # refused anyway
        (EXACT_6, ranging(6.0, 6.0, 7.0), False),  # measured first anyway
    ],
)
def test_a_hole_that_passes_and_finds_no_stem_needs_another_unit_in_stock(outside, inside, missing):
    said = reasons(sized(outside, inside), "north_america", stock_of(3.0, 5.0))
    assert ("no_unit_in_stock" in said) == missing
    if missing:
        reason = only(said, "no_unit_in_stock")
        assert (reason.level, reason.says) == ("measure", "No repair unit in stock fills injury 1 at 6 mm.")
        assert (reason.source, reason.subject) == ("the shop's stock of repair units", ("1",))


@pytest.mark.parametrize(
    ("injury", "ends"),
    [
        (sized(EXACT_5), ", inside too"),
        (sized(EXACT_5, EXACT_5), ""),
        (sized(None, EXACT_5), ""),
        (sized(EXACT_5, reamed=6.0), None),  # it has been
        (sized(hole(7.0, how="exact")), None),
        (sized(ranging(6.0, 6.0, 7.0)), None),
        (sized(EXACT_5, hole(7.0, how="exact")), None),
        (sized(EXACT_5, ranging(6.0, 6.0, 7.0)), None),
    ],
)
def test_a_hole_that_passes_is_sized_again_after_reaming(injury, ends):
    said = reasons(injury, "north_america")
    if ends is None:
        assert "size_again" not in said
        return
    reason = only(said, "size_again")
    assert (reason.level, reason.subject) == ("note", ("1",))
    assert reason.says == (
        f"The prepared size of injury 1 is foreseen: size it again after reaming{ends}, and answer again."
    )


def typed_light_truck(width: float) -> Tire:
    """A light truck tire whose section width was taped, not read from a code."""
    typed = TypedDimensions(
        overall_diameter_mm=700.0, section_width_mm=width, rim_diameter_mm=406.0, rim_width_in=6.0
    )
    return measured_tire(None, tread_width_mm=150.0, typed_dimensions=typed, tire_class="light_truck")


EXACT_7, EXACT_8_5 = hole(7.0, how="exact"), hole(8.5, how="exact")


@pytest.mark.parametrize(
    ("outside", "inside", "levels"),
    [
        # Australia: 6 mm up to 185 mm wide, 8 mm over it; 200 mm as taped may stand for either
        (EXACT_7, None, ["measure"]),
        (EXACT_7, EXACT_5, ["measure", "note"]),
        (EXACT_5, EXACT_7, ["measure", "note"]),  # told by weight
        (EXACT_7, EXACT_7, ["measure", "measure"]),
        (EXACT_7, EXACT_8_5, ["refuse", "refuse"]),  # no width allows the inside
        (EXACT_8_5, EXACT_7, ["refuse", "refuse"]),
    ],
)
def test_a_refusal_is_left_open_only_where_a_wider_tire_may_have_both_ends(outside, inside, levels):
    said = reasons(sized(outside, inside), "australia", tire=typed_light_truck(200.0))
    assert [each.level for each in said["hole_size"]] == levels


def test_a_hole_only_a_wider_tire_may_have_is_told_with_both_limits():
    said = reasons(sized(EXACT_7), "australia", tire=typed_light_truck(200.0), advise=False)
    reason = only(said, "hole_size")
    assert reason.says == (
        "Injury 1 is too large for a tire up to 185 mm wide, and may be small enough for a wider one: at most 8 mm."
    )
    assert margins(reason) == (-1.0, -1.0, 1.0)  # 6 less 7, and at best 8 less 7
    assert reason.settles == Settles("tire.size_code", "the nominal section width", "")
    assert reason.turns is None


@pytest.mark.parametrize(("beyond", "fits"), [(0.5 * ON_THE_LIMIT, True), (2 * ON_THE_LIMIT, False)])
def test_a_cutter_a_hair_past_the_limit_fits_as_long_as_it_is_arithmetic(beyond, fits):
    stock = stock_of(6.0 + beyond, 8.0)
    said = reasons(sized(EXACT_5), stock=stock)
    assert ("hole_size" in said) == fits
    assert ("no_unit_in_stock" in said) == (not fits)


@pytest.mark.parametrize(
    ("stems", "outside", "level", "says"),
    [
        ((3.0, 4.0, 5.0, 8.0), 5.5, "measure", "No cutter in stock of 6 mm or less is as large as the hole"),
        ((8.0,), 5.5, "measure", "No cutter in stock is 6 mm or less"),
        ((3.0, 4.0, 5.0, 8.0), 5.0, "note", "Injury 1 is small enough"),
        ((3.0, 4.0, 5.0, 6.0, 8.0), 5.5, "note", "Injury 1 is small enough"),
        ((3.0, 4.0, 5.0, 8.0), 6.1, "refuse", "Injury 1 is too large"),
    ],
)
def test_a_hole_within_the_limit_is_not_refused_for_what_is_only_missing_in_stock(stems, outside, level, says):
    """A 6 mm unit would mend 5.5 mm; the 8 mm cutter, the only one in stock that large, is past the 6 mm allowed."""
    said = reasons(sized(hole(outside, how="exact")), stock=stock_of(*stems))
    first = [*said.get("hole_size", ()), *said.get("no_unit_in_stock", ())][0]
    assert (first.level, first.says.startswith(says)) == (level, True)


def test_the_larger_end_decides_what_the_stock_must_hold():
    """Outside from 5.0 to 5.9, inside exactly 5.5: whatever the outside, no 5 mm cutter takes it."""
    said = reasons(sized(ranging(5.0, 5.4, 5.9), hole(5.5, how="exact")), stock=stock_of(3.0, 4.0, 5.0, 8.0))
    assert only(said, "no_unit_in_stock").level == "measure" and "hole_size" not in said


def test_where_both_ends_may_be_too_large_one_alone_is_not_said_to_settle_it():
    """Outside 5.8 to 6.2, inside 5.8 to 6.3: gauged to 6 inside, the outside may still take more."""
    settles = only(reasons(sized(ranging(5.8, 5.8, 6.2), ranging(5.8, 5.8, 6.3))), "hole_size").settles
    assert (settles.field, settles.alone, settles.at_most) == (INSIDE, False, None)
    assert (settles.then_field, settles.then) == (OUTSIDE, "the size of injury 1 outside")


@pytest.mark.parametrize(
    ("stems", "cutters"),
    [
        ((3.0, 4.0, 5.0, 6.0), "It takes the 6 mm cutter, or one larger than any in stock."),
        ((3.0, 4.0, 5.0, 6.0, 6.35), "It takes the 6 or the 6.35 mm cutter."),
        ((3.0, 4.0, 5.0, 6.0, 6.1, 6.35), "It takes the 6 to the 6.35 mm cutter."),
    ],
)
def test_no_cutter_is_named_that_is_not_in_stock(stems, cutters):
    says = only(reasons(sized(ranging(5.8, 5.8, 6.2)), stock=stock_of(*stems)), "hole_size").says
    assert cutters in says


def test_an_end_that_reaches_the_largest_cutter_and_no_further_leaves_the_other_to_settle_it_alone():
    settles = only(reasons(sized(ranging(5.8, 5.9, 6.0), ranging(5.8, 5.8, 6.3))), "hole_size").settles
    assert settles == Settles(INSIDE, "the size of injury 1 inside", "mm", at_most=6.0, tolerance=0.2)


def test_a_hole_too_large_itself_asks_for_no_gauging_where_no_cutter_is_small_enough():
    """From 7 to 9 mm, stems of 8 and 10: past 6 mm whichever it takes."""
    reason = only(reasons(sized(ranging(7.0, 8.0, 9.0)), stock=stock_of(8.0, 10.0)), "hole_size")
    assert (reason.level, reason.settles) == ("refuse", None)
