"""Two heads against the gap a rule set asks, here 5 mm: answer, margin, and what to measure or to check again.

The crown of the 205/55R16 is exactly 12 mm thick, so that its liner lies 316 - 12 = 304 mm from the axle, and a lean
around of 45 degrees carries the inside end on by 12/304 radians, 2.26 degrees. Both heads are of 40 mm, so that 45 mm
are asked between their centers: 45/304 radians, 8.48 degrees.
"""

from dataclasses import replace

import pytest

from tests.helpers.jobs import (
    all_fine,
    at_angle,
    bench_job,
    crown_injury,
    earlier_repair,
    evenly_worn,
    from_center,
    hole,
    measured_tire,
    probed,
)
from tiremap.assess import assess
from tiremap.assessment import case_of
from tiremap.model.job import Repair
from tiremap.model.measures import Around, HoleSize, Lean, Length
from tiremap.model.rule_set_file import rule_set_named
from tiremap.rules.heads_apart import heads_apart, less
from tiremap.rules.margins import Margin
from tiremap.rules.pairs import apart, reach_of
from tiremap.rules.settling import advised

ASKED = 5.0
SIX = Length(value=6.0, how="exact")


def exactly_at(around):
    return Around(value=around, how="exact") if isinstance(around, float) else around


def exact_injury(id="1", around=0.0, **fields):
    size = HoleSize(value=4.0, how="exact")
    upright = Lean(value=0.0, how="exact")
    usual = {
        "outside": from_center(0.0, how="exact"), "around": exactly_at(around),
        "lean_across": upright, "lean_around": upright, "size_outside": size, "size_inside": size,
    }
    return crown_injury(id, **{**usual, **fields})


def exact_repair(id="R1", around=0.0, **fields):
    usual = {
        "inside": from_center(0.0, how="exact"), "around": exactly_at(around),
        "head_length": Length(value=40.0, how="exact"),
    }
    return earlier_repair(id, **{**usual, **fields})


def case_and_pair(*marks):
    rule_set = rule_set_named("united_kingdom")
    limits = tuple(each.model_copy(update={"value": ASKED}) for each in rule_set.heads_apart)
    tire = measured_tire(**evenly_worn(SIX), under_grooves=SIX)
    checks = all_fine(repairs=any(isinstance(each, Repair) for each in marks))
    job = bench_job(*marks, tire=tire, checks=checks)
    case = case_of(assess(job, rule_set.model_copy(update={"heads_apart": limits}), advise=False))
    first, second = (reach_of(case.facts, mark) for mark in (*case.injuries, *case.repairs))
    return case, apart(case.facts, first, second)


def asked_of(*marks):
    [reason] = heads_apart(*case_and_pair(*marks))
    return reason


def told(gap_low, gap_stated, gap_high):
    """The reason of two upright heads whose distance around is given, whatever their places are."""
    case, pair = case_and_pair(exact_injury("1"), exact_injury("2", around=60.0))
    around = (40.0 + gap_low, 40.0 + gap_high)
    [reason] = heads_apart(case, replace(pair, around=around, stated_around=40.0 + gap_stated))
    return reason


@pytest.mark.parametrize(
    ("gaps", "level", "says"),
    [
        ((5.0, 6.0, 7.0), "note", "The heads of injury 1 and injury 2 keep clear of each other."),
        ((5.0, 5.0, 5.0), "note", "The heads of injury 1 and injury 2 keep clear of each other."),
        ((4.99, 6.0, 7.0), "measure", "The heads of injury 1 and injury 2 may overlap."),
        ((3.0, 4.0, 5.0), "measure", "The heads of injury 1 and injury 2 may overlap."),
        ((3.0, 4.0, 4.99), "refuse", "The heads of injury 1 and injury 2 overlap."),
    ],
)
def test_the_gap_asked_passes_itself_at_its_least_and_refuses_only_at_its_greatest(gaps, level, says):
    reason = told(*gaps)
    assert (reason.code, reason.level, reason.says, reason.subject) == ("heads_overlap", level, says, ("1", "2"))
    assert (reason.margin_low, reason.margin, reason.margin_high) == pytest.approx([gap - ASKED for gap in gaps])
    assert (reason.value, reason.limit, reason.unit) == (pytest.approx(gaps[1]), ASKED, "mm")
    assert (reason.settles_later is not None) == (level == "measure")
    assert (reason.turns_later is not None) == (level == "refuse")


@pytest.mark.parametrize("stated", [2.0, None])
def test_a_gap_is_counted_from_the_limit_on(stated):
    assert less(Margin(stated, 1.0, 9.0), 5.0) == Margin(None if stated is None else -3.0, -4.0, 4.0)


def test_two_heads_refused_fall_apart_where_one_place_around_was_wrong_by_more_than_both_and_the_limit():
    """45/304 radians are 8.48 degrees: 9 in whole ones. Mark 1 is exact, so that 2 is the likelier slip."""
    reason = asked_of(exact_injury("1", around=0.0), exact_injury("2", around=at_angle(3.0)))
    assert reason.level == "refuse"
    turns = reason.turns_later()
    assert (turns.field, turns.at_least, turns.at_most, turns.stated) == ("injury.2.around", 9.0, None, 3.0)


@pytest.mark.parametrize("unknown", ["1", "2"])
def test_the_one_place_around_never_entered_is_asked_for_as_far_from_the_other_as_the_limit_wants(unknown):
    marks = [exact_injury(each, around=None if each == unknown else 10.0) for each in "12"]
    reason = asked_of(*marks)
    words = f"the place of injury {unknown} around the tire"
    assert reason.level == "measure"
    assert reason.asks == ((f"injury.{unknown}.around", words),)
    settles = reason.settles_later()
    assert (settles.field, settles.away) == (f"injury.{unknown}.around", 9.0)
    other = "2" if unknown == "1" else "1"
    assert advised(reason).advice == f"Measure {words}: 9 degrees or more from injury {other} passes."


def test_two_places_around_taken_too_coarsely_are_asked_for_by_how_well_one_must_be_known():
    """By eye they may lie 15 degrees nearer. 10.5 apart, 8.48 are asked: 2.0 degrees of room in tenths."""
    eye = Around(value=10.5, how="eye")
    reason = asked_of(exact_injury("1"), exact_injury("2", around=eye))
    assert (reason.level, reason.asks) == ("measure", ())
    settles = reason.settles_later()
    assert (settles.field, settles.tolerance, settles.alone) == ("injury.2.around", 2.0, True)


def test_what_was_never_entered_comes_before_a_place_around_that_would_do_alone():
    """A lean around nobody took leaves the pair open; the advice is that lean, not a closer place around."""
    reason = asked_of(exact_injury("1", lean_around=None), exact_injury("2", around=at_angle(10.0)))
    lean = ("injury.1.lean_around", "the lean of injury 1 around")
    assert (reason.level, reason.asks) == ("measure", (lean,))
    settles = reason.settles_later()
    assert settles == reason.settles
    assert ((settles.field, settles.words), settles.then, settles.alone) == (lean, None, False)


def test_a_head_nobody_measured_is_asked_for():
    reason = asked_of(exact_injury("1"), exact_repair(around=20.0, head_length=None))
    head = ("repair.R1.head_length", "the head of repair R1")
    assert (reason.level, reason.asks, reason.subject) == ("measure", (head,), ("1", "R1"))
    assert (reason.settles_later().field, reason.settles_later().alone) == (head[0], False)


@pytest.mark.parametrize(
    ("one", "other", "field", "then", "asks"),
    [
        # never entered, then never entered
        ({"lean_around": None}, {"lean_around": None}, "injury.1.lean_around", "injury.2.lean_around",
         ["injury.1.lean_around", "injury.2.lean_around"]),
        ({"lean_across": None}, {"lean_across": None}, "injury.1.lean_across", "injury.2.lean_across",
         ["injury.1.lean_across", "injury.2.lean_across"]),
        # of one mark, in bench order: place around before lean around
        ({"around": None, "lean_around": None}, {}, "injury.1.around", "injury.1.lean_around",
         ["injury.1.around", "injury.1.lean_around"]),
        # one never entered, though of the second mark and with the first's taken by eye before it
        ({"outside": from_center(0.0, how="eye")}, {"lean_around": None}, "injury.2.lean_around", "injury.1.outside",
         ["injury.2.lean_around"]),
        # what is exactly known is not asked, nor is what was taped named after it
        ({"outside": from_center(0.0)}, {"lean_around": None}, "injury.2.lean_around", None,
         ["injury.2.lean_around"]),
        # by eye before taped, in whichever order they come
        ({"outside": from_center(0.0)}, {"outside": from_center(0.0, how="eye")}, "injury.2.outside", None, []),
        ({"outside": from_center(0.0, how="eye")}, {"outside": from_center(0.0)}, "injury.1.outside", None, []),
        ({"lean_around": probed(0.0)}, {"lean_around": Lean(value=0.0, how="eye")}, "injury.2.lean_around", None, []),
        # two by eye follow each other
        ({"outside": from_center(0.0, how="eye")}, {"outside": from_center(0.0, how="eye")},
         "injury.1.outside", "injury.2.outside", []),
        # all alike, in bench order: place across, place around, lean around
        ({"outside": from_center(0.0), "lean_around": probed(0.0)}, {"outside": from_center(0.0)},
         "injury.1.outside", None, []),
        ({"lean_around": probed(0.0)}, {"outside": from_center(0.0)}, "injury.1.lean_around", None, []),
    ],
)
def test_never_entered_comes_before_by_eye_and_by_eye_before_taped(one, other, field, then, asks):
    case, pair = case_and_pair(exact_injury("1", **one), exact_injury("2", **{"around": 8.5, **other}))
    [reason] = heads_apart(case, replace(pair, around=(0.0, 90.0)))  # the limit lies between, whatever the readings
    settles = reason.settles
    assert (settles.field, settles.then_field, settles.unit, settles.alone) == (field, then, "mm", False)
    assert [each for each, _ in reason.asks] == asks


def test_two_holes_nobody_measured_leave_both_heads_to_be_asked_for():
    sizes = {"size_outside": None, "size_inside": None}
    reason = asked_of(exact_injury("1", **sizes), exact_injury("2", around=9.0, **sizes))
    assert reason.level == "measure"
    assert reason.asks == tuple((f"injury.{each}.size_outside", f"the size of injury {each}") for each in "12")
    settles = reason.settles_later()
    assert (settles.field, settles.then_field) == ("injury.1.size_outside", "injury.2.size_outside")
    assert advised(reason).advice == "Measure the size of injury 1, then the size of injury 2."


def test_with_nothing_left_to_measure_nothing_is_asked():
    case, pair = case_and_pair(exact_injury("1"), exact_injury("2", around=60.0))
    [reason] = heads_apart(case, replace(pair, around=(0.0, 90.0)))
    assert (reason.level, reason.asks, reason.settles) == ("measure", (), None)
    assert reason.settles_later() is None


@pytest.mark.parametrize(("how", "by_eye"), [("eye", True), ("gauge", False)])
def test_a_head_whose_hole_was_sized_by_eye_is_measured_before_what_was_taped(how, by_eye):
    mark = assess(bench_job(crown_injury(size_outside=hole(3.0, how=how), size_inside=None))).injuries[0].facts
    assert mark.channel.estimated == mark.head.radius.estimated == by_eye
