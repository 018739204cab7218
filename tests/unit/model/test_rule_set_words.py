"""A rule set in words: every kind of edge, what is searched, and whose copy it is."""

import pytest

from tests.unit.model.test_shop_rule_sets import shop_set
from tiremap.model.job import Job
from tiremap.model.looser import looser_than
from tiremap.model.rule_set import ANY_WIDTH, RuleSet, ZoneEdge, from_load_index, loosest, tightest
from tiremap.model.rule_set_file import read_shop_rule_set, rule_set_named
from tiremap.model.rule_set_titles import parent_title
from tiremap.model.rule_set_words import limit_lines


def zone_said(kind: str, value: float, outer: tuple[str, float] | None = None) -> str:
    """What the first crown zone asks where it has that edge, and that outer one."""
    rule_set = rule_set_named("united_kingdom")
    changed = rule_set.crown_zones[0].model_copy(update={
        "edge": ZoneEdge(kind=kind, value=value),
        "refused_beyond": None if outer is None else ZoneEdge(kind=outer[0], value=outer[1]),
        "between_says": "the maker decides between",
    })
    asks = {line.key: line.asks for line in limit_lines(rule_set.model_copy(update={
        "crown_zones": (changed, *rule_set.crown_zones[1:])
    }))}
    return asks["crown_zones.0"]


@pytest.mark.parametrize(
    ("edge", "says"),
    [
        (("whole_tread", 0.0), "the whole tread, edge to edge, the edge itself allowed"),
        (("inside_outer_grooves", 0.0), "between the inner walls of the two outermost grooves"),
        (("inside_outer_grooves", 3.0), "at least 3 mm inside the outer groove's inner wall"),
        (("inset_from_belt_edge", 25.0), "at least 25 mm inside the belt edge, the edge itself allowed"),
        (("share_of_tread_width", 0.75), "the central 75 % of the tread width"),
    ],
)
def test_every_kind_of_zone_is_said_as_it_is_measured(edge, says):
    assert zone_said(*edge).startswith(says)


@pytest.mark.parametrize(
    ("outer", "says"),
    [
        (("whole_tread", 0.0), "farther out than the tread edge;"),
        (("inset_from_belt_edge", 0.0), "farther out than the belt edge;"),
        (("inset_from_tread_edge", 5.0), "farther out than 5 mm inside the tread edge;"),
        (("share_of_section_width", 0.8), "farther out than the central 80 % of the nominal section width;"),
    ],
)
def test_the_outer_edge_of_a_zone_is_said_with_who_decides_between(outer, says):
    said = zone_said("share_of_tread_width", 0.5, outer)
    assert says in said and said.endswith("the maker decides between")


def test_everything_said_of_a_limit_is_searched():
    line = limit_lines(rule_set_named("germany"))[0]
    for part in (line.about, line.asks, line.tires, line.source, line.grade):
        assert part and part in line.text
    truck = next(line for line in limit_lines(rule_set_named("north_america")) if "9.52 mm" in line.asks)
    assert "9.525" in truck.text  # as its source writes it


def test_a_copy_is_named_after_its_parent_and_a_published_set_after_none():
    assert parent_title(rule_set_named("germany")) == ""
    own = read_shop_rule_set(shop_set("germany"))
    assert parent_title(own) == rule_set_named("germany").title
    assert parent_title(own.model_copy(update={"parent": "gone"})) == "gone"


def test_a_set_with_a_class_that_lacks_a_limit_at_some_width_is_none():
    fields = rule_set_named("germany").model_dump()
    fields["heads_apart"] = [{**fields["heads_apart"][0], "section_width_up_to": 205.0}]
    with pytest.raises(ValueError, match="needs one gap between heads for every section width, no overlap"):
        RuleSet.model_validate(fields)


@pytest.mark.parametrize("name", ["  ", "a\nb", "\u200b"])
def test_a_mark_that_cannot_be_seen_by_its_name_is_none(name):
    with pytest.raises(ValueError, match="letters, digits and signs that print"):
        Job.model_validate({"injuries": [{"id": name}]}, strict=False)


def _changed(field: str, **changes) -> dict:
    """The United Kingdom's set as data, the widest band of a limit changed."""
    data = rule_set_named("united_kingdom").model_dump()
    bands = [each for each in data[field] if "passenger" in each["classes"]]
    bands[-1].update(changes)
    return data


@pytest.mark.parametrize(
    "changes",
    [
        {"edge": {"kind": "inset_from_tread_edge", "value": 30.0}},
        {"refused_beyond": {"kind": "share_of_section_width", "value": 0.8}},
    ],
)
def test_bands_of_width_are_shares_of_it_with_one_edge(changes):
    """A taped width may fall in several: each is asked, and can only be where all ask the same thing."""
    with pytest.raises(ValueError, match="several crown zones by section width only as shares"):
        RuleSet.model_validate(_changed("crown_zones", **changes))


def test_a_class_needs_a_largest_injury_for_every_load_index():
    fields = rule_set_named("germany").model_dump()
    fields["largest_injuries"][0]["load_index_from"] = 100
    with pytest.raises(ValueError, match="needs one largest injury for every section width, no overlap"):
        RuleSet.model_validate(fields)


def test_two_largest_injuries_from_the_same_load_index_are_none():
    fields = rule_set_named("germany").model_dump()
    fields["largest_injuries"] = [*fields["largest_injuries"], fields["largest_injuries"][1]]
    with pytest.raises(ValueError, match="needs one largest injury for every section width, no overlap"):
        RuleSet.model_validate(fields)


def test_a_limit_from_a_load_index_says_so_of_its_tires():
    tires = {line.key: line.tires for line in limit_lines(rule_set_named("germany"))}
    assert tires["largest_injuries.1"] == "light truck, truck; load index 122 and up"


def test_a_limit_is_looser_at_the_load_indices_where_it_asks_less():
    germany = rule_set_named("germany")
    later = germany.largest_injuries[1].model_copy(update={"load_index_from": 118})
    own = germany.model_copy(update={"largest_injuries": (germany.largest_injuries[0], later)})
    (says,) = looser_than(own, germany)
    assert says == (
        "Largest injury (light truck, load index 118 and up; truck, load index 118 and up): at most 10 mm of the hole "
        "here, at most 6 mm of the hole under Germany."
    )
    assert looser_than(germany, own) == ()


def test_from_a_load_index_up_its_own_limit_takes_the_place_of_the_others():
    limits = rule_set_named("germany").largest_injuries
    at = {index: [each.value for each in from_load_index(limits, "truck", index)] for index in (0, 121, 122, 200)}
    assert at == {0: [6.0], 121: [6.0], 122: [10.0], 200: [10.0]}
    assert [each.value for each in from_load_index(limits, "passenger", 122)] == [6.0]


def test_largest_injuries_of_a_class_hold_for_the_same_size():
    data = rule_set_named("australia").model_dump()
    next(each for each in data["largest_injuries"] if each["section_width_over"])["holds_for"] = "prepared"
    with pytest.raises(ValueError, match="light_truck must all hold for the same size: holds_for prepared, or hole"):
        RuleSet.model_validate(data)


@pytest.mark.parametrize(
    ("first", "second", "tighter"),
    [((6.0, "<="), (5.0, "<="), 1), ((6.0, "<="), (6.0, "<"), 1), ((6.0, "<"), (6.0, "<"), 0)],
)
def test_of_two_limits_the_tighter_is_the_smaller_or_the_one_that_does_not_hold_on_it(first, second, tighter):
    one = rule_set_named("germany").largest_injuries[0]
    both = [one.model_copy(update={"value": value, "operator": operator}) for value, operator in (first, second)]
    assert tightest(both) is both[tighter]
    assert loosest(both) is both[0]


def test_of_two_gaps_the_tighter_is_the_greater_and_limits_without_a_value_are_alike():
    gap = rule_set_named("germany").heads_apart[0]
    both = [gap.model_copy(update={"value": value}) for value in (5.0, 8.0)]
    assert (tightest(both), loosest(both)) == (both[1], both[0])
    lean = rule_set_named("north_america").leans_for_one_piece[0]
    leans = [lean.model_copy(update={"value": value}) for value in (25.0, 15.0)]
    assert (tightest(leans), loosest(leans)) == (leans[0], leans[0])


def test_tread_depths_of_a_class_are_asked_at_the_same_place():
    data = rule_set_named("germany").model_dump()
    narrow = {**data["tread_depths"][0], "place": "whole_tread", "section_width_up_to": 185.0}
    wide = {**narrow, "section_width_over": 185.0, "section_width_up_to": ANY_WIDTH}
    RuleSet.model_validate({**data, "tread_depths": [narrow, wide]})
    with pytest.raises(ValueError, match="must all be asked at the same place: whole_tread, or central"):
        RuleSet.model_validate({**data, "tread_depths": [narrow, {**wide, "place": "central_three_quarters"}]})


def test_a_source_that_begins_with_its_grade_says_it_once():
    lines = {line.source: line.on_whose_word for line in limit_lines(rule_set_named("united_kingdom"))}
    heads = "common practice: heads must not overlap; this set gives no figure"
    assert lines[heads] == heads
    assert any(said == f"second-hand: {source}" for source, said in lines.items())
