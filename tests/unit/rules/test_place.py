"""A hole against every kind of crown zone, worked out on a tire known exactly."""

from math import hypot, sqrt

import pytest

from tests.helpers.jobs import (
    bench_job,
    crown_injury,
    evenly_worn,
    from_center,
    from_outboard_edge,
    hole,
    measured_tire,
)
from tiremap.assess import assess
from tiremap.model.job import MakerWord, TypedDimensions
from tiremap.model.measures import Across, BeadToes, Lean, Length
from tiremap.model.rule_set import RuleSet, ZoneEdge
from tiremap.model.rule_set_file import rule_set_or_why
from tiremap.rules.reasons import MAKER_WORD, Reason

INSIDE = "Injury 1 lies inside the crown zone at every depth."
MAY_REACH = "Injury 1 may reach outside the crown zone."
LEAVING = ": it starts inside and leaves it on its way inward"

INCH = ZoneEdge(kind="inset_from_tread_edge", value=25.4)
BELT = ZoneEdge(kind="inset_from_belt_edge", value=10.0)
WHOLE = ZoneEdge(kind="whole_tread", value=0.0)
GROOVES = ZoneEdge(kind="inside_outer_grooves", value=5.0)
OF_SECTION = ZoneEdge(kind="share_of_section_width", value=0.70)
OF_TREAD = ZoneEdge(kind="share_of_tread_width", value=0.75)
REACH = {
    "inset_from_tread_edge": 59.6, "inset_from_belt_edge": 65.0, "whole_tread": 85.0, "inside_outer_grooves": 55.0,
    "share_of_section_width": 71.75, "share_of_tread_width": 63.75,
}
"""Mm from the center on the tire of ``told``: 170 mm of tread, 150 of belt, 120 between the grooves, 205 wide."""
EDGES = (INCH, BELT, WHOLE, GROOVES, OF_SECTION, OF_TREAD)


def exact(value: float, **more) -> Length:
    return Length(value=value, how="exact", **more)


def at(value: float, minus: float = 0.0, plus: float = 0.0) -> Across:
    """Mm from the center, as far off as it says and no further."""
    return from_center(value, how="exact", minus=minus, plus=plus)


def zoned(*edges: ZoneEdge, widths: tuple[float, ...] = ()) -> RuleSet:
    """The United Kingdom's set with one crown zone of one or two edges, or one of each share up to these widths."""
    rule_set, _ = rule_set_or_why("united_kingdom")
    zone = rule_set.crown_zones[-1].model_copy(update={"section_width_over": 0.0, "source": "a zone of our own"})
    if widths:
        over = (0.0, *widths[:-1])
        zones = tuple(
            zone.model_copy(update={"edge": edge, "section_width_over": low, "section_width_up_to": high})
            for edge, low, high in zip(edges, over, widths, strict=True)
        )
    else:
        outer = edges[1] if len(edges) > 1 else None
        says = "the maker decides" if outer else ""
        zones = (zone.model_copy(update={"edge": edges[0], "refused_beyond": outer, "between_says": says}),)
    return rule_set.model_copy(update={"crown_zones": zones})


def told(rule_set: RuleSet, outside: Across | None, lean: float | None = 0.0, inside=None, **tire) -> Reason:
    """What is told of the place of a 4 mm hole, through a crown of 12 mm."""
    usual = {
        "tread_width": exact(170.0), "under_grooves": exact(6.0), "belt_width": exact(150.0),
        "between_outer_grooves": exact(120.0),
    }
    size, leaning = hole(4.0, how="exact"), None if lean is None else Lean(value=lean, how="exact")
    injury = crown_injury(outside=outside, inside=inside, size_outside=size, size_inside=size, lean_across=leaning)
    tire = measured_tire(**{"size_code": "205/55R16", **usual, **evenly_worn(exact(6.0)), **tire})
    (reason,) = (each for each in assess(bench_job(injury, tire=tire), rule_set).mark("1").reasons
                 if each.code == "place")
    return reason


def word(inset: float | None) -> MakerWord:
    return MakerWord(source="the maker's sheet", zone_inset=None if inset is None else exact(inset))


def margins(reason: Reason) -> tuple[float | None, float | None, float | None]:
    return reason.margin, reason.margin_low, reason.margin_high


@pytest.mark.parametrize("way", [1.0, -1.0])
@pytest.mark.parametrize("edge", EDGES, ids=lambda edge: edge.kind)
def test_up_to_the_edge_of_its_zone_a_hole_passes_and_past_it_is_refused(edge, way):
    last = REACH[edge.kind] - 2.0  # half the hole
    inside, past = told(zoned(edge), at(way * last)), told(zoned(edge), at(way * (last + 0.1)))
    assert (inside.level, inside.says, inside.margin) == ("note", INSIDE, pytest.approx(0.0))
    assert margins(past) == (pytest.approx(-0.1),) * 3
    assert (past.level, past.unit, past.source) == ("refuse", "mm", "a zone of our own")
    assert past.says.startswith("Injury 1 reaches outside the crown zone.")


@pytest.mark.parametrize(
    ("edge", "limit", "measured", "value"),
    [
        (INCH, 25.4, "inside the tread edge", 43.0),  # 85 mm less the hole's 40 and its half
        (BELT, 10.0, "inside the belt edge", 33.0),
        (WHOLE, 0.0, "inside the tread edge", 43.0),
        (GROOVES, 5.0, "inside the outer groove's inner wall", 18.0),
        (OF_SECTION, 71.75, "from center", 42.0),
        (OF_TREAD, 63.75, "from center", 42.0),
    ],
    ids=lambda each: getattr(each, "kind", None),
)
def test_place_and_limit_are_told_from_what_the_zone_is_measured_from(edge, limit, measured, value):
    reason = told(zoned(edge), at(40.0))
    assert (reason.limit, reason.measured) == (pytest.approx(limit), measured)
    assert reason.value == pytest.approx(value)


def test_where_the_tread_was_not_measured_a_share_of_it_is_no_figure_and_one_of_the_section_is():
    of_tread, of_section = (told(zoned(edge), at(10.0), tread_width=None) for edge in (OF_TREAD, OF_SECTION))
    assert (of_tread.limit, of_tread.value, of_tread.measured) == (None, None, "from center")
    assert of_section.limit == pytest.approx(71.75)


@pytest.mark.parametrize(
    ("edge", "inset", "limit", "measured", "reach"),
    [
        (INCH, 30.0, 30.0, "inside the tread edge", 55.0),
        (INCH, 20.0, 25.4, "inside the tread edge", 59.6),
        (WHOLE, 30.0, 30.0, "inside the tread edge", 55.0),
        (BELT, 30.0, None, "from center", 55.0),
        (BELT, 15.0, None, "from center", 65.0),
        (OF_SECTION, 30.0, None, "from center", 55.0),
        (OF_TREAD, 30.0, None, "from center", 55.0),
        (OF_TREAD, 0.0, None, "from center", 63.75),
    ],
    ids=lambda each: getattr(each, "kind", None),
)
def test_the_tire_maker_s_figure_makes_a_zone_stricter_and_stands_in_its_source(edge, inset, limit, measured, reach):
    reason = told(zoned(edge), at(40.0), maker_word=word(inset))
    assert reason.source == "a zone of our own; the tire maker's figure as entered: the maker's sheet"
    assert (reason.limit, reason.measured, reason.margin) == (limit, measured, pytest.approx(reach - 42.0))


def test_a_word_of_the_maker_on_something_else_leaves_the_zone_and_its_source_alone():
    reason = told(zoned(INCH), at(40.0), maker_word=word(None))
    assert (reason.source, reason.limit, reason.margin) == ("a zone of our own", 25.4, pytest.approx(17.6))


@pytest.mark.parametrize(
    ("outside", "lean", "says"),
    [
        (84.0, 0.0, "Injury 1 reaches outside the crown zone."),
        (85.0, 0.0, "Injury 1 reaches outside the crown zone."),  # centered exactly on the edge
        (-85.0, 0.0, "Injury 1 reaches outside the crown zone."),
        (85.1, 0.0, "Injury 1 lies in the shoulder, outside the crown zone."),
        (-105.0, 0.0, "Injury 1 lies in the shoulder, outside the crown zone."),  # 20 mm past the tread edge
        (105.0, 0.0, "Injury 1 lies in the shoulder, outside the crown zone."),
        (105.1, 0.0, "Injury 1 lies in the sidewall, outside the crown zone."),
        (-110.0, 45.0, "Injury 1 lies in the sidewall, outside the crown zone."),
        (98.0, 45.0, "Injury 1 lies in the sidewall, outside the crown zone."),
        (80.0, 45.0, f"Injury 1 lies in the shoulder, outside the crown zone{LEAVING}."),
        (-80.0, -45.0, f"Injury 1 lies in the shoulder, outside the crown zone{LEAVING}."),
        (85.0, 45.0, f"Injury 1 lies in the shoulder, outside the crown zone{LEAVING}."),
        (85.1, 45.0, "Injury 1 lies in the shoulder, outside the crown zone."),
        (90.0, -45.0, "Injury 1 lies in the shoulder, outside the crown zone."),  # on its way inward it comes back
    ],
)
def test_a_refused_hole_is_told_where_it_lies(outside, lean, says):
    reason = told(zoned(WHOLE), at(outside), lean)
    assert reason.level == "refuse"
    assert reason.says.partition(" It is ")[0].startswith(says)


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_a_hole_that_may_reach_out_is_measured(way):
    reason = told(zoned(INCH), at(way * 57.0, minus=2.0, plus=2.0))
    assert reason.level == "measure"
    assert reason.says.startswith(f"{MAY_REACH} Measure the place of injury 1 across")
    assert margins(reason) == (pytest.approx(0.6), pytest.approx(-1.4), pytest.approx(2.6))


def test_between_two_edges_a_hole_that_no_measuring_brings_inside_wants_the_tire_maker_s_word():
    reason = told(zoned(INCH, WHOLE), at(57.7))
    assert (reason.level, reason.limit, margins(reason)) == ("measure", 25.4, (pytest.approx(-0.1),) * 3)
    assert reason.says.startswith(
        "Injury 1 may lie beyond the inner edge of the crown zone; the maker decides. Enter that limit with its source."
    )
    assert (reason.settles.field, reason.settles.words) == (MAKER_WORD, "the tire maker's limit for this tire")


@pytest.mark.parametrize("outside", [at(60.0, minus=2.4), at(58.0, minus=1.0, plus=1.0)])  # 57.6 is just inside
def test_between_two_edges_a_hole_that_measuring_may_bring_inside_is_measured(outside):
    reason = told(zoned(INCH, WHOLE), outside)
    assert (reason.level, reason.settles.field) == ("measure", "injury.1.outside")
    assert reason.says.startswith("Injury 1 may lie beyond the inner edge of the crown zone; the maker decides.")


@pytest.mark.parametrize(
    ("outside", "level"),
    [(57.6, "note"), (-57.6, "note"), (57.7, "measure"), (83.0, "measure"), (83.1, "refuse"), (-83.1, "refuse")],
)
def test_of_two_edges_the_inner_passes_and_the_outer_refuses(outside, level):
    reason = told(zoned(INCH, WHOLE), at(outside))
    assert (reason.level, reason.margin) == (level, pytest.approx(57.6 - abs(outside)))


@pytest.mark.parametrize(("outside", "level"), [(53.0, "note"), (53.1, "refuse")])
def test_the_tire_maker_s_figure_settles_what_lies_between_two_edges(outside, level):
    reason = told(zoned(INCH, WHOLE), at(outside), maker_word=word(30.0))
    assert (reason.level, reason.limit) == (level, 30.0)
    assert told(zoned(INCH, WHOLE), at(outside + 20.0), maker_word=word(10.0)).level == level


def test_an_outer_edge_further_in_than_the_inner_is_the_one_that_counts():
    """The belt of 100 mm ends 50 from the center, and the zone 10 further in; an inch from the tread edge is 59.6."""
    belt, rule_set = {"belt_width": exact(100.0)}, zoned(INCH, BELT)
    reasons = [told(rule_set, each, **belt) for each in (at(38.0), at(38.0, minus=1.0, plus=1.0), at(38.1))]
    assert [each.level for each in reasons] == ["note", "measure", "refuse"]
    assert {(each.limit, each.measured) for each in reasons} == {(10.0, "inside the belt edge")}
    assert reasons[1].says.startswith(f"{MAY_REACH} Measure ")
    assert [each.margin for each in reasons] == [pytest.approx(0.0, abs=1e-9), pytest.approx(0.0, abs=1e-9),
                                                 pytest.approx(-0.1)]


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_a_hole_astride_the_center_has_its_best_margin_where_both_ends_are_as_far_from_it(way):
    """Leaning 45 degrees through 12 mm: at best from 6 mm on one side to 6 on the other."""
    reason = told(zoned(INCH), at(-5.0 * way, minus=5.0, plus=5.0), 45.0 * way)
    assert reason.margin_high == pytest.approx(59.6 - 6.0 - 2.0 * sqrt(2.0))
    assert reason.margin_low == pytest.approx(59.6 - 12.0 - 2.0 * sqrt(2.0))


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_with_both_ends_measured_the_best_margin_is_upright(way):
    inside = at(way * 30.0, minus=2.0, plus=2.0)
    reason = told(zoned(INCH), at(way * 30.0), None, inside)
    assert reason.margin_high == pytest.approx(59.6 - 32.0, abs=1e-6)
    assert reason.margin_low == pytest.approx(59.6 - 32.0 - 2.0 * hypot(1.0, 2.0 / 12.0), abs=1e-6)


def test_upright_may_be_reached_by_the_crown_s_thickness_alone():
    """Taped along the liner, the inside end lies under 30 mm where the crown is 12 mm thick, not at 8 or 16."""
    half_difference = 30.0 * 808.0 / 820.0
    toes = BeadToes(
        from_outboard=200.0 - half_difference, from_inboard=200.0 + half_difference, how="exact", minus=0.0, plus=0.0
    )
    reason = told(zoned(INCH), at(30.0), None, toes, under_grooves=exact(6.0, minus=4.0, plus=4.0))
    assert reason.margin_high == pytest.approx(59.6 - 32.0, abs=1e-6)


def test_from_the_tread_edge_a_hole_moves_with_it_and_a_share_of_the_tread_less():
    """168 to 172 mm of tread: the zone reaches 63 to 64.5 mm, and 25 mm from the edge is 59 to 61."""
    tread = exact(170.0, minus=2.0, plus=2.0)
    reason = told(zoned(OF_TREAD), from_outboard_edge(25.0, how="exact"), tread_width=tread)
    assert margins(reason) == (pytest.approx(1.75), pytest.approx(1.5), pytest.approx(2.0))
    reason = told(zoned(INCH), from_outboard_edge(40.0, how="exact"), tread_width=tread)
    assert margins(reason) == (pytest.approx(40.0 - 25.4 - 2.0),) * 3


@pytest.mark.parametrize("edge", [INCH, WHOLE, OF_TREAD], ids=lambda edge: edge.kind)
def test_from_the_center_a_narrower_tread_leaves_less(edge):
    reason = told(zoned(edge), at(40.0), tread_width=exact(170.0, minus=8.0, plus=4.0))
    per_tread = 0.75 / 2 if edge == OF_TREAD else 0.5
    least, most = REACH[edge.kind] - 42.0 - 8.0 * per_tread, REACH[edge.kind] - 42.0 + 4.0 * per_tread
    assert (reason.margin_low, reason.margin_high) == (pytest.approx(least), pytest.approx(most))


def test_a_belt_and_grooves_no_better_known_leave_less_too():
    """A belt of 142 to 154 mm, and 110 to 126 mm between the grooves."""
    belt = told(zoned(BELT), at(40.0), belt_width=exact(150.0, minus=8.0, plus=4.0))
    assert margins(belt) == (pytest.approx(23.0), pytest.approx(19.0), pytest.approx(25.0))
    grooves = told(zoned(GROOVES), at(40.0), between_outer_grooves=exact(120.0, minus=10.0, plus=6.0))
    assert margins(grooves) == (pytest.approx(13.0), pytest.approx(8.0), pytest.approx(16.0))


def test_a_belt_never_measured_ends_3_mm_outside_to_15_mm_inside_the_tread_edge_but_the_zone_no_further_than_it():
    reason = told(zoned(BELT), at(40.0), belt_width=None)
    assert margins(reason) == (None, pytest.approx(85.0 - 15.0 - 10.0 - 42.0), pytest.approx(85.0 + 3.0 - 10.0 - 42.0))
    at_belt = told(zoned(ZoneEdge(kind="inset_from_belt_edge", value=0.0)), at(40.0), belt_width=None)
    assert at_belt.margin_high == pytest.approx(85.0 - 42.0)


def of_a_measured_section(*shares: float) -> Reason:
    """A zone of one share up to 200 mm and another above. 205 mm measured stand for 174.87 to 215.27 mm."""
    typed = TypedDimensions(
        overall_diameter_mm=632.0, section_width_mm=205.0, rim_diameter_mm=406.0, rim_width_in=6.5
    )
    edges = (OF_SECTION.model_copy(update={"value": share}) for share in shares)
    tire = {"size_code": None, "tire_class": "passenger", "typed_dimensions": typed, "tread_width": exact(200.0)}
    return told(zoned(*edges, widths=(200.0, 10_000.0)), at(40.0), **tire)


def test_a_measured_section_may_fall_in_either_band_of_the_nominal_width():
    reason = of_a_measured_section(0.60, 0.70)
    assert reason.margin_low == pytest.approx(0.60 * 174.87 / 2 - 42.0)
    assert reason.margin_high == pytest.approx(0.70 * 215.27 / 2 - 42.0)


def test_where_the_share_of_the_wider_band_is_less_it_is_reckoned_with():
    assert of_a_measured_section(0.80, 0.60).margin_low <= 0.60 * 215.27 / 2 - 42.0 + 1e-6
